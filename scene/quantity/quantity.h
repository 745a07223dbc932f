// Quantities: a number with its unit, read from people and printed for them.
//
// Inside Lugline everything is SI; conversion happens here and nowhere else.
// Factors are exact by definition where there is a definition (inch, pound,
// standard gravity): NIST SP 811, Appendix B. Reading never guesses a unit:
// a bare number where a dimension is meant is refused, since mixing inch and
// millimetre is the bench's commonest slip.
#pragma once

#include "scene/quantity/outcome.h"

#include <string>
#include <string_view>

namespace lugline {

enum class Dimension {
  length,
  angle,
  force,
  pressure,
  torque,
  mass,
  stiffness,
  temperature,
  speed_of_turn,
  time,
  volume,
  density
};

/// "length", "angle", …
std::string_view word_for(Dimension dimension);

struct Quantity {
  double si = 0; ///< m, rad, N, Pa, N m, kg, N/m, K, rad/s, s, m3, kg/m3
  /// Half width of the stated tolerance, 0 where none is stated; never negative.
  double plus_minus_si = 0;
  Dimension dimension = Dimension::length;
  std::string unit; ///< as written: "mm", "lbf ft"
};

/// Reads "1.98 mm", "0.078 in", "30 psi", "12 lbf ft", "40 deg",
/// "1.98 mm +/- 0.02 mm" (also "±", and the unit may be left out before it:
/// "1.98 +/- 0.02 mm"). Decimal point only; a decimal comma, a thousands mark,
/// an unknown unit, a unit of another dimension, a bare number, something that
/// is not finite: each is a problem in its own words, with what was expected.
Outcome<Quantity> parse_quantity(std::string_view text, Dimension expected);

/// parse_quantity, and no figure that a bench cannot have: a length beyond 10 m, or
/// below 0.1 micrometre and not nothing, an angle beyond 100 turns, a tolerance as
/// absurd. For files and typed figures of parts and steps.
Outcome<Quantity> parse_bench_quantity(std::string_view text, Dimension expected);

enum class LengthUnit { millimetre, inch };

/// "0.90 mm" or "0.035 in": two places for millimetres and three for inches
/// unless told otherwise; a figure that would print as -0.00 prints as 0.00.
std::string print_length(double length_m, LengthUnit unit);
std::string print_length(double length_m, LengthUnit unit, int places);
/// The figure alone, without its unit.
std::string print_length_figure(double length_m, LengthUnit unit, int places);
/// "0.90 mm (0.035 in)", the chosen unit first.
std::string print_length_both(double length_m, LengthUnit first);
/// "35.18 deg": places decimals.
std::string print_angle(double angle_rad, int places = 2);
/// These keep the three leading figures (a mass four) and never round left of the
/// point: "5.25 kPa", "72.9 N", "14390 N", "0.138 kg".
std::string print_pressure(double pressure_Pa, LengthUnit style); ///< kPa with mm, psi with inch
std::string print_force(double force_N, LengthUnit style);        ///< N, or lbf
std::string print_torque(double torque_Nm, LengthUnit style);     ///< N m, or lbf ft
std::string print_mass(double mass_kg, LengthUnit style);         ///< kg, or lb

/// Rounds half away from zero to that many places in millimetres: for JSON,
/// so that the same answer prints the same bytes. -0 becomes 0.
double rounded_mm(double length_m, int places = 4);
double rounded_deg(double angle_rad, int places = 4);

inline constexpr double millimetre_m = 1e-3;
inline constexpr double inch_m = 25.4e-3;

} // namespace lugline
