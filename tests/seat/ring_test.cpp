// Snap rings: into the groove, or refused and by how much.

#include "scene/seat/ring.h"

#include <catch2/catch.hpp>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;

Component bore_ring(double thickness_mm) {
  Component ring;
  ring.id = "ring";
  ring.kind = ComponentKind::snap_ring;
  ring.solid.rings = {{91.3 * mm, 99.5 * mm, 0, thickness_mm * mm, {}, "", ""}};
  RingFigures figures;
  figures.free_m = 101 * mm;
  figures.squeezed_m = 95.7 * mm;
  figures.thickness_m = thickness_mm * mm;
  figures.width_m = 8.2 * mm;
  ring.ring = figures;
  return ring;
}

Groove clutch_groove() {
  Groove groove;
  groove.id = "clutch ring";
  groove.low_m = 161.2 * mm;
  groove.high_m = 163.5 * mm;
  groove.bottom_m = 99.8 * mm;
  groove.land_m = 96 * mm;
  return groove;
}

struct Stack {
  explicit Stack(double top_mm)
      : plate(Solid{{{71 * mm, 95 * mm, 0, top_mm * mm, {}, "", ""}}}), bodies{{"plate", &plate, 0,
                                                                                0, spin_fixed}} {}
  Shape plate;
  std::vector<Body> bodies;
};

} // namespace

TEST_CASE("a ring springs into its groove and lies on the groove's lower face") {
  const Stack stack(160.6);
  const RingReport report = seat_ring(bore_ring(2.0), false, clutch_groove(), 0, stack.bodies);
  CHECK(report.fate == RingFate::seated);
  CHECK(report.down_m / mm == Approx(161.2));
  CHECK(report.loaded_m / mm == Approx(161.5));
  CHECK(report.play_m / mm == Approx(0.3));
  CHECK_FALSE(report.held_by.has_value());
}

TEST_CASE("a stack within the groove's height holds the ring up in it") {
  const Stack stack(161.4);
  const RingReport report = seat_ring(bore_ring(2.0), false, clutch_groove(), 0, stack.bodies);
  CHECK(report.fate == RingFate::seated);
  CHECK(report.down_m / mm == Approx(161.4));
  CHECK(report.play_m / mm == Approx(0.1));
  REQUIRE(report.held_by.has_value());
}

TEST_CASE("a ring lies as its open ends are turned") {
  // A lug of 0.20 over the groove's lower face at 12 o'clock; the ring is open by 20 deg.
  const double degree_rad = 3.14159265358979323846 / 180;
  Component ring = bore_ring(2.0);
  ring.solid.rings[0].sectors = between({radial_sector(0, 20 * degree_rad)});
  SectorRing lug{93 * mm, 95 * mm, 0, 161.4 * mm, {radial_sector(0, 10 * degree_rad)}, "", ""};
  const Shape shape(Solid{{lug}});
  const std::vector<Body> bodies{{"plate", &shape, 0, 0, spin_fixed}};
  CHECK(seat_ring(ring, false, clutch_groove(), 0, bodies).down_m / mm == Approx(161.2));
  CHECK(seat_ring(ring, false, clutch_groove(), 0, bodies, 90 * degree_rad).down_m / mm ==
        Approx(161.4));
}

TEST_CASE("a ring that rode over a step while it was squeezed lies lower once it springs open") {
  // The step ends at a radius of 91.0, inside the seated ring's 91.3; squeezed by 3.8 it rides on
  // it.
  const Shape plate(Solid{{{71 * mm, 91 * mm, 0, 161.4 * mm, {}, "", ""},
                           {91 * mm, 95 * mm, 0, 160.6 * mm, {}, "", ""}}});
  const std::vector<Body> bodies{{"plate", &plate, 0, 0, spin_fixed}};
  const RingReport report = seat_ring(bore_ring(2.0), false, clutch_groove(), 0, bodies);
  CHECK(report.fate == RingFate::seated);
  CHECK(report.down_m / mm == Approx(161.2));
  CHECK(report.play_m / mm == Approx(0.3));
  CHECK_FALSE(report.held_by.has_value());
}

