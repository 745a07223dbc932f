#include "scene/drive/losses.h"

#include "scene/drive/train_words.h"
#include "scene/drive/train_work.h"

#include <cmath>
#include <cstdint>
#include <set>

namespace lugline {

namespace {

// Of each mesh: does gear a drive, gear b, or does nothing roll in it?
enum class Flow { none, from_a, from_b };

// The torque of the mesh on a body, with what the driven gear loses.
Rational lossy_torque_on(const ToothMesh& mesh, std::size_t body, Flow flow,
                         const Rational& efficiency) {
  const Rational one = 1;
  const Rational a = mesh.teeth_a * (flow == Flow::from_b ? efficiency : one);
  const Rational b =
      (mesh.internal ? -mesh.teeth_b : mesh.teeth_b) * (flow == Flow::from_a ? efficiency : one);
  Rational torque = 0;
  torque += mesh.a == body ? a : Rational(0);
  torque += mesh.b == body ? b : Rational(0);
  torque -= mesh.carrier == body ? a + b : Rational(0);
  return torque;
}

SolutionSpace lossy_torques(const WorkedTrain& worked, const std::vector<Flow>& flows,
                            const Rational& efficiency) {
  const SettleTask& task = worked.task;
  const TrainNetwork& network = task.train.network;
  std::vector<RationalRow> rows;
  RationalRow right;
  for (std::size_t body = 1; body <= network.unknowns(); ++body) {
    RationalRow row;
    for (std::size_t mesh = 0; mesh < network.meshes.size(); ++mesh) {
      row.push_back(lossy_torque_on(network.meshes[mesh], body, flows[mesh], efficiency));
    }
    for (const Coupling& coupling : worked.settled.couplings) {
      row.push_back((coupling.of == body ? 1 : 0) - (coupling.to == body ? 1 : 0));
    }
    row.push_back(body == task.driven ? 1 : 0);
    rows.push_back(std::move(row));
    right.push_back(body == task.driving ? -task.way : 0);
  }
  const std::size_t unknowns = network.meshes.size() + worked.settled.couplings.size() + 1;
  return solve(std::move(rows), std::move(right), unknowns);
}

// Who drives in each mesh, as seen from its carrier.
std::vector<Flow> flows_of(const WorkedTrain& worked, const SolutionSpace& torques) {
  const TrainNetwork& network = worked.task.train.network;
  std::vector<Flow> flows;
  for (std::size_t i = 0; i < network.meshes.size(); ++i) {
    const ToothMesh& mesh = network.meshes[i];
    const auto rolling =
        settled_value(worked.settled.speeds, row_of(network, Coupling{mesh.a, mesh.carrier}));
    // What the mesh puts on gear a, times its rolling speed: below nothing, gear a gives power.
    const int power = rolling ? (torques.point[i] * *rolling).sign() : 0;
    flows.push_back(power == 0 ? Flow::none : power < 0 ? Flow::from_a : Flow::from_b);
  }
  return flows;
}

// The flows that agree with the torques that they give; empty: there are none.
std::vector<Flow> agreed_flows(const WorkedTrain& worked, const Rational& efficiency) {
  std::vector<Flow> flows = flows_of(worked, worked.settled.torques);
  std::set<std::vector<Flow>> tried;
  while (tried.insert(flows).second) {
    const SolutionSpace torques = lossy_torques(worked, flows, efficiency);
    if (!torques.any || !torques.directions.empty()) {
      break;
    }
    const std::vector<Flow> next = flows_of(worked, torques);
    if (next == flows) {
      return flows;
    }
    flows = next;
  }
  return {};
}

Rational as_fraction(double share) {
  constexpr double parts = 1e9;
  return Rational(static_cast<std::int64_t>(std::llround(share * parts))) /
         Rational(static_cast<std::int64_t>(parts));
}

TrainLosses said(std::string words) {
  TrainLosses losses;
  losses.words = std::move(words);
  return losses;
}

} // namespace

TrainLosses losses_of(const Drive& drive, const AppliedElements& applied, TrainDuty duty,
                      double mesh_efficiency) {
  if (!(mesh_efficiency > 0 && mesh_efficiency <= 1)) {
    return said("The efficiency of a tooth mesh is above 0 and at most 1.");
  }
  const TrainAnswer answer = settle_train(drive, applied, duty);
  if (answer.state != TrainState::drives) {
    return said("No power goes through: " + answer.words);
  }
  const WorkedTrain worked = work_train(drive, applied, duty);
  if (!worked.settled.torques.directions.empty()) {
    return said("Several elements hold the same thing: balance does not tell how they share, so "
                "neither what the teeth lose.");
  }
  const Rational efficiency = as_fraction(mesh_efficiency);
  const std::vector<Flow> flows = agreed_flows(worked, efficiency);
  if (flows.empty()) {
    return said("No direction of the power through the teeth agrees with its own losses: the train "
                "locks itself.");
  }
  const SolutionSpace torques = lossy_torques(worked, flows, efficiency);
  TrainLosses losses;
  const Rational way = worked.task.way;
  losses.lossless_torque =
      Rational(-worked.settled.torques.point.back() / way).convert_to<double>();
  losses.torque = Rational(-torques.point.back() / way).convert_to<double>();
  losses.efficiency = losses.torque / losses.lossless_torque;
  for (const auto& [element, column] : worked.carrying()) {
    losses.elements.emplace_back(drive.elements[element].id,
                                 Rational(torques.point[column] / way).convert_to<double>());
  }
  if (losses.efficiency <= 0) {
    return said("The teeth lose more than is put in: the train locks itself.");
  }
  losses.known = true;
  losses.words = print_figure(FigureOf::share, losses.efficiency, LengthUnit::millimetre) +
                 " of the power comes through the teeth.";
  return losses;
}

CalculationReport report_losses(const Drive& drive, const DriveRange& range, TrainDuty duty,
                                double mesh_efficiency) {
  const std::string title = "Losses in the teeth, " + (range.name.empty() ? range.id : range.name) +
                            (duty == TrainDuty::coast ? ", coasting" : "");
  const TrainLosses losses = losses_of(drive, applied_in(range), duty, mesh_efficiency);
  if (!losses.known) {
    return refused_report(title, losses.words);
  }
  CalculationReport report;
  report.id = range.id;
  report.title = title;
  report.inputs.push_back(
      {"efficiency of one mesh", FigureOf::share, mesh_efficiency, "as seen from its carrier"});
  report.working.push_back({"torque without losses", FigureOf::ratio, losses.lossless_torque,
                            "of what is driven, over what drives"});
  report.working.push_back({"torque with losses", FigureOf::ratio, losses.torque, "the same"});
  for (const auto& [id, torque] : losses.elements) {
    report.results.push_back({"torque on " + name_of_element(drive, id), FigureOf::ratio, torque,
                              "over what drives, with losses"});
  }
  report.results.push_back({"efficiency", FigureOf::share, losses.efficiency, ""});
  report.verdict_words = losses.words;
  report.notes = {"Bearings, churning and drag are not in it."};
  report.sources = {"H. W. Müller, Epicyclic Drive Trains: losses in the rolling frame (from "
                    "memory)",
                    "VDI 2157 (from memory)"};
  return report;
}

} // namespace lugline
