// What a mesh is as a surface: its corners welded, whether it is closed, where
// it has sharp edges.
//
// Lengths are metres, angles radians. Free functions on values; the report says
// what was found and judges nothing beyond it: real models are seldom closed.
#pragma once

#include "scene/mesh/mesh.h"

namespace lugline {

/// The topology of a mesh: positions that coincide are one vertex.
struct WeldedMesh {
  std::vector<Vec3> positions_m;                       ///< in the order in which they are first met
  std::vector<std::array<std::uint32_t, 3>> triangles; ///< the mesh's, in its order
  std::vector<std::uint32_t> vertex_of; ///< for each position of the mesh, its vertex
};

/// A tenth of a micrometre: above what float32 loses on a part a metre wide, far
/// below anything that is made.
inline constexpr double weld_tolerance_m = 1e-7;

/// Each position joins the first vertex within the tolerance of it, so that a
/// chain of near positions never creeps. tolerance_m must be above 0.
WeldedMesh weld(const Mesh& mesh, double tolerance_m = weld_tolerance_m);

struct ClosedReport {
  int vertices = 0; ///< that a sound triangle uses
  int edges = 0;
  int triangles = 0;            ///< not counting those without three corners
  int degenerate_triangles = 0; ///< two corners are one
  int flat_triangles = 0;       ///< three corners on one line
  int boundary_edges = 0;       ///< of one triangle only
  int non_manifold_edges = 0;   ///< of more than two
  int unbalanced_edges = 0; ///< of two or more, not run equally often each way: faces turned wrong
  int pieces = 0;           ///< that hang together by shared vertices

  /// Encloses a volume: every edge is run equally often each way.
  [[nodiscard]] bool closed() const {
    return triangles > 0 && boundary_edges == 0 && unbalanced_edges == 0;
  }
  /// Every edge belongs to two triangles at most.
  [[nodiscard]] bool manifold() const { return non_manifold_edges == 0; }
  /// Vertices less edges plus triangles: 2 for a ball, 0 for a ring.
  [[nodiscard]] int euler() const { return vertices - edges + triangles; }
};

ClosedReport closed_report(const WeldedMesh& mesh);

struct CreaseEdge {
  std::uint32_t a = 0; ///< vertices of the welded mesh, a < b
  std::uint32_t b = 0;
  double angle_rad = 0; ///< between the normals of its two triangles; pi where there are not two
};

/// Edges whose triangles lean apart by more than the angle, and every edge that
/// has not just two triangles; in order of their vertices. Triangles without area
/// have no say.
std::vector<CreaseEdge> crease_edges(const WeldedMesh& mesh, double more_than_rad);

} // namespace lugline
