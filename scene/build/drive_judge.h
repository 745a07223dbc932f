// The drive of a unit judged: what every range does, what every element carries in it, and whether
// it can.
//
// Report values only; printing is the command line's and the window's. N m, pascals, radians a
// second. Torques are by the element on its first member, positive clockwise as seen from the pump
// end. A margin is capacity over torque; clutches are held to uniform wear. What cannot be worked
// out is a sentence in `problems`, or a refused report.
#pragma once

#include "scene/build/drive_facts.h"
#include "scene/drive/train.h"
#include "scene/quantity/complaint.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// What is asked beside the unit's own words.
struct DriveAsk {
  std::optional<double> input_Nm;    ///< in place of the duties' torque; below 0: coasting
  std::optional<double> line_Pa;     ///< in place of the duties' pressure
  double input_rad_per_s = 0;        ///< of the input; 0: the head of turning fluid is left out
  std::vector<std::string> without;  ///< elements that do not hold: a one-way clutch has fallen out
  std::vector<std::string> stuck;    ///< elements that hold in every range: seized
  std::vector<std::string> reversed; ///< one-way clutches fitted the wrong way round
};

struct JudgedElement {
  std::string id;
  std::string name;
  ElementKind kind = ElementKind::clutch;
  ElementDoing doing = ElementDoing::off;
  std::optional<double> torque_Nm; ///< none: it shares a load that balance alone cannot part
  double most_Nm = 0;              ///< the most that it may have to carry
  std::optional<double> capacity_Nm;
  std::optional<double> margin; ///< none: it carries nothing, or its capacity is not known
  std::string unknown;          ///< why the capacity is not known; else empty
  CalculationReport report;     ///< the capacity's working
};

struct JudgedDuty {
  std::string name;
  double input_Nm = 0;
  std::optional<double> line_Pa; ///< none: no pressure was stated or asked, so no capacity
  TrainAnswer train;
  std::vector<JudgedElement> elements; ///< those that are applied or hold, in the unit's order
};

struct JudgedRange {
  std::string id;
  std::string name;
  TrainAnswer pull;
  TrainAnswer coast;
  std::optional<double> stated_ratio;
  std::vector<std::string> holding; ///< elements that carry something when the engine pulls
  std::vector<JudgedDuty> duties;
  std::vector<std::string> problems; ///< what does not do what the unit says of it
};

struct DriveJudgement {
  bool sound = false;
  std::vector<JudgedRange> ranges;
  std::vector<std::string> notes;
};

/// Of one range, or of all where it is empty. The unit must state a drive.
DriveJudgement judge_ranges(const Unit& unit, const DriveFacts& facts, const DriveAsk& ask,
                            const std::string& range = {});

/// A range's applied elements, changed as asked.
AppliedElements applied_as_asked(const Drive& drive, const DriveRange& range, const DriveAsk& ask);

/// Ranges that do not do what the unit says of them, at their lines: no drive, another ratio, two
/// elements that fight. Needs the gear train alone, no build.
std::vector<Complaint> range_complaints(const Unit& unit);

} // namespace lugline
