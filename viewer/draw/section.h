// The cut face of a mesh: exact, filled, and independent of any GPU.
//
// A half plane through the unit's axis cuts the posed triangles into segments;
// the region that they bound is filled by even and odd, in slabs between
// heights, as trapezoids. It is exact for the mesh and does not mind a mesh
// that touches itself. Where the count of crossings is odd the mesh is open
// there: closed is false and the rest is filled as well as it can be. Lengths
// are metres, double: r outward along the half plane, z the place's height.
// Plain values; nothing here fails.
#pragma once

#include "scene/mesh/mesh.h"
#include "viewer/stage/picture.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// A piece of a cut face between two heights; its sides are straight.
struct CapPiece {
  double low_m = 0;
  double high_m = 0;
  double left_low_m = 0; ///< radius of the left side at low
  double right_low_m = 0;
  double left_high_m = 0;
  double right_high_m = 0;
  std::size_t material = 0; ///< index into Section::materials

  [[nodiscard]] double area_m2() const;
};

struct Section {
  std::vector<std::string> materials; ///< of the mesh's ranges; empty word: the item's own
  std::vector<double> outline_m;      ///< of each material, how long its cut surface is
  std::vector<CapPiece> pieces;
  bool closed = true;

  [[nodiscard]] double area_m2() const;
  /// How thick a material is cut, on the whole: twice its area over its outline.
  [[nodiscard]] double thickness_m(std::size_t material) const;
  /// The lesser of how high and how wide its pieces are on the whole: of a
  /// layer that another material carries, whose border may have been joined away.
  [[nodiscard]] double layer_m(std::size_t material) const;
};

/// On which side of the half plane the part is left standing, seen from the +z end.
enum class KeptSide { clockwise, counter_clockwise };

/// The cut of a posed mesh by the half plane at angle_rad (r > 0 only). The
/// plane is taken a hair's breadth (70 nm) inside what is kept: a face that lies
/// in it, and a seam whose two sides differ by rounding, then fall to one side.
Section section_of(const Mesh& mesh, const Pose& pose, const std::optional<Stretch>& stretch,
                   double angle_rad, KeptSide kept);

} // namespace lugline
