// Turning over, pressing, letting go, tools and bands, on benches of a few rings.

#include "tests/build/small_unit.h"

#include <catch2/catch.hpp>

#include <numbers>

using namespace lugline;
using namespace lugline::test;

namespace {

constexpr double mm = 1e-3;

bool says(const std::string& text, const std::string& words) {
  INFO(text);
  return text.find(words) != std::string::npos;
}

/// A cup: a floor of 5, a wall up to 60 with a bore of 100, and a hub of 20.
Component cup(bool groove_in_wall = true) {
  Component part =
      part_of("CUP", ComponentKind::drum,
              {ring_mm(10, 120, 0, 5), ring_mm(100, 120, 5, 60), ring_mm(10, 20, 5, 40)});
  Groove groove;
  groove.id = "ring";
  groove.in_bore = groove_in_wall;
  groove.low_m = 40 * mm;
  groove.high_m = 42.3 * mm;
  groove.bottom_m = 53 * mm;
  groove.land_m = 50 * mm;
  part.grooves = {groove};
  return part;
}

Component snap_ring() {
  Component part = part_of("RING", ComponentKind::snap_ring, {ring_mm(92, 105, 0, 2)});
  RingFigures figures;
  figures.free_m = 53.5 * mm;
  figures.squeezed_m = 49 * mm;
  figures.thickness_m = 2 * mm;
  figures.width_m = 6.5 * mm;
  part.ring = figures;
  return part;
}

/// The cup, springs of 25 on its floor, and a retainer of 3 on them.
Bench sprung_cup(Component retainer = part_of("RET", ComponentKind::retainer,
                                              {ring_mm(60, 98, 0, 3)})) {
  Bench bench;
  bench.add(cup());
  bench.add(springs_of("SPR", 70, 90, 25, 8));
  bench.add(std::move(retainer));
  bench.add(snap_ring());
  bench.stand("bench", "CUP");
  bench.add(in("bench", "SPR", "CUP", JointKind::sprung, "CUP"));
  bench.add(in("bench", "RET", "SPR"));
  return bench;
}

Step press_to(double height_mm) {
  Step step = step_of(StepKind::press, "bench", "RET");
  step.press_to_m = height_mm * mm;
  return step;
}

Step let_go_of(const std::string& part) {
  Step step = step_of(StepKind::check, "bench");
  step.lets_go = {part};
  return step;
}

Step ring_in() {
  Step step = step_of(StepKind::place, "bench", "RING");
  step.groove = "CUP/ring";
  step.joint = {JointKind::retained, "CUP", false, ""};
  return step;
}

} // namespace

TEST_CASE("what nothing holds falls out of work that is turned over, and is told") {
  Bench bench;
  bench.add(cup());
  bench.add(part_of("PLATE", ComponentKind::steel, {ring_mm(60, 98, 0, 2)}));
  bench.add(part_of("WASHER", ComponentKind::thrust_washer, {ring_mm(30, 50, 0, 1)}));
  bench.stand("bench", "CUP");
  bench.add(in("bench", "PLATE", "CUP", JointKind::slides, "CUP"));
  bench.add(in("bench", "WASHER", "CUP", JointKind::stuck, "CUP"));
  bench.add(step_of(StepKind::turn_over, "bench"));
  bench.work();
  CHECK(says(bench.last_problems(), "PLATE falls out when the work is turned over"));
  CHECK_FALSE(says(bench.last_problems(), "WASHER"));
  CHECK(bench.end().places.at("bench").find("PLATE") == nullptr);
  CHECK(bench.end().places.at("bench").find("WASHER") != nullptr);
}

TEST_CASE("what a ring holds stays in when the work is turned over, and lies on the ring") {
  Bench bench;
  bench.add(cup());
  bench.add(part_of("PLATE", ComponentKind::steel, {ring_mm(60, 98, 0, 2)}));
  bench.add(snap_ring());
  bench.stand("bench", "CUP");
  bench.add(in("bench", "PLATE", "CUP", JointKind::slides, "CUP"));
  bench.add(ring_in());
  bench.add(step_of(StepKind::turn_over, "bench"));
  bench.work();
  CHECK(bench.problems().empty());
  // The cup's heights are 0 to 60: the groove, 40 to 42.3, is at 17.7 to 20, and the
  // ring of 2, which lay on its face at 40, falls to its face at 17.7.
  CHECK(bench.piece("bench", "RING").height_m / mm == Approx(60 - 42.3));
  CHECK(bench.piece("bench", "PLATE").height_m / mm == Approx(60 - 42.3 + 2));
  CHECK(bench.piece("bench", "PLATE").stands_on == "RING");
}

