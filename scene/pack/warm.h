// What a clearance or a play is warm: every length in its chain grows by its material.
//
// Each link of the chain adds its length to the clearance (+1: the case's depth) or takes it (-1:
// a plate's thickness); warm, it is longer by its coefficient times length times the step of
// temperature. Coefficients: aluminium 23e-6 and steel 12e-6 per K (R. C. Hibbeler, Mechanics of
// Materials, 8th edition, examples 4.12 and table), grey iron 6.0e-6 per degF (SDP/SI, Elements of
// Metric Gear Technology, table 18-10); the others common practice, no source. Kelvin, metres.
#pragma once

#include "scene/quantity/report.h"

#include <string>
#include <vector>

namespace lugline {

struct Expansion {
  double per_K = 0;
  std::string source;
};
/// Of a material as components name it; steel's, saying so, where it is not known.
Expansion expansion_of(const std::string& material);

struct WarmLink {
  std::string what; ///< "case, piston's seat to the groove"
  double length_m = 0;
  int sign = 1; ///< +1 adds to the clearance, -1 takes from it
  std::string material;
  double per_K = 0; ///< 0: of the material
};

struct WarmChain {
  std::string id;
  std::string name;
  std::vector<WarmLink> links;
  double clearance_m = 0; ///< at reference_K
  double low_m = 0;       ///< limits, as stated at reference_K
  double high_m = 0;
};

inline constexpr double bench_K = 293.15; ///< 20 degC, at which lengths are stated (ISO 1)

/// By how much the clearance grows for the step of temperature.
double warm_change_m(const WarmChain& chain, double step_K);

/// At `warm_K` instead of 20 degC. Refused: a temperature outside -60 to 250 degC, no link.
CalculationReport warm_report(const WarmChain& chain, double warm_K);

} // namespace lugline
