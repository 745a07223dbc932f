// Packs, plays, readings and causes, on benches of a few rings.

#include "scene/build/explain.h"
#include "tests/build/small_unit.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline;
using namespace lugline::test;

namespace {

constexpr double mm = 1e-3;

bool says(const std::vector<Complaint>& complaints, const std::string& words) {
  return std::ranges::any_of(complaints, [&](const Complaint& complaint) {
    UNSCOPED_INFO(text_of(complaint));
    return text_of(complaint).find(words) != std::string::npos;
  });
}

bool says(const std::string& text, const std::string& words) {
  INFO(text);
  return text.find(words) != std::string::npos;
}

Component drum() {
  Component part = part_of("DRUM", ComponentKind::drum,
                           {ring_mm(10, 120, 0, 5), ring_mm(100, 120, 5, 15.7),
                            ring_mm(106, 120, 15.7, 18), ring_mm(100, 120, 18, 30)});
  Groove groove;
  groove.id = "ring";
  groove.low_m = 15.7 * mm;
  groove.high_m = 18 * mm;
  groove.bottom_m = 53 * mm;
  groove.land_m = 50 * mm;
  part.grooves = {groove};
  return part;
}

Component plate(const std::string& id, ComponentKind kind, double thickness_mm) {
  Component part = part_of(id, kind, {ring_mm(60, 98, 0, thickness_mm)});
  part.figures = {{"thickness", thickness_mm * mm, 0, thickness_mm * mm}};
  return part;
}

/// Piston 3, then steel 2, friction 1.6, backing plate 2.4 on a floor of 5: up to
/// 14; the ring of 2 loads at 16. The clearance is 2.
Bench pack_bench() {
  Bench bench;
  bench.add(drum());
  bench.add(plate("PIST", ComponentKind::piston, 3));
  bench.add(plate("S1", ComponentKind::steel, 2));
  bench.add(plate("F1", ComponentKind::friction, 1.6));
  bench.add(plate("BP", ComponentKind::backing_plate, 2.4));
  Component ring = part_of("RING", ComponentKind::snap_ring, {ring_mm(92, 105, 0, 2)});
  ring.ring = RingFigures{true, 53.5 * mm, 49 * mm, 2 * mm, 6.5 * mm, 0, false, 0};
  ring.figures = {{"thickness", 2 * mm, 0, 2 * mm}};
  bench.add(ring);
  bench.stand("bench", "DRUM");
  bench.add(in("bench", "PIST", "DRUM"));
  bench.add(in("bench", "S1", "PIST", JointKind::slides, "DRUM"));
  bench.add(in("bench", "F1", "S1", JointKind::turns));
  bench.add(in("bench", "BP", "F1", JointKind::slides, "DRUM"));
  Step closes = step_of(StepKind::place, "bench", "RING");
  closes.groove = "DRUM/ring";
  closes.joint = {JointKind::retained, "DRUM", false, ""};
  bench.add(closes);
  Pack pack;
  pack.id = "P";
  pack.name = "Pack";
  pack.piston = "PIST";
  pack.plates = {"S1", "F1", "BP"};
  pack.ring = "RING";
  pack.ring_host = "DRUM";
  pack.ring_groove = "ring";
  pack.clearance = {1 * mm, 3 * mm};
  bench.unit.packs = {pack};
  return bench;
}

Step reads(const std::string& of, double expect_mm) {
  Step step = step_of(StepKind::measure, "bench");
  step.reading = Reading{of, expect_mm * mm, (expect_mm - 0.01) * mm, (expect_mm + 0.01) * mm, 1};
  return step;
}

} // namespace

TEST_CASE("a small pack closes as its sum says") {
  Bench bench = pack_bench();
  bench.add(reads("clearance:P", 2));
  bench.work();
  CHECK(bench.problems().empty());
  CHECK(bench.check().sound);
}

TEST_CASE("a pack that lists its plates in another order than the steps lay them is told") {
  Bench bench = pack_bench();
  bench.unit.packs[0].plates = {"F1", "S1", "BP"};
  bench.work();
  CHECK(says(bench.check().complaints, "Pack lists F1 below S1, and the steps lay it above"));
}

TEST_CASE("an open pack says what is missing, by no limit, and cannot be read") {
  Bench bench = pack_bench();
  bench.unit.steps.erase(bench.unit.steps.begin() + 3); // the friction
  bench.unit.steps[3].seat = "S1";
  bench.add(reads("clearance:P", 2));
  bench.work();
  CHECK(says(bench.last_problems(), "\"clearance:P\" cannot be read here: F1 is not in"));
  CHECK_FALSE(says(bench.last_problems(), "it reads"));
  const CheckReport report = bench.check();
  CHECK(says(report.complaints, "Pack is never whole: F1 is not in"));
  REQUIRE(report.packs.size() == 1);
  CHECK(report.packs[0].report.verdict == PackVerdict::open);
  CHECK(report.packs[0].report.outside_by_m == 0);
  CHECK(report.packs[0].after_step.empty());
}

