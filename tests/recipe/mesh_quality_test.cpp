// Every demo part's mesh and those of random solids: indexed, without slivers, smooth
// where round and sharp at edges, round at every radius.

#include "scene/recipe/involute.h"
#include "scene/recipe/recipe.h"
#include "tests/recipe/demo.h"
#include "tests/recipe/mesh_check.h"
#include "tests/recipe/mesh_quality.h"
#include "tests/recipe/random_solid.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

namespace lugline::test {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double mm = 1e-3;

/// Bent after they are meshed, with normals from their facets: off by half a step at most.
const std::set<std::string> bent{"CS-RING", "CC-WAVE", "OW-OR"};
/// Wires of six sides, and needles, shaded round on purpose.
const std::set<std::string> wires{"CC-SPR", "MC-SPR", "UC-SPR", "LS-PIST", "US-PIST", "RT-B1"};
/// Round about axes of their own: a facet that happens to face the unit's is no wall round it.
const std::set<std::string> beside{"MC-BALL", "UC-BALL", "PU-BOLT", "PU-GEARS"};

/// The narrowest thing in a solid: between radii, between heights, and between flanks on
/// any circle of its rings.
double narrowest_m(const Solid& solid) {
  std::vector<double> radii_m;
  std::vector<double> heights_m;
  for (const SectorRing& ring : solid.rings) {
    radii_m.insert(radii_m.end(), {ring.inner_m, ring.outer_m});
    heights_m.insert(heights_m.end(), {ring.low_m, ring.high_m});
  }
  double least_m = 1e300;
  const auto look = [&](std::vector<double> figures, double scale, double merge) {
    std::ranges::sort(figures);
    for (std::size_t k = 0; k + 1 < figures.size(); ++k) {
      const double apart = (figures[k + 1] - figures[k]) * scale;
      if (apart > merge) {
        least_m = std::min(least_m, apart);
      }
    }
  };
  look(radii_m, 1, 1e-7);
  look(heights_m, 1, 1e-7);
  for (const double r_m : radii_m) {
    std::vector<double> angles_rad;
    for (const SectorRing& ring : solid.rings) {
      if (ring.inner_m <= r_m + 1e-9 && r_m <= ring.outer_m + 1e-9) {
        for (const Sector& s : ring.sectors) {
          for (const Flank& flank : {s.from, s.to}) {
            const double a = std::fmod(flank.at(r_m), 2 * pi);
            angles_rad.insert(angles_rad.end(),
                              {a < 0 ? a + 2 * pi : a, a < 0 ? a + 4 * pi : a + 2 * pi});
          }
        }
      }
    }
    look(angles_rad, r_m, 1e-7);
  }
  return least_m;
}

/// Whether flanks of two rings cross between the radii that both reach: where they do
/// they come as near to each other as they like.
bool flanks_cross(const Solid& solid) {
  const auto ahead = [](const Flank& a, const Flank& b, double r_m) {
    return std::remainder(b.at(r_m) - a.at(r_m), 2 * pi);
  };
  const auto any = [&](const SectorRing& a, const SectorRing& b, double inner_m, double outer_m) {
    for (const Sector& p : a.sectors) {
      for (const Sector& q : b.sectors) {
        for (const auto& [from, to] : {std::pair{p.from, q.from}, std::pair{p.from, q.to},
                                       std::pair{p.to, q.from}, std::pair{p.to, q.to}}) {
          const double in = ahead(from, to, inner_m);
          const double out = ahead(from, to, outer_m);
          if (in * out < 0 && std::abs(in - out) < pi) {
            return true;
          }
        }
      }
    }
    return false;
  };
  for (const SectorRing& a : solid.rings) {
    for (const SectorRing& b : solid.rings) {
      const double inner_m = std::max(a.inner_m, b.inner_m);
      const double outer_m = std::min(a.outer_m, b.outer_m);
      if (&a < &b && inner_m < outer_m && any(a, b, inner_m, outer_m)) {
        return true;
      }
    }
  }
  return false;
}

} // namespace

