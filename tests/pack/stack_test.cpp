// The stack on plates whose sum is known by hand.

#include "scene/pack/stack.h"
#include "scene/pack/wave.h"

#include <catch2/catch.hpp>

#include <memory>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;

SectorRing ring(double inner_mm, double outer_mm, double low_mm, double high_mm) {
  return {inner_mm * mm, outer_mm * mm, low_mm * mm, high_mm * mm, {}, "", ""};
}

/// TRADE row 4 and the demo's case clutch: 20.50 of room, wave 2.80 free and
/// 1.80 flat, four steels of 1.50, four frictions of 1.60, a stepped backing
/// plate of 5.00 with 0.60 of step. By hand: 20.50 - 2.80 - 6.00 - 6.40 - 4.40.
struct CaseClutch {
  std::vector<std::unique_ptr<Component>> parts;
  std::vector<std::unique_ptr<Shape>> shapes;
  Shape piston{Solid{{ring(75, 79, 0, 17)}}};
  Shape snap{Solid{{ring(91.3, 99.5, 0, 2)}}};
  PackStack stack;

  explicit CaseClutch(bool backing_plate_over = false) {
    stack.id = "CC";
    stack.piston = &piston;
    stack.piston_m = 124 * mm;
    stack.ring = &snap;
    stack.load_face_m = 163.5 * mm;
    stack.low_m = 0.75 * mm;
    stack.high_m = 1.25 * mm;
    stack.plates_wanted = 10;
    add("wave", ComponentKind::wave_plate, {{ring(73, 95, 0, 2.8)}});
    parts.back()->wave = WaveFigures{2.8 * mm, 1.8 * mm, 3};
    for (int i = 0; i < 4; ++i) {
      add("steel", ComponentKind::steel, {{ring(71, 95, 0, 1.5)}});
      add("friction", ComponentKind::friction, {{ring(67.1, 87, 0, 1.6)}});
    }
    const Solid backing{{ring(71, 84, 0, 5.0), ring(84, 95, 0, 4.4)}};
    add("backing plate", ComponentKind::backing_plate,
        backing_plate_over ? turned_over(backing) : backing);
  }

  void add(const std::string& label, ComponentKind kind, const Solid& solid) {
    auto part = std::make_unique<Component>();
    part->kind = kind;
    part->solid = solid;
    shapes.push_back(std::make_unique<Shape>(solid));
    stack.plates.push_back({label, label, part.get(), shapes.back().get()});
    parts.push_back(std::move(part));
  }
};

} // namespace

TEST_CASE("the case clutch's sum, wave free and wave flat") {
  const CaseClutch clutch;
  const PackReport report = stack_up(clutch.stack);
  CHECK(report.piston_face_m / mm == Approx(141.0));
  CHECK(report.ring_face_m / mm == Approx(161.5));
  CHECK(report.stack_m / mm == Approx(19.6));
  CHECK(report.clearance_m / mm == Approx(0.90));
  CHECK(report.clearance_flat_m / mm == Approx(1.90));
  CHECK(report.frictions == 4);
  CHECK(report.per_friction_m / mm == Approx(0.225));
  CHECK(report.verdict == PackVerdict::inside);
  REQUIRE(report.lines.size() == 10);
  CHECK(report.lines.back().overall_m / mm == Approx(5.0));
  CHECK(report.lines.back().counts_m / mm == Approx(4.4));
  CHECK(report.lines.back().why == "less its step");
  CHECK(report.lines.front().why == "free height");
}

TEST_CASE("the backing plate upside down takes the step from the clearance") {
  const CaseClutch clutch(true);
  const PackReport report = stack_up(clutch.stack);
  CHECK(report.clearance_m / mm == Approx(0.30));
  CHECK(report.verdict == PackVerdict::tight);
  CHECK(report.outside_by_m / mm == Approx(0.45));
}

TEST_CASE("limits stated with the wave flat are judged with the wave flat") {
  CaseClutch clutch;
  clutch.stack.limits_wave_free = false;
  const PackReport report = stack_up(clutch.stack);
  CHECK(report.clearance_m / mm == Approx(1.90));
  CHECK(report.verdict == PackVerdict::loose);
}

TEST_CASE("a pack that is not whole is open, with the space that is left") {
  CaseClutch clutch;
  clutch.stack.plates.resize(3);
  const PackReport report = stack_up(clutch.stack);
  CHECK(report.verdict == PackVerdict::open);
  CHECK(report.clearance_m / mm == Approx(20.5 - 2.8 - 1.5 - 1.6));
}

TEST_CASE("uncertainty adds up at worst, and by root sum of squares") {
  // Three, four: five by squares and seven at worst.
  CaseClutch clutch;
  clutch.stack.plates[1].plus_minus_m = 0.03 * mm;
  clutch.stack.plates[2].plus_minus_m = 0.04 * mm;
  const PackReport report = stack_up(clutch.stack);
  CHECK(report.worst_case_m / mm == Approx(0.07));
  CHECK(report.root_sum_square_m / mm == Approx(0.05));
}

TEST_CASE("the ring's doubt counts like a plate's") {
  CaseClutch clutch;
  clutch.stack.plates[1].plus_minus_m = 0.03 * mm;
  clutch.stack.ring_plus_minus_m = 0.04 * mm;
  const PackReport report = stack_up(clutch.stack);
  CHECK(report.worst_case_m / mm == Approx(0.07));
  CHECK(report.root_sum_square_m / mm == Approx(0.05));
}

TEST_CASE("plates count as they lie, turned") {
  // A pad of 0.50 on the backing plate at 12 o'clock, and the ring's open ends.
  CaseClutch clutch;
  const double degree_rad = 3.14159265358979323846 / 180;
  Solid backing{{ring(71, 84, 0, 4.4), ring(84, 95, 0, 4.4)}};
  SectorRing pad = ring(91.5, 95, 4.4, 4.9);
  pad.sectors = {radial_sector(0, 10 * degree_rad)};
  backing.rings.push_back(pad);
  SectorRing open = ring(91.3, 99.5, 0, 2);
  open.sectors = between({radial_sector(0, 20 * degree_rad)});
  const Shape padded(backing);
  const Shape open_ring(Solid{{open}});
  clutch.stack.plates.back().shape = &padded;
  clutch.stack.ring = &open_ring;
  CHECK(stack_up(clutch.stack).clearance_m / mm == Approx(0.90));
  clutch.stack.plates.back().turn_rad = 90 * degree_rad;
  CHECK(stack_up(clutch.stack).clearance_m / mm == Approx(0.40));
  clutch.stack.ring_turn_rad = 90 * degree_rad;
  CHECK(stack_up(clutch.stack).clearance_m / mm == Approx(0.90));
}

TEST_CASE("a wave plate's stiffness follows the beam formula") {
  // Derived, not a publication: P 1000 N on D 150, b 15, t 2 mm, four waves,
  // 206 GPa gives f = 1.0335107 mm, k = 967.576 N/mm.
  CHECK(wave_stiffness_N_per_m(0.150, 0.015, 0.002, 4) / 1000 == Approx(967.576).epsilon(1e-6));
  // Twice the waves, 16 times as stiff; twice the thickness, 8 times.
  CHECK(wave_stiffness_N_per_m(0.150, 0.015, 0.002, 8) ==
        Approx(16 * wave_stiffness_N_per_m(0.150, 0.015, 0.002, 4)));
  CHECK(wave_stiffness_N_per_m(0.150, 0.015, 0.004, 4) ==
        Approx(8 * wave_stiffness_N_per_m(0.150, 0.015, 0.002, 4)));
}
