// How much input torque a set of applied elements carries before one of them slips.
//
// Of elements that hold the same thing each takes what it can, so that they slip only together:
// the greatest torque is sought over every way in which balance lets them share. N m; torques are
// those that the train puts on an element's member `of`, by their sense as seen from the pump end.
// Plain values; of a train that drives, else nothing limits it.
#pragma once

#include "scene/drive/train.h"

#include <limits>
#include <map>
#include <string>
#include <vector>

namespace lugline {

/// What an element carries, by the sense of the torque that the train puts on `of`.
struct ElementGrip {
  double clockwise_Nm = std::numeric_limits<double>::infinity();
  double counter_clockwise_Nm = std::numeric_limits<double>::infinity();
};

struct TrainStrength {
  double input_Nm =
      std::numeric_limits<double>::infinity(); ///< magnitude; infinite: no limit known
  std::vector<std::string> slipping;           ///< the elements that set it
};

/// Grips by element id; an element that is not in it has no limit.
TrainStrength strength_of(const Drive& drive, const AppliedElements& applied, TrainDuty duty,
                          const std::map<std::string, ElementGrip>& grips);

} // namespace lugline