TEST_CASE("a stack too high refuses the ring, by how much") {
  const Stack stack(162.1);
  const RingReport report = seat_ring(bore_ring(2.0), false, clutch_groove(), 0, stack.bodies);
  CHECK(report.fate == RingFate::held_up);
  CHECK(report.too_high_m / mm == Approx(0.6));
  REQUIRE(report.held_by.has_value());
}

TEST_CASE("a ring thicker than its groove, or too wide to pass, is refused") {
  const Stack stack(160.6);
  RingReport report = seat_ring(bore_ring(2.5), false, clutch_groove(), 0, stack.bodies);
  CHECK(report.fate == RingFate::too_thick);
  CHECK(report.too_high_m / mm == Approx(0.2));
  Component wide = bore_ring(2.0);
  wide.ring->squeezed_m = 96.4 * mm;
  report = seat_ring(wide, false, clutch_groove(), 0, stack.bodies);
  CHECK(report.fate == RingFate::will_not_pass);
  CHECK(report.too_wide_m / mm == Approx(0.4));
  Groove shaft = clutch_groove();
  shaft.in_bore = false;
  CHECK(seat_ring(bore_ring(2.0), false, shaft, 0, stack.bodies).fate == RingFate::wrong_groove);
}

TEST_CASE("a bevelled ring takes up the groove's play the right way up only") {
  const Stack stack(161.3);
  Component ring = bore_ring(2.0);
  ring.ring->bevelled = true;
  ring.ring->reversed_play_m = 0.35 * mm;
  CHECK(seat_ring(ring, false, clutch_groove(), 0, stack.bodies).play_m == 0);
  CHECK(seat_ring(ring, true, clutch_groove(), 0, stack.bodies).play_m / mm == Approx(0.35));
}

TEST_CASE("a groove turned over loads the other way") {
  const Groove over = turned_over(clutch_groove(), 0, 300 * mm);
  CHECK(over.low_m / mm == Approx(136.5));
  CHECK(over.high_m / mm == Approx(138.8));
  CHECK_FALSE(over.loads_up);
}

namespace {

Component waved_ring(double thickness_mm, double free_mm) {
  Component ring = bore_ring(free_mm);
  ring.ring->thickness_m = thickness_mm * mm;
  ring.ring->free_height_m = free_mm * mm;
  return ring;
}

} // namespace

TEST_CASE("a waved ring higher than its groove is squashed to it, and leaves no play") {
  const Stack stack(160.6);
  const RingReport report =
      seat_ring(waved_ring(1.6, 2.6), false, clutch_groove(), 0, stack.bodies);
  CHECK(report.fate == RingFate::seated);
  CHECK(report.waved);
  CHECK(report.down_m / mm == Approx(161.2));
  CHECK(report.loaded_m / mm == Approx(161.9)); // pressed flat against 163.5
  CHECK(report.height_m / mm == Approx(2.3));
  CHECK(report.play_m == 0);
}

TEST_CASE("a waved ring that is free in its groove leaves what its free height does not fill") {
  const Stack stack(160.6);
  const RingReport report =
      seat_ring(waved_ring(1.6, 2.1), false, clutch_groove(), 0, stack.bodies);
  CHECK(report.fate == RingFate::seated);
  CHECK(report.height_m / mm == Approx(2.1));
  CHECK(report.play_m / mm == Approx(0.2));
}

TEST_CASE("a stack in the groove squashes a waved ring further, until it is flat") {
  const Stack within(161.8);
  const RingReport squashed =
      seat_ring(waved_ring(1.6, 2.6), false, clutch_groove(), 0, within.bodies);
  CHECK(squashed.fate == RingFate::seated);
  CHECK(squashed.height_m / mm == Approx(1.7));
  CHECK(squashed.play_m == 0);
  const Stack over(162.0);
  const RingReport held = seat_ring(waved_ring(1.6, 2.6), false, clutch_groove(), 0, over.bodies);
  CHECK(held.fate == RingFate::held_up);
  CHECK(held.too_high_m / mm == Approx(0.1));
}

TEST_CASE("a waved ring that is too thick even flat is told by its thickness") {
  const Stack stack(160.6);
  const RingReport report =
      seat_ring(waved_ring(2.5, 3.0), false, clutch_groove(), 0, stack.bodies);
  CHECK(report.fate == RingFate::too_thick);
  CHECK(report.too_high_m / mm == Approx(0.2));
}
