// What a mesh must be, found out without the code that made it. Lengths metres.
#pragma once

#include "scene/mesh/mesh.h"
#include "scene/part/solid.h"

#include <random>

namespace lugline::test {

struct Topology {
  std::size_t triangles = 0;
  std::size_t corners = 0;      ///< different positions
  std::size_t open_edges = 0;   ///< gone over more often one way than the other
  std::size_t shared_edges = 0; ///< gone over more than once each way: bodies that touch in a line
  std::size_t flat_triangles = 0; ///< with hardly any height over their longest side
  bool normals_fit = true;        ///< unit length, and never away from their triangle's own side
  bool ranges_cover = true;       ///< material ranges cover all triangles in order
};

Topology topology_of(const Mesh& mesh);

double mesh_volume_m3(const Mesh& mesh);

/// The volume between the mesh's facets and the circles that they stand for:
/// what mesh_volume_m3 lacks to the true solid, from the closed form of a
/// circle's segment, r^2 (a - sin a) / 2, at each facet of a round wall.
double lost_to_facets_m3(const Mesh& mesh);

/// Exact volume of sector rings: the integral of r times the angle over each ring.
double solid_volume_m3(const Solid& solid);

/// Whether a point lies in the solid grown by `by_m` on every side (shrunk, if negative).
bool in_solid(const Solid& solid, const Vec3& point, double by_m);

/// Whether a point lies inside a closed mesh, by the angle that it fills.
bool in_mesh(const Mesh& mesh, const Vec3& point);

/// A point of the mesh's surface.
Vec3 random_surface_point(const Mesh& mesh, std::mt19937_64& random);

} // namespace lugline::test
