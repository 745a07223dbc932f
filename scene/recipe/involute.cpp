#include "scene/recipe/involute.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

/// The involute's pressure angle at a diameter; 0 at the base circle and below.
double pressure_at(const Gear& gear, double diameter_m) {
  return std::acos(std::min(1.0, gear.base_diameter_m() / diameter_m));
}

/// Half the pitch's angle.
double half_pitch_rad(const Gear& gear) {
  return pi / gear.teeth;
}

} // namespace

double involute(double angle_rad) {
  return std::tan(angle_rad) - angle_rad;
}

double inverse_involute(double involute_of) {
  assert(involute_of >= 0);
  // tan a - a lies above a³/3 and runs off at a quarter turn: both ends hold it.
  double low = 0;
  double high = std::min(std::cbrt(3 * involute_of), pi / 2);
  for (int k = 0; k < 200 && high - low > 1e-16; ++k) {
    const double middle = (low + high) / 2;
    (involute(middle) < involute_of && middle < pi / 2 ? low : high) = middle;
  }
  return (low + high) / 2;
}

double Gear::base_diameter_m() const {
  return reference_diameter_m() * std::cos(pressure_rad);
}

double Gear::base_pitch_m() const {
  return pi * module_m * std::cos(pressure_rad);
}

double Gear::tooth_thickness_m() const {
  const double shifted_m = 2 * profile_shift * module_m * std::tan(pressure_rad);
  const double half_m = pi * module_m / 2;
  return (internal ? half_m - shifted_m - space_widening_m : half_m + shifted_m) - thinning_m;
}

double Gear::half_tooth_rad(double diameter_m) const {
  const double at_reference = tooth_thickness_m() / reference_diameter_m();
  const double grown = involute(pressure_rad) - involute(pressure_at(*this, diameter_m));
  return internal ? at_reference - grown : at_reference + grown;
}

double Gear::tooth_thickness_m(double diameter_m) const {
  return half_tooth_rad(diameter_m) * diameter_m;
}

double Gear::space_width_m(double diameter_m) const {
  return pi * diameter_m / teeth - tooth_thickness_m(diameter_m);
}

Gear rack_gear(bool internal, int teeth, double module_m, double pressure_rad, double profile_shift,
               double thinning_m) {
  Gear gear;
  gear.internal = internal;
  gear.teeth = teeth;
  gear.module_m = module_m;
  gear.pressure_rad = pressure_rad;
  gear.profile_shift = profile_shift;
  gear.thinning_m = thinning_m;
  const double out = internal ? -1 : 1;
  gear.tip_diameter_m = module_m * (teeth + 2 * profile_shift + out * 2.0);
  gear.root_diameter_m = module_m * (teeth + 2 * profile_shift - out * 2.5);
  return gear;
}

namespace {

/// What a standard states for an angle: how far beyond the pitch diameter, in modules.
struct SplineRow {
  double tip_external;
  double root_external; ///< inward
  double tip_internal;  ///< inward
  double root_internal;
  double widening; ///< of the internal space
};

/// ANSI B92.1-1970, its table of formulas. `pitch` in teeth per inch.
SplineRow ansi_row(SplineRoot root, double pressure_deg, double pitch) {
  if (pressure_deg < 33) {
    return root == SplineRoot::flat ? SplineRow{1, 1.35, 1, 1.35, 0}
                                    : SplineRow{1, pitch > 15.9 ? 2.0 : 1.8, 1, 1.8, 0};
  }
  return pressure_deg < 40 ? SplineRow{1, 1.3, 0.8, 1.6, 0.1} : SplineRow{1, 1, 0.6, 1.4, 0.2};
}

/// ISO 4156; the internal tip is worked out apart.
SplineRow iso_row(SplineRoot root, double pressure_deg) {
  if (pressure_deg < 33) {
    return root == SplineRoot::flat ? SplineRow{1, 1.5, 0, 1.5, 0} : SplineRow{1, 1.8, 0, 1.8, 0};
  }
  return pressure_deg < 40 ? SplineRow{0.9, 1.4, 0, 1.4, 0} : SplineRow{0.8, 1.2, 0, 1.2, 0};
}

/// ISO 4156 (from memory): the external form diameter, from the depth h_s of the rack's
/// straight flank, and a form clearance of 0.1 m each side of it.
double iso_internal_tip_m(const Gear& gear, double pressure_deg) {
  const double depth_m = gear.module_m * (pressure_deg < 33 ? 0.6 : pressure_deg < 40 ? 0.55 : 0.5);
  const double sine = std::sin(gear.pressure_rad);
  const double rise_m = gear.reference_diameter_m() / 2 * sine - depth_m / sine;
  return 2 * std::hypot(gear.base_diameter_m() / 2, rise_m) + 0.2 * gear.module_m;
}

} // namespace

double form_clearance_m(double reference_diameter_m) {
  return std::clamp(0.001 * reference_diameter_m, 0.002 * inch_m, 0.010 * inch_m);
}

