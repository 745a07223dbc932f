// Involute gears: what is measured on the rings agrees with the formulas, and the
// rings stay within the true profile.

#include "scene/recipe/involute.h"
#include "scene/recipe/recipe.h"
#include "tests/recipe/mesh_check.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace lugline::test {

namespace {

constexpr double mm = 1e-3;
constexpr double pi = std::numbers::pi;
constexpr double deg = pi / 180;
constexpr double tolerance_m = 0.02 * mm;

std::vector<Gear> many_gears() {
  std::vector<Gear> gears;
  for (const auto& [teeth, shift] :
       {std::pair{17, 0.1}, std::pair{21, 0.0}, std::pair{33, 0.0}, std::pair{40, 0.4}}) {
    gears.push_back(rack_gear(false, teeth, 1.5 * mm, 20 * deg, shift, 0.05 * mm));
  }
  for (const auto& [teeth, shift] : {std::pair{75, 0.0}, std::pair{60, 0.2}}) {
    gears.push_back(rack_gear(true, teeth, 1.5 * mm, 20 * deg, shift, 0.05 * mm));
  }
  for (const bool internal : {false, true}) {
    gears.push_back(
        spline(SplineStandard::iso_4156, SplineRoot::flat, internal, 24, 1.5 * mm, 30 * deg));
    gears.push_back(spline(SplineStandard::ansi_b92_1, SplineRoot::fillet, internal, 24,
                           25.4 / 16 * mm, 37.5 * deg));
    gears.push_back(
        spline(SplineStandard::iso_4156, SplineRoot::fillet, internal, 30, 1 * mm, 45 * deg));
  }
  return gears;
}

std::vector<SectorRing> rings_of(const Gear& gear) {
  return involute_rings(gear, 0, 0, 10 * mm, "tooth", tolerance_m);
}

/// Half of a tooth's angle on the rings, at a radius; the first tooth is at 0.
double half_on_rings(const std::vector<SectorRing>& rings, double r_m) {
  for (const SectorRing& ring : rings) {
    if (r_m >= ring.inner_m - 1e-12 && r_m <= ring.outer_m + 1e-12) {
      CHECK(ring.sectors.front().from.at(r_m) ==
            Approx(-ring.sectors.front().to.at(r_m)).margin(1e-12));
      return ring.sectors.front().to.at(r_m);
    }
  }
  FAIL("no ring at that radius");
  return 0;
}

/// Points of a tooth's flank on the rings, dense, on the counter-clockwise side, the
/// tooth's middle along +x here.
struct Spot {
  double x = 0;
  double y = 0;
};
std::vector<Spot> flank_of(const std::vector<SectorRing>& rings, double middle_rad, int side) {
  std::vector<Spot> spots;
  for (const SectorRing& ring : rings) {
    for (int k = 0; k <= 400; ++k) {
      const double r_m = ring.inner_m + (ring.outer_m - ring.inner_m) * k / 400;
      const double a = middle_rad + side * ring.sectors.front().to.at(r_m);
      spots.push_back({r_m * std::cos(a), r_m * std::sin(a)});
    }
  }
  return spots;
}

} // namespace

TEST_CASE("the inverse involute gives the angle back") {
  CHECK(inverse_involute(0) == Approx(0).margin(1e-9));
  for (double a = 0.01; a < 1.5; a += 0.013) {
    CHECK(inverse_involute(involute(a)) == Approx(a).epsilon(1e-12));
  }
}

TEST_CASE("the rings stay within the true profile and within the tolerance of it") {
  for (const Gear& gear : many_gears()) {
    CAPTURE(gear.internal, gear.teeth, gear.profile_shift);
    REQUIRE_FALSE(gear_problem(gear));
    const auto rings = rings_of(gear);
    CHECK(rings.size() <= 8);
    const double low_m = std::min(gear.tip_diameter_m, gear.root_diameter_m) / 2;
    const double high_m = std::max(gear.tip_diameter_m, gear.root_diameter_m) / 2;
    CHECK(rings.front().inner_m == Approx(low_m).margin(1e-12));
    CHECK(rings.back().outer_m == Approx(high_m).margin(1e-12));
    double most_m = 0;
    for (int k = 0; k <= 2000; ++k) {
      const double r_m = low_m + (high_m - low_m) * k / 2000;
      // Involute flanks alone; below the base circle there is none.
      if (r_m < gear.base_diameter_m() / 2) {
        continue;
      }
      const double in_m = r_m * (gear.half_tooth_rad(2 * r_m) - half_on_rings(rings, r_m));
      CHECK(in_m > -1e-10);
      most_m = std::max(most_m, in_m);
    }
    CHECK(most_m <= tolerance_m * (gear.internal ? 1.1 : 1.001));
    CHECK(most_m > 0); // a chord is not the curve
    CHECK(rings.front().sectors.size() == static_cast<std::size_t>(gear.teeth));
  }
}

