// What the teeth lose: the efficiency of a range, from that of one tooth mesh.
//
// A mesh loses a share of the power that rolls through it, and that power is reckoned as seen from
// its carrier: a set that turns as one block loses nothing. Which gear of a mesh drives in that
// view follows from the torques, and they from it: signs are tried until they agree with
// themselves. Speeds are not touched by losses. Bearings, churning and drag are not in it.
//
// Source: H. W. Müller, Epicyclic Drive Trains (losses in the rolling frame, basic efficiency), and
// VDI 2157, both from memory. Plain values; what cannot be worked out is said in `words`.
#pragma once

#include "scene/drive/train.h"

#include <string>
#include <utility>
#include <vector>

namespace lugline {

struct TrainLosses {
  bool known = false;
  std::string words;          ///< one plain sentence
  double efficiency = 0;      ///< power out over power in
  double lossless_torque = 0; ///< what drives puts on what is driven, a share of its torque
  double torque = 0;          ///< the same with losses
  std::vector<std::pair<std::string, double>>
      elements; ///< id, torque on `of` over the driving torque
};

/// `mesh_efficiency` above 0, at most 1.
TrainLosses losses_of(const Drive& drive, const AppliedElements& applied, TrainDuty duty,
                      double mesh_efficiency);

CalculationReport report_losses(const Drive& drive, const DriveRange& range, TrainDuty duty,
                                double mesh_efficiency);

} // namespace lugline
