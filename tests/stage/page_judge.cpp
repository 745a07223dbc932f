#include "tests/stage/page_judge.h"

#include <algorithm>
#include <cstdio>

namespace lugline::test {

namespace {

struct Found {
  std::string words;
  Box box;
};

std::string place_of(const Box& box) {
  char text[96];
  std::snprintf(text, sizeof text, "%.1f,%.1f to %.1f,%.1f", box.x_px, box.y_px, box.right_px(),
                box.bottom_px());
  return text;
}

bool within(const Box& inner, const Box& outer) {
  constexpr double hair_px = 0.6;
  return inner.x_px >= outer.x_px - hair_px && inner.y_px >= outer.y_px - hair_px &&
         inner.right_px() <= outer.right_px() + hair_px &&
         inner.bottom_px() <= outer.bottom_px() + hair_px;
}

std::vector<Found> words_of(const Drawing2d& drawing, const TextRuler& ruler) {
  std::vector<Found> found;
  for (const FlatShape& shape : drawing.shapes) {
    if (const auto* text = std::get_if<TextShape>(&shape)) {
      found.push_back({text->words, text_box(*text, ruler)});
    }
  }
  return found;
}

} // namespace

double WideRuler::width_px(std::string_view line, double size_px, FontWeight weight,
                           bool even_digits) const {
  double ems = 0;
  for (const char c : line) {
    const auto byte = static_cast<unsigned char>(c);
    if ((byte & 0xc0) == 0x80) {
      continue; // within a letter
    }
    const bool narrow = std::string_view("iljtf.,;:'()! ").find(c) != std::string_view::npos;
    const bool wide = std::string_view("mwMWQO%@").find(c) != std::string_view::npos;
    const bool digit = c >= '0' && c <= '9';
    ems += digit && even_digits ? 0.66 : narrow ? 0.36 : wide ? 0.92 : 0.63;
  }
  return ems * size_px * (weight == FontWeight::bold ? 1.04 : 1.0);
}

double WideRuler::capital_px(double size_px, FontWeight) const {
  return 0.727 * size_px;
}

std::vector<std::string> faults_of(const PageInput& page, const PageMarks& marks,
                                   const TextRuler& ruler) {
  std::vector<std::string> faults;
  const PageLayout layout = lay_out(page);
  const Drawing2d drawing = draw_page(page, layout, marks, ruler);
  const std::vector<Found> words = words_of(drawing, ruler);
  const Box sheet{0, 0, layout.width_px, layout.height_px};
  const std::vector<Box> areas = {layout.words, layout.picture, layout.column, layout.rule,
                                  layout.label};
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (!within(words[i].box, sheet)) {
      faults.push_back("\"" + words[i].words + "\" leaves the page: " + place_of(words[i].box));
    }
    if (std::ranges::none_of(areas, [&](const Box& area) { return within(words[i].box, area); })) {
      faults.push_back("\"" + words[i].words + "\" leaves its area: " + place_of(words[i].box));
    }
    for (std::size_t j = i + 1; j < words.size(); ++j) {
      if (overlap(shrunk(words[i].box, 0.5), shrunk(words[j].box, 0.5))) {
        faults.push_back("\"" + words[i].words + "\" (" + place_of(words[i].box) +
                         ") runs into \"" + words[j].words + "\" (" + place_of(words[j].box) + ")");
      }
    }
    if (marks.hand && overlap(words[i].box, *marks.hand) &&
        std::ranges::any_of(marks.anchors, [&](const PageAnchor& anchor) {
          return !anchor.words.empty() && anchor.words == words[i].words;
        })) {
      faults.push_back("the label \"" + words[i].words + "\" covers the part in hand");
    }
  }
  for (std::size_t i = 0; i < areas.size(); ++i) {
    for (std::size_t j = i + 1; j < areas.size(); ++j) {
      if (!areas[i].empty() && !areas[j].empty() && overlap(areas[i], areas[j])) {
        faults.push_back("two areas overlap: " + place_of(areas[i]) + " and " + place_of(areas[j]));
      }
    }
  }
  return faults;
}

namespace {

Box around(const std::vector<PointPx>& points) {
  Box box{points.front().x_px, points.front().y_px, 0, 0};
  for (const PointPx& point : points) {
    const double right = std::max(box.right_px(), point.x_px);
    const double bottom = std::max(box.bottom_px(), point.y_px);
    box.x_px = std::min(box.x_px, point.x_px);
    box.y_px = std::min(box.y_px, point.y_px);
    box.width_px = right - box.x_px;
    box.height_px = bottom - box.y_px;
  }
  return box;
}

struct Around {
  Box operator()(const RectShape& one) const {
    return {one.x_px, one.y_px, one.width_px, one.height_px};
  }
  Box operator()(const HatchShape& one) const {
    return {one.x_px, one.y_px, one.width_px, one.height_px};
  }
  Box operator()(const LineShape& one) const { return around({one.from, one.to}); }
  Box operator()(const PolylineShape& one) const { return around(one.points); }
  Box operator()(const PolygonShape& one) const { return around(one.points); }
  Box operator()(const CircleShape& one) const {
    return {one.centre.x_px - one.radius_px, one.centre.y_px - one.radius_px, 2 * one.radius_px,
            2 * one.radius_px};
  }
  Box operator()(const TextShape&) const { return {}; }
};

} // namespace

std::vector<std::string> faults_of(const Drawing2d& drawing, const Box& box,
                                   const TextRuler& ruler) {
  std::vector<std::string> faults;
  const std::vector<Found> words = words_of(drawing, ruler);
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (!within(words[i].box, box)) {
      faults.push_back("\"" + words[i].words + "\" leaves its box: " + place_of(words[i].box));
    }
    for (std::size_t j = i + 1; j < words.size(); ++j) {
      // Lines of one column stand as near as their letters allow.
      if (overlap(shrunk(words[i].box, 0.08 * words[i].box.height_px),
                  shrunk(words[j].box, 0.08 * words[j].box.height_px))) {
        faults.push_back("\"" + words[i].words + "\" (" + place_of(words[i].box) +
                         ") runs into \"" + words[j].words + "\" (" + place_of(words[j].box) + ")");
      }
    }
  }
  for (const FlatShape& shape : drawing.shapes) {
    const Box at = std::visit(Around{}, shape);
    if (!std::holds_alternative<TextShape>(shape) && !within(shrunk(at, 2), box)) {
      faults.push_back("a shape leaves its box: " + place_of(at));
    }
  }
  return faults;
}

} // namespace lugline::test
