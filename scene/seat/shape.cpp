#include "scene/seat/shape.h"

#include "scene/seat/turns.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lugline {

namespace {

constexpr double same_angle_rad = 1e-11;
constexpr double same_length_m = 1e-12;

bool same_flank(const Flank& a, const Flank& b, double by_rad) {
  const double off_rad = std::remainder(a.angle_rad + by_rad - b.angle_rad, seat::whole_turn_rad);
  return std::abs(off_rad) <= same_angle_rad && std::abs(a.offset_m - b.offset_m) <= same_length_m;
}

/// Whether turning by 1/parts of a turn carries the sectors onto themselves.
bool symmetric(const std::vector<Sector>& sectors, std::size_t parts) {
  const std::size_t step = sectors.size() / parts;
  const double by_rad = seat::whole_turn_rad / static_cast<double>(parts);
  for (std::size_t i = 0; i < sectors.size(); ++i) {
    const Sector& here = sectors[i];
    const Sector& there = sectors[(i + step) % sectors.size()];
    if (!same_flank(here.from, there.from, by_rad) || !same_flank(here.to, there.to, by_rad)) {
      return false;
    }
  }
  return true;
}

int symmetry_of(const SectorRing& ring) {
  if (ring.full()) {
    return 0;
  }
  for (std::size_t parts = ring.sectors.size(); parts > 1; --parts) {
    if (ring.sectors.size() % parts == 0 && symmetric(ring.sectors, parts)) {
      return static_cast<int>(parts);
    }
  }
  return 1;
}

bool angles_overlap(const Body& a, std::size_t ring_a, const Body& b, std::size_t ring_b) {
  const auto turns = seat::forbidden_turns(a.shape->rings()[ring_a], a.shape->symmetry(ring_a),
                                           b.shape->rings()[ring_b], b.shape->symmetry(ring_b));
  return turns.forbids(a.turn_rad - b.turn_rad);
}

} // namespace

Shape::Shape(Solid solid) : solid_(std::move(solid)) {
  symmetry_.reserve(solid_.rings.size());
  for (const SectorRing& ring : solid_.rings) {
    symmetry_.push_back(symmetry_of(ring));
  }
  low_m_ = solid_.low_m();
  high_m_ = solid_.high_m();
}

FitReport fit_between(const Body& a, const Body& b, double tolerance_m) {
  FitReport worst;
  worst.by_m = std::numeric_limits<double>::infinity();
  double least_gap_m = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < a.shape->rings().size(); ++i) {
    const SectorRing& ring_a = a.shape->rings()[i];
    for (std::size_t j = 0; j < b.shape->rings().size(); ++j) {
      const SectorRing& ring_b = b.shape->rings()[j];
      const double above_m = (b.height_m + ring_b.low_m) - (a.height_m + ring_a.high_m);
      const double below_m = (a.height_m + ring_a.low_m) - (b.height_m + ring_b.high_m);
      const double gap_m = std::max(above_m, below_m);
      if (gap_m >= least_gap_m || !seat::radii_overlap(ring_a, ring_b) ||
          !angles_overlap(a, i, b, j)) {
        continue;
      }
      least_gap_m = gap_m;
      worst.ring_a = i;
      worst.ring_b = j;
    }
  }
  if (least_gap_m < -tolerance_m) {
    worst.fit = Fit::inside;
    worst.by_m = -least_gap_m;
  } else if (least_gap_m <= tolerance_m) {
    worst.fit = Fit::touching;
    worst.by_m = 0;
  } else {
    worst.by_m = least_gap_m;
  }
  return worst;
}

} // namespace lugline
