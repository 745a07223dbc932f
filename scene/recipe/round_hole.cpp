#include "scene/recipe/round_hole.h"

#include "scene/recipe/involute.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {
constexpr double pi = std::numbers::pi;

} // namespace

int round_corners(double radius_m, RoundFit fit, double tolerance_m) {
  const double share = fit == RoundFit::evenly ? 4 : 2;
  const double least = pi * std::sqrt(radius_m / (share * tolerance_m));
  return std::clamp(2 * static_cast<int>(std::ceil(least / 2 - 1e-9)), 8, 48);
}

std::vector<SectorRing> round_sectors(const RoundPlaces& places, double low_m, double high_m,
                                      const std::string& feature, const MeshOptions& options) {
  assert(places.radius_m < places.from_axis_m);
  const int corners = round_corners(places.radius_m, places.fit, options.chord_tolerance_m);
  const double chord_rad = 2 * pi / corners;
  double corner_m = places.radius_m;
  if (places.fit == RoundFit::evenly) {
    corner_m *= 2 / (1 + std::cos(chord_rad / 2));
  } else if (places.fit == RoundFit::around) {
    corner_m /= std::cos(chord_rad / 2);
  }
  std::vector<double> angles_rad;
  for (const double angle : places.angles_rad) {
    const double a = std::fmod(angle, 2 * pi);
    angles_rad.push_back(a < -1e-12 ? a + 2 * pi : a);
  }
  std::ranges::sort(angles_rad);
  std::vector<SectorRing> bands;
  for (int k = 0; 2 * (k + 1) < corners; ++k) {
    // From the end that is nearest to the axis outwards, on the clockwise side.
    const double near_rad = pi - chord_rad * (k + 0.5);
    const double far_rad = near_rad - chord_rad;
    const double x0_m = corner_m * std::sin(near_rad);
    const double y0_m = places.from_axis_m + corner_m * std::cos(near_rad);
    const double x1_m = corner_m * std::sin(far_rad);
    const double y1_m = places.from_axis_m + corner_m * std::cos(far_rad);
    const double r0_m = std::hypot(x0_m, y0_m);
    const double r1_m = std::hypot(x1_m, y1_m);
    const Flank from = flank_through(r0_m, std::atan2(-x0_m, y0_m), r1_m, std::atan2(-x1_m, y1_m));
    const Flank to{-from.angle_rad, -from.offset_m};
    SectorRing band;
    band.inner_m = r0_m;
    band.outer_m = r1_m;
    band.low_m = low_m;
    band.high_m = high_m;
    band.feature = feature;
    for (const double at : angles_rad) {
      band.sectors.push_back(
          {{at + from.angle_rad, from.offset_m}, {at + to.angle_rad, to.offset_m}});
    }
    bands.push_back(std::move(band));
  }
  return bands;
}

} // namespace lugline
