// The eye's way from one step to the next.
#include "viewer/app/camera_ease.h"

#include <catch2/catch.hpp>

#include <numbers>

using namespace lugline;

namespace {

Picture looking(double turn_rad, double distance_m) {
  Picture picture;
  picture.camera.turn_rad = turn_rad;
  picture.camera.distance_m = distance_m;
  picture.cut = {true, turn_rad - 0.5, turn_rad + 0.5};
  return picture;
}

} // namespace

TEST_CASE("the eye starts where it was and ends where it should be") {
  CameraEase ease;
  ease.shown(looking(0, 1), 0, "case", true, 10);
  CHECK_FALSE(ease.going(10));
  const Picture first = ease.shown(looking(1, 2), 1, "case", true, 11);
  CHECK(first.camera.turn_rad == Approx(0).margin(1e-9));
  CHECK(ease.going(11));
  const Picture half = ease.shown(looking(1, 2), 1, "case", true, 11.175);
  CHECK(half.camera.turn_rad == Approx(0.5).margin(0.01));
  CHECK(half.camera.distance_m > 1);
  CHECK(half.camera.distance_m < 2);
  CHECK(half.cut.from_rad == Approx(0).margin(0.01));
  const Picture last = ease.shown(looking(1, 2), 1, "case", true, 11.5);
  CHECK(last.camera.turn_rad == 1);
  CHECK(last.camera.distance_m == 2);
  CHECK_FALSE(ease.going(11.5));
}

TEST_CASE("the eye goes the shorter way round") {
  constexpr double pi = std::numbers::pi;
  CameraEase ease;
  ease.shown(looking(0.9 * pi, 1), 0, "case", true, 0);
  ease.shown(looking(-0.9 * pi, 1), 1, "case", true, 1);
  const Picture half = ease.shown(looking(-0.9 * pi, 1), 1, "case", true, 1.175);
  CHECK(half.camera.turn_rad == Approx(pi).margin(0.02));
}

TEST_CASE("with motion switched off, at another place, and within a step, nothing is eased") {
  CameraEase ease;
  ease.shown(looking(0, 1), 0, "case", false, 0);
  CHECK(ease.shown(looking(1, 1), 1, "case", false, 1).camera.turn_rad == 1);
  CHECK(ease.shown(looking(2, 1), 2, "bench", true, 2).camera.turn_rad == 2);
  CHECK(ease.shown(looking(2.5, 1), 2, "bench", true, 3).camera.turn_rad == 2.5);
  CHECK_FALSE(ease.going(3));
}
