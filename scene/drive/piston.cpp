#include "scene/drive/piston.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

std::string length(double length_m) {
  return print_length_both(length_m, LengthUnit::millimetre);
}

std::string spring_problem(const ReturnSprings& springs, double stroke_m) {
  if (springs.count < 0 || !(springs.rate_N_per_m >= 0) || !std::isfinite(springs.rate_N_per_m)) {
    return "A number of springs or a spring rate below nothing cannot be.";
  }
  if (!(springs.fitted_m > 0) || !(springs.free_m >= springs.fitted_m) ||
      !std::isfinite(springs.free_m)) {
    return "The springs' free height, " + length(springs.free_m) +
           ", is below their fitted height, " + length(springs.fitted_m) +
           ": they would lie loose.";
  }
  const double left_m = springs.fitted_m - stroke_m;
  if (left_m < springs.solid_m || left_m <= 0) {
    return "The springs go solid before the piston has closed its pack: " + length(left_m) +
           " is left of their height, and they are solid at " + length(springs.solid_m) + ".";
  }
  return {};
}

} // namespace

double area_m2(const ApplyPiston& piston) {
  return std::numbers::pi / 4 * (piston.outer_m * piston.outer_m - piston.inner_m * piston.inner_m);
}

SpringBack spring_back(const std::optional<ReturnSprings>& springs, double stated_force_N,
                       double stroke_m) {
  if (!springs) {
    return {stated_force_N, stated_force_N, 0, stated_force_N == 0};
  }
  const double rate_N_per_m = springs->count * springs->rate_N_per_m;
  const double home_N = rate_N_per_m * (springs->free_m - springs->fitted_m);
  return {home_N, home_N + rate_N_per_m * stroke_m, rate_N_per_m, true};
}

std::string piston_problem(const ApplyPiston& piston, const std::optional<ReturnSprings>& springs,
                           double stated_force_N, double stroke_m) {
  if (!(piston.outer_m > 0) || !std::isfinite(piston.outer_m)) {
    return "The piston has no outer diameter, so there is no area to push on.";
  }
  if (!(piston.inner_m >= 0) || piston.inner_m >= piston.outer_m) {
    return "The piston's inner diameter, " + length(piston.inner_m) +
           ", is not smaller than its outer one, " + length(piston.outer_m) +
           ": no area is left to push on.";
  }
  if (!(stroke_m >= 0) || !std::isfinite(stroke_m)) {
    return "The stroke is below nothing: more plates are in than fit.";
  }
  if (springs) {
    return spring_problem(*springs, stroke_m);
  }
  if (!(stated_force_N >= 0) || !std::isfinite(stated_force_N)) {
    return "A spring force below nothing cannot be.";
  }
  return {};
}

double moves_at_Pa(const ApplyPiston& piston, const SpringBack& back) {
  assert(area_m2(piston) > 0);
  return back.home_N / area_m2(piston);
}

double stroked_at_Pa(const ApplyPiston& piston, const SpringBack& back) {
  assert(area_m2(piston) > 0);
  return back.apply_N / area_m2(piston);
}

double travel_at_m(const ApplyPiston& piston, const SpringBack& back, double stroke_m,
                   double pressure_Pa) {
  const double over_N = pressure_Pa * area_m2(piston) - back.home_N;
  if (over_N <= 0) {
    return 0;
  }
  return back.rate_N_per_m > 0 ? std::min(stroke_m, over_N / back.rate_N_per_m) : stroke_m;
}

} // namespace lugline