Gear spline(SplineStandard standard, SplineRoot root, bool internal, int teeth, double module_m,
            double pressure_rad, double thinning_m) {
  const double pressure_deg = pressure_rad * 180 / pi;
  const bool ansi = standard == SplineStandard::ansi_b92_1;
  const SplineRow row =
      ansi ? ansi_row(root, pressure_deg, inch_m / module_m) : iso_row(root, pressure_deg);
  Gear gear;
  gear.internal = internal;
  gear.teeth = teeth;
  gear.module_m = module_m;
  gear.pressure_rad = pressure_rad;
  gear.thinning_m = thinning_m;
  // The wider space of the flatter angles goes with a tip that is as much lower.
  gear.space_widening_m = internal ? row.widening * module_m : 0;
  if (internal) {
    gear.tip_diameter_m =
        ansi ? module_m * (teeth - row.tip_internal) : iso_internal_tip_m(gear, pressure_deg);
    gear.root_diameter_m = module_m * (teeth + row.root_internal);
  } else {
    gear.tip_diameter_m = module_m * (teeth + row.tip_external);
    gear.root_diameter_m = module_m * (teeth - row.root_external);
  }
  return gear;
}

double least_profile_shift(int teeth, double pressure_rad, double depth) {
  const double sine = std::sin(pressure_rad);
  return depth - teeth * sine * sine / 2;
}

double pointed_diameter_m(const Gear& gear) {
  // External: half a tooth is nothing; internal: half a space.
  const double base_rad = gear.internal
                              ? half_pitch_rad(gear) - gear.half_tooth_rad(gear.base_diameter_m())
                              : gear.half_tooth_rad(gear.base_diameter_m());
  return gear.base_diameter_m() / std::cos(inverse_involute(std::max(0.0, base_rad)));
}

SpanMeasure span_over(const Gear& gear, int teeth_spanned) {
  assert(teeth_spanned >= 1);
  // k - 1 base pitches and one tooth's arc at the base circle; an internal gear's span
  // lies in the spaces, whose arc at the base circle is the same for the same figures.
  const double half_base_rad =
      gear.internal ? half_pitch_rad(gear) - gear.half_tooth_rad(gear.base_diameter_m())
                    : gear.half_tooth_rad(gear.base_diameter_m());
  SpanMeasure measure;
  measure.span_m =
      (teeth_spanned - 1) * gear.base_pitch_m() + half_base_rad * gear.base_diameter_m();
  measure.contact_diameter_m = std::hypot(gear.base_diameter_m(), measure.span_m);
  return measure;
}

int teeth_to_span(const Gear& gear) {
  const double least_m = std::min(gear.tip_diameter_m, gear.root_diameter_m);
  const double most_m = std::max(gear.tip_diameter_m, gear.root_diameter_m);
  const double aim_m = (std::max(least_m, gear.base_diameter_m()) + most_m) / 2;
  int best = 1;
  for (int k = 1; k < gear.teeth; ++k) {
    const double off_m = std::abs(span_over(gear, k).contact_diameter_m - aim_m);
    if (off_m < std::abs(span_over(gear, best).contact_diameter_m - aim_m)) {
      best = k;
    }
  }
  return best;
}

std::optional<PinMeasure> over_pins(const Gear& gear, double pin_diameter_m) {
  const double base_m = gear.base_diameter_m();
  const double half_base_rad = gear.half_tooth_rad(base_m);
  const double pin_rad = pin_diameter_m / base_m;
  // A pin's axis lies on the involute that is half a pin off the flank, in the middle
  // of a space.
  const double centre_involute = gear.internal ? half_pitch_rad(gear) - half_base_rad - pin_rad
                                               : half_base_rad + pin_rad - half_pitch_rad(gear);
  if (centre_involute < 0) {
    return std::nullopt;
  }
  const double centre_rad = inverse_involute(centre_involute);
  const double contact_tangent = std::tan(centre_rad) + (gear.internal ? pin_rad : -pin_rad);
  if (contact_tangent < 0) {
    return std::nullopt;
  }
  PinMeasure measure;
  measure.centre_diameter_m = base_m / std::cos(centre_rad);
  measure.contact_diameter_m = base_m * std::hypot(1, contact_tangent);
  const double apart_m =
      measure.centre_diameter_m * (gear.teeth % 2 == 0 ? 1 : std::cos(pi / (2 * gear.teeth)));
  measure.over_m = gear.internal ? apart_m - pin_diameter_m : apart_m + pin_diameter_m;
  return measure;
}

double working_pressure_rad(const Gear& a, const Gear& b, double centre_distance_m) {
  const double base_m = b.internal ? b.base_diameter_m() - a.base_diameter_m()
                                   : b.base_diameter_m() + a.base_diameter_m();
  return std::acos(std::clamp(base_m / 2 / centre_distance_m, -1.0, 1.0));
}

double backlash_m(const Gear& a, const Gear& b, double centre_distance_m) {
  const double cosine = std::cos(working_pressure_rad(a, b, centre_distance_m));
  const double at_a_m = a.base_diameter_m() / cosine;
  const double at_b_m = b.base_diameter_m() / cosine;
  return pi * at_a_m / a.teeth - a.tooth_thickness_m(at_a_m) - b.tooth_thickness_m(at_b_m);
}

double contact_ratio(const Gear& a, const Gear& b, double centre_distance_m) {
  const auto reach_m = [](const Gear& gear) {
    const double base_m = gear.base_diameter_m();
    const double tip_m = std::max(base_m, gear.tip_diameter_m);
    return std::sqrt(tip_m * tip_m - base_m * base_m) / 2;
  };
  const double line_m = centre_distance_m * std::sin(working_pressure_rad(a, b, centre_distance_m));
  const double path_m =
      b.internal ? reach_m(a) - reach_m(b) + line_m : reach_m(a) + reach_m(b) - line_m;
  return std::max(0.0, path_m / a.base_pitch_m());
}

} // namespace lugline
