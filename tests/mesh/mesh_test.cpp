#include "scene/mesh/mesh.h"

#include "tests/mesh/shapes.h"

#include <catch2/catch.hpp>

#include <random>

using namespace lugline;

namespace {

constexpr double pi = std::numbers::pi;

Placement some_placement(std::mt19937_64& bits) {
  const auto real = [&] { return static_cast<double>(bits() >> 11) * 0x1p-53; };
  return Placement::turned(real() * 7)
      .then(Placement::turned_over(real() * 7, real()))
      .then(Placement::turned(real() * 7))
      .then(Placement::moved({real(), real(), real()}));
}

} // namespace

TEST_CASE("bounds hold every position, and nothing has none") {
  CHECK(bounds_of({}).empty);
  const Bounds bounds = bounds_of(shapes::box({-1, -2, -3}, {4, 5, 6}));
  CHECK_FALSE(bounds.empty);
  CHECK(bounds.low_m == Vec3{-1, -2, -3});
  CHECK(bounds.high_m == Vec3{4, 5, 6});
  const Bounds both = joined(bounds, bounds_of(shapes::box({0, 0, 0}, {9, 1, 1})));
  CHECK(both.low_m == Vec3{-1, -2, -3});
  CHECK(both.high_m == Vec3{9, 5, 6});
  CHECK(joined({}, bounds).high_m == bounds.high_m);
  CHECK(joined(bounds, {}).high_m == bounds.high_m);
}

TEST_CASE("a box has the figures that anyone can work out") {
  const BodyFigures figures = body_figures(shapes::box({1, 2, 3}, {2, 4, 6}));
  CHECK(figures.volume_m3 == Approx(6).epsilon(1e-14));
  CHECK(figures.surface_m2 == Approx(22).epsilon(1e-14));
  CHECK(figures.centroid_m.x == Approx(1.5).epsilon(1e-14));
  CHECK(figures.centroid_m.y == Approx(3).epsilon(1e-14));
  CHECK(figures.centroid_m.z == Approx(4.5).epsilon(1e-14));
  // The integral of x² over the box is (2³ - 1³)/3 times the area across it, and so on.
  CHECK(figures.squares_m5.x == Approx(7.0 / 3 * 6).epsilon(1e-13));
  CHECK(figures.squares_m5.y == Approx(56.0 / 3 * 3).epsilon(1e-13));
  CHECK(figures.squares_m5.z == Approx(189.0 / 3 * 2).epsilon(1e-13));
}

TEST_CASE("a surface inside out has a volume below nothing") {
  Mesh mesh = shapes::box({0, 0, 0}, {1, 1, 1});
  for (auto& triangle : mesh.triangles) {
    std::swap(triangle[1], triangle[2]);
  }
  CHECK(body_figures(mesh).volume_m3 == Approx(-1));
  CHECK(body_figures(mesh).centroid_m.x == Approx(0.5));
}

TEST_CASE("nothing encloses nothing") {
  const BodyFigures figures = body_figures({});
  CHECK(figures.volume_m3 == 0);
  CHECK(figures.surface_m2 == 0);
  CHECK(figures.centroid_m == Vec3{});
}

TEST_CASE("a part a thousand kilometres off has the same figures") {
  const Mesh near = shapes::ring(0.08, 0.06, 0.002, 64);
  const Mesh far = placed(near, Placement::moved({1e6, -1e6, 1e6}));
  const BodyFigures here = body_figures(near);
  const BodyFigures there = body_figures(far);
  // 1e6 m holds the positions to about 1e-10 m, of a part that is 2e-3 m thick.
  CHECK(there.volume_m3 == Approx(here.volume_m3).epsilon(1e-6));
  CHECK(there.surface_m2 == Approx(here.surface_m2).epsilon(1e-6));
  CHECK(there.centroid_m.x - 1e6 == Approx(0).margin(1e-8));
}

