// Which one-way clutches hold, and what follows for every body: the exact middle of the gear train.
//
// Of three things exactly one is so (linear programming's alternative, Farkas' lemma): what drives
// can turn with the driven end still (neutral), it cannot turn at all (locked), or it drives the
// other end. The last two show themselves by torques that balance, with every one-way clutch that
// carries any carrying it the way that it holds. Plain values; of a train without troubles.
#pragma once

#include "scene/drive/train_network.h"

#include <string>
#include <vector>

namespace lugline {

/// A one-way clutch at work.
struct OneWay {
  std::size_t element = 0; ///< of Drive::elements
  Coupling coupling;
  int free_way = 1; ///< the sign of (w_of - w_to) when it overruns, in the engine's sense
};

struct SettleTask {
  DriveNetwork train;
  std::vector<Coupling> closed; ///< what is applied
  std::vector<OneWay> one_ways;
  std::size_t driving = 0; ///< bodies
  std::size_t driven = 0;
  int way = 1; ///< in which `driving` turns
};

enum class SettledTo { drives, neutral, locked };

struct Settled {
  SettledTo to = SettledTo::neutral;
  std::vector<std::size_t> holding; ///< of SettleTask::one_ways: what has to carry torque
  std::vector<std::size_t> helping; ///< those that stand and may share what others carry
  std::vector<Coupling> couplings;  ///< the closed, the holding, the helping
  SolutionSpace speeds;             ///< with `driving` turning once that way
  SolutionSpace torques; ///< drives only: with torque `way` on `driving`; the last: on `driven`
};

Settled settle(const SettleTask& task);

} // namespace lugline
