#include "scene/drive/train_work.h"

#include <algorithm>
#include <cmath>

namespace lugline {

namespace {

// Does this one-way clutch, if it is one, carry that torque the way that it holds?
bool can_carry(const WorkedTrain& worked, std::size_t element, const Rational& torque) {
  return std::ranges::all_of(worked.task.one_ways, [&](const OneWay& one) {
    return one.element != element || torque * one.free_way >= 0;
  });
}

} // namespace

void tell_shares(const WorkedTrain& worked, const Rational& scale, TrainAnswer& answer) {
  const SolutionSpace& torques = worked.settled.torques;
  std::vector<std::size_t> elements;
  std::vector<std::size_t> columns;
  for (const auto& [element, column] : worked.carrying()) {
    if (!torques.settles(column)) {
      elements.push_back(element);
      columns.push_back(column);
    }
  }
  const auto linked = [&](std::size_t a, std::size_t b) {
    return std::ranges::any_of(torques.directions, [&](const RationalRow& direction) {
      return direction[columns[a]] != 0 && direction[columns[b]] != 0;
    });
  };
  for (std::size_t i = 0; i < elements.size(); ++i) {
    for (std::size_t other = 0; other < elements.size(); ++other) {
      if (other != i && linked(i, other)) {
        answer.elements[elements[i]].shares_with.push_back(answer.elements[elements[other]].id);
      }
    }
  }
  for (const RationalRow& corner : corners_of(torques, columns)) {
    bool fits = true;
    for (std::size_t i = 0; i < elements.size(); ++i) {
      fits &= can_carry(worked, elements[i], corner[i]);
    }
    for (std::size_t i = 0; fits && i < elements.size(); ++i) {
      double& most = answer.elements[elements[i]].most_torque;
      most = std::max(most, std::abs(Rational(corner[i] * scale).convert_to<double>()));
    }
  }
}

} // namespace lugline
