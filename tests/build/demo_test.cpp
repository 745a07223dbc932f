// The demo unit against its data's own arithmetic. The figures are invented;
// each is worked out beside its check.

#include "tests/build/demo.h"

#include "scene/build/explain.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace lugline;
using namespace lugline::test;

namespace {

Lowered lower_again(const std::string& part, LowerOptions options, bool over = false) {
  Demo& d = demo();
  const std::size_t step = d.lowering(part);
  const Lowered& sound = *d.simulation.outcomes[step].lowered;
  options.seat = d.unit->steps[step].seat;
  options.expected_m = sound.expected_m;
  const PlaceState& place = d.simulation.before(step).places.at(d.unit->steps[step].place);
  const InHand hand = over ? one_part(*d.workshop, part, true) : *d.simulation.outcomes[step].hand;
  return lower(*d.workshop, hand, place, options);
}

} // namespace

TEST_CASE("the demo is sound") {
  Demo& d = demo();
  const CheckReport report = judge(*d.workshop, d.simulation);
  for (const Complaint& complaint : report.complaints) {
    UNSCOPED_INFO(text_of(complaint));
  }
  CHECK(report.sound);
  CHECK(report.steps.size() == d.unit->steps.size());
}

TEST_CASE("the packs close as their sums say, and lifting finds the same") {
  Demo& d = demo();
  const CheckReport report = judge(*d.workshop, d.simulation);
  REQUIRE(report.packs.size() == 3);
  for (const JudgedPack& pack : report.packs) {
    INFO(pack.report.id);
    if (pack.report.id == "CC") {
      // 161.50 - 141.00 - (2.80 + 4 x 1.50 + 4 x 1.60 + 4.40)
      CHECK(pack.report.stack_m / mm == Approx(19.60));
      CHECK(pack.report.clearance_m / mm == Approx(0.90));
      CHECK(pack.report.clearance_flat_m / mm == Approx(1.90));
    } else if (pack.report.id == "UC") {
      // 41.70 - 14.00 - (2.60 + 5 x 1.80 + 5 x 2.00 + 5.20), down from the web
      CHECK(pack.report.stack_m / mm == Approx(26.80));
      CHECK(pack.report.clearance_m / mm == Approx(0.90));
      CHECK(pack.report.clearance_flat_m / mm == Approx(1.90));
    } else {
      // 209.00 - 185.00 - (3.00 + 4 x 2.20 + 3 x 2.00 + 5.00)
      CHECK(pack.report.stack_m / mm == Approx(22.80));
      CHECK(pack.report.clearance_m / mm == Approx(1.20));
    }
    REQUIRE(pack.lifted_m.has_value());
    CHECK(*pack.lifted_m == Approx(pack.report.clearance_free_m).margin(1e-9));
    CHECK(pack.report.verdict == PackVerdict::inside);
  }
}

TEST_CASE("the case clutch's backing plate has one pose, 0.352 deg wide, either way up") {
  const Lowered right = lower_again("CC-BP", {});
  REQUIRE(right.seated);
  REQUIRE(right.poses.size() == 1);
  CHECK(right.poses.front().width_rad() / deg == Approx(0.352).margin(0.0005));
  const Lowered over = lower_again("CC-BP", {}, true);
  REQUIRE(over.poses.size() == 1);
  CHECK(over.poses.front().width_rad() / deg == Approx(0.352).margin(0.0005));
  CHECK(*over.rest_m == Approx(*right.rest_m).margin(1e-9));
}

TEST_CASE("each friction that is not picked up holds the drum by its own height") {
  // Friction 1's top at 146.90 less the race's tooth end at 145.20, then a
  // friction and a steel, 3.10, for each further one.
  const double expected_mm[] = {1.70, 4.80, 7.90, 11.00};
  Demo& d = demo();
  for (int i = 0; i < 4; ++i) {
    const std::string plate = "CC-F" + std::to_string(i + 1);
    LowerOptions options;
    options.off = {plate};
    const Lowered lowered = lower_again("MC-DRUM", options);
    INFO(plate);
    CHECK(lowered.stand_off_m / mm == Approx(expected_mm[i]).margin(1e-6));
    CHECK(lowered.stands_on == plate);
    CHECK_FALSE(lowered.seated);
    // Deeper ones are not reached; those above it, and the shaft, are.
    CHECK(lowered.engaged.size() == static_cast<std::size_t>(3 - i) + 1);
    CHECK(lowered.not_engaged.size() == static_cast<std::size_t>(i) + 1);
    const std::size_t step = d.lowering("MC-DRUM");
    const PlaceState& place = d.simulation.before(step).places.at(d.unit->steps[step].place);
    const InHand& hand = *d.simulation.outcomes[step].hand;
    const double sinks_m = weight_sinks_m(*d.workshop, lowered, place, mass_of(*d.workshop, hand));
    CHECK(sinks_m > 0.02 * mm);
    CHECK(sinks_m <= 1.0 * mm); // no more than the wave, 2.80 - 1.80
  }
}

