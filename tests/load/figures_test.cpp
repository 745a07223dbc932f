// A component at another thickness.
#include "scene/load/figures.h"

#include <catch2/catch.hpp>

using namespace lugline;

namespace {

/// A stepped plate: 2 mm overall, the step 0.5 mm down from the top.
Component stepped() {
  Component part;
  part.kind = ComponentKind::backing_plate;
  part.solid.rings = {{0.050, 0.070, 0, 0.002, {}, "face", ""},
                      {0.070, 0.080, 0, 0.0015, {}, "step", ""}};
  part.figures = {{"thickness", 0.002, 0, 0.0015}, {"step", 0.0005, 0.0015, 0.002}};
  part.grooves = {{"groove", true, 0.003, 0.004, 0.08, 0.07, true}};
  part.keys = {{"lug", "", 0, 0.08, 0.09, 0, 0.0015, 0.008}};
  part.marks = {{"the step faces up", 0.075, 0, 0.0015}};
  part.band_states = {{"spread", part.solid}};
  return part;
}

} // namespace

TEST_CASE("a thicker plate keeps its step, and all above its zone moves") {
  const Outcome<Component> made = with_figure(stepped(), "thickness", 0.0023);
  REQUIRE(made.ok());
  const Component& part = made.value();
  CHECK(part.solid.rings[0].high_m == Approx(0.0023));
  CHECK(part.solid.rings[1].high_m == Approx(0.0018));
  CHECK(part.band_states[0].solid.rings[1].high_m == Approx(0.0018));
  CHECK(part.grooves[0].low_m == Approx(0.0033));
  CHECK(part.grooves[0].high_m == Approx(0.0043));
  CHECK(part.keys[0].high_m == Approx(0.0018));
  CHECK(part.keys[0].low_m == 0);
  CHECK(part.marks[0].height_m == Approx(0.0018));
  CHECK(part.figure("thickness")->value_m == 0.0023);
  CHECK(part.figure("thickness")->zone_high_m == Approx(0.0018));
  CHECK(part.figure("step")->value_m == Approx(0.0005));
  CHECK(part.figure("step")->zone_low_m == Approx(0.0018));
}

TEST_CASE("there and back is where it was") {
  const Component start = stepped();
  const Component there = with_figure(start, "thickness", 0.0031).value();
  const Component back = with_figure(there, "thickness", 0.002).value();
  for (std::size_t i = 0; i < start.solid.rings.size(); ++i) {
    CHECK(back.solid.rings[i].high_m == Approx(start.solid.rings[i].high_m).epsilon(1e-12));
  }
  CHECK(back.grooves[0].low_m == Approx(start.grooves[0].low_m).epsilon(1e-12));
}

TEST_CASE("a wave plate's heights and a ring's thickness follow") {
  Component part = stepped();
  part.wave = WaveFigures{0.002, 0.0012, 3};
  RingFigures ring;
  ring.thickness_m = 0.002;
  part.ring = ring;
  const Component made = with_figure(part, "thickness", 0.0021).value();
  CHECK(made.wave->free_m == Approx(0.0021));
  CHECK(made.wave->flat_m == Approx(0.0013));
  CHECK(made.ring->thickness_m == Approx(0.0021));
}

TEST_CASE("a measured free height leaves the flat one alone") {
  Component part = stepped();
  part.figures = {{"free height", 0.002, 0, 0.002}};
  part.wave = WaveFigures{0.002, 0.0012, 3};
  const Component made = with_figure(part, "free height", 0.0018).value();
  CHECK(made.wave->free_m == Approx(0.0018));
  CHECK(made.wave->flat_m == Approx(0.0012));
  CHECK(made.solid.high_m() == Approx(0.0018));
  CHECK_FALSE(with_figure(part, "free height", 0.0011).ok());
}

TEST_CASE("a figure that is not there, or leaves nothing, is a problem") {
  CHECK_FALSE(with_figure(stepped(), "height", 0.002).ok());
  CHECK_FALSE(with_figure(stepped(), "thickness", 0.0005).ok());
  CHECK_FALSE(with_figure(stepped(), "thickness", -1).ok());
  CHECK(with_figure(stepped(), "thickness", 0.0006).ok());
}

TEST_CASE("the thickness of a solid without figures is stretched where all its rings are") {
  const Figure figure = shared_thickness(stepped().solid).value();
  CHECK(figure.value_m == Approx(0.002));
  CHECK(figure.zone_low_m == 0);
  CHECK(figure.zone_high_m == Approx(0.0015));
  Solid apart;
  apart.rings = {{0.01, 0.02, 0, 0.001, {}, "", ""}, {0.01, 0.02, 0.001, 0.002, {}, "", ""}};
  CHECK_FALSE(shared_thickness(apart).has_value());
  CHECK_FALSE(shared_thickness(Solid()).has_value());
}

TEST_CASE("a waved ring's thickness moves both its heights, its free height itself alone") {
  Component part;
  part.solid.rings = {{0.09, 0.1, 0, 0.0026, {}, "", ""}};
  part.figures = {{"thickness", 0.0016, 0, 0.0026}, {"free height", 0.0026, 0, 0.0026}};
  RingFigures ring;
  ring.thickness_m = 0.0016;
  ring.free_height_m = 0.0026;
  part.ring = ring;
  const Component thicker = with_figure(part, "thickness", 0.0018).value();
  CHECK(thicker.ring->thickness_m == Approx(0.0018));
  CHECK(thicker.ring->free_height_m == Approx(0.0028));
  CHECK(thicker.solid.high_m() == Approx(0.0028));
  const Component set = with_figure(part, "free height", 0.0021).value();
  CHECK(set.ring->thickness_m == Approx(0.0016));
  CHECK(set.ring->free_height_m == Approx(0.0021));
  CHECK(set.solid.high_m() == Approx(0.0021));
  CHECK_FALSE(with_figure(part, "free height", 0.0015).ok());
  ring.free_height_m = 0;
  part.ring = ring;
  CHECK(with_figure(part, "thickness", 0.0018).value().ring->free_height_m == 0);
}
