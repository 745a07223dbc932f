// Triangles, as every room above and below sees them.
//
// Lengths are metres, double, in the part's own frame: z along the axis.
// A Mesh owns its vectors and is a plain value. Vertices on a sharp edge are
// doubled, one for each normal; weld() gives the topology without the doubles.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

namespace lugline {

struct Vec3 {
  double x = 0;
  double y = 0;
  double z = 0;
  friend bool operator==(const Vec3&, const Vec3&) = default;
};

/// Consecutive triangles that are of one material.
struct MaterialRange {
  std::string material; ///< "steel", "friction lining", "aluminium", …
  std::uint32_t first_triangle = 0;
  std::uint32_t triangle_count = 0;
};

struct Mesh {
  std::vector<Vec3> positions_m;
  std::vector<Vec3> normals; ///< unit length, one for each position
  std::vector<std::array<std::uint32_t, 3>> triangles; ///< counter-clockwise from outside
  std::vector<MaterialRange> ranges; ///< cover all triangles, in order
};

struct Bounds {
  Vec3 low_m;
  Vec3 high_m;
  bool empty = true;
};

Bounds bounds_of(const Mesh& mesh);

} // namespace lugline
