// Every kind of recipe, by one sound example each: its mesh is closed, has no
// slivers, and is its solid or lies in it.

#include "scene/mesh/closed.h"
#include "scene/part/extras.h"
#include "scene/recipe/kinds.h"
#include "tests/recipe/demo.h"
#include "tests/recipe/examples.h"
#include "tests/recipe/mesh_check.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

namespace lugline::test {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double mm = 1e-3;

Vec3 minus(const Vec3& a, const Vec3& b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}

double length(const Vec3& a) {
  return std::hypot(a.x, a.y, a.z);
}

/// The least height of a triangle over its longest side, and the least share of
/// that side that it is: a sliver is low by both.
struct Thinnest {
  double height_m = 1;
  double share = 1;
};

Thinnest thinnest(const Mesh& mesh) {
  Thinnest least;
  for (const auto& t : mesh.triangles) {
    const Vec3& a = mesh.positions_m[t[0]];
    const Vec3 ab = minus(mesh.positions_m[t[1]], a);
    const Vec3 ac = minus(mesh.positions_m[t[2]], a);
    const Vec3 twice{ab.y * ac.z - ab.z * ac.y, ab.z * ac.x - ab.x * ac.z,
                     ab.x * ac.y - ab.y * ac.x};
    const double longest = std::max({length(ab), length(ac), length(minus(ab, ac))});
    const double height = length(twice) / longest;
    least.height_m = std::min(least.height_m, height);
    least.share = std::min(least.share, height / longest);
  }
  return least;
}

/// How often the mesh winds round a point: 1 inside one body.
double filled_by(const Mesh& mesh, const Vec3& point) {
  double angle = 0;
  for (const auto& t : mesh.triangles) {
    const Vec3 a = minus(mesh.positions_m[t[0]], point);
    const Vec3 b = minus(mesh.positions_m[t[1]], point);
    const Vec3 c = minus(mesh.positions_m[t[2]], point);
    const double volume = a.x * (b.y * c.z - b.z * c.y) + a.y * (b.z * c.x - b.x * c.z) +
                          a.z * (b.x * c.y - b.y * c.x);
    const auto along = [](const Vec3& p, const Vec3& q) {
      return p.x * q.x + p.y * q.y + p.z * q.z;
    };
    const double la = length(a);
    const double lb = length(b);
    const double lc = length(c);
    angle += 2 * std::atan2(volume,
                            la * lb * lc + along(a, b) * lc + along(b, c) * la + along(c, a) * lb);
  }
  return angle / (4 * pi);
}

const Example& example(const std::string& id) {
  const auto found = std::ranges::find(examples(), id, &Example::id);
  REQUIRE(found != examples().end());
  return *found;
}

} // namespace

TEST_CASE("every kind of recipe is shown by the demo or by an example") {
  std::set<std::string> shown;
  for (const Example& one : examples()) {
    shown.insert(one.recipe);
  }
  for (const char* word : {"case",           "centre support",
                           "drum",           "shaft",
                           "spacer ring",    "lugged plate",
                           "wave plate",     "friction plate",
                           "snap ring",      "piston",
                           "spring set",     "retainer",
                           "inner race",     "outer race",
                           "sprag element",  "thrust washer",
                           "band",           "pin",
                           "lifting spider", "output shaft",
                           "ring gear",      "planetary carrier"}) {
    shown.insert(word); // demo_parts_test.cpp and teeth_test.cpp show these
  }
  for (const Recipe& recipe : recipes()) {
    INFO(recipe.word << ": a new kind needs a sound example in examples.cpp");
    CHECK(shown.contains(recipe.word));
  }
}

TEST_CASE("every example is closed, outward, a manifold and without slivers") {
  for (const Example& one : examples()) {
    CAPTURE(one.id);
    const MadePart part = made(one);
    const Topology topology = topology_of(part.mesh);
    CHECK(topology.triangles > 0);
    CHECK(topology.open_edges == 0);
    CHECK(topology.shared_edges == 0);
    CHECK(topology.flat_triangles == 0);
    CHECK(topology.normals_fit);
    CHECK(topology.ranges_cover);
    CHECK(slip_in(part.mesh).empty());
    const ClosedReport report = closed_report(weld(part.mesh));
    CHECK(report.closed());
    CHECK(report.manifold());
    const Thinnest thin = thinnest(part.mesh);
    CAPTURE(thin.height_m, thin.share);
    // No triangle is lower than 0.01 mm, nor than a thousandth of its longest side.
    CHECK(thin.height_m > 0.01 * mm);
    CHECK(thin.share > 1e-3);
    CHECK(topology.triangles < 16000);
  }
}

