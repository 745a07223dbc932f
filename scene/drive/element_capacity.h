// Any element's capacity, in one question: clutch, band or one-way clutch as the unit describes it.
//
// SI; torques are signed, positive clockwise as seen from the pump end. For those who judge a range
// and need not know what sort of element holds it; the whole working is in the report.
#pragma once

#include "scene/drive/band.h"
#include "scene/drive/capacity.h"

#include <optional>
#include <string>

namespace lugline {

struct ElementDuty {
  std::string name;             ///< "first, stall"; may be empty
  double pressure_Pa = 0;       ///< clutches and bands
  double turning_rad_per_s = 0; ///< of a clutch's cylinder; 0 for one in the case
  /// That the rest of the train puts on the element's member `of`; none: only the capacity.
  std::optional<double> torque_Nm;
};

struct ElementCapacity {
  bool worked = false;
  /// What it carries in the asked direction before it slips, never below 0: a clutch's by uniform
  /// wear, a one-way clutch's rating. With no torque asked a band's lesser direction.
  double capacity_Nm = 0;
  double margin = 0; ///< capacity over torque; 0 where no torque was asked
  CalculationReport report;
};
/// fluid_kg_per_m3: the Drive's. A one-way clutch with no stated rating is refused, saying so.
ElementCapacity element_capacity(const DriveElement& element, const PackFacts& pack,
                                 double fluid_kg_per_m3, const ElementDuty& duty);

} // namespace lugline