TEST_CASE("a finer tolerance makes more bands, a coarser one fewer") {
  const Gear sun = rack_gear(false, 33, 1.5 * mm, 20 * deg);
  const auto coarse = involute_rings(sun, 0, 0, 1 * mm, "", 0.2 * mm);
  const auto fine = involute_rings(sun, 0, 0, 1 * mm, "", 0.001 * mm);
  CHECK(coarse.size() < rings_of(sun).size());
  CHECK(fine.size() > rings_of(sun).size());
}

TEST_CASE("thickness and space share the pitch at every diameter") {
  for (const Gear& gear : many_gears()) {
    for (const double part : {0.05, 0.3, 0.7, 0.95}) {
      const double d_m = gear.root_diameter_m + (gear.tip_diameter_m - gear.root_diameter_m) * part;
      CHECK(gear.tooth_thickness_m(d_m) + gear.space_width_m(d_m) == Approx(pi * d_m / gear.teeth));
      CHECK(gear.tooth_thickness_m(d_m) > 0);
      CHECK(gear.space_width_m(d_m) > 0);
    }
  }
}

TEST_CASE("an internal gear is the space of the external one") {
  const Gear outer = rack_gear(true, 75, 1.5 * mm, 20 * deg, 0.3);
  const Gear inner = rack_gear(false, 75, 1.5 * mm, 20 * deg, 0.3);
  for (double d_mm = 111; d_mm < 116; d_mm += 0.7) {
    CHECK(outer.space_width_m(d_mm * mm) == Approx(inner.tooth_thickness_m(d_mm * mm)));
  }
}

TEST_CASE("a span taken on the rings is the base tangent length") {
  for (const Gear& gear : many_gears()) {
    if (gear.internal) {
      continue;
    }
    const int k = teeth_to_span(gear);
    const SpanMeasure span = span_over(gear, k);
    CAPTURE(gear.teeth, k);
    CHECK(span.contact_diameter_m > gear.root_diameter_m);
    CHECK(span.contact_diameter_m < gear.tip_diameter_m);
    // Two flat jaws, parallel to the middle of the teeth spanned: how far apart the
    // outermost points of the first and the last tooth lie across them.
    const auto rings = involute_rings(gear, 0, 0, 1 * mm, "", 0.0005 * mm);
    const double half_rad = pi * (k - 1) / gear.teeth;
    double low = 1e9;
    double high = -1e9;
    for (const Spot& spot : flank_of(rings, half_rad, 1)) {
      high = std::max(high, spot.y);
    }
    for (const Spot& spot : flank_of(rings, -half_rad, -1)) {
      low = std::min(low, spot.y);
    }
    CHECK((high - low) / mm == Approx(span.span_m / mm).margin(0.0012));
    // One tooth more is one base pitch more.
    CHECK(span_over(gear, k + 1).span_m - span.span_m == Approx(gear.base_pitch_m()));
  }
}

