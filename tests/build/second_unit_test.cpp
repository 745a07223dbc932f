// The second demo unit against arithmetic worked out beside each check: nothing in
// the code knows the first one. All figures are invented.

#include "scene/build/explain.h"
#include "scene/build/judge.h"
#include "scene/load/load.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double inch = 25.4e-3;

struct Second {
  std::shared_ptr<const Unit> unit;
  std::unique_ptr<Workshop> workshop;
  Simulation simulation;
};

Second second_with(Readings readings = {}) {
  const LoadReport report = load_unit(std::string(LUGLINE_ROOT) + "/assets-demo/quernside-two");
  for (const Complaint& complaint : report.complaints) {
    UNSCOPED_INFO(text_of(complaint));
  }
  REQUIRE(report.unit != nullptr);
  Second made{report.unit, std::make_unique<Workshop>(*report.unit, std::move(readings)), {}};
  made.simulation = simulate(*made.workshop);
  return made;
}

const StepOutcome& outcome(const Second& second, const std::string& step) {
  const std::size_t at = second.unit->step_index(step);
  REQUIRE(at < second.unit->steps.size());
  return second.simulation.outcomes[at];
}

double stand_off_with_off(const Second& second, const std::string& steel) {
  const std::size_t at = second.unit->step_index("drum in");
  const Lowered& sound = *second.simulation.outcomes[at].lowered;
  LowerOptions options;
  options.seat = second.unit->steps[at].seat;
  options.expected_m = sound.expected_m;
  options.off = {steel};
  const PlaceState& place = second.simulation.before(at).places.at("housing");
  return lower(*second.workshop, *second.simulation.outcomes[at].hand, place, options).stand_off_m;
}

} // namespace

TEST_CASE("the second unit is sound") {
  const Second second = second_with();
  const CheckReport report = judge(*second.workshop, second.simulation);
  for (const Complaint& complaint : report.complaints) {
    UNSCOPED_INFO(text_of(complaint));
  }
  CHECK(report.sound);
}

TEST_CASE("a pack in inches under a tapered plate closes by its sum") {
  const Second second = second_with();
  const CheckReport report = judge(*second.workshop, second.simulation);
  REQUIRE(report.packs.size() == 1);
  const PackReport& pack = report.packs.front().report;
  // The plate is 5.00 less the taper's 0.02 a millimetre of diameter from 100 to 110,
  // where the ring bears: 4.80. The groove's load face is at 48.85, the ring 2.00.
  const double plates_m = 5 * 0.070 * inch + 5 * 0.080 * inch + 4.80 * mm;
  CHECK(pack.stack_m == Approx(plates_m).margin(1e-9));
  CHECK(pack.clearance_m == Approx(48.85 * mm - 2.00 * mm - 22.00 * mm - plates_m).margin(1e-9));
  REQUIRE(report.packs.front().lifted_m.has_value());
  CHECK(*report.packs.front().lifted_m == Approx(pack.clearance_m).margin(1e-9));
}

TEST_CASE("the tapered plate the wrong way up reads inside its limits: only looking tells") {
  const Second second = second_with();
  const auto turned = pack_with_turned(*second.workshop, second.simulation, "QC-BP",
                                       second.unit->step_index("backing plate"));
  REQUIRE(turned.has_value());
  CHECK(turned->as_laid.clearance_m / mm == Approx(1.00).margin(0.005));
  // Its full 5.00 stands under the ring.
  CHECK(turned->turned.clearance_m / mm == Approx(0.80).margin(0.005));
  CHECK(turned->turned.verdict == PackVerdict::inside);
}

TEST_CASE("a steel that is not on the hub holds the drum up by all that lies over it") {
  const Second second = second_with();
  // Hub teeth end at washer A 0.063 in + 33.90; the piston's face at home is at
  // washer A + 22.80 + 1.60 of washer B + the 8.00 from tower end to piston face.
  const double first_m = 33.90 * mm + 0.070 * inch - (22.80 + 1.60 + 8.00) * mm;
  const double pitch_m = 0.070 * inch + 0.080 * inch;
  for (int k = 1; k <= 5; ++k) {
    INFO("steel " << k);
    CHECK(stand_off_with_off(second, "QC-S" + std::to_string(k)) ==
          Approx(first_m + (k - 1) * pitch_m).margin(1e-6));
  }
}

TEST_CASE("a play is the shorter of two ways, whichever washer is fitted") {
  const auto play_with = [](double washer_m) {
    Readings readings;
    if (washer_m > 0) {
      readings["QW-C"] = {washer_m, 0};
    }
    const Second second = second_with(readings);
    const StepOutcome& step = outcome(second, "drum end play");
    REQUIRE(step.reading.has_value());
    return step.reading->value_m / mm;
  };
  // Boss of the cover at 58.30, boss of the drum at 56.00 (and 0.0002 of washer A's inch
  // figure): 2.30 less the washer; the skirt at 52.40, the floor at 52.00: 0.40.
  CHECK(play_with(0) == Approx(0.40).margin(0.001));
  CHECK(play_with(1.4 * mm) == Approx(0.40).margin(0.001));
  CHECK(play_with(2.0 * mm) == Approx(0.30).margin(0.001));
}