TEST_CASE("a sub-build brought turned over loses what is loose in it") {
  Bench bench;
  bench.add(cup());
  bench.add(part_of("PLATE", ComponentKind::steel, {ring_mm(60, 98, 0, 2)}));
  bench.add(part_of("TABLE", ComponentKind::other, {ring_mm(0, 300, -10, 0)}));
  bench.stand("bench", "CUP");
  bench.add(in("bench", "PLATE", "CUP", JointKind::slides, "CUP"));
  bench.stand("table", "TABLE");
  Step bring = step_of(StepKind::bring, "table", "CUP");
  bring.brings = "bench";
  bring.seat = "TABLE";
  bring.way_up = WayUp::turned_over;
  bench.add(bring);
  bench.work();
  CHECK(says(bench.last_problems(), "PLATE falls out"));
  CHECK(bench.end().places.at("table").find("PLATE") == nullptr);
}

TEST_CASE("springs are pressed together by as much as what stands on them goes down") {
  // The retainer hangs on its outer flange: its datum, and its rim, are 4 lower.
  Bench bench = sprung_cup(
      part_of("RET", ComponentKind::retainer, {ring_mm(40, 60, 0, 7), ring_mm(60, 98, 4, 7)}));
  bench.add(press_to(16));
  bench.work();
  CHECK(bench.problems().empty());
  // At rest the flange is at 30, the datum at 26: 10 down leaves the springs 15.
  CHECK(bench.piece("bench", "RET").height_m / mm == Approx(16));
  CHECK(bench.piece("bench", "SPR").squashed_to_m / mm == Approx(15));
}

TEST_CASE("springs pressed in work that stands upside down") {
  Bench bench;
  Component stool =
      part_of("STOOL", ComponentKind::other, {ring_mm(10, 120, 0, 5), ring_mm(10, 20, -30, 0)});
  bench.add(stool);
  bench.add(springs_of("SPR", 70, 90, 25, 8));
  bench.add(part_of("RET", ComponentKind::retainer, {ring_mm(60, 98, 0, 3)}));
  bench.stand("bench", "STOOL");
  bench.add(step_of(StepKind::turn_over, "bench"));
  bench.add(in("bench", "SPR", "STOOL", JointKind::sprung, "STOOL"));
  bench.unit.steps.back().way_up = WayUp::turned_over;
  bench.add(in("bench", "RET", "SPR"));
  bench.unit.steps.back().way_up = WayUp::turned_over;
  bench.work();
  REQUIRE(bench.problems().empty());
  const double rests_m = bench.piece("bench", "RET").height_m;
  bench.add(press_to(rests_m / mm - 6));
  bench.add(step_of(StepKind::note, "bench"));
  bench.work();
  CHECK(bench.problems().empty());
  CHECK(bench.piece("bench", "SPR").squashed_to_m / mm == Approx(19));
}

TEST_CASE("let go, springs raise the retainer to its ring, and no farther than they reach") {
  SECTION("the ring is in reach") {
    Bench bench = sprung_cup();
    bench.unit.components[0].part.grooves[0].low_m = 20 * mm;
    bench.unit.components[0].part.grooves[0].high_m = 22.3 * mm;
    bench.add(press_to(15));
    bench.add(ring_in());
    bench.add(let_go_of("RET"));
    bench.work();
    CHECK(bench.problems().empty());
    // Loaded the ring's lower face is at 20.3, the retainer's upper face too.
    CHECK(bench.piece("bench", "RING").height_m / mm == Approx(20.3));
    CHECK(bench.piece("bench", "RET").height_m / mm == Approx(17.3));
    CHECK(bench.piece("bench", "SPR").squashed_to_m / mm == Approx(12.3));
    CHECK(bench.piece("bench", "RET").joint.kind == JointKind::retained);
  }
  SECTION("the ring is farther away than the springs reach") {
    Bench bench = sprung_cup();
    bench.add(press_to(15));
    bench.add(ring_in());
    bench.add(let_go_of("RET"));
    bench.work();
    CHECK(bench.problems().empty());
    CHECK(bench.piece("bench", "RET").height_m / mm == Approx(30));
    CHECK(bench.piece("bench", "SPR").squashed_to_m / mm == Approx(25));
    CHECK(bench.piece("bench", "RET").joint.kind == JointKind::loose);
  }
}

