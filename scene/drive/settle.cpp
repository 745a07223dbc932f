#include "scene/drive/settle.h"

#include <algorithm>
#include <bit>
#include <cassert>
#include <cstdint>

namespace lugline {

namespace {

Inequality the_free_way(const SettleTask& task, const SolutionSpace& speeds, const OneWay& one) {
  RationalRow row = row_of(task.train.network, one.coupling);
  for (Rational& figure : row) {
    figure *= one.free_way;
  }
  return along(speeds, row, false);
}

// Can all one-way clutches but the holding ones turn the way that they are free, or stand?
bool others_can_overrun(const SettleTask& task, const SolutionSpace& speeds,
                        std::uint32_t holding) {
  std::vector<Inequality> all;
  for (std::size_t i = 0; i < task.one_ways.size(); ++i) {
    if ((holding >> i & 1U) == 0) {
      all.push_back(the_free_way(task, speeds, task.one_ways[i]));
    }
  }
  return can_all_hold(std::move(all), speeds.directions.size());
}

// Its torque on `of` pushes it the way that it is free, since it holds against the other.
Inequality carries(const SettleTask& task, const SolutionSpace& torques, std::size_t coupling,
                   const OneWay& one, bool strict) {
  RationalRow row(torques.point.size(), 0);
  row[task.train.network.meshes.size() + coupling] = one.free_way;
  return along(torques, row, strict);
}

std::vector<Coupling> closed_with(const SettleTask& task, std::uint32_t holding) {
  std::vector<Coupling> couplings = task.closed;
  for (std::size_t i = 0; i < task.one_ways.size(); ++i) {
    if ((holding >> i & 1U) != 0) {
      couplings.push_back(task.one_ways[i].coupling);
    }
  }
  return couplings;
}

// Do the torques balance with the holding ones all pushed the way they hold?
bool torques_agree(const SettleTask& task, const SolutionSpace& torques, std::uint32_t holding) {
  if (!torques.any) {
    return false;
  }
  std::vector<Inequality> all;
  std::size_t coupling = task.closed.size();
  for (std::size_t i = 0; i < task.one_ways.size(); ++i) {
    if ((holding >> i & 1U) != 0) {
      all.push_back(carries(task, torques, coupling++, task.one_ways[i], false));
    }
  }
  return can_all_hold(std::move(all), torques.directions.size());
}

// The fewest first, so that a clutch that need not hold is not said to.
std::vector<std::uint32_t> every_choice(std::size_t count) {
  std::vector<std::uint32_t> choices;
  for (std::uint32_t choice = 0; choice < (1U << count); ++choice) {
    choices.push_back(choice);
  }
  std::ranges::stable_sort(choices, {}, [](std::uint32_t c) { return std::popcount(c); });
  return choices;
}

std::vector<std::size_t> members_of(std::uint32_t choice) {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < 32; ++i) {
    if ((choice >> i & 1U) != 0) {
      found.push_back(i);
    }
  }
  return found;
}

bool stands(const SettleTask& task, const SolutionSpace& speeds, const OneWay& one) {
  return settled_value(speeds, row_of(task.train.network, one.coupling)) == Rational(0);
}

// Could clutch `i`, which stands, carry part of what the others carry? It could if there is a way
// in which it does and each other carries all of its own or nothing: that leaves out those that
// would only be strained against each other.
bool could_help(const SettleTask& task, std::uint32_t holding, std::size_t i) {
  const std::uint32_t tried = holding | 1U << i;
  const SolutionSpace torques = torques_of(task.train.network, closed_with(task, tried),
                                           {{task.driving, task.way}}, {task.driven});
  std::vector<std::size_t> columns;
  for (std::size_t column = 0; column < closed_with(task, tried).size(); ++column) {
    columns.push_back(task.train.network.meshes.size() + column);
  }
  for (const RationalRow& corner : corners_of(torques, columns)) {
    bool fits = true;
    std::size_t column = task.closed.size();
    for (const std::size_t one : members_of(tried)) {
      const Rational push = corner[column++] * task.one_ways[one].free_way;
      fits &= one == i ? push > 0 : push >= 0;
    }
    if (fits) {
      return true;
    }
  }
  return false;
}

// A one-way clutch that stands beside those that hold carries part of it, if it is pushed the way
// that it holds: how much is not told by balance.
void add_helping(const SettleTask& task, Settled& settled, std::uint32_t holding) {
  std::uint32_t with_helping = holding;
  for (std::size_t i = 0; i < task.one_ways.size(); ++i) {
    if ((holding >> i & 1U) == 0 && stands(task, settled.speeds, task.one_ways[i]) &&
        could_help(task, holding, i)) {
      with_helping |= 1U << i;
      settled.helping.push_back(i);
    }
  }
  settled.couplings = closed_with(task, with_helping);
  settled.torques =
      torques_of(task.train.network, settled.couplings, {{task.driving, task.way}}, {task.driven});
}

} // namespace

Settled settle(const SettleTask& task) {
  const TrainNetwork& network = task.train.network;
  Settled settled;
  const SolutionSpace still =
      speeds_of(network, task.closed, {{task.driving, task.way}, {task.driven, Rational(0)}});
  if (still.any && others_can_overrun(task, still, 0)) {
    settled.couplings = task.closed;
    settled.speeds = still;
    return settled;
  }
  for (const std::uint32_t holding : every_choice(task.one_ways.size())) {
    const std::vector<Coupling> couplings = closed_with(task, holding);
    const SolutionSpace speeds = speeds_of(network, couplings, {{task.driving, task.way}});
    settled.holding = members_of(holding);
    settled.couplings = couplings;
    if (!speeds.any) {
      if (torques_agree(task, torques_of(network, couplings, {{task.driving, task.way}}, {}),
                        holding)) {
        settled.to = SettledTo::locked;
        settled.speeds = speeds_of(network, couplings, {});
        return settled;
      }
      continue;
    }
    if (!speeds.settles(task.driven - 1) || !others_can_overrun(task, speeds, holding)) {
      continue;
    }
    const SolutionSpace torques =
        torques_of(network, couplings, {{task.driving, task.way}}, {task.driven});
    if (torques_agree(task, torques, holding)) {
      settled.to = SettledTo::drives;
      settled.speeds = speeds;
      add_helping(task, settled, holding);
      return settled;
    }
  }
  assert(false && "one of the three is always so");
  return settled;
}

} // namespace lugline
