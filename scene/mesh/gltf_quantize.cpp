#include "scene/mesh/gltf_quantize.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace lugline::gltf {

namespace {

/// The least figure of all is left out, so that what is symmetrical stays so.
constexpr double most = 32767;

constexpr double steps_m[] = {1e-7, 2e-7, 2.5e-7, 5e-7, 1e-6, 2e-6, 2.5e-6, 5e-6, largest_step_m};

/// Where figures are counted from in one direction: the origin, if they reach from there.
double start_of(double low_m, double high_m, double step_m) {
  if (-low_m <= most * step_m && high_m <= most * step_m) {
    return 0;
  }
  return std::round((low_m + high_m) / 2 / step_m) * step_m;
}

bool reaches(double low_m, double high_m, double from_m, double step_m) {
  return from_m - low_m <= most * step_m && high_m - from_m <= most * step_m;
}

std::int16_t figure_of(double offset_m, double step_m) {
  const double figure = std::round(offset_m / step_m);
  assert(std::abs(figure) <= most);
  return static_cast<std::int16_t>(figure);
}

} // namespace

std::array<std::int16_t, 3> Quantization::figures_of(const Vec3& position_m) const {
  return {figure_of(position_m.x - from_m.x, step_m), figure_of(position_m.y - from_m.y, step_m),
          figure_of(position_m.z - from_m.z, step_m)};
}

std::optional<Quantization> quantization_of(const Mesh& mesh) {
  const Bounds bounds = bounds_of(mesh);
  const Vec3& low = bounds.low_m;
  const Vec3& high = bounds.high_m;
  for (const double step_m : steps_m) {
    const Vec3 from{start_of(low.x, high.x, step_m), start_of(low.y, high.y, step_m),
                    start_of(low.z, high.z, step_m)};
    if (reaches(low.x, high.x, from.x, step_m) && reaches(low.y, high.y, from.y, step_m) &&
        reaches(low.z, high.z, from.z, step_m)) {
      return Quantization{step_m, from};
    }
  }
  return std::nullopt;
}

std::array<std::int8_t, 3> small_normal(const Vec3& normal) {
  const auto figure = [](double part) {
    return static_cast<std::int8_t>(std::round(std::clamp(part, -1.0, 1.0) * 127));
  };
  return {figure(normal.x), figure(normal.y), figure(normal.z)};
}

} // namespace lugline::gltf