TEST_CASE("the ring that keeps a retainer is pushed up in work that stands upside down too") {
  // The groove is at 40 to 42.3 of a cup of 60: turned over at 17.7 to 20. Its
  // floor is above then, so the cup is open at both ends here.
  Bench bench;
  Component sleeve =
      part_of("CUP", ComponentKind::drum, {ring_mm(100, 120, 0, 60), ring_mm(20, 100, 50, 55)});
  Groove groove;
  groove.id = "ring";
  groove.low_m = 30 * mm;
  groove.high_m = 32.3 * mm;
  groove.bottom_m = 53 * mm;
  groove.land_m = 50 * mm;
  groove.loads_up = false; // drawn as it stands in the finished unit: loads down
  sleeve.grooves = {groove};
  bench.add(sleeve);
  bench.add(springs_of("SPR", 70, 90, 25, 8));
  bench.add(part_of("RET", ComponentKind::retainer, {ring_mm(60, 98, 0, 3)}));
  bench.add(snap_ring());
  bench.stand("bench", "CUP");
  bench.add(step_of(StepKind::turn_over, "bench"));
  bench.add(in("bench", "SPR", "CUP", JointKind::sprung, "CUP"));
  bench.add(in("bench", "RET", "SPR"));
  bench.add(press_to(20));
  Step ring = ring_in();
  ring.way_up = WayUp::turned_over;
  bench.add(ring);
  bench.add(let_go_of("RET"));
  bench.work();
  CHECK(bench.problems().empty());
  // The floor is at 5 to 10, the groove at 27.7 to 30 with its load face on top.
  CHECK(bench.piece("bench", "RING").height_m / mm == Approx(28));
  CHECK(bench.piece("bench", "RET").height_m / mm == Approx(25));
  CHECK(bench.piece("bench", "SPR").squashed_to_m / mm == Approx(15));
}

TEST_CASE("pressed beyond solid, or with nothing beneath that gives, is told in plain figures") {
  SECTION("beyond solid") {
    Bench bench = sprung_cup();
    bench.add(press_to(10));
    bench.work();
    CHECK(says(bench.last_problems(), "SPR would be pressed 3.00 mm beyond solid"));
    CHECK(says(bench.last_problems(), "8.00 mm high"));
  }
  SECTION("through the floor") {
    Bench bench = sprung_cup();
    bench.add(press_to(-40));
    bench.work();
    CHECK(says(bench.last_problems(), "beyond solid"));
    CHECK_FALSE(says(bench.last_problems(), "-"));
  }
  SECTION("nothing gives") {
    Bench bench;
    bench.add(cup());
    bench.add(part_of("RET", ComponentKind::retainer, {ring_mm(60, 98, 0, 3)}));
    bench.stand("bench", "CUP");
    bench.add(in("bench", "RET", "CUP"));
    bench.add(press_to(2));
    bench.work();
    CHECK(says(bench.last_problems(), "nothing under RET gives"));
    CHECK(bench.piece("bench", "RET").height_m / mm == Approx(5));
  }
  SECTION("upward") {
    Bench bench = sprung_cup();
    bench.add(press_to(60));
    bench.work();
    CHECK(says(bench.last_problems(), "rests at 30.00 mm already"));
  }
}

