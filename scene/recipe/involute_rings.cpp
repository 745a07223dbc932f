// The teeth as sector rings: chords of the involute, by bands.

#include "scene/recipe/involute.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace lugline {

namespace {

constexpr int samples = 16;

/// The involute of one side of a tooth, as points from the tip or root end outward.
struct FlankCurve {
  const Gear* gear = nullptr;
  double into_metal_rad = 0; ///< turned by this, for chords of a hollow flank

  /// Half of the tooth's angle at a radius.
  [[nodiscard]] double half_rad(double r_m) const {
    return gear->half_tooth_rad(2 * r_m) - into_metal_rad;
  }
};

/// How far the curve between two radii stands off its chord, at most.
double sagitta_m(const FlankCurve& curve, double inner_m, double outer_m) {
  const Flank chord =
      flank_through(inner_m, curve.half_rad(inner_m), outer_m, curve.half_rad(outer_m));
  double most_m = 0;
  for (int k = 1; k < samples; ++k) {
    const double r_m = inner_m + (outer_m - inner_m) * k / samples;
    most_m = std::max(most_m, r_m * std::abs(curve.half_rad(r_m) - chord.at(r_m)));
  }
  return most_m;
}

/// Radii from inner to outer at which the flank is parted into that many chords of
/// about the same sagitta.
std::vector<double> parted(const Gear& gear, double inner_m, double outer_m, int bands) {
  const double base_m = gear.base_diameter_m() / 2;
  const auto roll = [&](double r_m) {
    return std::sqrt(std::max(0.0, r_m * r_m / (base_m * base_m) - 1));
  };
  // The sagitta of a piece goes by its roll times the square of its own width in roll.
  const double from = std::pow(roll(inner_m), 1.5);
  const double to = std::pow(roll(outer_m), 1.5);
  std::vector<double> radii_m{inner_m};
  for (int k = 1; k < bands; ++k) {
    const double u = std::pow(from + (to - from) * k / bands, 2.0 / 3.0);
    radii_m.push_back(base_m * std::hypot(1, u));
  }
  radii_m.push_back(outer_m);
  return radii_m;
}

double worst_m(const FlankCurve& curve, const std::vector<double>& radii_m) {
  double worst = 0;
  for (std::size_t k = 0; k + 1 < radii_m.size(); ++k) {
    worst = std::max(worst, sagitta_m(curve, radii_m[k], radii_m[k + 1]));
  }
  return worst;
}

} // namespace

Flank flank_through(double inner_m, double inner_rad, double outer_m, double outer_rad) {
  const double dx = outer_m * std::cos(outer_rad) - inner_m * std::cos(inner_rad);
  const double dy = outer_m * std::sin(outer_rad) - inner_m * std::sin(inner_rad);
  const double length_m = std::hypot(dx, dy);
  assert(length_m > 0);
  const double offset_m =
      (dx * inner_m * std::sin(inner_rad) - dy * inner_m * std::cos(inner_rad)) / length_m;
  if (std::abs(offset_m) < 1e-13) {
    return {inner_rad, 0};
  }
  return {inner_rad - std::asin(std::clamp(offset_m / inner_m, -1.0, 1.0)), offset_m};
}

std::vector<SectorRing> involute_rings(const Gear& gear, double first_tooth_rad, double low_m,
                                       double high_m, const std::string& feature,
                                       double tolerance_m) {
  assert(!gear_problem(gear));
  const double inner_m = std::min(gear.tip_diameter_m, gear.root_diameter_m) / 2;
  const double outer_m = std::max(gear.tip_diameter_m, gear.root_diameter_m) / 2;
  const double base_m = gear.base_diameter_m() / 2;
  FlankCurve curve{&gear, 0};
  const double from_m = std::max(inner_m, base_m);
  std::vector<double> radii_m = parted(gear, from_m, outer_m, 1);
  for (int bands = 2; worst_m(curve, radii_m) > tolerance_m && bands < 64; ++bands) {
    radii_m = parted(gear, from_m, outer_m, bands);
  }
  if (gear.internal) {
    curve.into_metal_rad = worst_m(curve, radii_m) / from_m;
  }
  // Below the base circle the flank is radial: one straight line.
  if (from_m - inner_m > 1e-7) {
    radii_m.insert(radii_m.begin(), inner_m);
  } else {
    radii_m.front() = inner_m;
  }
  std::vector<SectorRing> rings;
  for (std::size_t k = 0; k + 1 < radii_m.size(); ++k) {
    const Flank to = flank_through(radii_m[k], curve.half_rad(radii_m[k]), radii_m[k + 1],
                                   curve.half_rad(radii_m[k + 1]));
    Sector tooth{{first_tooth_rad - to.angle_rad, -to.offset_m},
                 {first_tooth_rad + to.angle_rad, to.offset_m}};
    rings.push_back(
        {radii_m[k], radii_m[k + 1], low_m, high_m, repeated(tooth, gear.teeth), feature, ""});
  }
  return rings;
}

} // namespace lugline
