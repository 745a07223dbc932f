// The animated model, played by a player of the tests' own and held against the simulation.

#include "scene/sheet/animation.h"
#include "tests/build/demo.h"
#include "tests/sheet/glb_player.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <set>

using namespace lugline;
using namespace lugline::test;

namespace {

constexpr double exact_m = 1e-5;

MotionOptions whole_of(const Unit& unit) {
  MotionOptions options;
  options.to = unit.steps.size() - 1;
  return options;
}

/// The demo's, made once.
struct Played {
  AnimationReport report;
  std::unique_ptr<GlbPlayer> player;
  std::map<std::string, Vec3> origins;
  std::vector<double> start_s;
  std::vector<double> rests_s;
};

Played play(const MotionOptions& options) {
  Demo& d = demo();
  Played played;
  played.report = animate(*d.workshop, d.simulation, options);
  played.player = std::make_unique<GlbPlayer>(played.report.glb);
  const auto& extras = played.player->document()["scenes"][0]["extras"];
  for (const auto& place : extras["places"]) {
    const auto& at = place["origin_m"];
    played.origins[place["id"]] = {at[0].get<double>(), -at[2].get<double>(), at[1].get<double>()};
  }
  for (const auto& step : extras["steps"]) {
    played.start_s.push_back(step["start_s"]);
    played.rests_s.push_back(step["rests_s"]);
  }
  return played;
}

const Played& whole() {
  static const Played played = play(whole_of(*demo().unit));
  return played;
}

/// Where the simulation has a piece, told without the code under test.
Placement stands(const Fitted& fitted, const Vec3& origin_m) {
  const Shape& shape = shape_of(*demo().workshop, fitted);
  Placement placement;
  if (fitted.over) {
    placement = Placement::turned_over(std::numbers::pi, (shape.low_m() + shape.high_m()) / 2);
  }
  return placement.then(Placement::turned(fitted.turn_rad))
      .then(Placement::moved({0, 0, fitted.height_m}))
      .then(Placement::moved(origin_m));
}

double apart_m(const Vec3& a, const Vec3& b) {
  return std::hypot(a.x - b.x, std::hypot(a.y - b.y, a.z - b.z));
}

double off_m(const NodePose& pose, const Placement& want) {
  double worst_m = 0;
  for (const Vec3& own : {Vec3{}, Vec3{0.1, 0, 0}, Vec3{0, 0.1, 0}, Vec3{0.03, 0.02, 0.1}}) {
    worst_m = std::max(worst_m, apart_m(pose.point(own), want.point(own)));
  }
  return worst_m;
}

/// Everything in the state stands there, and nothing else is shown.
void check_state(const Played& played, std::size_t animation, double time_s,
                 const BuildState& state) {
  Demo& d = demo();
  std::set<std::string> in;
  for (const auto& [place, what] : state.places) {
    for (const Fitted& fitted : what.fitted) {
      INFO("piece " << fitted.id << " in " << place << " at " << time_s << " s");
      in.insert(fitted.id);
      REQUIRE(played.origins.contains(place));
      const NodePose pose = played.player->pose(animation, time_s, fitted.id);
      CHECK(pose.scale == Vec3{1, 1, 1});
      CHECK(off_m(pose, stands(fitted, played.origins.at(place))) < exact_m);
      if (fitted.squashed_to_m > 0 && d.workshop->part(fitted.id).wave) {
        const Solid& free = d.workshop->part(fitted.id).solid;
        const NodePose gives = played.player->pose(animation, time_s, fitted.id + " height");
        const double share = fitted.squashed_to_m / (free.high_m() - free.low_m());
        CHECK(gives.scale.z == Approx(share).margin(1e-6));
        CHECK(gives.at_m.z + gives.scale.z * free.low_m() == Approx(free.low_m()).margin(exact_m));
      }
    }
  }
  for (const UnitComponent& component : d.unit->components) {
    if (played.player->has(component.id) && !in.contains(component.id)) {
      INFO("piece " << component.id << " at " << time_s << " s");
      CHECK(played.player->pose(animation, time_s, component.id).hidden());
    }
  }
}

} // namespace

TEST_CASE("at each step's end every piece stands where the simulation has it") {
  Demo& d = demo();
  REQUIRE(whole().start_s.size() == d.unit->steps.size());
  for (std::size_t i = 0; i < d.unit->steps.size(); ++i) {
    INFO("step " << d.unit->steps[i].id);
    if (whole().rests_s[i] > whole().start_s[i]) {
      check_state(whole(), 0, whole().rests_s[i] + 0.05, d.simulation.after[i]);
    }
  }
}

