// A piston and what pushes it back: areas and spring forces, shared by capacity, bands and air.
//
// SI: metres, pascals, newtons, m2, radians a second. Pressures are gauge pressures. The spring of
// a clutch is a set of alike coils (count, rate, free and fitted height), that of a servo often a
// stated force at apply: SpringBack stands for both. What cannot be is said by `problem`, as one
// plain sentence, before any figure is asked for; the figures assert that there was none.
#pragma once

#include "scene/load/drive.h"

#include <optional>
#include <string>

namespace lugline {

/// Of the annulus, or of the full circle where inner_m is 0.
double area_m2(const ApplyPiston& piston);

/// For sentences, metric and inch; "no length" for what is none, so that a refusal can name it.
std::string length_words(double length_m);

struct SpringBack {
  double home_N = 0;       ///< with the piston home
  double apply_N = 0;      ///< at the end of its stroke
  double rate_N_per_m = 0; ///< of all together
  bool rate_known = true;  ///< false: only the force at apply was stated, and it is used throughout
};

/// Springs before the stated force; neither is no spring at all.
SpringBack spring_back(const std::optional<ReturnSprings>& springs, double stated_force_N,
                       double stroke_m);

/// "The piston's inner diameter (104 mm) is not smaller than …"; empty where nothing is wrong with
/// piston, springs and stroke.
std::string piston_problem(const ApplyPiston& piston, const std::optional<ReturnSprings>& springs,
                           double stated_force_N, double stroke_m);

/// The same of a duty, for clutches and bands: pressure, torque (none: nothing asked), friction.
std::string pressure_problem(double pressure_Pa);
std::string torque_problem(const std::optional<double>& torque_Nm);
std::string friction_problem(double friction);

/// Gauge pressures at which the piston just moves, and at which it is at its stroke's end.
double moves_at_Pa(const ApplyPiston& piston, const SpringBack& back);
double stroked_at_Pa(const ApplyPiston& piston, const SpringBack& back);

/// How far pressure drives it, 0 to stroke_m, friction of the seals left out.
double travel_at_m(const ApplyPiston& piston, const SpringBack& back, double stroke_m,
                   double pressure_Pa);

} // namespace lugline