TEST_CASE("every example's mesh lies in or on its solid, and is as high") {
  std::mt19937_64 random(23);
  const double tolerance_m = MeshOptions{}.chord_tolerance_m;
  for (const Example& one : examples()) {
    CAPTURE(one.id);
    const MadePart part = made(one);
    const Solid& solid = part.component.solid;
    // A piston laid down has a square channel for its pin, and a round bore in it.
    const double channel_m =
        one.aside ? (one.recipe == "servo piston" ? 10.1 / 2 * (std::sqrt(2.0) - 1) : 0.06) * mm
                  : 0;
    double low_m = 1;
    double high_m = -1;
    for (const Vec3& p : part.mesh.positions_m) {
      if (!in_solid(solid, p, 1e-8 + channel_m)) {
        CAPTURE(p.x, p.y, p.z);
        FAIL_CHECK("a corner outside the solid");
        break;
      }
      low_m = std::min(low_m, p.z);
      high_m = std::max(high_m, p.z);
    }
    for (int k = 0; k < 3000; ++k) {
      const Vec3 p = random_surface_point(part.mesh, random);
      if (!in_solid(solid, p, tolerance_m + 1e-9 + channel_m)) {
        CAPTURE(p.x, p.y, p.z);
        FAIL_CHECK("a face outside the solid");
        break;
      }
    }
    // A round bar laid down stands on its facets.
    const double margin_m = (one.aside ? 0.2 : 0.06) * mm;
    CHECK(low_m == Approx(solid.low_m()).margin(margin_m));
    CHECK(high_m == Approx(solid.high_m()).margin(margin_m));
    const double mesh_m3 = mesh_volume_m3(part.mesh);
    CHECK(mesh_m3 > 0);
    if (one.finer) {
      CHECK(mesh_m3 < solid_volume_m3(solid));
    } else {
      CHECK(mesh_m3 + lost_to_facets_m3(part.mesh) == Approx(solid_volume_m3(solid)).epsilon(1e-8));
    }
  }
}

TEST_CASE("every example says what it is, and all of that goes into its file and back") {
  for (const Example& one : examples()) {
    CAPTURE(one.id);
    const Component part = made(one).component;
    CHECK((part.kind == ComponentKind::other) == (one.recipe == "turned part"));
    CHECK(part.mass_kg > 0);
    for (const Mark& mark : part.marks) {
      CHECK(mark.words.size() > 10);
      CHECK(mark.radius_m <= part.solid.outer_m() + 1e-9);
      CHECK(mark.height_m >= part.solid.low_m() - 1e-9);
      CHECK(mark.height_m <= part.solid.high_m() + 1e-9);
    }
    for (std::size_t i = 0; i < part.keys.size(); ++i) {
      for (std::size_t j = i + 1; j < part.keys.size(); ++j) {
        CHECK(part.keys[i].id != part.keys[j].id);
      }
    }
    const auto back = component_from_extras_text(extras_text_of(part));
    if (!back) {
      FAIL(back.problem());
    }
    REQUIRE(back.value());
    CHECK(back.value()->kind == part.kind);
    CHECK(back.value()->solid.rings.size() == part.solid.rings.size());
  }
}

TEST_CASE("a dished plate is a cone with the stated edge low") {
  for (const bool outer_low : {true, false}) {
    const MadePart part =
        made(example(outer_low ? "dished, outer edge low" : "dished, inner edge low, with lugs"));
    REQUIRE(part.component.wave);
    CHECK(part.component.wave->waves == 0);
    CHECK(part.component.wave->free_m == Approx(2.6 * mm));
    CHECK(part.component.wave->flat_m == Approx(1.6 * mm));
    for (const Vec3& p : part.mesh.positions_m) {
      const double r = std::hypot(p.x, p.y);
      const double along = std::min((r - 59 * mm) / (12 * mm), 1.0);
      const double base = 1.0 * mm * (outer_low ? 1 - along : along);
      CHECK(std::min(std::abs(p.z - base), std::abs(p.z - base - 1.6 * mm)) < 1e-9);
    }
    // Flat stock bent to a cone keeps its volume.
    const double annulus_m3 = pi * (71 * 71 - 59 * 59) * 1.6 * mm * mm * mm;
    const double lugs_m3 = outer_low ? 0 : 8 * 8 * 3 * 1.6 * mm * mm * mm;
    CHECK(mesh_volume_m3(part.mesh) == Approx(annulus_m3 + lugs_m3).epsilon(0.003));
  }
}

