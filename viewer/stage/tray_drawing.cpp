// The parts that wait: each at its true size against the others, counted in words.
#include "viewer/stage/page_parts.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline::page {

namespace {

constexpr int facets = 48;
constexpr double seen_from_above = 0.34; ///< a circle's height by its width
constexpr double least_cell_px = 92;
constexpr double most_cell_px = 136;

/// Half an ellipse or a whole one, from an angle (0 right, growing downwards).
std::vector<PointPx> arc(PointPx centre, double radius_px, double from_rad, double to_rad) {
  std::vector<PointPx> points;
  for (int i = 0; i <= facets; ++i) {
    const double angle = from_rad + (to_rad - from_rad) * i / facets;
    points.push_back({centre.x_px + radius_px * std::cos(angle),
                      centre.y_px + radius_px * seen_from_above * std::sin(angle)});
  }
  return points;
}

std::vector<PointPx> ring_of(PointPx centre, double radius_px) {
  std::vector<PointPx> points = arc(centre, radius_px, 0, 2 * std::numbers::pi);
  points.pop_back();
  return points;
}

Colour darker(Colour colour, double by) {
  const auto less = [by](std::uint8_t channel) {
    return static_cast<std::uint8_t>(static_cast<double>(channel) * (1 - by));
  };
  return {less(colour.red), less(colour.green), less(colour.blue), colour.opacity};
}

/// Standing on y_px, centred on x_px.
void draw_part(Drawing2d& drawing, const TrayPart& part, double x_px, double y_px,
               double px_per_m) {
  constexpr double pi = std::numbers::pi;
  const double outer = std::max(part.outer_m * px_per_m, 1.5);
  const double inner = std::min(part.inner_m * px_per_m, outer - 0.75);
  const double high = std::max(part.height_m * px_per_m, 0.75);
  const PointPx bottom{x_px, y_px - outer * seen_from_above};
  const PointPx top{x_px, bottom.y_px - high};
  const Colour ground = ground_of(part.material, part.next);
  const Stroke edge{ink::line, part.next ? 1.75 : 1.0, 0, 0};
  std::vector<PointPx> side = arc(bottom, outer, 0, pi);
  const std::vector<PointPx> rim = arc(top, outer, pi, 2 * pi);
  side.insert(side.end(), rim.begin(), rim.end());
  drawing.add(PolygonShape{std::move(side), darker(ground, 0.16), edge});
  drawing.add(PolygonShape{ring_of(top, outer), ground, edge});
  if (inner > 1) {
    drawing.add(PolygonShape{ring_of(top, inner), darker(ground, 0.34), edge});
    // Through the hole, the ground that it stands on: within the upper rim and
    // within the lower one.
    std::vector<PointPx> floor;
    for (int edge_of = 0; edge_of < 2; ++edge_of) {
      for (int i = 0; i <= facets; ++i) {
        const double across = std::cos(pi * (edge_of == 0 ? facets - i : i) / facets);
        const double reach =
            inner * seen_from_above * std::sqrt(std::max(1 - across * across, 0.0));
        if (2 * reach > high) {
          floor.push_back(
              {x_px + across * inner, top.y_px + (edge_of == 0 ? high - reach : reach)});
        }
      }
    }
    if (floor.size() > 6) {
      drawing.add(PolygonShape{std::move(floor), ink::paper, std::nullopt});
      drawing.add(PolylineShape{ring_of(top, inner), true, edge});
    }
  }
}

double height_of(const TrayPart& part, double px_per_m) {
  return 2 * part.outer_m * px_per_m * seen_from_above + part.height_m * px_per_m;
}

struct Cells {
  std::size_t columns = 1;
  double width_px = 0;
  double px_per_m = 1;
};

Cells cells_for(const std::vector<TrayPart>& tray, std::size_t columns, double width_px,
                double largest_m) {
  const std::size_t used = std::min(columns, std::max<std::size_t>(tray.size(), 1));
  const double cell = std::min(width_px / static_cast<double>(used), most_cell_px);
  return {used, cell, 0.41 * cell / largest_m};
}

double height_of_all(const std::vector<TrayPart>& tray, const Cells& cells, double caption_px) {
  double all = 0;
  for (std::size_t i = 0; i < tray.size(); i += cells.columns) {
    double high = 0;
    for (std::size_t j = i; j < std::min(i + cells.columns, tray.size()); ++j) {
      high = std::max(high, height_of(tray[j], cells.px_per_m));
    }
    all += high + caption_px + 12;
  }
  return all;
}

} // namespace

