#include "scene/build/simulate.h"

#include "scene/build/steps.h"

#include <algorithm>

namespace lugline {

namespace {

using build::Bench;

void do_step(Bench bench) {
  const Step& step = bench.step;
  switch (step.kind) {
  case StepKind::place:
  case StepKind::grease:
    build::put_in(bench);
    break;
  case StepKind::refit:
    if (step.part.empty()) {
      bench.problem("a refit names the one part that goes back");
    } else {
      build::put_in(bench);
    }
    break;
  case StepKind::spread:
    build::spread_band(bench);
    break;
  case StepKind::bring:
    build::bring(bench);
    break;
  case StepKind::attach:
    build::attach_tool(bench);
    break;
  case StepKind::detach:
    build::take_out(bench, {step.part});
    break;
  case StepKind::take_out: {
    std::vector<std::string> ids = step.parts;
    if (!step.part.empty()) {
      ids.insert(ids.begin(), step.part);
    }
    build::take_out(bench, ids);
    break;
  }
  case StepKind::turn_over: {
    const Place* place = bench.workshop.unit().place(step.place);
    if (place == nullptr || bench.place().find(place->base) == nullptr) {
      bench.problem("there is nothing here to turn over");
    } else {
      build::judge_held_down(bench, bench.place());
      for (const std::string& id : turn_over(bench.workshop, bench.place(), place->base)) {
        bench.outcome.moved.push_back(id);
        bench.problem(build::fell_out(bench.workshop, id, " when the work is turned over"));
      }
      for (const Fitted& piece : bench.place().fitted) {
        bench.outcome.moved.push_back(piece.id);
      }
    }
    break;
  }
  case StepKind::press:
    build::press(bench);
    break;
  case StepKind::torque:
    build::draw_down(bench);
    break;
  case StepKind::soak:
  case StepKind::measure:
  case StepKind::check:
  case StepKind::note:
    break;
  }
  build::let_joints_go(bench);
  if (step.reading) {
    bench.outcome.reading = build::read_gauge(bench);
  }
}

} // namespace

const BuildState& Simulation::before(std::size_t step) const {
  static const BuildState nothing;
  return step == 0 ? nothing : after[step - 1];
}

Simulation simulate(Workshop& workshop) {
  Simulation simulation;
  BuildState state;
  for (const Step& step : workshop.unit().steps) {
    StepOutcome outcome;
    outcome.id = step.id;
    do_step({workshop, step, state, outcome});
    if (!step.elements.empty()) {
      build::blow({workshop, step, state, outcome}, simulation);
    }
    simulation.outcomes.push_back(std::move(outcome));
    simulation.after.push_back(state);
  }
  build::judge_mates(workshop, simulation);
  return simulation;
}

} // namespace lugline
