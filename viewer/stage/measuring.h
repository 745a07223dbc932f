// What can be measured, worded: a sheet for each pack, a row for each plate.
//
// Made from the stage's answers; panels only lay it out. Metres.
#pragma once

#include "viewer/stage/stage.h"

#include <string>
#include <vector>

namespace lugline {

/// A thickness in which a selective can be had, and what it would give.
struct MeasuringOption {
  double thickness_m = 0;
  std::string words; ///< "4.80 mm"
  bool fitted = false;
};

struct MeasuringRow {
  std::string part;
  std::string label;     ///< "friction 2"
  std::string figure;    ///< in the chosen unit: "1.60 mm"
  std::string said_back; ///< both units, and where it comes from: "1.60 mm (0.063 in), nominal"
  bool measured = false;
  bool now = false;    ///< the step's own part
  std::string refused; ///< why the reading is not used; empty where it is
  std::vector<MeasuringOption> options;
};

struct MeasuringSheet {
  std::string pack;
  std::string name;
  std::string result;             ///< "0.90 mm (0.035 in), inside limits 0.75 to 1.25 mm"
  std::string advice;             ///< which selective to fit, where another is better; may be empty
  bool wrong = false;             ///< outside its limits
  std::vector<MeasuringRow> rows; ///< from the piston to the ring
};

/// The step's own pack first, then the others in the unit's order.
std::vector<MeasuringSheet> measuring_sheets(const Stage& stage, const ViewState& view);

} // namespace lugline
