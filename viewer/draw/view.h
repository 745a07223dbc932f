// Where things stand and how the eye sees them, in double.
//
// Lengths are metres in the place's frame, angles radians, screen places
// pixels from the top left corner (the centre of the first pixel is 0.5, 0.5).
// Everything is worked out in double relative to the eye; only the finished
// products are rounded to float, at the GPU. Plain values, no OpenGL.
#pragma once

#include "scene/mesh/mesh.h"
#include "viewer/stage/picture.h"

#include <glm/glm.hpp>

#include <optional>
#include <vector>

namespace lugline {

/// From the part's own frame into the place's. In order: turned over about its
/// own 12 o'clock axis at over_about_m, turned about the unit's axis, raised,
/// moved aside. So a feature at part angle a of a part lying the wrong way up
/// stands at turn - a.
glm::dmat4 place_from_part(const Pose& pose);

/// A part's point after its measured figure has stretched it.
glm::dvec3 stretched_point(const Vec3& point_m, const std::optional<Stretch>& stretch);

/// The point at a radius, angle and height: angle 0 along +y, counter-clockwise from +z.
glm::dvec3 polar(double radius_m, double angle_rad, double height_m);

/// Outward along an angle: polar(1, angle, 0).
glm::dvec3 outward(double angle_rad);

/// The eye, for a picture of width by height pixels.
struct View {
  int width_px = 1;
  int height_px = 1;
  glm::dvec3 eye_m{0};
  glm::dvec3 right{1, 0, 0};
  glm::dvec3 up{0, 0, 1};
  glm::dvec3 forward{0, 1, 0};
  double near_m = 0.01;
  double far_m = 10;
  double focal_px = 1000; ///< pixels that one metre spans at a distance of one metre
  glm::dmat4 view_from_place{1};
  glm::dmat4 clip_from_place{1};

  /// Distance from the eye along its line of sight.
  [[nodiscard]] double depth_m(const glm::dvec3& point_m) const;
  /// Pixels; nothing where the point is behind the near plane.
  [[nodiscard]] std::optional<glm::dvec2> on_screen(const glm::dvec3& point_m) const;
  /// Pixels that one metre spans at the point, square to the line of sight.
  [[nodiscard]] double px_per_m(const glm::dvec3& point_m) const;
};

/// reach: corners of what is to be seen, for the near and far planes.
View view_of(const Camera& camera, int width_px, int height_px,
             const std::vector<glm::dvec3>& reach_m);

/// The eight corners of an item's bounds, in the place's frame.
std::vector<glm::dvec3> corners_of(const Bounds& bounds, const Pose& pose,
                                   const std::optional<Stretch>& stretch);

} // namespace lugline