TEST_CASE("before its step a part is not shown, and then it hangs above where it goes") {
  Demo& d = demo();
  int hung = 0;
  for (std::size_t i = 1; i < d.unit->steps.size(); ++i) {
    INFO("step " << d.unit->steps[i].id);
    if (!(whole().rests_s[i] > whole().start_s[i])) {
      continue;
    }
    const double start_s = whole().start_s[i];
    check_state(whole(), 0, start_s - 0.05, d.simulation.before(i));
    const Moment begin = moment_of(*d.workshop, d.simulation, i, 0);
    for (const PosedPiece& piece : begin.pieces) {
      const bool there = d.simulation.before(i).place_with(piece.id) != nullptr;
      if (!piece.in_hand || there) {
        continue;
      }
      INFO("piece " << piece.id);
      const NodePose pose = whole().player->pose(0, start_s + 1e-4, piece.id);
      CHECK_FALSE(pose.hidden());
      Fitted fitted;
      fitted.id = piece.id;
      fitted.height_m = piece.height_m;
      fitted.turn_rad = piece.turn_rad;
      fitted.over = piece.over;
      fitted.band_state = piece.band_state;
      fitted.squashed_to_m = piece.squashed_to_m;
      const Placement hangs = stands(fitted, whole().origins.at(begin.place))
                                  .then(Placement::moved({piece.aside_m, 0, 0}));
      CHECK(off_m(pose, hangs) < 1e-4);
      ++hung;
    }
  }
  CHECK(hung > 80);
}

TEST_CASE("between its ends a step follows the timeline") {
  Demo& d = demo();
  int compared = 0;
  for (std::size_t i = 0; i < d.unit->steps.size(); ++i) {
    const StepKind kind = d.unit->steps[i].kind;
    const double length_s = whole().rests_s[i] - whole().start_s[i];
    if (length_s <= 0 || kind == StepKind::bring || kind == StepKind::turn_over) {
      continue;
    }
    INFO("step " << d.unit->steps[i].id);
    for (const double moment : {0.25, 0.5, 0.62, 0.83}) {
      const Moment now = moment_of(*d.workshop, d.simulation, i, moment);
      for (const PosedPiece& piece : now.pieces) {
        if (!piece.in_hand) {
          continue;
        }
        INFO("piece " << piece.id << " at " << moment);
        Fitted fitted;
        fitted.id = piece.id;
        fitted.height_m = piece.height_m;
        fitted.turn_rad = piece.turn_rad;
        fitted.over = piece.over;
        fitted.band_state = piece.band_state;
        fitted.squashed_to_m = piece.squashed_to_m;
        const Placement want = stands(fitted, whole().origins.at(now.place))
                                   .then(Placement::moved({piece.aside_m, 0, 0}));
        const NodePose pose =
            whole().player->pose(0, whole().start_s[i] + moment * length_s, piece.id);
        // A twentieth of a millimetre, and a tenth of a degree at a tenth of a metre.
        CHECK(off_m(pose, want) < 0.3e-3);
        ++compared;
      }
    }
  }
  CHECK(compared > 300);
}

TEST_CASE(
    "what is turned over goes over the right way round, in turns that no player can mistake") {
  Demo& d = demo();
  CHECK(whole().player->widest_turn_rad() < 50 * deg);
  int turned = 0;
  for (std::size_t i = 0; i < d.unit->steps.size(); ++i) {
    const Step& step = d.unit->steps[i];
    if (step.kind != StepKind::turn_over) {
      continue;
    }
    INFO("step " << step.id);
    const std::string base = d.unit->place(step.place)->base;
    const Fitted* was = d.simulation.before(i).places.at(step.place).find(base);
    REQUIRE(was != nullptr);
    // Its upper face goes over to the right as seen from 12 o'clock's far side: +x.
    const double side = was->over ? -1 : 1;
    double farthest = 0;
    for (int k = 0; k <= 40; ++k) {
      const double time_s = whole().start_s[i] + (whole().rests_s[i] - whole().start_s[i]) * k / 40;
      const NodePose pose = whole().player->pose(0, time_s, base);
      const double across = side * (pose.point({0, 0, 1}).x - pose.at_m.x);
      CHECK(across > -1e-6);
      farthest = std::max(farthest, across);
    }
    CHECK(farthest > 0.98);
    ++turned;
  }
  CHECK(turned > 0);
}

TEST_CASE("each step's own animation shows the same as the whole does then") {
  Demo& d = demo();
  std::size_t moving = 0;
  for (std::size_t i = 0; i < d.unit->steps.size(); ++i) {
    if (!(whole().rests_s[i] > whole().start_s[i])) {
      continue;
    }
    ++moving;
    INFO("step " << d.unit->steps[i].id);
    const std::size_t own = whole().player->animation(step_number(i) + d.unit->steps[i].id);
    // A few of the many: reading them all again for each would take minutes.
    if (i % 7 == 0) {
      check_state(whole(), own, 1e3, d.simulation.after[i]);
    }
  }
  CHECK(whole().player->animations() == moving + 1);
  CHECK(whole().report.animations == moving + 1);
  CHECK(moving > 100);
}

