// Cut faces against closed forms: what the half plane meets is rectangles, and
// their areas are known.
#include "tests/draw/shapes.h"
#include "viewer/draw/section.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using namespace lugline;
using namespace lugline::shapes;

namespace {

constexpr double pi = std::numbers::pi;

Section cut(const Mesh& mesh, const Pose& pose, const std::optional<Stretch>& stretch,
            double angle_rad, KeptSide kept = KeptSide::clockwise) {
  return section_of(mesh, pose, stretch, angle_rad, kept);
}

double area_mm2(const Section& section) {
  return section.area_m2() * 1e6;
}

double area_of(const Section& section, const std::string& material) {
  double area = 0;
  for (const CapPiece& piece : section.pieces)
    if (section.materials[piece.material] == material)
      area += piece.area_m2() * 1e6;
  return area;
}

} // namespace

TEST_CASE("a ring is cut in a rectangle", "[section]") {
  const Mesh mesh = mesh_of_blocks({ring(0.040, 0.060, 0.010, 0.025)}, 120);
  // At a corner of the facets the radii are exact.
  const Section at_corner = cut(mesh, {}, {}, 2 * pi * 7 / 120);
  CHECK(at_corner.closed);
  CHECK(area_mm2(at_corner) == Approx(20.0 * 15.0).epsilon(1e-6));
  // Half way along a facet both radii are shorter by the cosine of half its angle.
  const Section between = cut(mesh, {}, {}, 2 * pi * 7.5 / 120);
  CHECK(area_mm2(between) == Approx(20.0 * 15.0 * std::cos(pi / 120)).epsilon(1e-6));
}

TEST_CASE("a solid shaft is cut from the axis outward only", "[section]") {
  const Mesh mesh = mesh_of_blocks({ring(0, 0.020, -0.050, 0.050)}, 96);
  const Section section = cut(mesh, {}, {}, 2 * pi * 5 / 96);
  CHECK(section.closed);
  CHECK(area_mm2(section) == Approx(20.0 * 100.0).epsilon(1e-6));
  for (const CapPiece& piece : section.pieces)
    CHECK(piece.left_low_m >= 0);
}

TEST_CASE("slots are empty where the cut passes through them", "[section]") {
  const auto blocks = slotted(ring(0.080, 0.090, 0, 0.100), 6, 0.2, 0);
  const Mesh mesh = mesh_of_blocks(blocks, 144);
  CHECK(cut(mesh, {}, {}, 0.0).pieces.empty());
  const Section land = cut(mesh, {}, {}, 2 * pi * 12 / 144);
  CHECK(area_mm2(land) == Approx(10.0 * 100.0).epsilon(1e-6));
  // Turned by so much that a slot comes to where the land was.
  Pose pose;
  pose.turn_rad = 2 * pi * 12 / 144;
  CHECK(cut(mesh, pose, {}, 2 * pi * 12 / 144).pieces.empty());
}

TEST_CASE("a face in the plane belongs to what is kept, or shows no cut", "[section]") {
  // Solid counter-clockwise of the plane; its flank lies in the plane.
  auto half = ring(0.030, 0.050, 0, 0.020);
  half.from_rad = 0.5;
  half.to_rad = 2.5;
  const Mesh mesh = mesh_of_blocks({half}, 72);
  CHECK(area_mm2(cut(mesh, {}, {}, 0.5, KeptSide::counter_clockwise)) ==
        Approx(400.0).epsilon(1e-5));
  CHECK(cut(mesh, {}, {}, 0.5, KeptSide::clockwise).pieces.empty());
  CHECK(area_mm2(cut(mesh, {}, {}, 2.5, KeptSide::clockwise)) == Approx(400.0).epsilon(1e-5));
  CHECK(cut(mesh, {}, {}, 2.5, KeptSide::counter_clockwise).pieces.empty());
}

TEST_CASE("poses and stretch move the cut with the part", "[section]") {
  const Mesh mesh = mesh_of_blocks({ring(0.040, 0.060, 0, 0.010)}, 120);
  Pose pose;
  pose.height_m = 0.2;
  pose.over_rad = pi;
  pose.over_about_m = 0.005;
  const Section over = cut(mesh, pose, {}, 0);
  double low = 1;
  double high = 0;
  for (const CapPiece& piece : over.pieces) {
    low = std::min(low, piece.low_m);
    high = std::max(high, piece.high_m);
  }
  CHECK(low == Approx(0.2).margin(1e-9));
  CHECK(high == Approx(0.21).margin(1e-9));
  CHECK(area_mm2(over) == Approx(20.0 * 10.0).epsilon(1e-6));
  const Section thicker = cut(mesh, {}, Stretch{0.002, 0.008, 0.003}, 0);
  CHECK(area_mm2(thicker) == Approx(20.0 * 13.0).epsilon(1e-6));
  Pose aside;
  aside.aside_m = 0.5; // along +x, which is the angle -90 degrees
  CHECK(cut(mesh, aside, {}, pi / 2).pieces.empty());
  CHECK(area_mm2(cut(mesh, aside, {}, -pi / 2)) == Approx(2 * 20.0 * 10.0).epsilon(1e-6));
}

