// An independent library on the same parts' meshes: FCL's static collision
// queries (never its continuous ones, which miss certain hits). A hair above
// its rest every pair is clear; a hair below it what carries the part is met.

#include "tests/build/demo.h"

#include "tests/fcl_model.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <memory>

using namespace lugline;
using namespace lugline::test;

namespace {

constexpr double hair_m = 0.02 * mm;

/// Models of the parts as they are drawn; each made once.
class Models {
public:
  explicit Models(const Demo& demo) : demo_(demo) {}

  std::shared_ptr<FclModel> of(const std::string& id) {
    const UnitComponent* component = demo_.unit->component(id);
    auto& model = made_[component->line];
    if (!model) {
      model = fcl_model_of(*component->mesh);
    }
    return model;
  }

  fcl::CollisionObjectd object(const Fitted& fitted, double raised_m) {
    const Solid& solid = demo_.unit->component(fitted.id)->part.solid;
    fcl::Transform3d pose = fcl::Transform3d::Identity();
    pose.translate(fcl::Vector3d(0, 0, fitted.height_m + raised_m));
    pose.rotate(Eigen::AngleAxisd(fitted.turn_rad, fcl::Vector3d::UnitZ()));
    if (fitted.over) {
      const double middle_m = (solid.low_m() + solid.high_m()) / 2;
      pose.translate(fcl::Vector3d(0, 0, middle_m));
      pose.rotate(Eigen::AngleAxisd(M_PI, fcl::Vector3d::UnitY()));
      pose.translate(fcl::Vector3d(0, 0, -middle_m));
    }
    return {of(fitted.id), pose};
  }

private:
  const Demo& demo_;
  std::map<std::string, std::shared_ptr<FclModel>> made_;
};

/// A spring or a wave plate drawn free does not fill the room it is squashed
/// to, a band is drawn in one of its states: the meshes cannot judge those.
bool drawn_as_it_stands(const Fitted& fitted) {
  return fitted.squashed_to_m == 0 && fitted.band_state.empty();
}

} // namespace

TEST_CASE("the mesh judge agrees with every rest of the demo's sequence") {
  Demo& d = demo();
  Models models(d);
  int met = 0;
  int clear = 0;
  for (std::size_t i = 0; i < d.unit->steps.size(); ++i) {
    const StepOutcome& outcome = d.simulation.outcomes[i];
    if (!outcome.lowered || !outcome.lowered->rest_m) {
      continue;
    }
    INFO("step " << d.unit->steps[i].id);
    const PlaceState& after = d.simulation.after[i].places.at(d.unit->steps[i].place);
    for (const std::string& moving_id : outcome.lowered->moving_ids) {
      const Fitted* moving = after.find(moving_id);
      REQUIRE(moving != nullptr);
      if (!drawn_as_it_stands(*moving)) {
        continue;
      }
      for (const std::string& below_id : outcome.lowered->below_ids) {
        const Fitted* below = after.find(below_id);
        if (!drawn_as_it_stands(*below)) {
          continue;
        }
        INFO(moving_id << " against " << below_id);
        auto still = models.object(*below, 0);
        auto raised = models.object(*moving, hair_m);
        CHECK_FALSE(meet(raised, still));
        ++clear;
        // A coil's end is a point of a six-sided wire, not the flat that a
        // ground spring has: its drawing stands off by its facets.
        const bool coils = d.unit->component(moving_id)->part.springs.has_value() ||
                           d.unit->component(below_id)->part.springs.has_value();
        if (!coils && moving_id == outcome.lowered->by && below_id == outcome.lowered->stands_on) {
          auto lowered = models.object(*moving, -hair_m);
          CHECK(meet(lowered, still));
          ++met;
        }
      }
    }
  }
  CHECK(met > 20);
  CHECK(clear > 200);
}

TEST_CASE("a friction turned off is met by the hub's teeth as the drop says") {
  Demo& d = demo();
  Models models(d);
  const std::size_t step = d.lowering("MC-DRUM");
  const PlaceState& before = d.simulation.before(step).places.at(d.unit->steps[step].place);
  for (int k = 1; k <= 4; ++k) {
    const std::string plate = "CC-F" + std::to_string(k);
    INFO(plate);
    LowerOptions options;
    options.off = {plate};
    options.seat = d.unit->steps[step].seat;
    options.expected_m = d.simulation.outcomes[step].lowered->expected_m;
    const InHand& hand = *d.simulation.outcomes[step].hand;
    const Lowered lowered = lower(*d.workshop, hand, before, options);
    PlaceState after = before;
    let_go(lowered, hand, {}, after);
    auto race = models.object(*after.find("OW-OR"), hair_m);
    auto friction = models.object(*after.find(plate), 0);
    CHECK_FALSE(meet(race, friction));
    auto pressed = models.object(*after.find("OW-OR"), -hair_m);
    CHECK(meet(pressed, friction));
  }
}
