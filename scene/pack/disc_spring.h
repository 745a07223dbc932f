// Disc springs, and dished plates taken as disc springs: load, stress, height.
//
// EN 16984 (formerly DIN 2092; the formulas of J. O. Almen and A. Laszlo, 1936), without contact
// flats (K4 = 1: groups 1 and 2 of EN 16983, up to 6 mm thick). Friction is left out, as in the
// standard. A thin dished plate that is cut by lugs or slots is softer than it says: an estimate
// then, and called one. SI. Pure; sizes that are none are told in words, never worked out.
#pragma once

#include "scene/quantity/outcome.h"
#include "scene/quantity/report.h"

#include <optional>
#include <string>

namespace lugline {

struct DiscSpring {
  double outer_m = 0; ///< De
  double inner_m = 0; ///< Di
  double thickness_m = 0;
  double cone_m = 0; ///< h0: free height less thickness
  double modulus_Pa = 206e9;
  double poisson = 0.3;
  [[nodiscard]] double free_m() const { return thickness_m + cone_m; } ///< l0
};

/// Why these are no figures of a disc spring; empty where they are.
std::string why_no_disc(const DiscSpring& spring);

/// The factors of the standard for De / Di, which is above 1.
struct DiscFactors {
  double k1 = 0;
  double k2 = 0;
  double k3 = 0;
};
DiscFactors disc_factors(double diameter_ratio);

/// Of one spring pressed by s from its free height; s may go beyond flat only in the formula.
double disc_load_N(const DiscSpring& spring, double s_m);
double disc_rate_N_per_m(const DiscSpring& spring, double s_m);
/// Stresses, signed: tension positive. II: lower inner edge; III: lower outer edge; OM: middle of
/// the upper face.
struct DiscStress {
  double ii_Pa = 0;
  double iii_Pa = 0;
  double om_Pa = 0;
};
DiscStress disc_stress(const DiscSpring& spring, double s_m);

/// The least deflection up to flat at which it carries the load; empty where it never does.
std::optional<double> disc_deflection_m(const DiscSpring& spring, double load_N);

/// In series i packets, each of n springs in parallel.
struct DiscStack {
  int parallel = 1;
  int series = 1;
};
/// Free height of the whole stack: i (l0 + (n - 1) t).
double stack_free_m(const DiscSpring& spring, const DiscStack& stack);

/// Load, stress and height of a stack pressed by s (of the stack), or under a load.
CalculationReport disc_report(std::string title, const DiscSpring& spring, const DiscStack& stack,
                              double s_m);
CalculationReport disc_report_at_load(std::string title, const DiscSpring& spring,
                                      const DiscStack& stack, double load_N);

} // namespace lugline
