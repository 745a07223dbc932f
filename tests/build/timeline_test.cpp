// Where the pieces are at any moment of a step.

#include "tests/build/demo.h"

#include "scene/build/timeline.h"
#include "tests/build/small_unit.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>

using namespace lugline;
using namespace lugline::test;

TEST_CASE("a step ends where the simulation says, and the next begins there") {
  Demo& d = demo();
  for (std::size_t i = 0; i < d.unit->steps.size(); ++i) {
    INFO("step " << d.unit->steps[i].id);
    const Moment end = moment_of(*d.workshop, d.simulation, i, 1);
    const auto& places = d.simulation.after[i].places;
    const auto place = places.find(d.unit->steps[i].place);
    if (place == places.end()) {
      continue;
    }
    std::map<std::string, const PosedPiece*> shown;
    for (const PosedPiece& piece : end.pieces) {
      shown[piece.id] = &piece;
    }
    for (const Fitted& fitted : place->second.fitted) {
      INFO("piece " << fitted.id);
      REQUIRE(shown.contains(fitted.id));
      CHECK(shown[fitted.id]->height_m == Approx(fitted.height_m).margin(1e-9));
      CHECK(shown[fitted.id]->over == fitted.over);
      CHECK(std::remainder(shown[fitted.id]->turn_rad - fitted.turn_rad, 360 * deg) ==
            Approx(0).margin(1e-9));
    }
  }
}

namespace {

/// Where the middle of a piece is, bodily turned over or not.
struct Middle {
  double height_m = 0;
  double aside_m = 0;
};

Middle middle_of(Workshop& workshop, const PosedPiece& piece) {
  Fitted fitted;
  fitted.id = piece.id;
  fitted.over = piece.over;
  fitted.squashed_to_m = piece.squashed_to_m;
  fitted.band_state = piece.band_state;
  const Shape& shape = shape_of(workshop, fitted);
  const double height_m = piece.height_m + (shape.low_m() + shape.high_m()) / 2;
  const double arm_m = height_m - piece.over_about_m;
  if (piece.over_more_rad == 0) {
    return {height_m, piece.aside_m};
  }
  return {piece.over_about_m + arm_m * std::cos(piece.over_more_rad),
          piece.aside_m + arm_m * std::sin(piece.over_more_rad)};
}

/// The farthest that any piece goes between one moment and the next of 500.
double worst_jump_m(Workshop& workshop, const Simulation& simulation, std::size_t step) {
  constexpr int moments = 500;
  std::map<std::string, Middle> last;
  double worst_m = 0;
  for (int k = 0; k <= moments; ++k) {
    const double moment = static_cast<double>(k) / moments;
    for (const PosedPiece& piece : moment_of(workshop, simulation, step, moment).pieces) {
      const Middle now = middle_of(workshop, piece);
      if (const auto was = last.find(piece.id); was != last.end()) {
        worst_m = std::max(worst_m, std::hypot(now.height_m - was->second.height_m,
                                               now.aside_m - was->second.aside_m));
      }
      last[piece.id] = now;
    }
  }
  return worst_m;
}

/// The longest way is about 0.6 m, with its fastest at twice the mean.
constexpr double no_jump_m = 4e-3;

} // namespace

TEST_CASE("nothing jumps within a step") {
  Demo& d = demo();
  for (std::size_t i = 0; i < d.unit->steps.size(); ++i) {
    INFO("step " << d.unit->steps[i].id);
    CHECK(worst_jump_m(*d.workshop, d.simulation, i) < no_jump_m);
  }
}

TEST_CASE("work that is turned over goes over about its base, and what is loose falls after") {
  Bench bench;
  Component cup =
      part_of("CUP", ComponentKind::drum, {ring_mm(10, 120, 0, 5), ring_mm(100, 120, 5, 60)});
  Groove groove;
  groove.id = "ring";
  groove.low_m = 40 * mm;
  groove.high_m = 42.3 * mm;
  groove.bottom_m = 53 * mm;
  groove.land_m = 50 * mm;
  cup.grooves = {groove};
  bench.add(cup);
  bench.add(part_of("SHAFT", ComponentKind::shaft, {ring_mm(10, 20, 0, 120)}));
  bench.add(part_of("PLATE", ComponentKind::steel, {ring_mm(60, 98, 0, 2)}));
  bench.add(part_of("RING", ComponentKind::snap_ring, {ring_mm(92, 105, 0, 2)}));
  bench.stand("bench", "CUP");
  bench.add(in("bench", "SHAFT", "CUP", JointKind::fixed, "CUP"));
  bench.add(in("bench", "PLATE", "CUP"));
  Step closes = step_of(StepKind::place, "bench", "RING");
  closes.groove = "CUP/ring";
  closes.joint = {JointKind::retained, "CUP", false, ""};
  bench.add(closes);
  bench.add(step_of(StepKind::turn_over, "bench"));
  bench.work();
  REQUIRE(bench.problems().empty());
  // The plate falls from the floor to the ring, and the ring 0.3 to the groove's other face.
  REQUIRE(bench.piece("bench", "PLATE").height_m / mm == Approx(19.7));
  CHECK(worst_jump_m(bench.workshop(), bench.simulation(), 4) < no_jump_m);
}

