// Air through a leak: ISO 6358 flow, the hole that leaks as much, and how long a shut-off volume
// holds.
//
// SI: absolute pressures here (gauge pressures are the air check's business), kelvin, seconds,
// m3/(s Pa) for the sonic conductance C. A leak is C and the critical pressure ratio b: choked
// while the pressure outside is at most b times the pressure inside, an ellipse above that. The
// volume is taken as isothermal: a slow leak through metal walls. Functions assert sane arguments;
// the air check refuses a person's figures before they come here. What never ends is infinity.
#pragma once

namespace lugline {

/// The standard's reference atmosphere (ISO 8778, used by ISO 6358): 20 degC, 100 kPa, 65 %
/// humidity, 1.185 kg/m3. Free air is counted at it.
inline constexpr double reference_Pa = 100e3;
inline constexpr double reference_K = 293.15;
inline constexpr double reference_kg_per_m3 = 1.185;

/// What surrounds the bench, and the air. The gas constant is the reference air's own,
/// 100 kPa / (1.185 kg/m3 x 293.15 K) = 287.87 J/(kg K); dry air has 287.0.
struct BenchAir {
  double outside_Pa = 101325;
  double temperature_K = reference_K;
  double gas_J_per_kgK = reference_Pa / (reference_kg_per_m3 * reference_K);
};

struct Leak {
  double conductance = 0; ///< C, m3/(s Pa) at the reference atmosphere
  double critical_ratio = 0.5283;
};

/// ISO 6358-1, choked and not; nothing flows where the inside is not above the outside.
double leak_flow_kg_per_s(const Leak& leak, double inside_Pa, const BenchAir& air);

/// A plain hole by the isentropic nozzle, k the ratio of specific heats: what ISO 6358's ellipse
/// stands in for. `discharge` is the hole's coefficient, 1 for a perfect nozzle.
double hole_flow_kg_per_s(double diameter_m, double discharge, double inside_Pa,
                          const BenchAir& air, double k = 1.4);
/// Outside over inside at which a nozzle chokes, (2/(k+1))^(k/(k-1)): 0.5283 for air.
double nozzle_critical_ratio(double k);
/// Throat over stagnation temperature there, 2/(k+1).
double nozzle_critical_temperature_ratio(double k);

/// The conductance of a hole, from its choked flow, and back.
double hole_conductance(double diameter_m, double discharge, const BenchAir& air, double k = 1.4);
double hole_diameter_m(double conductance, double discharge, const BenchAir& air, double k = 1.4);

/// Seconds in which a fixed volume falls from one pressure to another through a leak, in closed
/// form. Infinity where it never does: no leak, or to_Pa below the outside.
double hold_time_s(const Leak& leak, double volume_m3, double from_Pa, double to_Pa,
                   const BenchAir& air);

/// A cylinder whose piston goes home as the pressure falls: full above full_Pa, home below home_Pa,
/// and in between in proportion. home_Pa = full_Pa: it goes home all at once, at that pressure.
struct Cylinder {
  double home_m3 = 0;
  double full_m3 = 0;
  double home_Pa = 0; ///< absolute
  double full_Pa = 0;

  [[nodiscard]] double volume_m3(double inside_Pa) const;
};
/// The same for such a cylinder, by quadrature: a piston that goes home feeds the leak.
double hold_time_s(const Leak& leak, const Cylinder& cylinder, double from_Pa, double to_Pa,
                   const BenchAir& air);

} // namespace lugline