TEST_CASE("at rest the finished unit stands, and each mesh is there once") {
  Demo& d = demo();
  const auto& document = whole().player->document();
  std::set<std::string> in;
  for (const auto& [place, what] : d.simulation.after.back().places) {
    for (const Fitted& fitted : what.fitted) {
      in.insert(fitted.id);
    }
  }
  std::set<std::shared_ptr<const Mesh>> meshes;
  std::size_t shown = 0;
  for (const auto& node : document["nodes"]) {
    const UnitComponent* component = d.unit->component(node["name"]);
    if (component == nullptr) {
      continue;
    }
    meshes.insert(component->mesh);
    const bool hidden = node.contains("scale") && node["scale"] == std::vector<double>{0, 0, 0};
    INFO("node " << node["name"]);
    CHECK(hidden != in.contains(component->id));
    shown += hidden ? 0 : 1;
  }
  CHECK(shown == in.size());
  // All of the demo's nominal parts are as drawn, so none is stretched.
  CHECK(document["meshes"].size() == meshes.size());
  CHECK(whole().report.glb.size() < std::size_t{12} << 20);
}

TEST_CASE("the animated model says whose figures it shows, who decides, and what each step is") {
  Demo& d = demo();
  const auto& scene = whole().player->document()["scenes"][0];
  CHECK(scene["extras"]["label"] == "invented practice data");
  CHECK(scene["name"].get<std::string>().find("invented practice data") != std::string::npos);
  CHECK(scene["extras"]["notice"] == d.unit->notice);
  for (std::size_t i = 0; i < d.unit->steps.size(); ++i) {
    CHECK(scene["extras"]["steps"][i]["id"] == d.unit->steps[i].id);
    CHECK(scene["extras"]["steps"][i]["do"] == d.unit->steps[i].do_text);
  }
}

TEST_CASE("the same unit gives the same bytes") {
  Demo& d = demo();
  Workshop again(*d.unit, Readings{});
  const Simulation simulation = simulate(again);
  CHECK(animate(again, simulation, whole_of(*d.unit)).glb == whole().report.glb);
}

TEST_CASE("a span begins with what is in before it, and takes the seconds asked for") {
  Demo& d = demo();
  MotionOptions options;
  options.from = d.lowering("CC-F2");
  options.to = d.lowering("CC-F4");
  options.seconds = 2;
  const Played played = play(options);
  REQUIRE(played.start_s.size() == options.to - options.from + 1);
  std::size_t moving = 0;
  for (std::size_t i = 0; i < played.start_s.size(); ++i) {
    moving += played.rests_s[i] > played.start_s[i] ? 1 : 0;
    INFO("step " << d.unit->steps[options.from + i].id);
    if (played.rests_s[i] > played.start_s[i]) {
      check_state(played, 0, played.rests_s[i] + 0.05, d.simulation.after[options.from + i]);
    }
  }
  CHECK(played.report.seconds == Approx(2.0 * static_cast<double>(moving)));
  // The friction that the span begins with is there from the first moment, what was in before too.
  CHECK_FALSE(played.player->pose(0, 0, "CC-F2").hidden());
  CHECK_FALSE(played.player->pose(0, 0, "CC-F1").hidden());
  CHECK(played.player->pose(0, 0, "CC-F4").hidden());
}

TEST_CASE("a plate that was read thicker is as thick as it was read") {
  Demo& d = demo();
  const double nominal_m = d.workshop->part("CC-S1").figure("thickness")->value_m;
  Workshop thicker(*d.unit, Readings{{"CC-S1", {nominal_m + 0.2 * mm, 0}}});
  const Simulation simulation = simulate(thicker);
  const AnimationReport report = animate(thicker, simulation, whole_of(*d.unit));
  const GlbPlayer player(report.glb);
  const auto& document = player.document();
  CHECK(document["meshes"].size() == whole().player->document()["meshes"].size() + 1);
  for (const auto& node : document["nodes"]) {
    if (node["name"] == "CC-S1 mesh") {
      const auto& mesh = document["meshes"][node["mesh"].get<std::size_t>()];
      const auto& position =
          document["accessors"][mesh["primitives"][0]["attributes"]["POSITION"].get<std::size_t>()];
      const double steps = position["max"][1].get<double>() - position["min"][1].get<double>();
      CHECK(steps * node["scale"][1].get<double>() ==
            Approx(nominal_m + 0.2 * mm).margin(0.01 * mm));
    }
  }
}
