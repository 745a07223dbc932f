// Random parts for property tests, from a seed, and a drop by brute force that
// shares no code with the exact one.
#pragma once

#include "scene/seat/drop.h"

#include <optional>
#include <random>

namespace lugline::test {

/// Disjoint random rings: full ones, teeth, lugs with parallel and radial
/// flanks, between radii of 10 and 100 mm.
Solid random_solid(std::mt19937& random);

/// Whether two rings overlap with the first turned by turn_rad more than the
/// second, by sampling radii and comparing every pair of sectors.
bool overlap_by_sampling(const SectorRing& a, const SectorRing& b, double turn_rad, int radii = 40);

/// The rest height of one solid on others by trying every pair of rings.
std::optional<double> rest_by_sampling(const Solid& moving, double turn_rad,
                                       const std::vector<Body>& below, int radii = 40);

} // namespace lugline::test
