// The mesh of a solid: closed, outward, exact to its facets.

#include "scene/recipe/recipe.h"
#include "tests/recipe/mesh_check.h"
#include "tests/recipe/random_solid.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

namespace lugline::test {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double mm = 1e-3;

SectorRing ring_of(double bore_mm, double outside_mm, double low_mm, double high_mm) {
  return {bore_mm / 2 * mm, outside_mm / 2 * mm, low_mm * mm, high_mm * mm, {}, "", ""};
}

double polygon_area(double r, int corners) {
  return corners * r * r * std::sin(2 * pi / corners) / 2;
}

int corners_at(const Mesh& mesh, double r) {
  const Topology topology = topology_of(mesh);
  REQUIRE(topology.open_edges == 0);
  int count = 0;
  for (std::size_t i = 0; i < mesh.positions_m.size(); ++i) {
    const Vec3& p = mesh.positions_m[i];
    if (std::abs(std::hypot(p.x, p.y) - r) < 1e-9 && mesh.normals[i].z > 0.5) {
      ++count;
    }
  }
  return count;
}

void require_sound(const Mesh& mesh) {
  const Topology topology = topology_of(mesh);
  CHECK(topology.triangles > 0);
  CHECK(topology.open_edges == 0);
  CHECK(topology.flat_triangles == 0);
  CHECK(topology.normals_fit);
  CHECK(topology.ranges_cover);
}

} // namespace

TEST_CASE("a plain ring is a prism between two polygons") {
  const Solid solid{{ring_of(60, 80, 0, 2)}};
  const Mesh mesh = mesh_of(solid, "steel");
  require_sound(mesh);
  const int inner = corners_at(mesh, 30 * mm);
  const int outer = corners_at(mesh, 40 * mm);
  REQUIRE(inner >= 24);
  REQUIRE(outer >= inner);
  const double expected = (polygon_area(40 * mm, outer) - polygon_area(30 * mm, inner)) * 2 * mm;
  CHECK(mesh_volume_m3(mesh) == Approx(expected).epsilon(1e-12));
  // 2 (n + m) corners; each corner of a closed ring has two triangles.
  const Topology topology = topology_of(mesh);
  CHECK(topology.corners == static_cast<std::size_t>(2 * (inner + outer)));
  CHECK(topology.triangles == static_cast<std::size_t>(4 * (inner + outer)));
  CHECK(topology.shared_edges == 0);
  REQUIRE(mesh.ranges.size() == 1);
  CHECK(mesh.ranges[0].material == "steel");
}

TEST_CASE("facets stay within the chord tolerance, and no more are made than asked for") {
  const Solid solid{{ring_of(60, 200, 0, 2)}};
  for (const double tolerance_mm : {0.5, 0.1, 0.02}) {
    MeshOptions options;
    options.chord_tolerance_m = tolerance_mm * mm;
    const int outer = corners_at(mesh_of(solid, "steel", options), 100 * mm);
    CHECK(100 * (1 - std::cos(pi / outer)) <= tolerance_mm);
    CHECK(outer < 2.2 * pi / std::acos(1 - tolerance_mm / 100));
  }
  MeshOptions few;
  few.most_segments = 48;
  CHECK(corners_at(mesh_of(solid, "steel", few), 100 * mm) == 48);
}

TEST_CASE("a solid shaft has no bore") {
  const Solid solid{{ring_of(0, 20, 0, 50), ring_of(0, 12, 50, 60)}};
  const Mesh mesh = mesh_of(solid, "steel");
  require_sound(mesh);
  CHECK(topology_of(mesh).shared_edges == 0);
  CHECK(mesh_volume_m3(mesh) + lost_to_facets_m3(mesh) ==
        Approx(solid_volume_m3(solid)).epsilon(1e-10));
  for (const Vec3& p : mesh.positions_m) {
    const double r = std::hypot(p.x, p.y);
    CHECK((r < 1e-12 || r > 5.9 * mm));
  }
}

