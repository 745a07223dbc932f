// How good a mesh is beyond being closed: nothing twice, no slivers, normals that
// are smooth where the surface is and sharp where it is not. Lengths metres,
// angles radians. Shares no code with what makes meshes.
#pragma once

#include "scene/mesh/mesh.h"

#include <functional>

namespace lugline::test {

struct Quality {
  std::size_t doubled = 0; ///< vertices with another's position and normal
  std::size_t unused = 0;  ///< vertices that no triangle has
  /// Of all triangles the least height over the longest side: a sliver is one
  /// that is lower than the chord tolerance.
  double lowest_m = 0;
  /// The same against the triangle's shortest side, from 0 (a cap: its corners on
  /// one line) to 1. A needle, which is only thin, has about 1 or a half.
  double flattest = 0;
  /// Edges that turn outwards or inwards by more than 35 degrees and yet have one
  /// normal for both sides: they would look round.
  std::size_t rounded_edges = 0;
  /// Edges between triangles of one plane that have two normals: they would show.
  std::size_t parted_planes = 0;
};

Quality quality_of(const Mesh& mesh);

/// Of triangles that stand on a circle about the axis (all corners at one radius,
/// upright): the most that a normal leans away from the radius, and the most that
/// the middle of a facet's chord lies within the circle.
struct RoundWalls {
  std::size_t triangles = 0;
  double leaning_rad = 0;
  double sagitta_m = 0;
};

RoundWalls round_walls_of(const Mesh& mesh);

} // namespace lugline::test
