#include "viewer/draw/view.h"

#include <glm/gtc/matrix_transform.hpp>

#include <algorithm>
#include <cmath>

namespace lugline {

glm::dmat4 place_from_part(const Pose& pose) {
  glm::dmat4 m(1.0);
  m = glm::translate(m, glm::dvec3(pose.aside_m, 0, pose.height_m));
  m = glm::rotate(m, pose.turn_rad, glm::dvec3(0, 0, 1));
  if (pose.over_rad != 0) {
    m = glm::translate(m, glm::dvec3(0, 0, pose.over_about_m));
    m = glm::rotate(m, pose.over_rad, glm::dvec3(0, 1, 0));
    m = glm::translate(m, glm::dvec3(0, 0, -pose.over_about_m));
  }
  return m;
}

glm::dvec3 stretched_point(const Vec3& point_m, const std::optional<Stretch>& stretch) {
  double z = point_m.z;
  if (stretch) {
    const double zone = stretch->zone_high_m - stretch->zone_low_m;
    const double part = zone > 0 ? std::clamp((z - stretch->zone_low_m) / zone, 0.0, 1.0)
                                 : (z > stretch->zone_low_m ? 1.0 : 0.0);
    z += stretch->delta_m * part;
  }
  return {point_m.x, point_m.y, z};
}

glm::dvec3 outward(double angle_rad) {
  return {-std::sin(angle_rad), std::cos(angle_rad), 0};
}

glm::dvec3 polar(double radius_m, double angle_rad, double height_m) {
  return radius_m * outward(angle_rad) + glm::dvec3(0, 0, height_m);
}

double View::depth_m(const glm::dvec3& point_m) const {
  return glm::dot(point_m - eye_m, forward);
}

std::optional<glm::dvec2> View::on_screen(const glm::dvec3& point_m) const {
  const glm::dvec3 from_eye = point_m - eye_m;
  const double depth = glm::dot(from_eye, forward);
  if (depth < near_m)
    return std::nullopt;
  return glm::dvec2(width_px * 0.5 + focal_px * glm::dot(from_eye, right) / depth,
                    height_px * 0.5 - focal_px * glm::dot(from_eye, up) / depth);
}

double View::px_per_m(const glm::dvec3& point_m) const {
  return focal_px / std::max(depth_m(point_m), near_m);
}

View view_of(const Camera& camera, int width_px, int height_px,
             const std::vector<glm::dvec3>& reach_m) {
  View view;
  view.width_px = std::max(width_px, 1);
  view.height_px = std::max(height_px, 1);
  const glm::dvec3 out = outward(camera.turn_rad);
  const glm::dvec3 toward_eye =
      out * std::cos(camera.rise_rad) + glm::dvec3(0, 0, std::sin(camera.rise_rad));
  view.forward = -toward_eye;
  // From the turn and not from a world up, so that it holds straight above as well.
  view.right = glm::dvec3(-std::cos(camera.turn_rad), -std::sin(camera.turn_rad), 0);
  view.up = glm::cross(view.right, view.forward);
  if (camera.axis_level) {
    const glm::dvec3 along = view.up;
    view.up = -view.right;
    view.right = along;
  }
  const glm::dvec3 target =
      glm::dvec3(0, 0, camera.look_at_m) + view.right * camera.pan_x_m + view.up * camera.pan_y_m;
  view.eye_m = target + toward_eye * camera.distance_m;
  const double half = std::tan(camera.fov_rad * 0.5);
  view.focal_px = view.height_px * 0.5 / half;

  double nearest = camera.distance_m;
  double farthest = camera.distance_m;
  for (const glm::dvec3& point : reach_m) {
    nearest = std::min(nearest, view.depth_m(point));
    farthest = std::max(farthest, view.depth_m(point));
  }
  view.far_m = std::max(farthest * 1.02, 1e-3);
  view.near_m = std::max(nearest * 0.98, view.far_m * 0.004);

  glm::dmat4 turn(1.0);
  for (int i = 0; i < 3; ++i) {
    turn[i][0] = view.right[i];
    turn[i][1] = view.up[i];
    turn[i][2] = -view.forward[i];
  }
  view.view_from_place = turn * glm::translate(glm::dmat4(1.0), -view.eye_m);
  const double aspect = static_cast<double>(view.width_px) / view.height_px;
  glm::dmat4 lens(0.0);
  lens[0][0] = 1.0 / (half * aspect);
  lens[1][1] = 1.0 / half;
  lens[2][2] = -(view.far_m + view.near_m) / (view.far_m - view.near_m);
  lens[2][3] = -1.0;
  lens[3][2] = -2.0 * view.far_m * view.near_m / (view.far_m - view.near_m);
  view.clip_from_place = lens * view.view_from_place;
  return view;
}

std::vector<glm::dvec3> corners_of(const Bounds& bounds, const Pose& pose,
                                   const std::optional<Stretch>& stretch) {
  std::vector<glm::dvec3> corners;
  if (bounds.empty)
    return corners;
  const glm::dmat4 place = place_from_part(pose);
  for (int i = 0; i < 8; ++i) {
    const Vec3 corner{(i & 1) != 0 ? bounds.high_m.x : bounds.low_m.x,
                      (i & 2) != 0 ? bounds.high_m.y : bounds.low_m.y,
                      (i & 4) != 0 ? bounds.high_m.z : bounds.low_m.z};
    corners.push_back(glm::dvec3(place * glm::dvec4(stretched_point(corner, stretch), 1.0)));
  }
  return corners;
}

} // namespace lugline
