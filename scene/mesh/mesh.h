// Triangles, as every room above and below sees them.
//
// Lengths are metres, double, in the part's own frame: z along the axis.
// A Mesh owns its vectors and is a plain value. Vertices on a sharp edge are
// doubled, one for each normal; weld() gives the topology without the doubles.
// Functions here take values and return values; a mesh whose indices or counts
// do not fit together is a slip of the caller's (slip_in) and is asserted.
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
  std::vector<Vec3> normals;                           ///< unit length, one for each position
  std::vector<std::array<std::uint32_t, 3>> triangles; ///< counter-clockwise from outside
  std::vector<MaterialRange> ranges;                   ///< cover all triangles, in order
};

/// What does not fit together in a mesh that we made ourselves: a corner beyond
/// the positions, normals that are not one for each position, ranges that do not
/// cover all triangles, a figure that is not finite. Empty where all is well.
std::string slip_in(const Mesh& mesh);

struct Bounds {
  Vec3 low_m;
  Vec3 high_m;
  bool empty = true;
};

Bounds bounds_of(const Mesh& mesh);
/// The least bounds around both.
Bounds joined(const Bounds& a, const Bounds& b);

/// What a mesh encloses, by the divergence theorem: right for any closed surface
/// that is outward throughout, and as good as its facets are.
struct BodyFigures {
  double volume_m3 = 0; ///< negative where the surface is inside out
  double surface_m2 = 0;
  Vec3 centroid_m; ///< the middle of the bounds where there is no volume
  Vec3 squares_m5; ///< the integrals of x², y² and z² over the volume, about the frame's origin
  /// Second moment about the z axis; times the density in kg/m³ it is the inertia in kg m².
  [[nodiscard]] double about_axis_m5() const { return squares_m5.x + squares_m5.y; }
};

/// Worked out about the middle of the bounds, so that a part far from the origin
/// has the same volume as one at it.
BodyFigures body_figures(const Mesh& mesh);

/// The same triangles, each with three corners and a normal of its own. A triangle
/// without area takes +z.
Mesh flat_shaded(const Mesh& mesh);

/// b's triangles after a's; ranges of one material that meet become one.
void append(Mesh& a, const Mesh& b);

/// Turned and moved, never stretched and never mirrored.
struct Placement {
  Vec3 x_axis{1, 0, 0}; ///< where the part's own x axis points
  Vec3 y_axis{0, 1, 0};
  Vec3 z_axis{0, 0, 1};
  Vec3 origin_m; ///< where the part's own origin comes to be

  /// About the axis, counter-clockwise seen from +z.
  static Placement turned(double angle_rad);
  /// About the 12 o'clock axis (+y), which stands at height about_m.
  static Placement turned_over(double over_rad, double about_m = 0);
  static Placement moved(const Vec3& by_m);

  /// This placement first, and then the next.
  [[nodiscard]] Placement then(const Placement& next) const;
  [[nodiscard]] Vec3 point(const Vec3& point_m) const;
  [[nodiscard]] Vec3 direction(const Vec3& direction) const;
};

Mesh placed(const Mesh& mesh, const Placement& placement);

} // namespace lugline