TEST_CASE("a disc spring is a cone that goes flat to its stock's thickness, at its stated rate") {
  for (const bool inner_low : {true, false}) {
    const MadePart part =
        made(example(inner_low ? "disc spring, inner edge low" : "disc spring, outer edge low"));
    const Component& spring = part.component;
    CHECK(spring.kind == ComponentKind::springs);
    REQUIRE(spring.springs);
    CHECK(spring.springs->free_m == Approx(6.4 * mm));
    CHECK(spring.springs->solid_m == Approx(2.2 * mm));
    CHECK(spring.springs->rate_N_per_m == Approx(420e3));
    for (const Vec3& p : part.mesh.positions_m) {
      const double along = (std::hypot(p.x, p.y) - 52 * mm) / (21 * mm);
      const double base = 4.2 * mm * (inner_low ? along : 1 - along);
      CHECK(std::min(std::abs(p.z - base), std::abs(p.z - base - 2.2 * mm)) < 1e-9);
    }
    REQUIRE(spring.marks.size() == 1);
    CHECK(spring.marks[0].words.find(inner_low ? "inner edge stands on" : "outer edge stands on") !=
          std::string::npos);
    CHECK(spring.marks[0].radius_m == Approx((inner_low ? 52 : 73) * mm));
    const double stock_m3 = pi * (73 * 73 - 52 * 52) * 2.2 * mm * mm * mm;
    CHECK(mesh_volume_m3(part.mesh) == Approx(stock_m3).epsilon(0.003));
    CHECK(spring.mass_kg == Approx(stock_m3 * 7850).epsilon(0.01));
  }
}

TEST_CASE("a shell has the sun gear's spline in its neck and lugs round its bell") {
  const Component shell = made(example("shell")).component;
  CHECK(shell.kind == ComponentKind::hub);
  REQUIRE(shell.keys.size() == 3);
  const Key& spline = shell.keys[0];
  const Key& lug = shell.keys[1];
  CHECK(spline.id == "sun spline");
  CHECK(lug.id == "drum lug");
  CHECK(spline.outer_m < lug.inner_m);
  CHECK(spline.outer_m == Approx(26 * mm));
  CHECK(shell.solid.outer_m() == Approx(75 * mm));
}

TEST_CASE("a round hole is as round as the tolerance, and takes away its own volume") {
  const MadePart part = made(example("turned, with holes"));
  const double body = pi * (95 * 95 - 20 * 20) * 10;
  const double holes = 3 * pi * (4 * 4 * 8 + 2 * 2 * 2);
  const double mesh_mm3 = (mesh_volume_m3(part.mesh) + lost_to_facets_m3(part.mesh)) / 1e-9;
  CHECK(mesh_mm3 == Approx(body - holes).epsilon(0.0005));
  int walls = 0;
  for (const auto& t : part.mesh.triangles) {
    if (std::abs(part.mesh.normals[t[0]].z) > 0.5) {
      continue;
    }
    for (const std::uint32_t v : t) {
      const Vec3& p = part.mesh.positions_m[v];
      const double r = std::hypot(p.x + 61 * mm, p.y); // 90 degrees is the -x side
      if (r < 5 * mm) {
        const double wanted = p.z > 2.01 * mm ? 4 * mm : r > 3 * mm ? 4 * mm : 2 * mm;
        CHECK(r == Approx(wanted).margin(0.0201 * mm));
        ++walls;
      }
    }
  }
  CHECK(walls > 100);
}

TEST_CASE("the eight holes of a gasket, one of them off its pitch, and its windows") {
  const MadePart part = made(example("gasket"));
  const Component& gasket = part.component;
  REQUIRE(gasket.wave);
  CHECK(gasket.wave->free_m == Approx(0.55 * mm));
  CHECK(gasket.wave->flat_m == Approx(0.40 * mm));
  CHECK(gasket.wave->waves == 0);
  const auto open_at = [&](double angle_deg, double diameter_mm) {
    const double a = angle_deg * pi / 180;
    const double r = diameter_mm / 2 * mm;
    return !in_solid(gasket.solid, {-r * std::sin(a), r * std::cos(a), 0.2 * mm}, 0);
  };
  CHECK(open_at(-6, 210));
  CHECK_FALSE(open_at(0, 210));
  for (int k = 1; k < 8; ++k) {
    CHECK(open_at(45 * k, 210));
    CHECK_FALSE(open_at(45 * k - 6, 210));
  }
  CHECK(open_at(70, 202));
  CHECK_FALSE(open_at(-70, 202));
  const double windows = 12 * (204 - 199.5) / 2;
  const double area = pi * (112 * 112 - 98.5 * 98.5) - 8 * pi * 4.5 * 4.5 - windows;
  CHECK(mesh_volume_m3(part.mesh) / 1e-9 == Approx(area * 0.55).epsilon(0.002));
}