TEST_CASE("the drum home, without its washer, and on the sun's spline") {
  Demo& d = demo();
  const Lowered home = lower_again("MC-DRUM", {});
  CHECK(home.seated);
  CHECK(*home.rest_m / mm == Approx(139.6));
  CHECK(home.stands_on == "CS-T6");
  // Shaft end at 196.00, spline in the tower from 178.50: 17.50.
  LowerOptions off;
  off.off = {"RT-SUN"};
  CHECK(lower_again("MC-DRUM", off).stand_off_m / mm == Approx(17.5));
  // Without the washer the tower's shoulder at 178.50 lands on the support's
  // hub at 178.00 before the hub is 1.60 low.
  const std::size_t step = d.lowering("MC-DRUM");
  const auto causes = likely_causes(*d.workshop, d.simulation, step);
  bool told = false;
  for (const Cause& cause : causes) {
    if (cause.part == "CS-T6" && cause.stand_off_m < 0) {
      told = true;
      CHECK(cause.stand_off_m / mm == Approx(-0.5));
    }
  }
  CHECK(told);
}

TEST_CASE("a reading of 1.65 has two explanations and both are offered") {
  Demo& d = demo();
  const auto causes =
      explain(*d.workshop, d.simulation, d.lowering("MC-DRUM"), 1.65 * mm, 0.1 * mm);
  std::vector<std::string> fitting;
  for (const Cause& cause : causes) {
    if (cause.fits) {
      fitting.push_back(cause.part);
    }
  }
  CHECK(fitting.size() == 2);
  CHECK(std::ranges::find(fitting, "CC-F1") != fitting.end());
  CHECK(std::ranges::find(fitting, "CS-T6") != fitting.end());
}

TEST_CASE("a measured thickness moves what is above it and the clearance") {
  Demo& d = demo();
  Workshop measured(*d.unit, {{"CC-S1", {1.40 * mm, 0.01 * mm}}});
  REQUIRE(measured.refused().empty());
  const Simulation simulation = simulate(measured);
  const CheckReport report = judge(measured, simulation);
  for (const JudgedPack& pack : report.packs) {
    if (pack.report.id == "CC") {
      CHECK(pack.report.clearance_m / mm == Approx(1.00));
      CHECK(pack.report.worst_case_m / mm == Approx(0.01));
    }
  }
  const std::size_t last = d.lowering("CC-BP");
  CHECK(*simulation.outcomes[last].lowered->rest_m / mm ==
        Approx(*d.simulation.outcomes[last].lowered->rest_m / mm - 0.10));
  CHECK_FALSE(Workshop(*d.unit, {{"NOT-THERE", {1 * mm, 0}}}).refused().empty());
}

namespace {

const JudgedPlay& play_of(const CheckReport& report, const std::string& id) {
  for (const JudgedPlay& play : report.plays) {
    if (play.id == id) {
      return play;
    }
  }
  FAIL("no play " << id);
  return report.plays.front();
}

/// What a step's gauge reads where the step that lays a part in is left out, and what
/// stood on it goes on whatever is there.
double reading_without_m(const std::string& part, const std::string& at_step) {
  Unit unit = *demo().unit;
  std::erase_if(unit.steps, [&](const Step& step) {
    return step.part == part && (step.kind == StepKind::place || step.kind == StepKind::grease);
  });
  for (Step& step : unit.steps) {
    step.seat = step.seat == part ? "" : step.seat;
  }
  Workshop workshop(unit, Readings{});
  const Simulation simulation = simulate(workshop);
  const auto& reading = simulation.outcomes[unit.step_index(at_step)].reading;
  REQUIRE(reading);
  return reading->value_m;
}

} // namespace

TEST_CASE("the rear gear train stands at the heights of its data") {
  Demo& d = demo();
  const PlaceState& place = d.simulation.after[d.step("train in")].places.at("case");
  const std::pair<const char*, double> heights_mm[] = {
      {"RT-WR", 0},     {"RT-OUT", 2.4},  {"RT-B1", 12.4},  {"RT-R1", 15.6},
      {"RT-MS", 5.0},   {"RT-MSR", 23.6}, {"RT-T1", 23.6},  {"RT-T4", 23.6},
      {"RT-SUN", 25.2}, {"RT-C1", 25.2},  {"RT-C1R", 59.3}, {"RT-T2", 59.2},
      {"RT-C2", 60.8},  {"RT-T3", 96.8},  {"RT-T5", 96.6},  {"RT-LRC", 99.5}};
  for (const auto& [id, height_mm] : heights_mm) {
    INFO(id);
    const Fitted* piece = place.find(id);
    REQUIRE(piece != nullptr);
    CHECK(piece->height_m / mm == Approx(height_mm).margin(0.005));
  }
  // 318.30 - (60.80 + 58.00)
  const auto& reading = d.simulation.outcomes[d.step("train depth")].reading;
  REQUIRE(reading);
  CHECK(reading->value_m / mm == Approx(199.5).margin(0.005));
}

