#include "tests/recipe/random_solid.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline::test {

namespace {

constexpr double pi = std::numbers::pi;

double between_of(std::mt19937_64& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

int whole_of(std::mt19937_64& random, int low, int high) {
  return std::uniform_int_distribution<int>(low, high)(random);
}

/// Disjoint at every radius from inner_m up.
std::vector<Sector> random_sectors(std::mt19937_64& random, double inner_m) {
  const int count = whole_of(random, 1, 9);
  const double pitch = 2 * pi / count;
  const double first = between_of(random, 0, 2 * pi);
  std::vector<Sector> sectors;
  for (int k = 0; k < count; ++k) {
    const double middle = first + pitch * (k + between_of(random, -0.1, 0.1));
    const double half = std::min(pitch * between_of(random, 0.05, 0.38), 2.9);
    // A parallel side at most 0.9 of the radius from the middle line.
    const double most_m = 0.9 * inner_m;
    const bool parallel = inner_m > 0 && half < 1 && whole_of(random, 0, 1) == 1;
    if (parallel) {
      sectors.push_back(parallel_sector(middle, 2 * std::min(most_m, inner_m * std::sin(half))));
    } else {
      sectors.push_back({{middle - half * between_of(random, 0.3, 1), 0},
                         {middle + half * between_of(random, 0.3, 1), 0}});
    }
  }
  return sectors;
}

} // namespace

Solid random_grid_solid(std::mt19937_64& random) {
  Solid solid;
  double inner_m = whole_of(random, 0, 3) == 0 ? 0 : between_of(random, 1e-3, 30e-3);
  const int bands = whole_of(random, 1, 4);
  const int floors = whole_of(random, 1, 4);
  std::vector<double> heights_m{between_of(random, -20e-3, 20e-3)};
  for (int f = 0; f < floors; ++f) {
    heights_m.push_back(heights_m.back() + between_of(random, 0.2e-3, 20e-3));
  }
  for (int b = 0; b < bands; ++b) {
    const double outer_m =
        inner_m + (whole_of(random, 0, 3) == 0 ? between_of(random, 0.02e-3, 0.5e-3)
                                               : between_of(random, 1e-3, 30e-3));
    for (int f = 0; f < floors; ++f) {
      const auto at = static_cast<std::size_t>(f);
      SectorRing ring{inner_m, outer_m, heights_m[at], heights_m[at + 1], {}, "", ""};
      if (whole_of(random, 0, 4) == 0) {
        ring.material = "friction lining";
      }
      const int kind = whole_of(random, 0, 4);
      if (kind >= 2) {
        ring.sectors = random_sectors(random, inner_m);
      }
      if (kind != 0 || (b == 0 && f == 0)) {
        solid.rings.push_back(ring);
      }
    }
    inner_m = outer_m;
  }
  return solid;
}

Solid random_core_solid(std::mt19937_64& random) {
  Solid solid;
  const double bore_m = between_of(random, 15e-3, 40e-3);
  const double outside_m = bore_m + between_of(random, 2e-3, 30e-3);
  const double high_m = between_of(random, 5e-3, 60e-3);
  solid.rings.push_back({bore_m, outside_m, 0, high_m, {}, "core", ""});
  for (const bool outward : {true, false}) {
    double low_m = between_of(random, -0.1, 0.3) * high_m;
    while (low_m < 0.9 * high_m) {
      const double top_m = low_m + between_of(random, 0.05, 0.5) * high_m;
      const double far_m = between_of(random, 0.3e-3, 10e-3);
      SectorRing ring{outward ? outside_m : bore_m - far_m,
                      outward ? outside_m + far_m : bore_m,
                      low_m,
                      top_m,
                      {},
                      "feature",
                      ""};
      if (whole_of(random, 0, 3) != 0) {
        ring.sectors = random_sectors(random, ring.inner_m);
      }
      if (ring.low_m < high_m && ring.high_m > 0) {
        solid.rings.push_back(ring);
      }
      // Sometimes touching the next one, sometimes apart.
      low_m = whole_of(random, 0, 1) == 0 ? top_m : top_m + between_of(random, 0.02, 0.2) * high_m;
    }
  }
  return solid;
}

Solid random_wild_solid(std::mt19937_64& random) {
  Solid solid;
  const auto spot = [&](double low, double high) {
    // Often on a coarse grid, so that faces and flanks coincide.
    const double at = between_of(random, low, high);
    const double step = (high - low) / 8;
    return whole_of(random, 0, 1) == 0 ? std::round(at / step) * step : at;
  };
  const int count = whole_of(random, 1, 7);
  for (int k = 0; k < count; ++k) {
    const double inner_m = std::max(0.0, spot(0, 40e-3));
    const double thin_m = whole_of(random, 0, 5) == 0 ? 3e-8 : 1e-6;
    const double outer_m = std::max(spot(0, 50e-3), inner_m + thin_m);
    const double low_m = spot(-20e-3, 20e-3);
    const double high_m = std::max(spot(-20e-3, 30e-3), low_m + thin_m);
    SectorRing ring{inner_m, outer_m, low_m, high_m, {}, "", ""};
    if (whole_of(random, 0, 2) == 0) {
      ring.material = "bronze";
    }
    const int sectors = whole_of(random, 0, 6);
    for (int s = 0; s < sectors; ++s) {
      const double from = 2 * pi * (s + between_of(random, 0, 0.4)) / sectors;
      const double to = from + 2 * pi / sectors * between_of(random, 1e-6, 0.59);
      const double lean_m = whole_of(random, 0, 1) == 0 ? 0 : between_of(random, -1, 1) * inner_m;
      ring.sectors.push_back({{from, lean_m}, {to, lean_m}});
    }
    solid.rings.push_back(ring);
  }
  return solid;
}

} // namespace lugline::test