TEST_CASE("an open mesh is reported and filled as well as it can be", "[section]") {
  const Mesh whole = mesh_of_blocks({ring(0.040, 0.060, 0, 0.010)}, 120);
  CHECK(cut(whole, {}, {}, 0.01).closed);
  // One facet of the outer wall is missing: the cut is open there, and not on the
  // other side of the axis as well.
  const Mesh open = without_triangles(whole, [](const Vec3& corner, const Vec3& normal) {
    return std::abs(normal.z) < 0.1 && corner.x < 0 && corner.y > 0.059 && corner.y < 0.0599;
  });
  REQUIRE(open.triangles.size() < whole.triangles.size());
  int opened = 0;
  for (int i = 0; i < 120; ++i)
    opened += cut(open, {}, {}, 2 * pi * (i + 0.5) / 120).closed ? 0 : 1;
  CHECK(opened == static_cast<int>(whole.triangles.size() - open.triangles.size()) / 2);
}

TEST_CASE("each material keeps its own part of the cut", "[section]") {
  const Mesh plate = mesh_of_blocks({ring(0.050, 0.070, 0.0004, 0.0016, "steel"),
                                     ring(0.055, 0.068, 0, 0.0004, "friction lining"),
                                     ring(0.055, 0.068, 0.0016, 0.002, "friction lining")},
                                    120);
  const Section section = cut(plate, {}, {}, 0);
  CHECK(section.closed);
  CHECK(area_of(section, "steel") == Approx(20.0 * 1.2).epsilon(1e-4));
  CHECK(area_of(section, "friction lining") == Approx(2 * 13.0 * 0.4).epsilon(1e-4));
}

TEST_CASE("materials joined side by side meet where their surfaces meet", "[section]") {
  // A bush in a hub, one surface around both: nothing between them is in the mesh.
  const Mesh bushed = mesh_of_blocks(
      {ring(0.020, 0.023, 0, 0.030, "bronze"), ring(0.023, 0.040, 0, 0.030, "steel")}, 120);
  const Section section = cut(bushed, {}, {}, 0);
  CHECK(section.closed);
  CHECK(area_of(section, "bronze") == Approx(3.0 * 30.0).epsilon(1e-4));
  CHECK(area_of(section, "steel") == Approx(17.0 * 30.0).epsilon(1e-4));
}

TEST_CASE("random heaps of blocks are cut in the area of their blocks", "[section][property]") {
  std::mt19937 random(20240611);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  for (int round = 0; round < 60; ++round) {
    // Blocks stacked with gaps or touching, so their areas add.
    std::vector<Block> blocks;
    double z = 0;
    for (int i = 0; i < 5; ++i) {
      Block block = ring(between(0, 0.03), between(0.04, 0.08), z, z + between(0.002, 0.02));
      if (i % 2 == 1) {
        block.from_rad = between(0, 2 * pi);
        block.to_rad = block.from_rad + between(0.3, 6);
      }
      z = block.high_m + (i % 3 == 0 ? 0.0 : between(0.001, 0.01));
      blocks.push_back(block);
    }
    const Mesh mesh = mesh_of_blocks(blocks, 120);
    for (int k = 0; k < 6; ++k) {
      const double angle = 2 * pi * std::floor(between(0, 120)) / 120;
      double expected = 0;
      for (const Block& block : blocks) {
        double off = std::fmod(angle - block.from_rad, 2 * pi);
        off = off < 0 ? off + 2 * pi : off;
        if (off < block.to_rad - block.from_rad)
          expected += (block.outer_m - block.inner_m) * (block.high_m - block.low_m) * 1e6;
      }
      const Section section = cut(mesh, {}, {}, angle);
      CHECK(section.closed);
      CHECK(area_mm2(section) == Approx(expected).epsilon(1e-5));
    }
  }
}

TEST_CASE("thickness is that of the layer", "[section]") {
  const Mesh mesh = mesh_of_blocks({ring(0.050, 0.090, 0, 0.002)}, 120);
  const Section section = cut(mesh, {}, {}, 0);
  // Twice the area over the outline: 2 * 40 * 2 / 84.
  CHECK(section.thickness_m(0) * 1e3 == Approx(160.0 / 84.0).epsilon(1e-6));
  CHECK(section.layer_m(0) * 1e3 == Approx(2.0).epsilon(1e-3));
}
