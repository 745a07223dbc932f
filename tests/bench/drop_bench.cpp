// The drop of the drum onto the full pack: all turn angles at once, exactly,
// beside FCL answering one angle of the same question by bisection over static
// queries on the meshes. Both in one run, since machines are noisy.

#include "scene/build/simulate.h"
#include "scene/load/load.h"

#include "tests/fcl_model.h"

#include <benchmark/benchmark.h>

#include <cmath>
#include <cstdlib>
#include <iostream>
#include <map>
#include <memory>

namespace {

using namespace lugline;
using test::FclModel;

struct Drum {
  std::shared_ptr<const Unit> unit;
  std::unique_ptr<Workshop> workshop;
  Simulation simulation;
  std::size_t step = 0;
  std::vector<std::unique_ptr<fcl::CollisionObjectd>> below;
  struct Moving {
    std::unique_ptr<fcl::CollisionObjectd> object;
    fcl::Transform3d home;
  };
  std::vector<Moving> moving;
  double rest_m = 0;
};

fcl::Transform3d pose_of(const Fitted& fitted, const Solid& solid) {
  fcl::Transform3d pose = fcl::Transform3d::Identity();
  pose.translate(fcl::Vector3d(0, 0, fitted.height_m));
  pose.rotate(Eigen::AngleAxisd(fitted.turn_rad, fcl::Vector3d::UnitZ()));
  if (fitted.over) {
    const double middle_m = (solid.low_m() + solid.high_m()) / 2;
    pose.translate(fcl::Vector3d(0, 0, middle_m));
    pose.rotate(Eigen::AngleAxisd(M_PI, fcl::Vector3d::UnitY()));
    pose.translate(fcl::Vector3d(0, 0, -middle_m));
  }
  return pose;
}

Drum make_drum() {
  Drum drum;
  const LoadReport loaded = load_unit(std::string(LUGLINE_ROOT) + "/assets-demo/hobspindle-three");
  if (!loaded.unit) {
    std::cerr << "the demo does not load\n";
    std::exit(1);
  }
  drum.unit = loaded.unit;
  drum.workshop = std::make_unique<Workshop>(*drum.unit, Readings{});
  drum.simulation = simulate(*drum.workshop);
  for (std::size_t i = 0; i < drum.unit->steps.size(); ++i) {
    const StepOutcome& outcome = drum.simulation.outcomes[i];
    if (outcome.lowered && outcome.hand && outcome.hand->lead == "MC-DRUM") {
      drum.step = i;
    }
  }
  const Lowered& lowered = *drum.simulation.outcomes[drum.step].lowered;
  drum.rest_m = *lowered.rest_m;
  const PlaceState& after =
      drum.simulation.after[drum.step].places.at(drum.unit->steps[drum.step].place);
  std::map<std::string, std::shared_ptr<FclModel>> models;
  const auto object = [&](const std::string& id) {
    const UnitComponent* component = drum.unit->component(id);
    auto& model = models[component->line];
    if (!model) {
      model = test::fcl_model_of(*component->mesh);
    }
    return std::make_unique<fcl::CollisionObjectd>(model,
                                                   pose_of(*after.find(id), component->part.solid));
  };
  for (const std::string& id : lowered.below_ids) {
    // What is squashed is not drawn at its height, and carries nothing here.
    if (after.find(id)->squashed_to_m == 0 && after.find(id)->band_state.empty()) {
      drum.below.push_back(object(id));
    }
  }
  for (const std::string& id : lowered.moving_ids) {
    if (after.find(id)->squashed_to_m == 0) {
      auto made = object(id);
      const fcl::Transform3d home = made->getTransform();
      drum.moving.push_back({std::move(made), home});
    }
  }
  return drum;
}

Drum& drum() {
  static Drum made = make_drum();
  return made;
}

void exact_all_turns(benchmark::State& state) {
  const DropQuestion& question = drum().simulation.outcomes[drum().step].lowered->question;
  double rest_m = 0;
  for (auto _ : state) {
    const DropAnswer answer = drop(question);
    rest_m = *answer.lowest().rest_m;
    benchmark::DoNotOptimize(answer);
  }
  state.counters["rest_mm"] = rest_m * 1e3;
}
BENCHMARK(exact_all_turns)->Unit(benchmark::kMillisecond);

bool meets_at(double raised_m) {
  for (Drum::Moving& moving : drum().moving) {
    fcl::Transform3d pose = fcl::Transform3d::Identity();
    pose.translate(fcl::Vector3d(0, 0, raised_m));
    moving.object->setTransform(pose * moving.home);
    for (auto& below : drum().below) {
      if (test::meet(*moving.object, *below)) {
        return true;
      }
    }
  }
  return false;
}

/// One angle, to a hundredth of a millimetre, between 2 mm below and 20 above home.
void fcl_one_turn(benchmark::State& state) {
  double rest_m = 0;
  for (auto _ : state) {
    double low_m = -2e-3;
    double high_m = 20e-3;
    while (high_m - low_m > 0.01e-3) {
      const double middle_m = (low_m + high_m) / 2;
      (meets_at(middle_m) ? low_m : high_m) = middle_m;
    }
    rest_m = drum().rest_m + high_m;
  }
  state.counters["rest_mm"] = rest_m * 1e3;
}
BENCHMARK(fcl_one_turn)->Unit(benchmark::kMillisecond);

} // namespace