TEST_CASE("a cam's ramps rise from nothing to their depth the stated way") {
  const Component cam = made(example("turned, with a cam")).component;
  const auto open_to = [&](double angle_deg) {
    double r = 46 * mm;
    const double a = angle_deg * pi / 180;
    while (r < 50 * mm && !in_solid(cam.solid, {-r * std::sin(a), r * std::cos(a), 5 * mm}, 0)) {
      r += 0.005 * mm;
    }
    return r / mm - 46;
  };
  // Shallow clockwise: a pocket about 0 deg is nothing at -11 and 1.4 deep at +11.
  for (const double pocket : {0.0, 30.0, 330.0}) {
    CHECK(open_to(pocket - 10.9) < 0.05);
    CHECK(open_to(pocket) == Approx(0.7).margin(0.1));
    CHECK(open_to(pocket + 10.9) == Approx(1.4).margin(0.03));
    CHECK(open_to(pocket + 11.1) < 0.006);
    double last = 0;
    for (double a = -10.9; a < 11; a += 0.5) {
      CHECK(open_to(pocket + a) >= last - 1e-9);
      last = open_to(pocket + a);
    }
  }
}

TEST_CASE("a ball is round and lies free in its capsule") {
  const MadePart part = made(example("check ball"));
  // At 90 degrees on a circle of 122: its middle is 61 to the left.
  int ball = 0;
  for (std::size_t i = 0; i < part.mesh.positions_m.size(); ++i) {
    const Vec3& p = part.mesh.positions_m[i];
    const Vec3& n = part.mesh.normals[i];
    const Vec3 out{p.x + 61 * mm, p.y, p.z};
    // The ball's normals point from its middle: 2.5 back along them is one point.
    const Vec3 middle{out.x - 2.5 * mm * n.x, out.y - 2.5 * mm * n.y, out.z - 2.5 * mm * n.z};
    if (std::hypot(middle.x, middle.y) < 0.03 * mm && std::hypot(out.x, out.y) > 0.5 * mm &&
        std::abs(n.z) < 0.9) {
      ++ball;
    }
  }
  CHECK(ball > 100);
  const double capsule = pi * (3.9 * 3.9 - 2.7 * 2.7) * 6.6; // at the least
  const double sphere = 4.0 / 3 * pi * 2.5 * 2.5 * 2.5;
  CHECK(mesh_volume_m3(part.mesh) / 1e-9 > 0.98 * (capsule * 0.95 + sphere));
}

TEST_CASE("an O-ring has a torus's volume, a lip seal's lip points where it says") {
  const MadePart ring = made(example("O-ring, round"));
  const double cord = 2.55;
  const double torus = 2 * pi * (190.8 + 195.9) / 4 * pi * cord * cord / 4;
  CHECK(mesh_volume_m3(ring.mesh) / 1e-9 == Approx(torus).epsilon(0.03));
  for (const bool outside : {true, false}) {
    for (const bool down : {true, false}) {
      const MadePart seal = made(example(
          std::string("lip seal, ") + (outside ? "outside" : "bore") + (down ? ", down" : ", up")));
      double touches_at = -1;
      double best = outside ? 0 : 1;
      for (const Vec3& p : seal.mesh.positions_m) {
        const double r = std::hypot(p.x, p.y);
        if (outside ? r > best : r < best) {
          best = r;
          touches_at = p.z;
        }
      }
      CHECK((down ? touches_at < 0.5 * mm : touches_at > 3.1 * mm));
    }
  }
}

TEST_CASE("rollers stand to the side that their springs push them to") {
  for (const bool clockwise : {true, false}) {
    const Component clutch =
        made(example(clockwise ? "roller clutch" : "roller clutch the other way")).component;
    REQUIRE(clutch.marks.size() == 1);
    CHECK((clutch.marks[0].words.find("counter") == std::string::npos) == clockwise);
  }
  const MadePart part = made(example("roller clutch"));
  // The roller of the cell about 12 o'clock: its corners lie more to the clockwise side (+x).
  double low_x = 1;
  double high_x = -1;
  for (const Vec3& p : part.mesh.positions_m) {
    if (p.y > 38.2 * mm && p.y < 45.9 * mm && std::abs(p.x) < 8 * mm &&
        std::abs(p.z - 9 * mm) > 7.3 * mm && std::abs(p.z - 9 * mm) < 7.6 * mm) {
      low_x = std::min(low_x, p.x);
      high_x = std::max(high_x, p.x);
    }
  }
  CHECK(high_x + low_x > 4 * mm);
  CHECK(high_x - low_x == Approx(7.7 * mm).margin(0.1 * mm));
}