TEST_CASE("a stack pressed on its wave plate goes down as one, and comes back") {
  Bench bench;
  bench.add(cup());
  Component wave = part_of("WAVE", ComponentKind::wave_plate, {ring_mm(60, 98, 0, 2.8)});
  wave.wave = WaveFigures{2.8 * mm, 1.8 * mm, 3};
  bench.add(wave);
  bench.add(part_of("S1", ComponentKind::steel, {ring_mm(60, 98, 0, 2)}));
  bench.add(part_of("RET", ComponentKind::backing_plate, {ring_mm(60, 98, 0, 4)}));
  bench.stand("bench", "CUP");
  bench.add(in("bench", "WAVE", "CUP"));
  bench.add(in("bench", "S1", "WAVE"));
  bench.add(in("bench", "RET", "S1"));
  bench.add(press_to(9));
  bench.work();
  CHECK(bench.problems().empty());
  CHECK(bench.piece("bench", "RET").height_m / mm == Approx(9));
  CHECK(bench.piece("bench", "S1").height_m / mm == Approx(7));
  CHECK(bench.piece("bench", "WAVE").squashed_to_m / mm == Approx(2));
  bench.add(let_go_of("RET"));
  bench.work();
  CHECK(bench.problems().empty());
  CHECK(bench.piece("bench", "RET").height_m / mm == Approx(9.8));
  CHECK(bench.piece("bench", "S1").height_m / mm == Approx(7.8));
}

TEST_CASE("only what is held can be let go, and a compressor comes off before the work moves") {
  SECTION("let go before it is pressed") {
    Bench bench = sprung_cup();
    bench.add(let_go_of("RET"));
    bench.work();
    CHECK(says(bench.last_problems(), "nothing holds RET, so it cannot be let go"));
  }
  SECTION("turned over with the compressor on") {
    Bench bench = sprung_cup();
    bench.add(press_to(16));
    bench.add(step_of(StepKind::turn_over, "bench"));
    bench.work();
    CHECK(says(bench.last_problems(), "RET is still held down"));
  }
  SECTION("carried with the compressor on") {
    Bench bench = sprung_cup();
    bench.add(press_to(16));
    bench.add(part_of("TABLE", ComponentKind::other, {ring_mm(0, 300, -10, 0)}));
    bench.stand("table", "TABLE");
    Step bring = step_of(StepKind::bring, "table", "CUP");
    bring.brings = "bench";
    bring.seat = "TABLE";
    bench.add(bring);
    bench.work();
    CHECK(says(bench.last_problems(), "RET is still held down"));
  }
}

TEST_CASE("a tool takes hold where the groove is, the work turned over or not") {
  const auto tool = [](double outer_diameter) {
    return part_of("TOOL", ComponentKind::tool,
                   {ring_mm(20, 90, 20, 30), ring_mm(88, outer_diameter, 0, 2)});
  };
  const auto attached = [&](bool over, double outer_diameter, bool tool_over = false) {
    Bench bench;
    Component sleeve = part_of(
        "CUP", ComponentKind::drum,
        {ring_mm(100, 120, 0, 40), ring_mm(106, 120, 40, 42.3), ring_mm(100, 120, 42.3, 60)});
    sleeve.grooves = cup().grooves;
    bench.add(sleeve);
    bench.add(tool(outer_diameter));
    bench.stand("bench", "CUP");
    if (over) {
      bench.add(step_of(StepKind::turn_over, "bench"));
    }
    Step attach = step_of(StepKind::attach, "bench", "TOOL");
    attach.groove = "CUP/ring";
    attach.way_up = tool_over ? WayUp::turned_over : WayUp::right;
    bench.add(attach);
    bench.work();
    return bench;
  };
  const Bench upright = attached(false, 104);
  CHECK(upright.problems().empty());
  CHECK(upright.piece("bench", "TOOL").height_m / mm == Approx(40.3));
  const Bench over = attached(true, 104);
  CHECK(over.problems().empty());
  CHECK(over.piece("bench", "TOOL").height_m / mm == Approx(18));
  // The tool turned over: its fingers are at 28 to 30 of its own height.
  const Bench tool_over = attached(false, 104, true);
  CHECK(tool_over.problems().empty());
  CHECK(tool_over.piece("bench", "TOOL").height_m / mm == Approx(12.3));
  CHECK(tool_over.piece("bench", "TOOL").over);
  CHECK(says(attached(false, 99).last_problems(), "do not reach into the groove"));
  CHECK(says(attached(false, 110).last_problems(), "do not go into the groove"));
}