TEST_CASE("what is let go by a step that also puts something in moves with that step") {
  Bench bench;
  Component cup =
      part_of("CUP", ComponentKind::drum, {ring_mm(10, 120, 0, 5), ring_mm(100, 120, 5, 60)});
  Groove groove;
  groove.id = "ring";
  groove.low_m = 20 * mm;
  groove.high_m = 22.3 * mm;
  groove.bottom_m = 53 * mm;
  groove.land_m = 50 * mm;
  cup.grooves = {groove};
  Component ring = part_of("RING", ComponentKind::snap_ring, {ring_mm(92, 105, 0, 2)});
  ring.ring = RingFigures{true, 53.5 * mm, 49 * mm, 2 * mm, 6.5 * mm, 0, false, 0};
  bench.add(cup);
  bench.add(springs_of("SPR", 70, 90, 25, 8));
  bench.add(part_of("RET", ComponentKind::retainer, {ring_mm(60, 98, 0, 3)}));
  bench.add(ring);
  bench.stand("bench", "CUP");
  bench.add(in("bench", "SPR", "CUP", JointKind::sprung, "CUP"));
  bench.add(in("bench", "RET", "SPR"));
  Step press = step_of(StepKind::press, "bench", "RET");
  press.press_to_m = 15 * mm;
  bench.add(press);
  Step closes = step_of(StepKind::place, "bench", "RING");
  closes.groove = "CUP/ring";
  closes.lets_go = {"RET"};
  bench.add(closes);
  bench.work();
  REQUIRE(bench.problems().empty());
  for (std::size_t i = 0; i < bench.unit.steps.size(); ++i) {
    INFO("step " << i + 1);
    const Moment end = moment_of(bench.workshop(), bench.simulation(), i, 1);
    for (const PosedPiece& piece : end.pieces) {
      INFO(piece.id);
      const Fitted* fitted = bench.simulation().after[i].places.at("bench").find(piece.id);
      REQUIRE(fitted != nullptr);
      CHECK(piece.height_m == Approx(fitted->height_m));
      CHECK(piece.squashed_to_m == Approx(fitted->squashed_to_m));
    }
  }
}

TEST_CASE("what goes in begins above everything that is in, and only falls") {
  Demo& d = demo();
  int falls = 0;
  for (std::size_t i = 0; i < d.unit->steps.size(); ++i) {
    const Moment begin = moment_of(*d.workshop, d.simulation, i, 0);
    if (!d.simulation.outcomes[i].lowered || !begin.moving) {
      continue;
    }
    ++falls;
    INFO("step " << d.unit->steps[i].id);
    double before_m = 1e9;
    for (int k = 0; k <= 50; ++k) {
      const Moment now = moment_of(*d.workshop, d.simulation, i, k / 50.0);
      for (const PosedPiece& piece : now.pieces) {
        if (piece.in_hand && piece.id == d.simulation.outcomes[i].hand->lead) {
          CHECK(piece.height_m <= before_m + 1e-12);
          before_m = piece.height_m;
        }
      }
    }
    for (const PosedPiece& piece : begin.pieces) {
      if (piece.in_hand) {
        CHECK(piece.height_m + d.workshop->shape(piece.id, piece.over).low_m() > begin.mouth_m);
      }
    }
  }
  CHECK(falls > 15);
}

TEST_CASE("what goes in from the side comes from there, and a closed ring from above") {
  Bench bench;
  bench.add(part_of("PISTON", ComponentKind::piston,
                    {ring_mm(40, 92, 0, 10), ring_mm(92, 100, 0, 2), ring_mm(92, 100, 6, 10)}));
  bench.add(part_of("SEAL", ComponentKind::other, {ring_mm(92, 100, 0, 4)}));
  bench.add(part_of("PIN", ComponentKind::other, {ring_mm(92, 100, 0, 4, {sector_deg(90, 20)})}));
  bench.stand("bench", "PISTON");
  const std::string part = GENERATE("SEAL", "PIN");
  Step step = in("bench", part, "PISTON", JointKind::fixed, "PISTON");
  step.side_to_m = 2 * mm;
  bench.add(step);
  bench.work();
  CHECK(bench.problems().empty());
  const Moment begin = moment_of(bench.workshop(), bench.simulation(), 1, 0);
  const auto piece = std::ranges::find(begin.pieces, part, &PosedPiece::id);
  REQUIRE(piece != begin.pieces.end());
  const bool from_above = part == "SEAL";
  CHECK((piece->height_m > 10 * mm) == from_above);
  CHECK((piece->aside_m != 0) == !from_above);
  CHECK(worst_jump_m(bench.workshop(), bench.simulation(), 1) < no_jump_m);
}
