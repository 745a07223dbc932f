#include "scene/recipe/measures.h"

#include <array>
#include <cassert>
#include <cmath>
#include <numbers>
#include <utility>

namespace lugline {

namespace {

constexpr std::array<std::pair<const char*, double>, 6> densities{{
    {"steel", 7850},
    {"iron", 7200},
    {"aluminium", 2700},
    {"bronze", 8700},
    {"friction lining", 1400}, // approximate: linings differ much
    {"rubber", 1200},
}};

/// The integral of r times the flank's angle from the axis to r.
double swept(const Flank& flank, double r_m) {
  const double o = flank.offset_m;
  const double radial = flank.angle_rad * r_m * r_m / 2;
  if (o == 0) {
    return radial;
  }
  return radial + r_m * r_m / 2 * std::asin(o / r_m) + o / 2 * std::sqrt(r_m * r_m - o * o);
}

} // namespace

double volume_m3(const SectorRing& ring) {
  double area_m2 = 0;
  if (ring.full()) {
    area_m2 = std::numbers::pi * (ring.outer_m * ring.outer_m - ring.inner_m * ring.inner_m);
  }
  for (const Sector& s : ring.sectors) {
    area_m2 += swept(s.to, ring.outer_m) - swept(s.from, ring.outer_m);
    area_m2 -= ring.inner_m > 0 ? swept(s.to, ring.inner_m) - swept(s.from, ring.inner_m) : 0;
  }
  return area_m2 * (ring.high_m - ring.low_m);
}

double density_kg_per_m3(const std::string& material) {
  for (const auto& [name, density] : densities) {
    if (material == name) {
      return density;
    }
  }
  assert(false && "a material without a density");
  return 0;
}

const std::vector<std::string>& materials() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const auto& [name, density] : densities) {
      all.emplace_back(name);
    }
    return all;
  }();
  return names;
}

double mass_kg(const Solid& solid, const std::string& material) {
  double sum = 0;
  for (const SectorRing& ring : solid.rings) {
    sum += volume_m3(ring) * density_kg_per_m3(ring.material.empty() ? material : ring.material);
  }
  return sum;
}

double mesh_mass_kg(const Mesh& mesh) {
  double sum = 0;
  for (const MaterialRange& range : mesh.ranges) {
    Mesh one;
    one.positions_m = mesh.positions_m;
    one.normals = mesh.normals;
    const auto first = mesh.triangles.begin() + range.first_triangle;
    one.triangles.assign(first, first + range.triangle_count);
    one.ranges = {{range.material, 0, range.triangle_count}};
    sum += body_figures(one).volume_m3 * density_kg_per_m3(range.material);
  }
  return sum;
}

} // namespace lugline
