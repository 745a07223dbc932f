// Independent libraries on gears as they are drawn: CGAL is the judge of gears standing
// still, FCL's static collision queries the second opinion (it knows surfaces only).
// Gears in mesh are clear of each other through a whole pitch of turning; half a pitch
// out of mesh, or placed too near, they are not.

#include "scene/recipe/involute.h"
#include "scene/recipe/recipe.h"
#include "tests/fcl_model.h"
#include "tests/recipe/judge.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

namespace lugline::test {

namespace {

constexpr double mm = 1e-3;
constexpr double pi = std::numbers::pi;
constexpr double deg = pi / 180;

/// Its first tooth at +y. The facets of its round walls stand within the true circles
/// on outward teeth, and beyond them by their sagitta in a ring's tips: those have the
/// clearance at the roots, a quarter of a module, to run in.
Mesh drawn(const Gear& gear) {
  Solid solid;
  solid.rings = involute_rings(gear, 0, 0, 10 * mm, "tooth", MeshOptions{}.chord_tolerance_m);
  const double root_m = gear.root_diameter_m / 2;
  const double other_m = root_m + (gear.internal ? 4 : -4) * mm;
  solid.rings.push_back(
      {std::min(root_m, other_m), std::max(root_m, other_m), 0, 10 * mm, {}, "body", ""});
  return mesh_of(solid, "steel");
}

fcl::CollisionObjectd stood(const std::shared_ptr<FclModel>& model, double turn_rad, double y_m) {
  fcl::Transform3d pose = fcl::Transform3d::Identity();
  pose.translate(fcl::Vector3d(0, y_m, 0));
  pose.rotate(Eigen::AngleAxisd(turn_rad, fcl::Vector3d::UnitZ()));
  return {model, pose};
}

constexpr double module_m = 1.5 * mm;
/// Enough for the chords' own tolerance not to matter.
constexpr double thinning_m = 0.06 * mm;

struct Train {
  Gear sun = rack_gear(false, 33, module_m, 20 * deg, 0, thinning_m);
  Gear pinion = rack_gear(false, 21, module_m, 20 * deg, 0, thinning_m);
  Gear ring = rack_gear(true, 75, module_m, 20 * deg, 0, thinning_m);
  std::shared_ptr<FclModel> sun_model = fcl_model_of(drawn(sun));
  std::shared_ptr<FclModel> pinion_model = fcl_model_of(drawn(pinion));
  std::shared_ptr<FclModel> ring_model = fcl_model_of(drawn(ring));
  Planets planets{33, 21, 75, 4};
};

constexpr double centre_m = 40.5 * mm;
constexpr double sun_pitch_radius_m = 33 * module_m / 2;
constexpr double ring_pitch_radius_m = 75 * module_m / 2;

/// The same gears before CGAL.
struct Court {
  explicit Court(const Train& train)
      : sun(judge.add(drawn(train.sun))), pinion(judge.add(drawn(train.pinion))),
        ring(judge.add(drawn(train.ring))) {}

  void stand_at(std::size_t gear, double turn_rad, double y_m) {
    judge.stand(gear, Placement::turned(turn_rad).then(Placement::moved({0, y_m, 0})));
  }

