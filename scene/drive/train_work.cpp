#include "scene/drive/train_work.h"

#include <algorithm>

namespace lugline {

namespace {

bool holds_id(const std::vector<std::string>& ids, const std::string& id) {
  return std::ranges::find(ids, id) != ids.end();
}

WorkedTrain pose(const Drive& drive, const AppliedElements& applied) {
  WorkedTrain posed;
  posed.task.train = network_of(drive);
  for (std::size_t i = 0; i < drive.elements.size(); ++i) {
    const DriveElement& element = drive.elements[i];
    const Coupling coupling{posed.task.train.body(element.of), posed.task.train.body(element.to)};
    if (holds_id(applied.on, element.id)) {
      posed.task.closed.push_back(coupling);
      posed.closed_elements.push_back(i);
    } else if (element.kind == ElementKind::one_way_clutch &&
               !holds_id(applied.missing, element.id)) {
      const bool with_engine = element.free_clockwise == drive.engine_clockwise;
      const bool turned = holds_id(applied.reversed, element.id);
      posed.task.one_ways.push_back({i, coupling, with_engine != turned ? 1 : -1});
    }
  }
  return posed;
}

} // namespace

std::vector<std::pair<std::size_t, std::size_t>> WorkedTrain::carrying() const {
  std::vector<std::size_t> elements = closed_elements;
  std::vector<std::size_t> one_ways = settled.holding;
  one_ways.insert(one_ways.end(), settled.helping.begin(), settled.helping.end());
  std::ranges::sort(one_ways); // the order of Settled::couplings
  for (const std::size_t i : one_ways) {
    elements.push_back(task.one_ways[i].element);
  }
  std::vector<std::pair<std::size_t, std::size_t>> columns;
  for (std::size_t i = 0; i < elements.size(); ++i) {
    columns.emplace_back(elements[i], task.train.network.meshes.size() + i);
  }
  return columns;
}

WorkedTrain work_train(const Drive& drive, const AppliedElements& applied, TrainDuty duty) {
  WorkedTrain worked = pose(drive, applied);
  SettleTask& task = worked.task;
  const std::size_t input = task.train.body(drive.input);
  const std::size_t output = task.train.body(drive.output);
  task.driving = input;
  task.driven = output;
  worked.settled = settle(task);
  if (duty == TrainDuty::coast) {
    // The output turns as it would be driven; where it would not, as the engine turns.
    const bool drives = worked.settled.to == SettledTo::drives;
    task.way = drives ? worked.settled.speeds.point[output - 1].sign() : 1;
    task.driving = output;
    task.driven = input;
    worked.settled = settle(task);
  }
  return worked;
}

Rational torque_on(const ToothMesh& mesh, std::size_t body) {
  const Rational a = mesh.teeth_a;
  const Rational b = mesh.internal ? -mesh.teeth_b : mesh.teeth_b;
  Rational torque = 0;
  torque += mesh.a == body ? a : Rational(0);
  torque += mesh.b == body ? b : Rational(0);
  torque -= mesh.carrier == body ? a + b : Rational(0);
  return torque;
}

} // namespace lugline
