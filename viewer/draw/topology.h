// Which triangles share which edges, once doubled vertices are taken as one.
//
// For drawn edges (creases, silhouettes) and for knowing whether a mesh is
// closed. Vertices at the same place are one; made once for each mesh and kept
// by whoever asked. Metres, part frame. Plain values.
#pragma once

#include "scene/mesh/mesh.h"

#include <glm/glm.hpp>

#include <array>
#include <cstdint>
#include <vector>

namespace lugline {

struct SharedEdge {
  std::uint32_t from = 0; ///< welded points
  std::uint32_t to = 0;
  std::int32_t one = -1;   ///< triangle with from before to, -1 none
  std::int32_t other = -1; ///< triangle with to before from
  bool crease = false;     ///< turns past the crease angle, is open, or parts two materials
};

struct Topology {
  std::vector<glm::dvec3> points_m;
  std::vector<glm::dvec3> face_normals; ///< of each triangle; zero where it has no area
  std::vector<SharedEdge> edges;
  bool closed = false; ///< every edge is used as often one way as the other
};

Topology topology_of(const Mesh& mesh, double crease_rad = 0.61);

/// A run of joined edges, as point indices.
using EdgeChain = std::vector<std::uint32_t>;

/// Joins edges end to end into runs as long as can be; each edge is used once.
std::vector<EdgeChain> chains_of(const std::vector<std::array<std::uint32_t, 2>>& edges,
                                 std::size_t point_count);

} // namespace lugline
