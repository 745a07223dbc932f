// A clutch, a band, a one-way clutch, as a diagram draws them. Inside viewer/stage only.
#pragma once

#include "viewer/stage/train_drawing.h"

namespace lugline {

/// How an element and what leads to it are drawn.
Stroke stroke_of(const TrainElement& element, double type);

/// On a level line at that height; outward_px: half of how wide it is. Its ends meet the line.
void put_symbol(Drawing2d& drawing, const TrainElement& element, PointPx at, double type);
inline double symbol_half_px(double type) {
  return 11 * type;
}

/// A level arrow; its tip is at to_px.
void put_arrow(Drawing2d& drawing, double from_px, double to_px, double y_px, double width_px,
               Colour colour);

} // namespace lugline
