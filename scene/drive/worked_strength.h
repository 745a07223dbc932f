// The strength of a train that is worked already, so that it need not be again.
//
// Inside this room only.
#pragma once

#include "scene/drive/strength.h"
#include "scene/drive/train_work.h"

namespace lugline {

/// Which elements set it is told only where it is less than what is asked.
TrainStrength strength_of(const Drive& drive, const WorkedTrain& worked, TrainDuty duty,
                          const std::map<std::string, ElementGrip>& grips, double asked_Nm);

} // namespace lugline
