#include "scene/sheet/piece_frame.h"

#include "scene/mesh/vector.h"

#include <cmath>
#include <numbers>

namespace lugline {

PieceFrame frame_of(Workshop& workshop, const PosedPiece& piece, const std::string& place,
                    const Vec3& origin_m) {
  Fitted fitted;
  fitted.id = piece.id;
  fitted.over = piece.over;
  fitted.squashed_to_m = piece.squashed_to_m;
  fitted.band_state = piece.band_state;
  const Shape& shape = shape_of(workshop, fitted);
  PieceFrame frame;
  frame.shown = true;
  frame.place = place;
  if (piece.over) {
    const double about_m = (shape.low_m() + shape.high_m()) / 2;
    frame.turn = turned_over_by(std::numbers::pi);
    frame.at_m = Vec3{0, 0, about_m} - turned(frame.turn, {0, 0, about_m});
  }
  const Quaternion turn = turned_about_axis(piece.turn_rad);
  frame.turn = then(frame.turn, turn);
  frame.at_m = turned(turn, frame.at_m) + Vec3{piece.aside_m, 0, piece.height_m};
  if (piece.over_more_rad != 0) {
    const Quaternion more = turned_over_by(piece.over_more_rad);
    const Vec3 about{0, 0, piece.over_about_m};
    frame.turn = then(frame.turn, more);
    frame.at_m = turned(more, frame.at_m - about) + about;
  }
  frame.at_m = frame.at_m + origin_m;
  const Solid& free = workshop.part(piece.id).solid;
  if (piece.squashed_to_m > 0 && free.high_m() > free.low_m()) {
    frame.squash = piece.squashed_to_m / (free.high_m() - free.low_m());
  }
  frame.low_m = piece.height_m + shape.low_m() + origin_m.z;
  frame.high_m = piece.height_m + shape.high_m() + origin_m.z;
  frame.outer_m = shape.solid().outer_m();
  return frame;
}

PieceFrame frame_of(Workshop& workshop, const Fitted& piece, const std::string& place,
                    const Vec3& origin_m) {
  PosedPiece posed;
  posed.id = piece.id;
  posed.height_m = piece.height_m;
  posed.turn_rad = piece.turn_rad;
  posed.over = piece.over;
  posed.squashed_to_m = piece.squashed_to_m;
  posed.band_state = piece.band_state;
  return frame_of(workshop, posed, place, origin_m);
}

bool alike(const PieceFrame& a, const PieceFrame& b) {
  return a.shown == b.shown && length(a.at_m - b.at_m) < 1e-9 &&
         angle_between(a.turn, b.turn) < 1e-7 && std::abs(a.squash - b.squash) < 1e-9;
}

} // namespace lugline