TEST_CASE("plays of the rear train, over every path") {
  Demo& d = demo();
  const CheckReport report = judge(*d.workshop, d.simulation);
  // 98.70 - (2.40 + 10.00 + 3.20 + 8.00 + 1.60 + 34.00 + 1.60 + 36.00 + 1.60)
  CHECK(*play_of(report, "rear end play").play_m / mm == Approx(0.30).margin(0.005));
  // 98.70 - 23.60 - (1.60 + 71.40 + 1.60)
  CHECK(*play_of(report, "sun float").play_m / mm == Approx(0.50).margin(0.005));
  // 59.50 - 59.20, the ring against the upper face of its groove.
  CHECK(*play_of(report, "carrier play").play_m / mm == Approx(0.30).margin(0.005));
  for (const JudgedPlay& play : report.plays) {
    CHECK(play.inside);
  }
}

TEST_CASE("the reaction carrier out of mesh with the sun stands 23.80 proud") {
  LowerOptions off;
  off.off = {"RT-SUN"};
  const Lowered lowered = lower_again("RT-C2", off);
  CHECK(lowered.stand_off_m / mm == Approx(23.8).margin(0.005));
  CHECK(lowered.stands_on == "RT-SUN");
  const Lowered home = lower_again("RT-C2", {});
  CHECK(home.seated);
  // In mesh at every pitch of the front ring gear, which the cup holds still.
  CHECK(home.poses.size() == 75);
  // The rear pair, out of mesh with the ring gear: 51.20 - 30.80.
  off.off = {"RT-R1"};
  CHECK(lower_again("RT-C1", off).stand_off_m / mm == Approx(20.4).margin(0.005));
  CHECK(lower_again("RT-C1", {}).poses.size() == 12);
}

TEST_CASE("a washer or the bearing left out of the rear train is read at the cam") {
  const double sound_mm = 199.5;
  // Another path takes the load before the washer's gap closes: a carrier's front
  // plate over the end of a ring, 52.20 - 51.20 and 87.80 - 86.80.
  CHECK(reading_without_m("RT-T1", "train depth") / mm == Approx(sound_mm + 1.0).margin(0.005));
  CHECK(reading_without_m("RT-T2", "train depth") / mm == Approx(sound_mm + 1.0).margin(0.005));
  CHECK(reading_without_m("RT-B1", "train depth") / mm == Approx(sound_mm + 3.2).margin(0.005));
  CHECK(reading_without_m("RT-T4", "train depth") / mm == Approx(sound_mm).margin(0.005));
}

TEST_CASE("the thrust bearing with its lip on the flat stands 0.60 proud at the cam") {
  Unit unit = *demo().unit;
  for (Step& step : unit.steps) {
    step.way_up = step.id == "rear bearing" ? WayUp::turned_over : step.way_up;
  }
  Workshop workshop(unit, Readings{});
  const Simulation simulation = simulate(workshop);
  const auto& reading = simulation.outcomes[unit.step_index("train depth")].reading;
  REQUIRE(reading);
  CHECK(reading->value_m / mm == Approx(199.5 - 0.6).margin(0.005));
}

TEST_CASE("two washers of the rear train can be left out with every reading inside its limits") {
  // T3: R1, T4, sun, T5 and support take the load first: 98.70 - 98.20, not 0.30 + 1.60.
  CHECK(reading_without_m("RT-T3", "rear end play") / mm == Approx(0.50).margin(0.005));
  // T4: the sun sits on the main shaft's ring, at 25.10: 0.10 lower.
  CHECK(reading_without_m("RT-T4", "sun float") / mm == Approx(0.60).margin(0.005));
  CHECK(reading_without_m("RT-T4", "rear end play") / mm == Approx(0.30).margin(0.005));
}

TEST_CASE("a carrier too low on the bench is explained by the washers that give it") {
  Demo& d = demo();
  const auto causes = explain(*d.workshop, d.simulation, d.lowering("RT-C2"), -1.0 * mm, 0.1 * mm);
  bool bearing = false;
  std::vector<std::string> fitting;
  for (const Cause& cause : causes) {
    if (cause.fits) {
      fitting.push_back(cause.part);
    }
    if (cause.part == "RT-B1" && cause.stand_off_m < 0) {
      bearing = true;
      CHECK(cause.stand_off_m / mm == Approx(-3.2).margin(0.005));
    }
  }
  CHECK(bearing);
  CHECK(fitting == std::vector<std::string>{"RT-T1", "RT-T2"});
}