TEST_CASE("every part of the demo is indexed: nothing stands twice, nothing unused") {
  for (const MadePart& part : demo_book().parts) {
    CAPTURE(part.component.id);
    const Quality quality = quality_of(part.mesh);
    CHECK(quality.doubled == 0);
    CHECK(quality.unused == 0);
  }
}

TEST_CASE("no part of the demo has a sliver") {
  // A triangle's least height: five chord tolerances, so that even a coarse step of the
  // model file (0.01 mm) leaves it as it is.
  for (const MadePart& part : demo_book().parts) {
    CAPTURE(part.component.id);
    // The folds of the roller clutch's leaf springs are sharp.
    CHECK(quality_of(part.mesh).lowest_m > (part.component.id == "RT-LRC" ? 0.05 : 0.1) * mm);
  }
}

TEST_CASE("demo parts are smooth where they are round and sharp at their edges") {
  for (const MadePart& part : demo_book().parts) {
    CAPTURE(part.component.id);
    const Quality quality = quality_of(part.mesh);
    CHECK((quality.rounded_edges == 0) == !wires.contains(part.component.id));
    CHECK(quality.parted_planes == 0);
    if (part.component.kind == ComponentKind::carrier) {
      continue; // its pinions and pins are round about axes of their own
    }
    const RoundWalls walls = round_walls_of(part.mesh);
    if (!beside.contains(part.component.id)) {
      CHECK(walls.leaning_rad < (bent.contains(part.component.id) ? 0.03 : 1e-9));
    }
    CHECK(walls.sagitta_m < MeshOptions{}.chord_tolerance_m + 1e-9);
  }
}

TEST_CASE("a curved flank in straight pieces is smooth, and a bent one is not") {
  struct Flanked {
    double turn_rad; ///< of the flank from one piece to the next
    bool smooth;
  };
  for (const Flanked& flanked : {Flanked{0.15, true}, Flanked{0.45, false}}) {
    CAPTURE(flanked.turn_rad);
    Solid solid{{{20 * mm, 40 * mm, 0, 5 * mm, {}, "", ""}}};
    double x_m = 4 * mm; // half the lug's width at its root
    for (int k = 0; k < 3; ++k) {
      const double inner_m = (40 + 2 * k) * mm;
      const double outer_m = inner_m + 2 * mm;
      const double next_x_m = x_m - 2 * mm * std::tan(flanked.turn_rad * k);
      const double in_rad = std::asin(x_m / inner_m);
      const double out_rad = std::asin(next_x_m / outer_m);
      SectorRing piece{inner_m, outer_m, 0, 5 * mm, {}, "lug", ""};
      piece.sectors = {{flank_through(inner_m, -in_rad, outer_m, -out_rad),
                        flank_through(inner_m, in_rad, outer_m, out_rad)}};
      solid.rings.push_back(piece);
      x_m = next_x_m;
    }
    const Mesh mesh = mesh_of(solid, "steel");
    CHECK(topology_of(mesh).open_edges == 0);
    // At the two circles within the lug, on either flank: one normal, or two.
    for (const double r_m : {42 * mm, 44 * mm}) {
      std::map<int, int> normals_at; // by flank and height
      for (std::size_t i = 0; i < mesh.positions_m.size(); ++i) {
        const Vec3& p = mesh.positions_m[i];
        if (std::abs(std::hypot(p.x, p.y) - r_m) < 1e-9 && std::abs(mesh.normals[i].z) < 0.5) {
          ++normals_at[(p.x > 0 ? 1 : 0) + (p.z > 1 * mm ? 2 : 0)];
        }
      }
      CHECK(normals_at.size() == 4);
      for (const auto& [where, count] : normals_at) {
        CHECK(count == (flanked.smooth ? 1 : 2));
      }
    }
  }
}