Colour ground_of(const std::string& material, bool strong) {
  switch (hatch_style_of(material)) {
  case HatchStyle::lining:
    return strong ? colour_of(0xb5793f) : colour_of(0xcda57c);
  case HatchStyle::aluminium:
    return strong ? colour_of(0xd9dad6) : colour_of(0xe6e5df);
  case HatchStyle::iron:
    return strong ? colour_of(0x8f9294) : colour_of(0xb3b4b3);
  case HatchStyle::bronze:
    return strong ? colour_of(0xc4953d) : colour_of(0xd6bb83);
  case HatchStyle::rubber:
    return strong ? colour_of(0x5b5856) : colour_of(0x84807b);
  case HatchStyle::spring_steel:
    return strong ? colour_of(0xa3b1bb) : colour_of(0xc1c8cc);
  case HatchStyle::plastic:
    return strong ? colour_of(0xd8cfa8) : colour_of(0xe2dcc4);
  case HatchStyle::steel:
  case HatchStyle::none:
    break;
  }
  return strong ? colour_of(0xb9c6d0) : colour_of(0xd3d9dc);
}

void draw_tray(Drawing2d& drawing, const std::vector<TrayPart>& tray, const Box& box,
               const TextRuler& ruler) {
  const Lettering head{13.5, FontWeight::semibold, ink::text};
  const double head_px = words_height(ruler, "Waiting", head, box.width_px) + 6;
  double top = box.y_px + head_px;
  const Lettering plain{13, FontWeight::regular, ink::text, 1.25};
  const Lettering next{13, FontWeight::semibold, ink::text, 1.25};
  const double caption = 2.6 * plain.size_px;
  double largest = 0;
  for (const TrayPart& part : tray) {
    largest = std::max(largest, part.outer_m);
  }
  if (largest <= 0) {
    return;
  }
  // As large as lets every part be shown; one scale for all.
  Cells cells;
  const auto most =
      static_cast<std::size_t>(std::max(std::floor(box.width_px / least_cell_px), 1.0));
  for (std::size_t columns = std::min<std::size_t>(2, most); columns <= most; ++columns) {
    cells = cells_for(tray, columns, box.width_px, largest);
    if (top + height_of_all(tray, cells, caption) <= box.bottom_px()) {
      break;
    }
  }
  const double room = box.bottom_px() - top - caption - 6;
  for (const TrayPart& part : tray) {
    const double high = height_of(part, cells.px_per_m);
    cells.px_per_m *= high > room ? std::max(room, 4.0) / high : 1;
  }
  const std::size_t columns = cells.columns;
  const double cell = cells.width_px;
  const double px_per_m = cells.px_per_m;
  // Down to the foot of its box.
  top = std::max(box.bottom_px() - height_of_all(tray, cells, caption), top);
  put_words(drawing, ruler, "Waiting", head, box.x_px, top - head_px, box.width_px);
  const double head_top = top - head_px;
  std::size_t shown = 0;
  while (shown < tray.size()) {
    const std::size_t count = std::min(columns, tray.size() - shown);
    double high = 0;
    for (std::size_t i = shown; i < shown + count; ++i) {
      high = std::max(high, height_of(tray[i], px_per_m));
    }
    if (top + high + caption + 4 > box.bottom_px() + 0.5) {
      break;
    }
    const double ground = top + high;
    drawing.add(line(box.x_px, ground + 2, box.x_px + cell * static_cast<double>(count), ground + 2,
                     {ink::quiet_line, 1, 0, 0}));
    for (std::size_t i = shown; i < shown + count; ++i) {
      const double x = box.x_px + cell * (static_cast<double>(i - shown) + 0.5);
      draw_part(drawing, tray[i], x, ground, px_per_m);
      Lettering type = tray[i].next ? next : plain;
      while (type.size_px > 6 && (!words_fit(ruler, tray[i].words, type, cell - 6) ||
                                  words_height(ruler, tray[i].words, type, cell - 6) > caption)) {
        type.size_px -= 0.5;
      }
      put_words(drawing, ruler, tray[i].words, type, x, ground + 6, cell - 6, TextAlign::centre);
    }
    shown += count;
    top = ground + 6 + caption + 6;
  }
  if (shown < tray.size()) {
    const std::size_t more = tray.size() - shown;
    Lettering type = head;
    type.weight = FontWeight::regular;
    put_words(drawing, ruler, "and " + std::to_string(more) + " more", type, box.right_px(),
              head_top, 0, TextAlign::right);
  }
}

} // namespace lugline::page
