#include "viewer/stage/train_symbols.h"

#include "viewer/stage/page_parts.h"

#include <algorithm>
#include <cmath>

namespace lugline {

namespace {

bool works(const TrainElement& element) {
  return element.look == ElementLook::on || element.look == ElementLook::holds;
}

/// Plates that lie apart, or pressed together.
void put_clutch(Drawing2d& drawing, const TrainElement& element, PointPx at, double type,
                const Stroke& stroke) {
  const double apart = (element.look == ElementLook::off ? 4.5 : 2.0) * type;
  const double high = 11 * type;
  const double half = symbol_half_px(type);
  Stroke plate = stroke;
  plate.width_px = (works(element) ? 3.2 : 1.8) * type;
  for (const double side : {-1.0, 1.0}) {
    const double x = at.x_px + side * apart;
    drawing.add(line(x, at.y_px - high, x, at.y_px + high, plate));
    drawing.add(line(x, at.y_px, at.x_px + side * half, at.y_px, stroke));
  }
}

/// A drum seen from its end, and the band about it: clear of it, or drawn tight.
void put_band(Drawing2d& drawing, const TrainElement& element, PointPx at, double type,
              const Stroke& stroke) {
  constexpr int pieces = 24;
  constexpr double gap_rad = 0.7;
  const double drum = 6.5 * type;
  const double reach = (element.look == ElementLook::off ? 10.5 : 8.2) * type;
  const double half = symbol_half_px(type);
  drawing.add(CircleShape{at, drum, ink::paper, Stroke{stroke.colour, 1.2 * type, 0, 0}});
  std::vector<PointPx> points;
  for (int i = 0; i <= pieces; ++i) {
    const double turn = gap_rad / 2 + (6.283185307179586 - gap_rad) * i / pieces - 1.5707963;
    points.push_back({at.x_px + reach * std::cos(turn), at.y_px + reach * std::sin(turn)});
  }
  Stroke band = stroke;
  band.width_px = (works(element) ? 3.4 : 1.8) * type;
  drawing.add(PolylineShape{points, false, band});
  for (const double side : {-1.0, 1.0}) {
    drawing.add(line(at.x_px + side * std::min(reach, half), at.y_px, at.x_px + side * half,
                     at.y_px, stroke));
  }
}

/// A roller on its ramp: filled where it holds.
void put_one_way(Drawing2d& drawing, const TrainElement& element, PointPx at, double type,
                 const Stroke& stroke) {
  const double half = symbol_half_px(type);
  const double high = 9 * type;
  const double radius = 5 * type;
  // The ramp closes towards the left, where the roller wedges.
  drawing.add(line(at.x_px - half, at.y_px - 0.35 * high, at.x_px + half, at.y_px - high, stroke));
  drawing.add(
      line(at.x_px - half, at.y_px + 0.55 * high, at.x_px + half, at.y_px + 0.55 * high, stroke));
  const bool wedged = works(element);
  const double x = at.x_px + (wedged ? -1.5 : 3.5) * type;
  drawing.add(CircleShape{{x, at.y_px + 0.55 * high - radius},
                          wedged ? radius : 0.9 * radius,
                          wedged ? stroke.colour : ink::paper,
                          Stroke{stroke.colour, 1.4 * type, 0, 0}});
}

} // namespace

Stroke stroke_of(const TrainElement& element, double type) {
  switch (element.look) {
  case ElementLook::slips:
    return {page::wrong, 2.4 * type, 0, 0};
  case ElementLook::on:
  case ElementLook::holds:
    return {element.path ? ink::path : ink::line, 2.4 * type, 0, 0};
  case ElementLook::off:
  case ElementLook::overruns:
    break;
  }
  return {ink::quiet_line, 1.3 * type, 0, 0};
}

void put_symbol(Drawing2d& drawing, const TrainElement& element, PointPx at, double type) {
  const Stroke stroke = stroke_of(element, type);
  switch (element.kind) {
  case ElementKind::clutch:
    put_clutch(drawing, element, at, type, stroke);
    return;
  case ElementKind::band:
    put_band(drawing, element, at, type, stroke);
    return;
  case ElementKind::one_way_clutch:
    put_one_way(drawing, element, at, type, stroke);
    return;
  }
}

void put_arrow(Drawing2d& drawing, double from_px, double to_px, double y_px, double width_px,
               Colour colour) {
  const double way = to_px >= from_px ? 1 : -1;
  const double head = std::min(3.4 * width_px, std::abs(to_px - from_px));
  drawing.add(line(from_px, y_px, to_px - way * 0.8 * head, y_px, {colour, width_px, 0, 0}));
  drawing.add(PolygonShape{{{to_px, y_px},
                            {to_px - way * head, y_px - 0.5 * head},
                            {to_px - way * head, y_px + 0.5 * head}},
                           colour,
                           std::nullopt});
}

} // namespace lugline
