#include "tests/seat/random_parts.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline::test {

namespace {

constexpr double turn = 2 * std::numbers::pi;

double between(std::mt19937& random, double low, double high) {
  return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
}

int pick(std::mt19937& random, int low, int high) {
  return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
}

std::vector<Sector> random_sectors(std::mt19937& random, double inner_m) {
  const int kind = pick(random, 0, 4);
  const int count = pick(random, 1, 14);
  const double pitch = turn / count;
  const double share = between(random, 0.1, 0.8);
  const double first = between(random, 0, turn);
  if (kind == 0) {
    return {};
  }
  if (kind == 1) {
    return repeated(radial_sector(first, pitch * share), count);
  }
  // A lug no wider than the chord of its share of the pitch at the inner radius.
  const double chord_m = 2 * inner_m * std::sin(std::min(pitch * share, 2.0) / 2);
  if (kind == 2) {
    return repeated(parallel_sector(first, chord_m * 0.9), count);
  }
  if (kind == 3) {
    return between(repeated(parallel_sector(first, chord_m * 0.9), count));
  }
  auto sectors = repeated(radial_sector(first, pitch * share), count);
  for (Sector& sector : sectors) { // unequal on purpose
    sector.to.angle_rad += pitch * between(random, 0, 0.15);
  }
  return sectors;
}

} // namespace

Solid random_solid(std::mt19937& random) {
  Solid solid;
  double inner_m = between(random, 0.01, 0.04);
  const int bands = pick(random, 1, 5);
  for (int band = 0; band < bands && inner_m < 0.1; ++band) {
    const double outer_m = inner_m + between(random, 0.002, 0.03);
    double low_m = between(random, -0.01, 0.01);
    const int layers = pick(random, 1, 3);
    for (int layer = 0; layer < layers; ++layer) {
      SectorRing ring;
      ring.inner_m = inner_m;
      ring.outer_m = outer_m;
      ring.low_m = low_m;
      ring.high_m = low_m + between(random, 0.001, 0.01);
      ring.sectors = random_sectors(random, inner_m);
      low_m = ring.high_m + (pick(random, 0, 1) == 0 ? 0 : between(random, 0.0005, 0.005));
      solid.rings.push_back(ring);
    }
    inner_m = outer_m;
  }
  return solid;
}

bool overlap_by_sampling(const SectorRing& a, const SectorRing& b, double turn_rad, int radii) {
  const double near_m = std::max(a.inner_m, b.inner_m);
  const double far_m = std::min(a.outer_m, b.outer_m);
  if (far_m - near_m <= 1e-9) {
    return false;
  }
  if (a.full() || b.full()) {
    return true;
  }
  for (int i = 0; i <= radii; ++i) {
    const double r_m = near_m + (far_m - near_m) * i / radii;
    for (const Sector& sa : a.sectors) {
      for (const Sector& sb : b.sectors) {
        const double half_a = (sa.to.at(r_m) - sa.from.at(r_m)) / 2;
        const double half_b = (sb.to.at(r_m) - sb.from.at(r_m)) / 2;
        const double middle_a = sa.from.at(r_m) + half_a + turn_rad;
        const double middle_b = sb.from.at(r_m) + half_b;
        const double apart = std::abs(std::remainder(middle_a - middle_b, turn));
        if (apart < half_a + half_b) {
          return true;
        }
      }
    }
  }
  return false;
}

std::optional<double> rest_by_sampling(const Solid& moving, double turn_rad,
                                       const std::vector<Body>& below, int radii) {
  std::optional<double> rest_m;
  for (const Body& body : below) {
    for (const SectorRing& ring_b : body.shape->rings()) {
      for (const SectorRing& ring_m : moving.rings) {
        const double stop_m = body.height_m + ring_b.high_m - ring_m.low_m;
        if ((!rest_m || stop_m > *rest_m) &&
            overlap_by_sampling(ring_m, ring_b, turn_rad - body.turn_rad, radii)) {
          rest_m = stop_m;
        }
      }
    }
  }
  return rest_m;
}

} // namespace lugline::test
