#include "scene/drive/piston.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

// Beyond these a figure is a slip of the hand, not a transmission.
constexpr double most_length_m = 10;
constexpr double most_force_N = 1e6;
constexpr double most_rate_N_per_m = 1e9;
constexpr int most_springs = 1000;
constexpr double most_pressure_Pa = 100e6;
constexpr double most_torque_Nm = 1e6;
constexpr double most_friction = 2;
/// Heights that are equal but for the last bits of their difference.
constexpr double alike_m = 1e-9;

std::string spring_problem(const ReturnSprings& springs, double stroke_m) {
  if (springs.count < 0 || !(springs.rate_N_per_m >= 0)) {
    return "A number of springs or a spring rate below nothing cannot be.";
  }
  if (springs.count > most_springs || springs.rate_N_per_m > most_rate_N_per_m) {
    return "So many or so stiff springs are no return springs.";
  }
  if (!(springs.fitted_m > 0) || !(springs.free_m >= springs.fitted_m) ||
      springs.free_m > most_length_m) {
    return "The springs' free height, " + length_words(springs.free_m) +
           ", is below their fitted height, " + length_words(springs.fitted_m) +
           ": they would lie loose.";
  }
  const double left_m = springs.fitted_m - stroke_m;
  if (left_m < springs.solid_m - alike_m || left_m <= 0) {
    return "The springs go solid before the piston has closed its pack: " + length_words(left_m) +
           " is left of their height, and they are solid at " + length_words(springs.solid_m) + ".";
  }
  return {};
}

} // namespace

std::string length_words(double length_m) {
  return std::abs(length_m) <= 1e3 ? print_length_both(length_m, LengthUnit::millimetre)
                                   : "no length";
}

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
  if (!(piston.outer_m > 0)) {
    return "The piston has no outer diameter, so there is no area to push on.";
  }
  if (piston.outer_m > most_length_m) {
    return "The piston is larger than any bench; is its unit right?";
  }
  if (!(piston.inner_m >= 0) || piston.inner_m >= piston.outer_m) {
    return "The piston's inner diameter, " + length_words(piston.inner_m) +
           ", is not smaller than its outer one, " + length_words(piston.outer_m) +
           ": no area is left to push on.";
  }
  if (!(stroke_m >= 0)) {
    return "The stroke is below nothing: more plates are in than fit.";
  }
  if (stroke_m > most_length_m) {
    return "The stroke is longer than any bench; is its unit right?";
  }
  if (springs) {
    return spring_problem(*springs, stroke_m);
  }
  if (!(stated_force_N >= 0)) {
    return "A spring force below nothing cannot be.";
  }
  return stated_force_N > most_force_N ? "So strong a spring is no return spring." : "";
}

std::string pressure_problem(double pressure_Pa) {
  if (!(pressure_Pa >= 0)) {
    return "A pressure below nothing cannot be.";
  }
  return pressure_Pa > most_pressure_Pa
             ? "Such a pressure is beyond any transmission; is its unit right?"
             : "";
}

std::string torque_problem(const std::optional<double>& torque_Nm) {
  if (!torque_Nm || std::abs(*torque_Nm) <= most_torque_Nm) {
    return {};
  }
  return std::isfinite(*torque_Nm) ? "Such a torque is beyond any transmission; is its unit right?"
                                   : "The torque is not a number.";
}

std::string friction_problem(double friction) {
  if (!(friction > 0)) {
    return "The coefficient of friction is not stated, so no torque follows.";
  }
  return friction > most_friction ? "No lining has so high a coefficient of friction." : "";
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
