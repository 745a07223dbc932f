// The friction plates of a pack: new, worn, worn out, soaked; and the clearance for each.
//
// What may wear is new less least; both are the unit's own figures. A soaked plate stands a little
// thicker than a dry one: the wet allowance, where the unit states one. Clearance for each friction
// is judged by the unit's own limits where it states them; the rule of thumb is a hint and never
// the authority. Metres. Pure; no plates, or figures that cannot be, are refused in words.
#pragma once

#include "scene/quantity/report.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

struct FrictionRead {
  std::string label;
  double thickness_m = 0;
  bool measured = false;
};

struct Frictions {
  std::string id;   ///< of the pack
  std::string name; ///< "Case clutch"
  std::vector<FrictionRead> plates;
  double new_m = 0;   ///< thickness of a new one
  double least_m = 0; ///< least allowed; 0: not stated
  double wet_m = 0;   ///< by which a soaked one is thicker; 0: not stated
  double clearance_m = 0;
  /// The unit's limits of the clearance for each friction, where it states them.
  std::optional<double> each_low_m = {};
  std::optional<double> each_high_m = {};
};

/// Share of what may wear that is gone: 0 new, 1 at the least allowed. least_m below new_m.
double worn_share(double new_m, double least_m, double thickness_m);

CalculationReport frictions_report(const Frictions& frictions);

} // namespace lugline
