#include "scene/mesh/closed.h"

#include "tests/mesh/shapes.h"

#include <catch2/catch.hpp>

#include <random>

using namespace lugline;

namespace {

constexpr double pi = std::numbers::pi;

ClosedReport report_of(const Mesh& mesh) {
  return closed_report(weld(mesh));
}

} // namespace

TEST_CASE("welding joins the doubled corners of a box") {
  const WeldedMesh welded = weld(shapes::box({0, 0, 0}, {1, 1, 1}));
  CHECK(welded.positions_m.size() == 8);
  CHECK(welded.vertex_of.size() == 24);
  CHECK(welded.triangles.size() == 12);
}

TEST_CASE("a box is closed, a ball to the topologist, and one piece") {
  const ClosedReport report = report_of(shapes::box({0, 0, 0}, {1, 1, 1}));
  CHECK(report.closed());
  CHECK(report.manifold());
  CHECK(report.vertices == 8);
  CHECK(report.edges == 18);
  CHECK(report.triangles == 12);
  CHECK(report.euler() == 2);
  CHECK(report.pieces == 1);
}

TEST_CASE("a missing face leaves a boundary") {
  Mesh mesh = shapes::box({0, 0, 0}, {1, 1, 1});
  mesh.triangles.resize(10);
  const ClosedReport report = report_of(mesh);
  CHECK_FALSE(report.closed());
  CHECK(report.boundary_edges == 4);
  CHECK(report.unbalanced_edges == 0);
}

TEST_CASE("a face turned wrong is found by its edges") {
  Mesh mesh = shapes::box({0, 0, 0}, {1, 1, 1});
  std::swap(mesh.triangles[0][1], mesh.triangles[0][2]);
  const ClosedReport report = report_of(mesh);
  CHECK_FALSE(report.closed());
  CHECK(report.boundary_edges == 0);
  CHECK(report.unbalanced_edges == 3);
}

TEST_CASE("two boxes that share an edge are closed and not manifold") {
  Mesh mesh = shapes::box({0, 0, 0}, {1, 1, 1});
  append(mesh, shapes::box({1, 1, 0}, {2, 2, 1}));
  const ClosedReport report = report_of(mesh);
  CHECK(report.closed());
  CHECK_FALSE(report.manifold());
  CHECK(report.non_manifold_edges == 1);
  CHECK(report.pieces == 1);
}

TEST_CASE("two boxes apart are two pieces") {
  Mesh mesh = shapes::box({0, 0, 0}, {1, 1, 1});
  append(mesh, shapes::box({2, 2, 0}, {3, 3, 1}));
  CHECK(report_of(mesh).pieces == 2);
  CHECK(report_of(mesh).euler() == 4);
}

TEST_CASE("degenerate and flat triangles are counted and do no harm") {
  Mesh mesh = shapes::box({0, 0, 0}, {1, 1, 1});
  mesh.triangles.push_back({0, 0, 1});
  mesh.triangles.push_back({0, 1, 1});
  ClosedReport report = report_of(mesh);
  CHECK(report.degenerate_triangles == 2);
  CHECK(report.triangles == 12);
  CHECK(report.closed());

  Mesh flat;
  flat.positions_m = {{0, 0, 0}, {1, 0, 0}, {3, 0, 0}};
  flat.triangles = {{0, 1, 2}};
  report = report_of(flat);
  CHECK(report.flat_triangles == 1);
  CHECK(report.degenerate_triangles == 0);
}

TEST_CASE("nothing is not closed") {
  const ClosedReport report = report_of({});
  CHECK_FALSE(report.closed());
  CHECK(report.vertices == 0);
  CHECK(report.pieces == 0);
}

TEST_CASE("welding keeps to its tolerance and never creeps") {
  Mesh row;
  for (int i = 0; i < 10; ++i) {
    row.positions_m.push_back({i * 0.7e-7, 0, 0}); // each within the tolerance of the next
  }
  const WeldedMesh welded = weld(row, 1e-7);
  CHECK(welded.positions_m.size() == 5);
  for (std::size_t i = 0; i < row.positions_m.size(); ++i) {
    CHECK(length(row.positions_m[i] - welded.positions_m[welded.vertex_of[i]]) <= 1e-7);
  }
}

TEST_CASE("welding finds what a search of every pair finds") {
  std::mt19937_64 bits(3);
  Mesh cloud;
  for (int i = 0; i < 400; ++i) {
    const auto real = [&] { return static_cast<double>(bits() % 41) * 0.25e-3 - 5e-3; };
    cloud.positions_m.push_back({real(), real(), 0});
  }
  const double tolerance_m = 0.3e-3; // reaches one neighbour on the lattice
  const WeldedMesh welded = weld(cloud, tolerance_m);
  std::vector<Vec3> expected;
  for (const Vec3& point : cloud.positions_m) {
    std::size_t found = expected.size();
    for (std::size_t k = 0; k < expected.size(); ++k) {
      if (length(expected[k] - point) <= tolerance_m) {
        found = k;
        break;
      }
    }
    if (found == expected.size()) {
      expected.push_back(point);
    }
    const std::size_t i = static_cast<std::size_t>(&point - cloud.positions_m.data());
    CHECK(welded.vertex_of[i] == found);
  }
  CHECK(welded.positions_m == expected);
}

TEST_CASE("welding works far from the origin") {
  const Mesh far = placed(shapes::box({0, 0, 0}, {1, 1, 1}), Placement::moved({1e6, 1e6, -1e6}));
  const ClosedReport report = report_of(far);
  CHECK(report.vertices == 8);
  CHECK(report.closed());
}

TEST_CASE("a box has twelve creases and no diagonals") {
  const WeldedMesh welded = weld(shapes::box({0, 0, 0}, {1, 1, 1}));
  const std::vector<CreaseEdge> creases = crease_edges(welded, pi / 6);
  CHECK(creases.size() == 12);
  for (const CreaseEdge& crease : creases) {
    CHECK(crease.angle_rad == Approx(pi / 2));
    CHECK(crease.a < crease.b);
  }
  CHECK(crease_edges(welded, pi * 0.51).empty());
}

TEST_CASE("a ring's creases are its four circles, and its facets below the angle are none") {
  const int n = 36; // facets lean apart by 10 degrees
  const WeldedMesh welded = weld(shapes::ring(0.08, 0.06, 0.002, n));
  CHECK(crease_edges(welded, 30 * pi / 180).size() == 4 * n);
  CHECK(crease_edges(welded, 9.99 * pi / 180).size() == 6 * n);
  CHECK(crease_edges(welded, 10.01 * pi / 180).size() == 4 * n);
}

TEST_CASE("a boundary is always an edge to draw") {
  Mesh sheet;
  sheet.positions_m = {{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0}};
  sheet.triangles = {{0, 1, 2}, {0, 2, 3}};
  const std::vector<CreaseEdge> creases = crease_edges(weld(sheet), 1);
  CHECK(creases.size() == 4);
  CHECK(creases[0].angle_rad == pi);
}

TEST_CASE("facets turned against each other lean apart by what one sees") {
  Mesh sheet;
  sheet.positions_m = {{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0}};
  sheet.triangles = {{0, 1, 2}, {0, 3, 2}}; // one plane, the second from below
  CHECK(crease_edges(weld(sheet), 0.1).size() == 4);
}