TEST_CASE("turning and moving keep volume, surface and the facing of normals") {
  std::mt19937_64 bits(7);
  const Mesh mesh = shapes::ring(0.05, 0.03, 0.01, 17);
  const BodyFigures before = body_figures(mesh);
  for (int i = 0; i < 50; ++i) {
    const Placement placement = some_placement(bits);
    const Mesh moved = placed(mesh, placement);
    const BodyFigures after = body_figures(moved);
    CHECK(after.volume_m3 == Approx(before.volume_m3).epsilon(1e-12));
    CHECK(after.surface_m2 == Approx(before.surface_m2).epsilon(1e-12));
    CHECK(length(after.centroid_m - placement.point(before.centroid_m)) < 1e-12);
    const Mesh flat = flat_shaded(moved);
    for (std::size_t t = 0; t < moved.triangles.size(); ++t) {
      CHECK(length(flat.normals[3 * t] - moved.normals[moved.triangles[t][0]]) < 1e-9);
    }
  }
}

TEST_CASE("a quarter turn is counter-clockwise seen from +z") {
  const Placement quarter = Placement::turned(pi / 2);
  // 12 o'clock (+y) goes to 9 o'clock, which is -x seen from +z.
  CHECK(length(quarter.point({0, 1, 0}) - Vec3{-1, 0, 0}) < 1e-15);
  CHECK(length(quarter.point({1, 0, 5}) - Vec3{0, 1, 5}) < 1e-15);
}

TEST_CASE("turning over is about the 12 o'clock axis at its height") {
  const Placement over = Placement::turned_over(pi, 0.5);
  CHECK(length(over.point({0, 2, 0.5}) - Vec3{0, 2, 0.5}) < 1e-15);
  CHECK(length(over.point({1, 2, 0}) - Vec3{-1, 2, 1}) < 1e-15);
  const Placement half_way = Placement::turned_over(pi / 2, 0.5);
  CHECK(length(half_way.point({0, 0, 1.5}) - Vec3{1, 0, 0.5}) < 1e-15);
}

TEST_CASE("one placement after another is both in turn") {
  std::mt19937_64 bits(11);
  const Placement a = some_placement(bits);
  const Placement b = some_placement(bits);
  const Vec3 point{0.3, -0.2, 0.9};
  CHECK(length(a.then(b).point(point) - b.point(a.point(point))) < 1e-14);
}

TEST_CASE("flat shading gives each triangle its own corners and normal") {
  const Mesh flat = flat_shaded(shapes::box({0, 0, 0}, {1, 1, 1}));
  CHECK(flat.positions_m.size() == 36);
  CHECK(flat.triangles.size() == 12);
  CHECK(slip_in(flat).empty());
  CHECK(flat.normals[0] == Vec3{0, 0, -1});
  Mesh thin;
  thin.positions_m = {{0, 0, 0}, {1, 0, 0}, {2, 0, 0}};
  thin.triangles = {{0, 1, 2}};
  CHECK(flat_shaded(thin).normals[0] == Vec3{0, 0, 1});
}

TEST_CASE("one mesh after another, and like materials meet") {
  Mesh mesh = shapes::box({0, 0, 0}, {1, 1, 1}, "steel");
  append(mesh, shapes::box({2, 0, 0}, {3, 1, 1}, "steel"));
  append(mesh, shapes::box({4, 0, 0}, {5, 1, 1}, "bronze"));
  CHECK(slip_in(mesh).empty());
  REQUIRE(mesh.ranges.size() == 2);
  CHECK(mesh.ranges[0].triangle_count == 24);
  CHECK(mesh.ranges[1].first_triangle == 24);
  CHECK(mesh.ranges[1].material == "bronze");
  CHECK(body_figures(mesh).volume_m3 == Approx(3));
}

TEST_CASE("slips in a mesh of our own are named") {
  const Mesh sound = shapes::box({0, 0, 0}, {1, 1, 1});
  CHECK(slip_in(sound).empty());
  CHECK(slip_in({}).empty());

  Mesh mesh = sound;
  mesh.normals.pop_back();
  CHECK(slip_in(mesh) == "23 normals for 24 positions");
  mesh = sound;
  mesh.triangles[3][1] = 24;
  CHECK(slip_in(mesh) == "corner 24 of 24 positions");
  mesh = sound;
  mesh.ranges[0].triangle_count = 11;
  CHECK(slip_in(mesh) == "the material ranges cover 11 of 12 triangles");
  mesh = sound;
  mesh.ranges[0].first_triangle = 1;
  CHECK(slip_in(mesh) == "a material range begins at triangle 1 where 0 comes next");
  mesh = sound;
  mesh.positions_m[0].y = std::nan("");
  CHECK(slip_in(mesh) == "a position or normal that is not finite");
}