TEST_CASE("pins laid into the rings stand where the formula says") {
  for (const Gear& gear : many_gears()) {
    const double pin_m = (gear.pressure_rad > 0.4 ? 1.5 : 1.728) * gear.module_m;
    const auto measure = over_pins(gear, pin_m);
    CAPTURE(gear.internal, gear.teeth, gear.pressure_rad);
    REQUIRE(measure);
    if (measure->contact_diameter_m <= std::min(gear.tip_diameter_m, gear.root_diameter_m) ||
        measure->contact_diameter_m >= std::max(gear.tip_diameter_m, gear.root_diameter_m)) {
      continue; // the pin would touch an edge
    }
    // A pin in the space at half a pitch, pushed at both flanks till it touches: its
    // axis is where the nearest flank point is half a pin away.
    const auto rings = involute_rings(gear, 0, 0, 1 * mm, "", 0.0005 * mm);
    const double middle_rad = pi / gear.teeth;
    const auto flank = flank_of(rings, 0, 1);
    const auto gap_m = [&](double at_m) {
      double least = 1e9;
      for (const Spot& spot : flank) {
        least = std::min(least, std::hypot(spot.x - at_m * std::cos(middle_rad),
                                           spot.y - at_m * std::sin(middle_rad)));
      }
      return least - pin_m / 2;
    };
    double touching = measure->contact_diameter_m / 2;
    double clear = touching + (gear.internal ? -1 : 1) * pin_m;
    REQUIRE(gap_m(clear) > 0);
    for (int i = 0; i < 50; ++i) {
      const double middle = (touching + clear) / 2;
      (gap_m(middle) > 0 ? clear : touching) = middle;
    }
    CHECK(clear * 2 / mm == Approx(measure->centre_diameter_m / mm).margin(0.004));
    const double across =
        measure->centre_diameter_m * (gear.teeth % 2 == 0 ? 1 : std::cos(pi / 2 / gear.teeth));
    CHECK(measure->over_m == Approx(gear.internal ? across - pin_m : across + pin_m));
  }
  // A pin too thin falls through to the root.
  CHECK_FALSE(over_pins(rack_gear(false, 33, 1.5 * mm, 20 * deg), 0.2 * mm));
}

TEST_CASE("spline pairs go into each other with room at tip and root") {
  for (const double angle : {30.0, 37.5, 45.0}) {
    for (const SplineStandard standard : {SplineStandard::iso_4156, SplineStandard::ansi_b92_1}) {
      for (const SplineRoot root : {SplineRoot::flat, SplineRoot::fillet}) {
        if (root == SplineRoot::flat && angle > 30) {
          continue;
        }
        CAPTURE(angle, root == SplineRoot::flat, standard == SplineStandard::iso_4156);
        const Gear shaft = spline(standard, root, false, 24, 1.5 * mm, angle * deg, 0.05 * mm);
        const Gear hub = spline(standard, root, true, 24, 1.5 * mm, angle * deg);
        REQUIRE_FALSE(gear_problem(shaft));
        REQUIRE_FALSE(gear_problem(hub));
        CHECK(shaft.tip_diameter_m < hub.root_diameter_m);
        CHECK(shaft.root_diameter_m < hub.tip_diameter_m);
        CHECK(shaft.tip_diameter_m > hub.tip_diameter_m);
        for (double part = 0; part <= 1; part += 0.25) {
          const double d_m =
              hub.tip_diameter_m + (shaft.tip_diameter_m - hub.tip_diameter_m) * part;
          CHECK(shaft.tooth_thickness_m(d_m) < hub.space_width_m(d_m));
        }
      }
    }
  }
}

TEST_CASE("a train of 33, 21 and 75 runs at 40.5 and not nearer, and is assembled by four") {
  const Gear sun = rack_gear(false, 33, 1.5 * mm, 20 * deg, 0, 0.04 * mm);
  const Gear pinion = rack_gear(false, 21, 1.5 * mm, 20 * deg, 0, 0.04 * mm);
  const Gear ring = rack_gear(true, 75, 1.5 * mm, 20 * deg, 0, 0.04 * mm);
  CHECK(mesh_problem(sun, pinion, 40.5 * mm).empty());
  CHECK(mesh_problem(pinion, ring, 40.5 * mm).empty());
  CHECK(backlash_m(sun, pinion, 40.5 * mm) == Approx(0.08 * mm));
  CHECK(backlash_m(pinion, ring, 40.5 * mm) == Approx(0.08 * mm));
  CHECK(contact_ratio(sun, pinion, 40.5 * mm) > 1.5);
  CHECK(mesh_problem(sun, pinion, 40.2 * mm).find("too thick") != std::string::npos);
  CHECK(mesh_problem(pinion, ring, 40.8 * mm).find("too thick") != std::string::npos);
  CHECK_FALSE(mesh_problem(sun, rack_gear(false, 21, 2 * mm, 20 * deg), 40.5 * mm).empty());
  // A ring whose tips reach in too far digs under the pinion's base circle.
  Gear deep = ring;
  deep.tip_diameter_m = 109.2 * mm;
  CHECK(mesh_problem(pinion, deep, 40.5 * mm).find("digs") != std::string::npos);
  CHECK(planet_problem({33, 21, 75, 4}).empty());
  CHECK(planet_problem({33, 21, 75, 3}).empty());
  CHECK(planet_problem({33, 21, 75, 5}).find("108") != std::string::npos);
  CHECK(planet_problem({33, 20, 75, 4}).find("73") != std::string::npos);
}