TEST_CASE("the doubt of the ring's thickness is in the pack's") {
  Bench bench = pack_bench();
  bench.readings = {{"RING", {2.1 * mm, 0.03 * mm}}, {"F1", {1.6 * mm, 0.04 * mm}}};
  bench.work();
  const CheckReport report = bench.check();
  CHECK(report.packs[0].report.clearance_m / mm == Approx(1.9));
  CHECK(report.packs[0].report.worst_case_m / mm == Approx(0.07));
  CHECK(report.packs[0].report.root_sum_square_m / mm == Approx(0.05));
}

TEST_CASE("a snap ring's height is told of its datum, as every part's") {
  Bench bench = pack_bench();
  for (UnitComponent& component : bench.unit.components) {
    if (component.id == "RING") {
      component.part.solid.rings[0].low_m = -1 * mm;
      component.part.solid.rings[0].high_m = 1 * mm;
    }
  }
  bench.work();
  // It lies on the groove's lower face, 15.7, and its datum is in its middle.
  CHECK(bench.piece("bench", "RING").height_m / mm == Approx(16.7));
  const CheckReport report = bench.check();
  REQUIRE(report.steps.back().rest_m);
  CHECK(*report.steps.back().rest_m / mm == Approx(16.7));
}

TEST_CASE("readings that no plate has are left out, each in its own words") {
  const auto why = [](const std::string& id, double thickness_mm, double plus_minus_mm = 0) {
    Bench bench = pack_bench();
    bench.readings = {{id, {thickness_mm * mm, plus_minus_mm * mm}}};
    bench.work();
    REQUIRE(bench.workshop().refused().size() == 1);
    CHECK(bench.workshop().refused()[0].part == id);
    CHECK(bench.workshop().readings().empty());
    return bench.workshop().refused()[0].why;
  };
  CHECK(says(why("S1", 60), "60.00 mm for a steel: between 0.10 mm and 25.00 mm"));
  CHECK(says(why("S1", 0.079), "\"0.079 in\""));
  CHECK(says(why("S1", 50.8), "\"2 mm\""));
  CHECK(says(why("S1", -2), "nothing at all"));
  CHECK(says(why("S1", 0), "nothing at all"));
  CHECK(says(why("S1", 7), "it should be about 2.00 mm"));
  CHECK(says(why("S1", 2, 1.5), "is no reading"));
  CHECK(says(why("DRUM", 2), "no thickness"));
  CHECK(says(why("NOBODY", 2), "no such component"));
  Bench bench = pack_bench();
  bench.readings = {{"S1", {1.9 * mm, 0.02 * mm}}};
  bench.work();
  CHECK(bench.workshop().refused().empty());
}

TEST_CASE("a play is the travel to the ring pushed up, with what lies loose on what moves") {
  Bench bench = pack_bench();
  bench.unit.plays = {{"float", "Float", {"BP"}, "6", {1.99 * mm, 2.01 * mm}, {}},
                      {"all", "All", {"PIST"}, "6", {1.99 * mm, 2.01 * mm}, {}}};
  bench.add(reads("play:float", 2));
  bench.work();
  CHECK(bench.problems().empty());
  const CheckReport report = bench.check();
  REQUIRE(report.plays.size() == 2);
  // The ring lies at 15.7 and could be lifted to 16: both plays end there.
  CHECK(report.plays[0].play_m.value() / mm == Approx(2.0));
  CHECK(report.plays[1].play_m.value() / mm == Approx(2.0));
  CHECK(report.sound);
}

TEST_CASE("a piston's play presses its springs together and is not stopped by them") {
  Bench bench = pack_bench();
  bench.add(springs_of("SPR", 40, 58, 9, 4));
  bench.unit.steps.resize(2);
  bench.unit.packs.clear();
  for (UnitComponent& component : bench.unit.components) {
    if (component.id == "PIST") {
      component.part.solid.rings = {ring_mm(30, 98, 0, 3)};
    }
  }
  bench.add(in("bench", "SPR", "PIST", JointKind::sprung, "PIST"));
  Step closes = step_of(StepKind::place, "bench", "RING");
  closes.groove = "DRUM/ring";
  bench.add(closes);
  bench.unit.plays = {{"stroke", "Stroke", {"PIST"}, "4", {7 * mm, 9 * mm}, {}}};
  bench.work();
  CHECK(bench.problems().empty());
  CHECK(bench.check().plays[0].play_m.value() / mm == Approx(8.0));
}

namespace {

/// A washer of 1.6 on a floor, a race of 4 on it, and a drum on the race.
Bench washer_bench() {
  Bench bench;
  bench.add(drum());
  bench.add(part_of("WASHER", ComponentKind::thrust_washer, {ring_mm(60, 90, 0, 1.6)}));
  bench.add(part_of("RACE", ComponentKind::other, {ring_mm(60, 90, 0, 4)}));
  bench.add(part_of("HUB", ComponentKind::hub, {ring_mm(60, 90, 0, 10)}));
  bench.stand("bench", "DRUM");
  bench.add(in("bench", "WASHER", "DRUM", JointKind::stuck, "DRUM"));
  bench.add(in("bench", "RACE", "WASHER"));
  bench.add(in("bench", "HUB", "RACE"));
  return bench;
}

} // namespace

