#include "scene/drive/train_work.h"

#include <algorithm>
#include <cmath>

namespace lugline {

namespace {

RationalRow row_of_multipliers(const WorkedTrain& worked, const std::vector<std::size_t>& meshes,
                               std::size_t body) {
  RationalRow row(worked.settled.torques.point.size(), 0);
  for (const std::size_t mesh : meshes) {
    row[mesh] += torque_on(worked.task.train.network.meshes[mesh], body);
  }
  return row;
}

// A set's torques on its three members, and their powers: is everything balanced?
class SetTeller {
public:
  SetTeller(const WorkedTrain& worked, const Rational& scale, const Rational& speed_scale)
      : worked_(worked), scale_(scale), speed_scale_(speed_scale) {}

  bool tell(const std::string& id, const SetBodies& bodies, SetTorques& torques) {
    torques.set = id;
    torques.known = true;
    if (bodies.sun) {
      torques.sun = take(bodies, *bodies.sun, torques);
    }
    if (bodies.ring) {
      torques.ring = take(bodies, *bodies.ring, torques);
    }
    torques.carrier = take(bodies, bodies.carrier, torques);
    torques.greatest_power = exact_figure(greatest_);
    return !torques.known || (turning_known_ && torque_ == 0 && power_ == 0);
  }

private:
  ExactFigure take(const SetBodies& bodies, std::size_t body, SetTorques& torques) {
    const auto value =
        settled_value(worked_.settled.torques, row_of_multipliers(worked_, bodies.meshes, body));
    if (!value) {
      torques.known = false;
      return {};
    }
    const Rational torque = *value * scale_;
    torque_ += torque;
    if (body != 0 && torque != 0) {
      turning_known_ &= worked_.settled.speeds.settles(body - 1);
      const Rational power = torque * worked_.settled.speeds.point[body - 1] * speed_scale_;
      power_ += power;
      greatest_ = std::max(greatest_, power < 0 ? Rational(-power) : power);
    }
    return exact_figure(torque);
  }

  const WorkedTrain& worked_;
  Rational scale_;
  Rational speed_scale_;
  Rational torque_ = 0;
  Rational power_ = 0;
  Rational greatest_ = 0;
  bool turning_known_ = true;
};

// By the case on the train: its elements', and what the meshes of gears that are fixed to it take.
std::optional<Rational> case_torque(const Drive& drive, const WorkedTrain& worked) {
  std::vector<std::size_t> meshes(worked.task.train.network.meshes.size());
  for (std::size_t i = 0; i < meshes.size(); ++i) {
    meshes[i] = i;
  }
  RationalRow row = row_of_multipliers(worked, meshes, 0);
  for (Rational& figure : row) {
    figure = -figure;
  }
  for (const auto& [element, column] : worked.carrying()) {
    row[column] += drive.elements[element].to == case_member ? 1 : 0;
    row[column] -= drive.elements[element].of == case_member ? 1 : 0;
  }
  return settled_value(worked.settled.torques, row);
}

} // namespace

void tell_torques(const Drive& drive, const WorkedTrain& worked, const Rational& scale,
                  const Rational& speed_scale, TrainAnswer& answer) {
  const SettleTask& task = worked.task;
  const SolutionSpace& torques = worked.settled.torques;
  for (ElementWork& work : answer.elements) {
    work.torque = ExactFigure{};
  }
  for (const auto& [element, column] : worked.carrying()) {
    ElementWork& work = answer.elements[element];
    work.torque.reset();
    if (torques.settles(column)) {
      work.torque = exact_figure(torques.point[column] * scale);
      work.most_torque = std::abs(work.torque->value);
    }
  }
  tell_shares(worked, scale, answer);
  bool sets_balance = true;
  for (std::size_t i = 0; i < drive.sets.size(); ++i) {
    SetTorques of_set;
    sets_balance &=
        SetTeller(worked, scale, speed_scale).tell(drive.sets[i].id, task.train.sets[i], of_set);
    answer.sets.push_back(std::move(of_set));
  }
  const bool pull = answer.duty == TrainDuty::pull;
  const Rational driving = task.way * scale;
  const Rational reacting = torques.point.back() * scale;
  const Rational in = pull ? driving : reacting;
  const Rational out = pull ? reacting : driving;
  const RationalRow& speeds = worked.settled.speeds.point;
  answer.output_torque = exact_figure(out);
  if (const auto on_case = case_torque(drive, worked)) {
    answer.case_torque = exact_figure(*on_case * scale);
    answer.torques_balance = in + out + *on_case * scale == 0;
  }
  answer.powers_balance = sets_balance && in * speeds[task.train.body(drive.input) - 1] +
                                                  out * speeds[task.train.body(drive.output) - 1] ==
                                              0;
}

} // namespace lugline
