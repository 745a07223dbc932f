// The parts of the second demo unit: their models stand there as its recipes make them,
// closed, and within their solids. Its figures are invented.

#include "scene/mesh/closed.h"
#include "scene/recipe/make.h"
#include "tests/recipe/mesh_check.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>

namespace lugline::test {

namespace {

std::filesystem::path folder() {
  return std::filesystem::path(LUGLINE_ROOT) / "assets-demo" / "quernside-two";
}

const RecipeBook& book() {
  static const RecipeBook made = make_parts(folder() / "recipes.toml");
  return made;
}

const MadePart& part(const std::string& id) {
  for (const MadePart& one : book().parts) {
    if (one.component.id == id) {
      return one;
    }
  }
  FAIL("there is no part " << id);
  return book().parts.front();
}

} // namespace

TEST_CASE("the second unit's models are what its recipes make, byte for byte") {
  REQUIRE(book().complaints.empty());
  REQUIRE(book().parts.size() > 10);
  for (const MadePart& one : book().parts) {
    CAPTURE(one.component.id);
    std::ifstream in(folder() / "parts" / (one.component.id + ".glb"), std::ios::binary);
    const std::vector<unsigned char> there{std::istreambuf_iterator<char>(in), {}};
    CHECK(model_bytes(one) == there);
  }
}

TEST_CASE("the second unit's meshes are closed, and lie in or on their solids") {
  std::mt19937_64 random(5);
  for (const MadePart& one : book().parts) {
    CAPTURE(one.component.id);
    const ClosedReport report = closed_report(weld(one.mesh));
    CHECK(report.closed());
    CHECK(report.manifold());
    CHECK(topology_of(one.mesh).normals_fit);
    // Coils are drawn coarser.
    const double tolerance_m =
        one.component.springs ? 0.13e-3 : MeshOptions{}.chord_tolerance_m + 1e-9;
    for (int k = 0; k < 1000; ++k) {
      const Vec3 p = random_surface_point(one.mesh, random);
      if (!in_solid(one.component.solid, p, tolerance_m)) {
        CAPTURE(p.x, p.y, p.z);
        FAIL_CHECK("a face outside the solid");
        break;
      }
    }
  }
}

TEST_CASE("lugs on a hub point inward, and teeth in a drum outward") {
  const Solid& steel = part("QC-S").component.solid;
  double innermost_m = 1;
  for (const SectorRing& ring : steel.rings) {
    innermost_m = std::min(innermost_m, ring.inner_m);
    CHECK(ring.full() == (ring.inner_m > 43e-3));
  }
  CHECK(innermost_m == Approx(81e-3 / 2));
  CHECK(part("QC-F").component.solid.outer_m() == Approx(121.6e-3 / 2));
}

TEST_CASE("a tapered face falls from where it begins, and bears where it is said to") {
  const MadePart& plate = part("QC-BP");
  // 0.36 over 18 mm of diameter: at 110 mm 0.20 lower.
  double at_ring_m = 0;
  for (const SectorRing& ring : plate.component.solid.rings) {
    if (ring.outer_m > 110e-3 / 2 + 1e-9) {
      at_ring_m = std::max(at_ring_m, ring.high_m);
    }
  }
  CHECK(at_ring_m == Approx(4.80e-3).margin(1e-9));
  CHECK(plate.component.solid.high_m() == Approx(5e-3));
  // The mesh is the true cone, under the rings that bound it by the chord tolerance.
  for (const Vec3& p : plate.mesh.positions_m) {
    const double r_m = std::hypot(p.x, p.y);
    if (p.z > 2.5e-3) {
      const double share = std::clamp((2 * r_m - 100e-3) / 18e-3, 0.0, 1.0);
      CHECK(p.z == Approx(5e-3 - 0.36e-3 * share).margin(1e-9));
    }
  }
}

} // namespace lugline::test
