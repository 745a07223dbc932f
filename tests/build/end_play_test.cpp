// The whole demo unit's end plays, against the demo data's own tables: every selective
// washer, washers left out, the gasket free. All of it is invented.

#include "tests/build/demo.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

using namespace lugline;
using namespace lugline::test;

namespace {

double reading_mm(const Unit& unit, const Readings& readings, const std::string& step) {
  Workshop workshop(unit, readings);
  REQUIRE(workshop.refused().empty());
  const Simulation simulation = simulate(workshop);
  const auto& reading = simulation.outcomes[unit.step_index(step)].reading;
  REQUIRE(reading.has_value());
  return reading->value_m / mm;
}

double with_washer_mm(const std::string& washer, double thickness_mm, const std::string& step) {
  return reading_mm(*demo().unit, {{washer, {thickness_mm * mm, 0}}}, step);
}

Unit without(const std::string& part) {
  Unit unit = *demo().unit;
  std::erase_if(unit.steps, [&](const Step& step) {
    return step.part == part && (step.kind == StepKind::grease || step.kind == StepKind::place);
  });
  return unit;
}

} // namespace

TEST_CASE("each front end-play washer gives what its table says") {
  // (33.80 + 0.40 - 31.40) - T8
  for (const auto& [washer_mm, play_mm] : std::vector<std::pair<double, double>>{
           {1.8, 1.0}, {2.0, 0.8}, {2.2, 0.6}, {2.4, 0.4}, {2.6, 0.2}, {2.8, 0.0}}) {
    CAPTURE(washer_mm);
    CHECK(with_washer_mm("PU-T8", washer_mm, "front end play") == Approx(play_mm).margin(0.005));
  }
}

TEST_CASE("each rear end-play washer gives what its table says") {
  // 98.70 - 96.00 - W
  for (const auto& [washer_mm, play_mm] : std::vector<std::pair<double, double>>{
           {1.95, 0.75}, {2.1, 0.6}, {2.25, 0.45}, {2.4, 0.3}, {2.55, 0.15}, {2.7, 0.0}}) {
    CAPTURE(washer_mm);
    CHECK(with_washer_mm("RT-WR", washer_mm, "rear end play") == Approx(play_mm).margin(0.005));
  }
}

TEST_CASE("a washer too thick for any play stops the pump above its gasket") {
  Workshop workshop(*demo().unit, {{"PU-T8", {3.0 * mm, 0}}});
  const Simulation simulation = simulate(workshop);
  const StepOutcome& torque = simulation.outcomes[demo().unit->step_index("pump torque")];
  REQUIRE_FALSE(torque.problems.empty());
  CHECK(torque.problems.front().find("stops 0.20 mm above where it is drawn to") !=
        std::string::npos);
}

TEST_CASE("T7 or T10 left out adds its own thickness to the front end play") {
  CHECK(reading_mm(without("MC-T7"), {}, "front end play") == Approx(2.00).margin(0.005));
  CHECK(reading_mm(without("UC-T10"), {}, "front end play") == Approx(2.00).margin(0.005));
}

TEST_CASE("with the gasket counted free the front end play is 0.15 more than it will be") {
  Unit unit = *demo().unit;
  // Held where it lies on the free gasket: 318.30 + 0.55.
  unit.steps[unit.step_index("pump torque")].press_to_m = 318.85 * mm;
  CHECK(reading_mm(unit, {}, "front end play") == Approx(0.55).margin(0.005));
}

TEST_CASE("an older washer reads the end play that it was found with") {
  // T8 2.06, T7 1.52, T6 1.58 as found: T6 and T7 each give the drum less to stand on.
  const Readings worn{
      {"PU-T8", {2.06 * mm, 0}}, {"MC-T7", {1.52 * mm, 0}}, {"CS-T6", {1.58 * mm, 0}}};
  CHECK(reading_mm(*demo().unit, worn, "front end play") == Approx(0.84).margin(0.005));
}