  Judge judge;
  std::size_t sun;
  std::size_t pinion;
  std::size_t ring;
};

} // namespace

TEST_CASE("CGAL: sun 33, pinion 21 and ring 75 in mesh do not interfere at any step of a pitch") {
  const Train train;
  Court court(train);
  for (int k = 0; k < 24; ++k) {
    CAPTURE(k);
    const double sun_rad = 2 * pi / 33 * k / 24;
    const double pinion_rad = pinion_tooth_rad(train.planets, 0, sun_rad);
    const double ring_rad = ring_space_rad(train.planets, 0, sun_rad) + pi / 75;
    court.stand_at(court.sun, sun_rad, 0);
    court.stand_at(court.pinion, pinion_rad, centre_m);
    court.stand_at(court.ring, ring_rad, 0);
    CHECK_FALSE(court.judge.interfere(court.sun, court.pinion));
    CHECK_FALSE(court.judge.interfere(court.pinion, court.ring));
    CHECK_FALSE(court.judge.interfere(court.sun, court.ring));
    // The backlash is 0.12 mm of arc: turned either way by more than that they interfere.
    for (const double by_m : {-0.16 * mm, 0.16 * mm}) {
      CAPTURE(by_m);
      court.stand_at(court.sun, sun_rad + by_m / sun_pitch_radius_m, 0);
      CHECK(court.judge.interfere(court.sun, court.pinion));
      court.stand_at(court.ring, ring_rad + by_m / ring_pitch_radius_m, 0);
      CHECK(court.judge.interfere(court.pinion, court.ring));
    }
    // A pinion half a pitch out of mesh, or half a millimetre too near to either.
    court.stand_at(court.sun, sun_rad, 0);
    court.stand_at(court.ring, ring_rad, 0);
    court.stand_at(court.pinion, pinion_rad + pi / 21, centre_m);
    CHECK(court.judge.interfere(court.sun, court.pinion));
    CHECK(court.judge.interfere(court.pinion, court.ring));
    court.stand_at(court.pinion, pinion_rad, centre_m - 0.5 * mm);
    CHECK(court.judge.interfere(court.sun, court.pinion));
    court.stand_at(court.pinion, pinion_rad, centre_m + 0.5 * mm);
    CHECK(court.judge.interfere(court.pinion, court.ring));
  }
}

TEST_CASE("FCL: sun, pinion and ring in mesh are clear of each other through a pitch of turning") {
  const Train train;
  const double pitch_rad = 2 * pi / 33;
  for (int k = 0; k <= 20; ++k) {
    const double sun_rad = pitch_rad * k / 20;
    CAPTURE(k);
    const double pinion_rad = pinion_tooth_rad(train.planets, 0, sun_rad);
    // A tooth of the model stands at 0, a space of the ring half a pitch from it.
    const double ring_rad = ring_space_rad(train.planets, 0, sun_rad) + pi / 75;
    auto sun = stood(train.sun_model, sun_rad, 0);
    auto pinion = stood(train.pinion_model, pinion_rad, 40.5 * mm);
    auto ring = stood(train.ring_model, ring_rad, 0);
    CHECK_FALSE(meet(sun, pinion));
    CHECK_FALSE(meet(pinion, ring));
    // The backlash is 0.12 mm of arc: turned by more than that they meet.
    const double by_rad = 0.16 * mm / (33 * module_m / 2);
    auto on = stood(train.sun_model, sun_rad + by_rad, 0);
    auto back = stood(train.sun_model, sun_rad - by_rad, 0);
    CHECK(meet(on, pinion));
    CHECK(meet(back, pinion));
  }
}

TEST_CASE("FCL: gears half a pitch out of mesh, or too near, run into each other") {
  const Train train;
  auto sun = stood(train.sun_model, 0, 0);
  const double right_rad = pinion_tooth_rad(train.planets, 0, 0);
  const double ring_rad = ring_space_rad(train.planets, 0, 0) + pi / 75;
  auto ring = stood(train.ring_model, ring_rad, 0);
  auto out_of_mesh = stood(train.pinion_model, right_rad + pi / 21, 40.5 * mm);
  CHECK(meet(sun, out_of_mesh));
  CHECK(meet(ring, out_of_mesh));
  auto too_near_sun = stood(train.pinion_model, right_rad, 40.1 * mm);
  CHECK(meet(sun, too_near_sun));
  auto too_near_ring = stood(train.pinion_model, right_rad, 40.9 * mm);
  CHECK(meet(ring, too_near_ring));
  // Where it should be it is clear of both.
  auto right = stood(train.pinion_model, right_rad, 40.5 * mm);
  CHECK_FALSE(meet(sun, right));
  CHECK_FALSE(meet(ring, right));
}

} // namespace lugline::test