TEST_CASE("touching rings become one body with nothing between them") {
  // A plate with lugs: the root circle is seen only between the lugs.
  SectorRing lugs = ring_of(100, 110, 0, 2);
  lugs.sectors = repeated(parallel_sector(0, 8 * mm), 10);
  const Solid solid{{ring_of(60, 100, 0, 2), lugs}};
  const Mesh mesh = mesh_of(solid, "steel");
  require_sound(mesh);
  CHECK(topology_of(mesh).shared_edges == 0);
  for (const auto& t : mesh.triangles) {
    const Vec3& normal = mesh.normals[t[0]];
    const Vec3& p = mesh.positions_m[t[0]];
    const Vec3& q = mesh.positions_m[t[1]];
    const Vec3& s = mesh.positions_m[t[2]];
    const Vec3 middle{(p.x + q.x + s.x) / 3, (p.y + q.y + s.y) / 3, (p.z + q.z + s.z) / 3};
    const Vec3 out{middle.x + 2e-5 * normal.x, middle.y + 2e-5 * normal.y,
                   middle.z + 2e-5 * normal.z};
    if (std::abs(normal.z) > 0.5) {
      CHECK_FALSE(in_solid(solid, out, 0));
    } else if (std::hypot(middle.x, middle.y) > 45 * mm) {
      CHECK_FALSE(in_solid(solid, out, -1e-6));
    }
  }
}

TEST_CASE("parallel flanks are straight lines") {
  SectorRing lug = ring_of(100, 120, 0, 2);
  lug.sectors = {parallel_sector(0.3, 8 * mm)};
  const Mesh mesh = mesh_of({{ring_of(60, 100, 0, 2), lug}}, "steel");
  require_sound(mesh);
  int on_flank = 0;
  for (std::size_t i = 0; i < mesh.positions_m.size(); ++i) {
    const Vec3& p = mesh.positions_m[i];
    const Vec3& n = mesh.normals[i];
    const double across = -p.x * std::cos(0.3) - p.y * std::sin(0.3);
    const double facing = -n.x * std::cos(0.3) - n.y * std::sin(0.3);
    if (std::abs(facing) > 1 - 1e-9 && std::hypot(p.x, p.y) > 50.1 * mm) {
      CHECK(std::abs(across) == Approx(4 * mm).epsilon(1e-9));
      ++on_flank;
    }
  }
  CHECK(on_flank == 4);
}

TEST_CASE("materials keep to their own rings") {
  SectorRing lining = ring_of(70, 90, 2, 2.4);
  lining.sectors = repeated(radial_sector(0, 0.2), 12);
  lining.material = "friction lining";
  const Mesh mesh = mesh_of({{ring_of(60, 100, 0, 2), lining}}, "steel");
  require_sound(mesh);
  REQUIRE(mesh.ranges.size() == 2);
  CHECK(mesh.ranges[0].material == "steel");
  CHECK(mesh.ranges[1].material == "friction lining");
  for (std::uint32_t k = 0; k < mesh.ranges[1].triangle_count; ++k) {
    for (const std::uint32_t v : mesh.triangles[mesh.ranges[1].first_triangle + k]) {
      CHECK(mesh.positions_m[v].z >= 2 * mm - 1e-12);
    }
  }
}

TEST_CASE("random solids: closed, outward, and the solid's own volume") {
  std::mt19937_64 random(20240611);
  for (int trial = 0; trial < 300; ++trial) {
    CAPTURE(trial);
    const Solid solid = random_grid_solid(random);
    const Mesh mesh = mesh_of(solid, "steel");
    const Topology topology = topology_of(mesh);
    REQUIRE(topology.open_edges == 0);
    REQUIRE(topology.normals_fit);
    REQUIRE(topology.ranges_cover);
    // Corners nearer than 50 nm are one, which moves a thin body's volume by that much.
    REQUIRE(mesh_volume_m3(mesh) + lost_to_facets_m3(mesh) ==
            Approx(solid_volume_m3(solid)).epsilon(2e-6));
  }
}

TEST_CASE("random bodies with features: a manifold") {
  std::mt19937_64 random(7);
  for (int trial = 0; trial < 300; ++trial) {
    CAPTURE(trial);
    const Mesh mesh = mesh_of(random_core_solid(random), "iron");
    const Topology topology = topology_of(mesh);
    REQUIRE(topology.open_edges == 0);
    REQUIRE(topology.shared_edges == 0);
    REQUIRE(topology.normals_fit);
  }
}

