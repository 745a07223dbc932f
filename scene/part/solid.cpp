#include "scene/part/solid.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {
constexpr double turn_rad = 2 * std::numbers::pi;
} // namespace

double Flank::at(double r_m) const {
  if (offset_m == 0) {
    return angle_rad;
  }
  assert(r_m > 0);
  return angle_rad + std::asin(std::clamp(offset_m / r_m, -1.0, 1.0));
}

Sector parallel_sector(double angle_rad, double width_m) {
  return {{angle_rad, -width_m / 2}, {angle_rad, width_m / 2}};
}

Sector radial_sector(double angle_rad, double width_rad) {
  return {{angle_rad - width_rad / 2, 0}, {angle_rad + width_rad / 2, 0}};
}

double Solid::low_m() const {
  if (rings.empty()) {
    return 0;
  }
  return std::ranges::min_element(rings, {}, &SectorRing::low_m)->low_m;
}

double Solid::high_m() const {
  if (rings.empty()) {
    return 0;
  }
  return std::ranges::max_element(rings, {}, &SectorRing::high_m)->high_m;
}

double Solid::outer_m() const {
  if (rings.empty()) {
    return 0;
  }
  return std::ranges::max_element(rings, {}, &SectorRing::outer_m)->outer_m;
}

std::vector<Sector> between(const std::vector<Sector>& slots) {
  std::vector<Sector> lands;
  lands.reserve(slots.size());
  for (std::size_t i = 0; i < slots.size(); ++i) {
    Flank to = slots[(i + 1) % slots.size()].from;
    if (i + 1 == slots.size()) {
      to.angle_rad += turn_rad;
    }
    lands.push_back({slots[i].to, to});
  }
  return lands;
}

std::vector<Sector> repeated(Sector first, int count) {
  std::vector<Sector> all;
  all.reserve(static_cast<std::size_t>(std::max(count, 0)));
  for (int i = 0; i < count; ++i) {
    const double by_rad = turn_rad * i / count;
    Sector next = first;
    next.from.angle_rad += by_rad;
    next.to.angle_rad += by_rad;
    all.push_back(next);
  }
  return all;
}

Solid turned_over(const Solid& solid) {
  const double sum_m = solid.low_m() + solid.high_m();
  Solid result = solid;
  for (SectorRing& ring : result.rings) {
    const double low_m = ring.low_m;
    ring.low_m = sum_m - ring.high_m;
    ring.high_m = sum_m - low_m;
    // A mirrored angle runs the other way: the sector's ends change places.
    for (Sector& sector : ring.sectors) {
      const Sector old = sector;
      sector.from = {-old.to.angle_rad, -old.to.offset_m};
      sector.to = {-old.from.angle_rad, -old.from.offset_m};
    }
    std::reverse(ring.sectors.begin(), ring.sectors.end());
  }
  return result;
}

double stretched_height(double z_m, double zone_low_m, double zone_high_m, double delta_m) {
  if (z_m <= zone_low_m) {
    return z_m;
  }
  if (z_m >= zone_high_m) {
    return z_m + delta_m;
  }
  return z_m + delta_m * (z_m - zone_low_m) / (zone_high_m - zone_low_m);
}

Solid stretched(const Solid& solid, double zone_low_m, double zone_high_m, double delta_m) {
  Solid result = solid;
  for (SectorRing& ring : result.rings) {
    ring.low_m = stretched_height(ring.low_m, zone_low_m, zone_high_m, delta_m);
    ring.high_m = stretched_height(ring.high_m, zone_low_m, zone_high_m, delta_m);
  }
  return result;
}

} // namespace lugline
