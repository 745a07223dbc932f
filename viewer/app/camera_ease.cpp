#include "viewer/app/camera_ease.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double lasts_s = 0.35;

double between(double from, double to, double part) {
  return from + (to - from) * part;
}

/// The shorter way round.
double turned_between(double from_rad, double to_rad, double part) {
  return from_rad + std::remainder(to_rad - from_rad, 2 * std::numbers::pi) * part;
}

Camera between(const Camera& from, const Camera& to, double part) {
  Camera camera = to;
  camera.turn_rad = turned_between(from.turn_rad, to.turn_rad, part);
  camera.rise_rad = between(from.rise_rad, to.rise_rad, part);
  camera.distance_m = std::exp(between(std::log(std::max(from.distance_m, 1e-6)),
                                       std::log(std::max(to.distance_m, 1e-6)), part));
  camera.look_at_m = between(from.look_at_m, to.look_at_m, part);
  camera.pan_x_m = between(from.pan_x_m, to.pan_x_m, part);
  camera.pan_y_m = between(from.pan_y_m, to.pan_y_m, part);
  camera.fov_rad = between(from.fov_rad, to.fov_rad, part);
  return camera;
}

} // namespace

Picture CameraEase::shown(Picture wanted, std::size_t step, const std::string& place, bool motion,
                          double now_s) {
  const bool next = last_.has_value() && last_->step != step;
  if (next) {
    from_ = motion && last_->place == place ? last_ : std::nullopt;
    until_s_ = now_s + lasts_s;
  }
  if (!motion || now_s >= until_s_) {
    from_.reset();
  }
  if (from_) {
    const double done = std::clamp(1 - (until_s_ - now_s) / lasts_s, 0.0, 1.0);
    const double part = done * done * (3 - 2 * done);
    wanted.camera = between(from_->camera, wanted.camera, part);
    wanted.cut.from_rad = turned_between(from_->cut.from_rad, wanted.cut.from_rad, part);
    wanted.cut.to_rad = turned_between(from_->cut.to_rad, wanted.cut.to_rad, part);
  }
  last_ = Seen{wanted.camera, wanted.cut, step, place};
  return wanted;
}

} // namespace lugline