TEST_CASE("a washer beneath another part is a cause too, left out or laid in twice") {
  Bench bench = washer_bench();
  bench.work();
  REQUIRE(bench.problems().empty());
  const auto causes = likely_causes(bench.workshop(), bench.simulation(), 3);
  REQUIRE(causes.size() == 2);
  CHECK(causes[0].words == "WASHER is left out");
  CHECK(causes[0].stand_off_m / mm == Approx(-1.6));
  CHECK(causes[1].words == "WASHER is laid in twice");
  CHECK(causes[1].stand_off_m / mm == Approx(1.6));
}

TEST_CASE("what is joined fast to a part that turns freely turns with it") {
  // A hub with one tooth and a washer with one tab stuck on it, both at 12 o'clock.
  Bench bench;
  bench.add(drum());
  bench.add(part_of("HUB", ComponentKind::hub,
                    {ring_mm(20, 60, 0, 3), ring_mm(50, 60, 3, 8, {sector_deg(0, 10)})}));
  bench.add(part_of("WASHER", ComponentKind::thrust_washer,
                    {ring_mm(20, 40, 0, 1), ring_mm(20, 40, 1, 3, {sector_deg(0, 10)})}));
  // The part has a slot for the tooth and a pocket for the tab, in line, and a lug
  // that the case holds at 20 deg.
  bench.add(part_of("CAGE", ComponentKind::support,
                    {ring_mm(96, 98, 0, 20, between({sector_deg(20, 12)}))}));
  bench.add(part_of("PART", ComponentKind::other,
                    {ring_mm(50, 60, 0, 6, between({sector_deg(0, 12)})),
                     ring_mm(20, 40, 0, 6, between({sector_deg(0, 12)})),
                     ring_mm(20, 98, 6, 8, {sector_deg(0, 10)})}));
  bench.stand("bench", "DRUM");
  bench.add(in("bench", "CAGE", "DRUM", JointKind::fixed, "DRUM"));
  bench.add(in("bench", "HUB", "DRUM", JointKind::turns));
  bench.add(in("bench", "WASHER", "HUB", JointKind::stuck, "HUB"));
  Step step = in("bench", "PART", "WASHER");
  step.turn_rad = 20.0 / 180 * 3.14159265358979;
  bench.add(step);
  bench.work();
  // Hub 5 to 8, washer to 9: the tab enters its pocket, and the part lies on the washer.
  CHECK(bench.problems().empty());
  CHECK(bench.piece("bench", "PART").height_m / mm == Approx(9));
  const double hub_rad = bench.piece("bench", "HUB").turn_rad;
  CHECK(hub_rad / 3.14159265358979 * 180 == Approx(20).margin(1.01));
  CHECK(bench.piece("bench", "WASHER").turn_rad == Approx(hub_rad));
}

namespace {

/// The pack above, closed by a ring of 1.6 that is `free_mm` high over its waves;
/// the groove is 2.3 high, from 15.7.
Bench waved_bench(double free_mm) {
  Bench bench = pack_bench();
  for (UnitComponent& component : bench.unit.components) {
    if (component.id == "RING") {
      component.part.solid.rings = {ring_mm(92, 105, 0, free_mm)};
      component.part.ring->thickness_m = 1.6 * mm;
      component.part.ring->free_height_m = free_mm * mm;
      component.part.figures = {{"thickness", 1.6 * mm, 0, free_mm * mm},
                                {"free height", free_mm * mm, 0, free_mm * mm}};
    }
  }
  return bench;
}

} // namespace

TEST_CASE("a waved ring takes up its groove's play, and the pack counts it flat") {
  Bench bench = waved_bench(2.8);
  bench.add(reads("clearance:P", 2.4)); // 18 - 1.6 - 14
  bench.work();
  CHECK(bench.problems().empty());
  const CheckReport report = bench.check();
  CHECK(report.packs[0].report.ring_face_m / mm == Approx(16.4));
  const Fitted& ring = bench.piece("bench", "RING");
  CHECK(ring.height_m / mm == Approx(15.7));
  CHECK(ring.squashed_to_m / mm == Approx(2.3));
  CHECK(*lifted_clearance(bench.workshop(), bench.unit.packs[0], bench.end()) / mm == Approx(2.4));
}

TEST_CASE("a waved ring lower than its groove stands free in it") {
  Bench bench = waved_bench(2.1);
  bench.work();
  CHECK(bench.problems().empty());
  CHECK(bench.piece("bench", "RING").squashed_to_m == 0);
}

TEST_CASE("a measured waved ring is counted as measured, and refused where flat it is too thick") {
  Bench bench = waved_bench(2.8);
  bench.readings = {{"RING", {1.7 * mm, 0.01 * mm}}};
  bench.work();
  CHECK(bench.check().packs[0].report.clearance_m / mm == Approx(2.3));
  bench.readings = {{"RING", {2.4 * mm, 0.01 * mm}}};
  bench.work();
  CHECK(says(bench.last_problems(),
             "RING, its waves pressed flat, is 0.10 mm thicker than its groove is high"));
}