TEST_CASE("wild solids, as a stranger's file may hold them: closed all the same") {
  std::mt19937_64 random(31);
  for (int trial = 0; trial < 300; ++trial) {
    CAPTURE(trial);
    const Solid solid = random_wild_solid(random);
    const Mesh mesh = mesh_of(solid, "steel");
    REQUIRE(slip_in(mesh).empty());
    REQUIRE(topology_of(mesh).open_edges == 0);
    REQUIRE(topology_of(mesh).ranges_cover);
    REQUIRE(mesh_volume_m3(mesh) >= -1e-18);
  }
}

TEST_CASE("rings laid over one another are one body") {
  SectorRing across = ring_of(40, 120, 1, 3);
  across.sectors = {parallel_sector(0, 20 * mm), parallel_sector(pi / 2, 30 * mm)};
  SectorRing leaning = ring_of(50, 110, 0, 2);
  leaning.sectors = {{{0.1, 20 * mm}, {0.6, 20 * mm}}};
  const Solid solid{{across, leaning}};
  const Mesh mesh = mesh_of(solid, "steel");
  require_sound(mesh);
  const double least = solid_volume_m3({{across}});
  const double most = solid_volume_m3(solid);
  const double volume = mesh_volume_m3(mesh) + lost_to_facets_m3(mesh);
  CHECK(volume > least);
  CHECK(volume < most);
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> side(-60 * mm, 60 * mm);
  std::uniform_real_distribution<double> up(0, 3 * mm);
  for (int k = 0; k < 2000; ++k) {
    const Vec3 point{side(random), side(random), up(random)};
    if (in_solid(solid, point, -0.05 * mm)) {
      CHECK(in_mesh(mesh, point));
    } else if (!in_solid(solid, point, 0.05 * mm)) {
      CHECK_FALSE(in_mesh(mesh, point));
    }
  }
}

TEST_CASE("random solids: the surface is the solid's, to the chord tolerance") {
  std::mt19937_64 random(99);
  const double tolerance_m = MeshOptions{}.chord_tolerance_m;
  for (int trial = 0; trial < 100; ++trial) {
    CAPTURE(trial);
    const Solid solid = random_core_solid(random);
    const Mesh mesh = mesh_of(solid, "iron");
    for (int k = 0; k < 200; ++k) {
      const Vec3 point = random_surface_point(mesh, random);
      REQUIRE(in_solid(solid, point, tolerance_m + 1e-9));
      // The probe looks in eight directions, so it must look a little further.
      REQUIRE_FALSE(in_solid(solid, point, -1.2 * tolerance_m));
    }
    const double r_m = solid.outer_m() * 1.05;
    std::uniform_real_distribution<double> across(-r_m, r_m);
    std::uniform_real_distribution<double> up(solid.low_m() - 1e-3, solid.high_m() + 1e-3);
    for (int k = 0; k < 10; ++k) {
      const Vec3 point{across(random), across(random), up(random)};
      if (in_solid(solid, point, -2 * tolerance_m)) {
        REQUIRE(in_mesh(mesh, point));
      } else if (!in_solid(solid, point, 2 * tolerance_m)) {
        REQUIRE_FALSE(in_mesh(mesh, point));
      }
    }
  }
}

TEST_CASE("the same solid gives the same mesh, wherever its angles are counted from") {
  std::mt19937_64 random(5);
  for (int trial = 0; trial < 20; ++trial) {
    const Solid solid = random_grid_solid(random);
    Solid wound = solid;
    for (SectorRing& ring : wound.rings) {
      for (Sector& s : ring.sectors) {
        s.from.angle_rad += 4 * pi;
        s.to.angle_rad += 4 * pi;
      }
    }
    const Mesh once = mesh_of(solid, "steel");
    CHECK(once.positions_m == mesh_of(solid, "steel").positions_m);
    const Mesh again = mesh_of(wound, "steel");
    CHECK(once.triangles.size() == again.triangles.size());
    CHECK(mesh_volume_m3(once) == Approx(mesh_volume_m3(again)).epsilon(1e-9));
  }
}

} // namespace lugline::test
