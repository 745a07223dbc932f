// Involute gears and side-fit splines: their geometry, as plain functions.
//
// Lengths metres, angles radians. Diameters are diameters (…_diameter_m), arcs and
// chords lengths. Spur teeth only, no helix.
//
// Formula sources: the involute and the thickness at a diameter, span and pins from
// Elements of Metric Gear Technology, sections 4 and 10 (ISO 21771 in its words), and
// for splines ANSI B92.1 (diametral pitch) and ISO 4156 (module). The basic rack is
// ISO 53: addendum 1.0 m, dedendum 1.25 m; its root radius is left out, so a flank
// runs straight to the root circle, radially below the base circle.
//
// An internal gear is the space that an external one of the same figures would fill:
// a profile shift above 0 moves the teeth outward on both. (Where internal teeth are
// counted negative, the sign is the other one.)
//
// What figures cannot be is told in words by gear_problem, mesh_problem and
// planet_problem; the other functions assume sound figures (asserted).
#pragma once

#include "scene/part/solid.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// tan a - a.
double involute(double angle_rad);
/// The angle, from 0 to under a quarter turn, whose involute it is; by a bracketed
/// solve. involute_of must be 0 or more.
double inverse_involute(double involute_of);

struct Gear {
  bool internal = false;
  int teeth = 0;
  double module_m = 0;
  double pressure_rad = 0;     ///< at the reference circle
  double profile_shift = 0;    ///< in modules
  double thinning_m = 0;       ///< arc taken off each tooth at the reference circle
  double tip_diameter_m = 0;   ///< internal: the smaller of the two
  double root_diameter_m = 0;  ///< internal: the larger
  double space_widening_m = 0; ///< arc by which half the pitch is exceeded by the basic space
                               ///< (internal splines of 37.5 and 45 deg in ANSI B92.1)

  [[nodiscard]] double reference_diameter_m() const { return module_m * teeth; }
  [[nodiscard]] double base_diameter_m() const;
  [[nodiscard]] double base_pitch_m() const;
  /// Arc at the reference circle.
  [[nodiscard]] double tooth_thickness_m() const;
  /// Half of a tooth's angle at a diameter. Below the base circle the flank is radial.
  [[nodiscard]] double half_tooth_rad(double diameter_m) const;
  /// Arcs at a diameter.
  [[nodiscard]] double tooth_thickness_m(double diameter_m) const;
  [[nodiscard]] double space_width_m(double diameter_m) const;
};

/// A gear of the basic rack, its tip and root as the rack cuts them.
Gear rack_gear(bool internal, int teeth, double module_m, double pressure_rad,
               double profile_shift = 0, double thinning_m = 0);

enum class SplineStandard { iso_4156, ansi_b92_1 };
enum class SplineRoot { flat, fillet };
/// A side-fit spline; pressure_rad is 30, 37.5 or 45 degrees, a flat root with 30 only.
/// Its tip and root are the standard's limits nearest the basic profile; thinning_m is
/// the allowance that the fit takes off an external tooth (of an internal one: adds to
/// its space).
Gear spline(SplineStandard standard, SplineRoot root, bool internal, int teeth, double module_m,
            double pressure_rad, double thinning_m = 0);
/// ANSI B92.1: 0.001 of the pitch diameter, between 0.002 in and 0.010 in.
double form_clearance_m(double reference_diameter_m);

/// Why such teeth cannot be: pointed, undercut, a tip below the base circle, … Names
/// the figure ("tip", "root", "profile_shift", "thinning") and why. Empty: they can.
struct GearProblem {
  std::string figure;
  std::string why;
};
std::optional<GearProblem> gear_problem(const Gear& gear);

/// The profile shift below which the basic rack, whose straight flank is `depth`
/// modules deep below its reference line, undercuts the teeth.
double least_profile_shift(int teeth, double pressure_rad, double depth = 1.0);
/// Where a tooth (internal: a space) comes to a point.
double pointed_diameter_m(const Gear& gear);

/// Base tangent length over k teeth; of an internal gear, over k spaces.
struct SpanMeasure {
  double span_m = 0;
  double contact_diameter_m = 0; ///< where flat anvils touch, both alike
};
SpanMeasure span_over(const Gear& gear, int teeth_spanned);
/// The number of teeth whose span touches nearest to the middle of the flanks.
int teeth_to_span(const Gear& gear);

/// Over two pins (internal: between), in opposite spaces or as nearly so as can be.
struct PinMeasure {
  double over_m = 0;
  double centre_diameter_m = 0;  ///< of the pins' own axes
  double contact_diameter_m = 0; ///< where a pin touches the flanks
};
/// Empty where the pin cannot stand on the flanks at all.
std::optional<PinMeasure> over_pins(const Gear& gear, double pin_diameter_m);

/// Two gears in mesh, the second external or internal, the first external.
double working_pressure_rad(const Gear& a, const Gear& b, double centre_distance_m);
/// Arc at the working circle; below 0 they do not go in.
double backlash_m(const Gear& a, const Gear& b, double centre_distance_m);
/// How many pairs of teeth share the mesh on average; 0 where they do not reach.
double contact_ratio(const Gear& a, const Gear& b, double centre_distance_m);
/// Empty: they run together. Else why not: another pitch, no room, a tip that digs
/// into the other's flank below its base tangent.
std::string mesh_problem(const Gear& a, const Gear& b, double centre_distance_m);

/// A sun, planets at even spacing, and a ring.
struct Planets {
  int sun = 0;
  int pinion = 0;
  int ring = 0;
  int count = 0;
};
/// Empty: they can be put together. Else why not.
std::string planet_problem(const Planets& planets);
/// The angle, in the pinion's own turn and in the frame of the set, of the middle of a
/// tooth of the pinion that stands at at_rad, where the sun has the middle of a tooth at
/// sun_tooth_rad.
double pinion_tooth_rad(const Planets& planets, double at_rad, double sun_tooth_rad);
/// The angle of the middle of a ring's space, for such a pinion.
double ring_space_rad(const Planets& planets, double at_rad, double sun_tooth_rad);

/// The straight line through two points (radius, angle), the outer one second.
Flank flank_through(double inner_m, double inner_rad, double outer_m, double outer_rad);

/// The teeth as sector rings between tip and root, by bands. A flank is a chord of
/// the involute in each band, and the metal never beyond the true flank: of internal
/// teeth, whose flanks are hollow, the chords are moved into the metal by their own
/// height. No flank stands off the true one by more than tolerance_m.
std::vector<SectorRing> involute_rings(const Gear& gear, double first_tooth_rad, double low_m,
                                       double high_m, const std::string& feature,
                                       double tolerance_m);

} // namespace lugline
