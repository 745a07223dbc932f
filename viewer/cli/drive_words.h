// The judged ranges of a drive in words and as JSON, for the command `drive`.
#pragma once

#include "scene/build/drive_judge.h"
#include "scene/drive/losses.h"
#include "viewer/cli/print.h"

#include <iosfwd>

namespace lugline::cli {

struct DriveTelling {
  LengthUnit unit = LengthUnit::millimetre;
  bool working = false; ///< every calculation in full
  bool losses = false;  ///< what the teeth lose
};

void print_range(std::ostream& out, const Unit& unit, const JudgedRange& range,
                 const AppliedElements& applied, const DriveTelling& telling);

/// {"id", "name", "does", "says", "ratio", "ratio_exact", "stated_ratio", "coasting",
/// "holding"[], "members"[{"id","speed","speed_exact"}],
/// "elements"[{"id","name","does","torque_Nm","capacity_Nm","margin"}], "duties"[], "problems"[]}:
/// the elements are those of the duty with the least margin.
Json json_of(const Unit& unit, const JudgedRange& range, const AppliedElements& applied,
             const DriveTelling& telling);

/// The efficiency that is asked for: the unit's own of one mesh, or 0.99 where it states none.
double mesh_efficiency_of(const Drive& drive);

} // namespace lugline::cli