TEST_CASE("the eight bolts go through the eight holes, offset one and all") {
  const Component bolts = made(example("bolt set")).component;
  const Component gasket = made(example("gasket")).component;
  for (const SectorRing& ring : bolts.solid.rings) {
    if (ring.feature != "thread") {
      continue;
    }
    for (const Sector& s : ring.sectors) {
      for (const double r : {ring.inner_m, ring.outer_m}) {
        for (const double a : {s.from.at(r), s.to.at(r)}) {
          CHECK_FALSE(in_solid(gasket.solid, {-r * std::sin(a), r * std::cos(a), 0.2 * mm}, 0));
        }
      }
    }
  }
}

TEST_CASE("the pump's gears run together without touching") {
  const MadePart part = made(example("pump gears"));
  // Every corner of the driven gear is outside the drive gear and the other way round:
  // the bodies are told apart by which axis they are nearer to at the mesh.
  const WeldedMesh welded = weld(part.mesh);
  const ClosedReport report = closed_report(welded);
  CHECK(report.closed());
  const double metal_m3 = mesh_volume_m3(part.mesh);
  // Two gears' annuli at their pitch circles, less recesses: within a twelfth.
  const double drive = pi / 4 * (57 * 57 - 40 * 40) * 16;
  const double driven = pi / 4 * (57 * 57 - 20 * 20) * 16;
  CHECK(metal_m3 / 1e-9 == Approx(drive + driven).epsilon(0.08));
  // Where the two are nearest a point cannot be in both: the angle that the mesh fills
  // about it is never twice a whole one.
  std::mt19937_64 random(5);
  std::uniform_real_distribution<double> x(-8 * mm, 8 * mm);
  std::uniform_real_distribution<double> y(24 * mm, 33 * mm);
  for (int k = 0; k < 400; ++k) {
    const double filled = filled_by(part.mesh, {x(random), y(random), 5 * mm});
    CHECK((filled < 0.1 || std::abs(filled - 1) < 0.1));
  }
}

TEST_CASE("a double-wrap band is three straps, each wrap as long as the stated one") {
  const MadePart part = made(example("double-wrap band"));
  REQUIRE(part.component.band_states.size() == 3);
  double turned_rad = 0;
  for (const SectorRing& ring : part.component.solid.rings) {
    if (ring.feature == "strap" && ring.high_m - ring.low_m > 5 * mm) {
      turned_rad += (ring.sectors[0].to.angle_rad - ring.sectors[0].from.angle_rad);
    }
  }
  // Middle, lower and upper: half of 660 degrees each, opened by 0.4 mm of bore.
  CHECK(turned_rad * 180 / pi == Approx(3 * 330 * 164 / 164.4).epsilon(1e-9));
  for (const BandState& state : part.component.band_states) {
    CAPTURE(state.id);
    CHECK(solid_volume_m3(state.solid) ==
          Approx(solid_volume_m3(part.component.solid)).epsilon(0.02));
    const Mesh mesh = mesh_of(state.solid, "steel");
    CHECK(topology_of(mesh).open_edges == 0);
  }
  const Key& anchor = part.component.keys[0];
  const Key& servo = part.component.keys[1];
  CHECK(anchor.outer_m < servo.outer_m);
}

TEST_CASE("a servo pin's length stands as a figure, and moves nothing where it lies down") {
  const Component upright = made(example("servo pin, upright")).component;
  const Component lying = made(example("servo pin, laid down beside the axis")).component;
  REQUIRE(upright.figure("thickness") != nullptr);
  REQUIRE(lying.figure("thickness") != nullptr);
  CHECK(upright.figure("thickness")->value_m == Approx(58.5 * mm));
  CHECK(lying.figure("thickness")->value_m == Approx(71 * mm));
  const auto longer = [](const Component& pin) {
    const Figure& f = *pin.figure("thickness");
    return stretched(pin.solid, f.zone_low_m, f.zone_high_m, 0.5 * mm);
  };
  CHECK(longer(upright).high_m() == Approx(59 * mm));
  CHECK(longer(lying).high_m() == Approx(lying.solid.high_m()));
  REQUIRE(upright.marks.size() == 1);
  CHECK(upright.marks[0].words.find("3 grooves") == 0);
}

} // namespace lugline::test