TEST_CASE("random solids: indexed, sharp, and no triangle much lower than the solid is narrow") {
  std::mt19937_64 random(7);
  int compared = 0;
  for (int trial = 0; trial < 200; ++trial) {
    CAPTURE(trial);
    const Solid solid = random_core_solid(random);
    const Mesh mesh = mesh_of(solid, "iron");
    const Quality quality = quality_of(mesh);
    REQUIRE(quality.doubled == 0);
    REQUIRE(quality.unused == 0);
    REQUIRE(quality.rounded_edges == 0);
    REQUIRE(quality.parted_planes == 0);
    if (!flanks_cross(solid)) {
      REQUIRE(quality.lowest_m > 0.15 * std::min(narrowest_m(solid), 1 * mm));
      ++compared;
    }
    const RoundWalls walls = round_walls_of(mesh);
    REQUIRE(walls.leaning_rad < 1e-9);
    REQUIRE(walls.sagitta_m < MeshOptions{}.chord_tolerance_m + 1e-9);
  }
  CHECK(compared > 50);
}

TEST_CASE("a drum of 200 mm and a pin of 6 mm are both round, and neither is finer than asked") {
  struct Body {
    double radius_m;
    int least; ///< pi / acos(1 - 0.02 mm / r): the fewest corners that keep to 0.02 mm
  };
  for (const Body& body : {Body{100 * mm, 158}, Body{3 * mm, 28}}) {
    CAPTURE(body.radius_m);
    CHECK(body.least == std::ceil(pi / std::acos(1 - 0.02 * mm / body.radius_m)));
    const Solid solid{{{body.radius_m * 0.6, body.radius_m, 0, body.radius_m, {}, "", ""}}};
    const Mesh mesh = mesh_of(solid, "steel");
    const RoundWalls walls = round_walls_of(mesh);
    CHECK(walls.sagitta_m < 0.02 * mm);
    CHECK(walls.leaning_rad < 1e-12);
    int corners = 0;
    for (std::size_t i = 0; i < mesh.positions_m.size(); ++i) {
      const Vec3& p = mesh.positions_m[i];
      corners += std::abs(std::hypot(p.x, p.y) - body.radius_m) < 1e-9 && mesh.normals[i].z > 0.5;
    }
    CHECK(corners >= body.least);
    CHECK(corners <= 1.5 * body.least); // rounded up to a count with many divisors
  }
}

// Facets fall short by the square of their step. Derived closed forms, not a publication: a
// slice of a disc of radius R and angle b has the area b R²/2, the polar moment b R⁴/4 and
// its centroid at 4 R sin(b/2)/(3 b). (Where there is a bore, what its facets add makes up
// for part of what the outside's take away, and the order does not show.)
TEST_CASE("volume, second moment and centroid come nearer as the square of the step") {
  const double beta = 0.9;
  const double radius_m = 50 * mm;
  const double thick_m = 5 * mm;
  const std::array<double, 3> exact{beta * std::pow(radius_m, 2) / 2 * thick_m,
                                    beta * std::pow(radius_m, 4) / 4 * thick_m,
                                    4 * radius_m * std::sin(beta / 2) / (3 * beta)};
  SectorRing slice{0, radius_m, 0, thick_m, {}, "", ""};
  slice.sectors = {radial_sector(0.2, beta)};
  std::vector<std::array<double, 3>> errors;
  std::vector<double> steps;
  for (const double tolerance_mm : {0.2, 0.05, 0.0125}) {
    MeshOptions options;
    options.chord_tolerance_m = tolerance_mm * mm;
    options.most_segments = 4096;
    const Mesh mesh = mesh_of({{slice}}, "steel", options);
    const BodyFigures figures = body_figures(mesh);
    const std::array<double, 3> found{figures.volume_m3, figures.about_axis_m5(),
                                      std::hypot(figures.centroid_m.x, figures.centroid_m.y)};
    std::array<double, 3> off{};
    for (std::size_t k = 0; k < 3; ++k) {
      off[k] = 1 - found[k] / exact[k];
      CHECK(off[k] > 0);
    }
    errors.push_back(off);
    steps.push_back(std::sqrt(round_walls_of(mesh).sagitta_m)); // which goes as the step's square
  }
  for (std::size_t k = 0; k + 1 < errors.size(); ++k) {
    for (std::size_t which = 0; which < 3; ++which) {
      CAPTURE(k, which, errors[k][which], errors[k + 1][which]);
      const double order =
          std::log(errors[k][which] / errors[k + 1][which]) / std::log(steps[k] / steps[k + 1]);
      CHECK(order == Approx(2).margin(0.05));
    }
  }
}

} // namespace lugline::test
