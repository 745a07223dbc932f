// From a unit's words to a task that settles, and what of it goes into the answer.
//
// Inside this room only. Of a train without troubles. `scale` turns the task's figures, which are
// shares of the driving end's, into shares of the input's.
#pragma once

#include "scene/drive/settle.h"
#include "scene/drive/train.h"

#include <optional>
#include <utility>
#include <vector>

namespace lugline {

struct WorkedTrain {
  SettleTask task;
  std::vector<std::size_t> closed_elements; ///< which elements SettleTask::closed are
  Settled settled;

  /// Elements that carry torque, each with the column of it in Settled::torques.
  [[nodiscard]] std::vector<std::pair<std::size_t, std::size_t>> carrying() const;
};

WorkedTrain work_train(const Drive& drive, const AppliedElements& applied, TrainDuty duty);

/// A mesh's torque on a body for a multiplier of one.
Rational torque_on(const ToothMesh& mesh, std::size_t body);

/// Fills in what elements, sets and ends carry; the train drives.
void tell_torques(const Drive& drive, const WorkedTrain& worked, const Rational& scale,
                  const Rational& speed_scale, TrainAnswer& answer);

/// Fills in shares_with and most_torque where balance alone does not tell.
void tell_shares(const WorkedTrain& worked, const Rational& scale, TrainAnswer& answer);

} // namespace lugline