TEST_CASE("every pinion of a set finds the same sun and the same ring") {
  for (const Planets set :
       {Planets{33, 21, 75, 4}, Planets{30, 20, 70, 5}, Planets{24, 12, 48, 3}}) {
    REQUIRE(planet_problem(set).empty());
    const double ring_pitch = 2 * pi / set.ring;
    const double first = ring_space_rad(set, 0, 0);
    for (int k = 0; k < set.count; ++k) {
      const double at = 2 * pi * k / set.count;
      // In whole pitches of the ring from the first pinion's.
      const double off = (ring_space_rad(set, at, 0) - first) / ring_pitch;
      CHECK(off == Approx(std::round(off)).margin(1e-9));
      // The sun's pitch line and the pinion's roll on each other: where the sun has a
      // tooth the pinion has a space.
      const double sun_off = std::remainder(at * set.sun / (2 * pi), 1.0);
      const double pinion_off =
          std::remainder((pinion_tooth_rad(set, at, 0) - at - pi) * set.pinion / (2 * pi), 1.0);
      CHECK(std::abs(std::remainder(pinion_off - sun_off - 0.5, 1.0)) < 1e-9);
    }
    // Space at 12 o'clock where the pinion's teeth are odd, a tooth where they are even.
    const double ring_off = std::remainder(first / ring_pitch, 1.0);
    CHECK(std::abs(ring_off) == Approx(set.pinion % 2 == 1 ? 0 : 0.5).margin(1e-9));
  }
}

TEST_CASE("gears that cannot be are told apart by the figure that is wrong") {
  const auto figure = [](const Gear& gear) {
    const auto problem = gear_problem(gear);
    return problem ? problem->figure : std::string();
  };
  const Gear sound = rack_gear(false, 33, 1.5 * mm, 20 * deg);
  CHECK(figure(sound).empty());
  CHECK(figure(rack_gear(false, 12, 1.5 * mm, 20 * deg)) == "profile_shift");
  CHECK(figure(rack_gear(false, 12, 1.5 * mm, 20 * deg, 0.3)).empty());
  CHECK(figure(rack_gear(false, 17, 1.5 * mm, 20 * deg)) == "profile_shift");
  CHECK(figure(rack_gear(false, 18, 1.5 * mm, 20 * deg)).empty());
  Gear gear = sound;
  gear.tip_diameter_m = 57 * mm;
  CHECK(figure(gear) == "tip");
  CHECK(pointed_diameter_m(sound) < 57 * mm);
  CHECK(pointed_diameter_m(sound) > sound.tip_diameter_m);
  CHECK(sound.tooth_thickness_m(pointed_diameter_m(sound)) == Approx(0).margin(1e-12));
  gear.tip_diameter_m = 46.2 * mm;
  CHECK(figure(gear) == "tip");
  gear.root_diameter_m = 53 * mm;
  CHECK(figure(gear) == "root");
  gear = sound;
  gear.thinning_m = 3 * mm;
  CHECK(figure(gear) == "thinning");
  Gear ring = rack_gear(true, 75, 1.5 * mm, 20 * deg);
  CHECK(figure(ring).empty());
  ring.tip_diameter_m = 105 * mm;
  CHECK(figure(ring) == "tip");
  ring = rack_gear(true, 75, 1.5 * mm, 20 * deg);
  ring.root_diameter_m = 120 * mm;
  CHECK(figure(ring) == "root");
}

TEST_CASE("a gear is meshed closed, with the volume of its rings") {
  for (const Gear& gear : many_gears()) {
    Solid solid;
    solid.rings = rings_of(gear);
    const double edge_m =
        gear.internal ? gear.root_diameter_m / 2 : gear.root_diameter_m / 2 - 2 * mm;
    solid.rings.push_back({edge_m,
                           gear.internal ? edge_m + 3 * mm : gear.root_diameter_m / 2,
                           0,
                           10 * mm,
                           {},
                           "body",
                           ""});
    const Mesh mesh = mesh_of(solid, "steel");
    const Topology topology = topology_of(mesh);
    CAPTURE(gear.internal, gear.teeth);
    CHECK(topology.open_edges == 0);
    CHECK(topology.flat_triangles == 0);
    CHECK(topology.normals_fit);
    CHECK(mesh_volume_m3(mesh) + lost_to_facets_m3(mesh) ==
          Approx(solid_volume_m3(solid)).epsilon(1e-8));
  }
}

} // namespace lugline::test