namespace {

/// A case with a pin at 60 deg, and a band whose loop is at 60 deg.
Bench banded(double turn_deg, bool over) {
  constexpr double degree_rad = std::numbers::pi / 180;
  Bench bench;
  bench.add(
      part_of("CASE", ComponentKind::case_, {ring_mm(100, 220, 0, 5), ring_mm(200, 220, 5, 60)}));
  Component pin = part_of("PIN", ComponentKind::other,
                          {ring_mm(180, 200, 26, 34, {parallel_sector(60 * degree_rad, 8 * mm)})});
  pin.keys = {{"pin", "", 60 * degree_rad, 90 * mm, 100 * mm, 26 * mm, 34 * mm, 8 * mm}};
  bench.add(pin);
  Component band = part_of("BAND", ComponentKind::band, {ring_mm(150, 160, 0, 40)});
  band.solid.rings.push_back(ring_mm(160, 178, 10, 30, {sector_deg(60, 6)}));
  band.keys = {{"loop", "PIN/pin", 60 * degree_rad, 80 * mm, 89 * mm, 10 * mm, 30 * mm, 9 * mm}};
  band.band_states = {{"spread", band.solid}};
  bench.add(band);
  bench.stand("case", "CASE");
  Step pin_in = in("case", "PIN", "CASE", JointKind::retained, "CASE");
  pin_in.side_to_m = 0;
  bench.add(pin_in);
  Step spread = step_of(StepKind::spread, "case", "BAND");
  spread.seat = "PIN";
  spread.key = "BAND/loop";
  spread.band_state = "spread";
  spread.turn_rad = turn_deg * degree_rad;
  spread.way_up = over ? WayUp::turned_over : WayUp::right;
  bench.add(spread);
  bench.work();
  return bench;
}

} // namespace

TEST_CASE("a band hangs on its pin where its loop is, and nowhere else") {
  const Bench right = banded(0, false);
  CHECK(right.problems().empty());
  CHECK(right.piece("case", "BAND").height_m / mm == Approx(10));
  CHECK(says(banded(90, false).last_problems(), "its loop stands 90.0 deg away"));
  // Turned over its loop is at -60 deg; turned on by 120 it is back at the pin.
  CHECK(says(banded(0, true).last_problems(), "its loop stands 120.0 deg away"));
  const Bench turned = banded(120, true);
  CHECK(turned.problems().empty());
  const Fitted& band = turned.piece("case", "BAND");
  const Shape& shape = shape_of(turned.workshop(), band);
  CHECK(shape.rings()[1].sectors[0].from.angle_rad / std::numbers::pi * 180 == Approx(-63));
}

TEST_CASE("a part goes into a place only once its base stands there") {
  Bench bench;
  bench.add(cup());
  bench.add(part_of("PLATE", ComponentKind::steel, {ring_mm(60, 98, 0, 2)}));
  bench.unit.places.push_back({"bench", "bench", "CUP", {}});
  bench.add(in("bench", "PLATE", "CUP"));
  bench.work();
  CHECK(says(bench.problems(), "CUP, on which this place is built, does not stand there"));
}

TEST_CASE("a part that states no features is told so, and no fall is made up for it") {
  Bench bench;
  bench.add(cup());
  bench.add(part_of("LUMP", ComponentKind::other, {}));
  bench.stand("bench", "CUP");
  bench.add(in("bench", "LUMP", "CUP"));
  bench.work();
  CHECK(says(bench.last_problems(), "LUMP states no features"));
}

TEST_CASE("a part that misses its seat and falls past it is too low, not proud") {
  Bench bench;
  bench.add(cup());
  bench.add(part_of("STEP", ComponentKind::other, {ring_mm(60, 90, 0, 7, {sector_deg(180, 90)})}));
  bench.add(part_of("PAWL", ComponentKind::other, {ring_mm(60, 90, 0, 5, {sector_deg(0, 20)})}));
  bench.stand("bench", "CUP");
  bench.add(in("bench", "STEP", "CUP"));
  bench.add(in("bench", "PAWL", "STEP"));
  bench.work();
  CHECK(says(bench.last_problems(), "PAWL stands on CUP and not on STEP: 7.00 mm too low"));
}

