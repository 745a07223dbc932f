// Faults planted in the demo unit, and what the bench would read of each: the demo data's
// own figures, worked out beside each check. All of it is invented.

#include "tests/build/demo.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline;
using namespace lugline::test;

namespace {

bool puts_in(const Step& step) {
  return step.kind == StepKind::place || step.kind == StepKind::refit;
}

/// The demo with some of its plates never fitted, and taken off their packs' lists.
Unit without(const std::vector<std::string>& parts) {
  Unit unit = *demo().unit;
  for (const std::string& part : parts) {
    std::erase_if(unit.steps, [&](const Step& step) { return puts_in(step) && step.part == part; });
    for (Pack& pack : unit.packs) {
      std::erase(pack.plates, part);
    }
  }
  // What stood on a plate that is not there stands on the plate beneath it.
  for (Step& step : unit.steps) {
    if (std::ranges::find(parts, step.seat) != parts.end()) {
      step.seat.clear();
    }
  }
  return unit;
}

double clearance_mm(const Unit& unit, const std::string& pack) {
  Workshop workshop(unit, {});
  const CheckReport report = judge(workshop, simulate(workshop));
  for (const JudgedPack& judged : report.packs) {
    if (judged.report.id == pack) {
      return judged.report.clearance_free_m / mm;
    }
  }
  FAIL("there is no pack " << pack);
  return 0;
}

double turned_clearance_mm(const std::string& plate) {
  Demo& d = demo();
  const auto turned = pack_with_turned(*d.workshop, d.simulation, plate, d.lowering(plate));
  REQUIRE(turned.has_value());
  return turned->turned.clearance_m / mm;
}

/// What a gauge would read with the ring left on the other side of its groove.
double with_ring_down_mm(const std::string& pack, const std::string& ring_step) {
  Demo& d = demo();
  const StepOutcome& outcome = d.simulation.outcomes[d.step(ring_step)];
  REQUIRE(outcome.ring.has_value());
  return clearance_mm(*d.unit, pack) - outcome.ring->play_m / mm;
}

} // namespace

TEST_CASE("the case clutch's wave plate left out") {
  // 20.50 - (19.60 - 2.80)
  CHECK(clearance_mm(without({"CC-WAVE"}), "CC") == Approx(3.70).margin(0.005));
}

TEST_CASE("a middle clutch friction and a steel short") {
  // 24.00 - (22.80 - 2.20 - 2.00)
  CHECK(clearance_mm(without({"MC-F4", "MC-S3"}), "MC") == Approx(5.40).margin(0.005));
}

TEST_CASE("a middle clutch steel too many keeps the ring out") {
  Unit unit = *demo().unit;
  UnitComponent extra = *unit.component("MC-S3");
  extra.id = "MC-S4";
  extra.part.id = "MC-S4";
  unit.components.push_back(extra);
  const std::size_t last = unit.step_index("middle friction 4");
  Step more = *unit.step("middle steel 3");
  more.id = "middle steel 4";
  more.part = "MC-S4";
  more.seat = "MC-F4";
  more.key = "MC-S4/lug";
  unit.steps.insert(unit.steps.begin() + static_cast<std::ptrdiff_t>(last) + 1, more);
  unit.steps[unit.step_index("middle backing plate")].seat = "MC-S4";
  Workshop workshop(unit, {});
  const Simulation simulation = simulate(workshop);
  const StepOutcome& ring = simulation.outcomes[unit.step_index("middle ring")];
  // 24.00 - (22.80 + 2.00) = -0.80 under a ring pushed up. Squeezed on its way in the ring
  // rides on the plate's full face, 0.80 above its step.
  REQUIRE_FALSE(ring.problems.empty());
  CHECK(ring.problems.front().find("the stack is 1.60 mm too high") != std::string::npos);
  Pack pack = *unit.pack("MC");
  pack.plates.insert(pack.plates.end() - 1, "MC-S4");
  const auto report = pack_now(workshop, pack, simulation.after[unit.step_index("middle ring")]);
  REQUIRE(report.has_value());
  CHECK(report->clearance_m / mm == Approx(-0.80).margin(0.005));
}

TEST_CASE("backing plates the wrong way up cost their step, the cushion plate nothing") {
  CHECK(turned_clearance_mm("CC-BP") == Approx(0.30).margin(0.005));
  CHECK(turned_clearance_mm("MC-BP") == Approx(0.40).margin(0.005));
  CHECK(turned_clearance_mm("UC-CUSH") == Approx(0.90).margin(0.005));
}

TEST_CASE("read with the ring at the bottom of its groove every pack reads short") {
  // Groove 2.30, ring 2.00; groove 2.50, ring 2.00; groove 2.10, ring 1.80.
  CHECK(with_ring_down_mm("CC", "case clutch ring") == Approx(0.60).margin(0.005));
  CHECK(with_ring_down_mm("MC", "middle ring") == Approx(0.70).margin(0.005));
  CHECK(with_ring_down_mm("UC", "upper ring 1") == Approx(0.60).margin(0.005));
}

TEST_CASE("the support off its index stands on the case's rib") {
  Demo& d = demo();
  const std::size_t at = d.lowering("CS-01");
  const Lowered& sound = *d.simulation.outcomes[at].lowered;
  LowerOptions options;
  options.seat = d.unit->steps[at].seat;
  options.expected_m = sound.expected_m;
  options.wanted_turn_rad = 40 * deg;
  const PlaceState& place = d.simulation.before(at).places.at(d.unit->steps[at].place);
  const Lowered turned = lower(*d.workshop, *d.simulation.outcomes[at].hand, place, options);
  CHECK(turned.stand_off_m / mm == Approx(4.00).margin(0.005));
}

TEST_CASE("the support's ring the wrong way up leaves a play of 0.35") {
  Unit unit = *demo().unit;
  for (Step& step : unit.steps) {
    if (step.part == "CS-RING") {
      step.way_up = WayUp::turned_over;
    }
  }
  Workshop workshop(unit, {});
  const Simulation simulation = simulate(workshop);
  const StepOutcome& ring = simulation.outcomes[unit.step_index("support ring")];
  REQUIRE(ring.ring.has_value());
  CHECK(ring.ring->play_m / mm == Approx(0.35).margin(0.005));
  CHECK_FALSE(ring.problems.empty());
}

TEST_CASE("a washer typed as 0.040 that was 0.040 in is told by its unit") {
  // 0.040 in is 1.016 mm; 0.040 mm is a figure that no washer has.
  Workshop workshop(*demo().unit, {{"CS-T6", {0.040 * mm, 0}}});
  REQUIRE(workshop.refused().size() == 1);
  CHECK(workshop.refused().front().part == "CS-T6");
}
