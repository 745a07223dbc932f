// Where a piece stands in the one frame in which all benches stand side by side.
//
// Metres, z up along the axes, 12 o'clock along +y; the case's own frame where nothing else is.
// Plain values.
#pragma once

#include "scene/build/timeline.h"
#include "scene/mesh/gltf_animated.h"

#include <map>
#include <string>

namespace lugline {

struct PieceFrame {
  bool shown = false;
  std::string place; ///< Place::id that it is in, or came from
  Vec3 at_m;         ///< of its origin (its datum face, as drawn)
  Quaternion turn;
  double squash = 1; ///< its height by its free height
  double low_m = 0;  ///< of what it takes up, upright
  double high_m = 0;
  double outer_m = 0; ///< its radius
};
using PieceFrames = std::map<std::string, PieceFrame>; ///< by component id

/// Turned over about its own middle, turned, raised and moved aside, and then perhaps turned over
/// bodily with the work that it is in.
PieceFrame frame_of(Workshop& workshop, const PosedPiece& piece, const std::string& place,
                    const Vec3& origin_m);
PieceFrame frame_of(Workshop& workshop, const Fitted& piece, const std::string& place,
                    const Vec3& origin_m);

/// Looks the same: by a nanometre and as small a turn.
bool alike(const PieceFrame& a, const PieceFrame& b);

} // namespace lugline