TEST_CASE("a snap ring of which only its size is known goes into its groove all the same") {
  Bench bench;
  bench.add(cup());
  bench.add(part_of("PLATE", ComponentKind::steel, {ring_mm(60, 98, 0, 30)}));
  bench.add(part_of("RING", ComponentKind::snap_ring, {ring_mm(92, 105, 0, 2)}));
  bench.stand("bench", "CUP");
  bench.add(in("bench", "PLATE", "CUP"));
  SECTION("it lies on the groove's lower face, and comes out again") {
    bench.add(ring_in());
    bench.work();
    CHECK(bench.problems().empty());
    CHECK(bench.piece("bench", "RING").height_m / mm == Approx(40));
    bench.add(step_of(StepKind::take_out, "bench", "RING"));
    bench.work();
    CHECK(bench.problems().empty());
  }
  SECTION("a stack too high refuses it") {
    bench.unit.components[1].part.solid.rings[0].high_m = 36 * mm;
    bench.add(ring_in());
    bench.work();
    CHECK(says(bench.last_problems(), "0.70 mm too high"));
  }
  SECTION("one of which nothing is known is told so") {
    bench.unit.components[2].part.solid.rings.clear();
    bench.add(ring_in());
    bench.work();
    CHECK(says(bench.last_problems(), "RING states no features"));
  }
}

TEST_CASE("what also stands on the solid does not sink with a wave plate") {
  Bench bench;
  bench.add(cup());
  Component wave = part_of("WAVE", ComponentKind::wave_plate, {ring_mm(60, 90, 0, 2.8)});
  wave.wave = WaveFigures{2.8 * mm, 1.8 * mm, 3};
  bench.add(wave);
  bench.add(part_of("POST", ComponentKind::other, {ring_mm(30, 40, 0, 2.8)}));
  bench.add(part_of("LID", ComponentKind::other, {ring_mm(30, 90, 0, 5)}));
  bench.stand("bench", "CUP");
  bench.add(in("bench", "WAVE", "CUP"));
  bench.add(in("bench", "POST", "CUP"));
  bench.add(in("bench", "LID", "WAVE"));
  bench.work();
  const auto& outcome = bench.simulation().outcomes.back();
  const PlaceState& both = bench.simulation().before(3).places.at("bench");
  CHECK(weight_sinks_m(bench.workshop(), *outcome.lowered, both, 5) == 0);
  PlaceState soft = both;
  std::erase_if(soft.fitted, [](const Fitted& piece) { return piece.id == "POST"; });
  const Lowered alone = lower(bench.workshop(), *outcome.hand, soft, {});
  CHECK(weight_sinks_m(bench.workshop(), alone, soft, 5) > 0);
}

TEST_CASE("what a ring held falls out when the ring comes out of work that stands upside down") {
  Bench bench;
  bench.add(cup());
  bench.add(part_of("PLATE", ComponentKind::steel, {ring_mm(60, 98, 0, 2)}));
  bench.add(part_of("UPPER", ComponentKind::steel, {ring_mm(60, 98, 0, 2)}));
  bench.add(snap_ring());
  bench.stand("bench", "CUP");
  bench.add(in("bench", "PLATE", "CUP", JointKind::slides, "CUP"));
  bench.add(in("bench", "UPPER", "PLATE", JointKind::slides, "CUP"));
  bench.add(ring_in());
  SECTION("upside down") {
    bench.add(step_of(StepKind::turn_over, "bench"));
    bench.add(step_of(StepKind::take_out, "bench", "RING"));
    bench.work();
    CHECK(says(bench.last_problems(), "PLATE falls out: nothing holds it"));
    CHECK(says(bench.last_problems(), "UPPER falls out: nothing holds it"));
    CHECK(bench.end().places.at("bench").fitted.size() == 1);
  }
  SECTION("upright") {
    bench.add(step_of(StepKind::take_out, "bench", "RING"));
    bench.work();
    CHECK(bench.problems().empty());
    CHECK(bench.piece("bench", "UPPER").stands_on == "PLATE");
  }
}

TEST_CASE("a bevelled ring that a step puts in the wrong way up is told, with its play") {
  Bench bench;
  bench.add(cup());
  Component ring = snap_ring();
  ring.ring->bevelled = true;
  ring.ring->reversed_play_m = 0.35 * mm;
  bench.add(ring);
  bench.stand("bench", "CUP");
  Step step = ring_in();
  step.way_up = WayUp::turned_over;
  bench.add(step);
  bench.work();
  CHECK(says(bench.last_problems(),
             "RING is the wrong way up for its groove: its bevel leaves 0.35 mm"));
  bench.unit.steps.back().way_up = WayUp::right;
  bench.work();
  CHECK(bench.problems().empty());
}
