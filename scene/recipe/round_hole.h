// Round holes and round bars off the axis, as sectors.
//
// A flank may be any straight line, so a round hole is a polygon: bands of
// radii, each a sector between two chords. Its two ends, towards the axis and
// away from it, are arcs about the axis as long as a chord, so that no band is
// thinner than the chords make it. Lengths metres, angles radians.
#pragma once

#include "scene/part/solid.h"
#include "scene/recipe/recipe.h"

#include <string>
#include <vector>

namespace lugline {

/// How the polygon lies to the circle that it stands for.
enum class RoundFit {
  evenly, ///< as far outside at its corners as inside at its chords
  within, ///< its corners on the circle
  around  ///< its chords on the circle, but for the end nearest to the axis
};

/// Equal circles about one circle round the axis.
struct RoundPlaces {
  double from_axis_m = 0;         ///< to each centre
  std::vector<double> angles_rad; ///< of the centres, in any order
  double radius_m = 0;            ///< less than from_axis_m
  RoundFit fit = RoundFit::evenly;
};

/// One ring for each band, with a sector for each place; the places must be apart.
std::vector<SectorRing> round_sectors(const RoundPlaces& places, double low_m, double high_m,
                                      const std::string& feature, const MeshOptions& options);

/// How many corners it takes to stay within the tolerance; even.
int round_corners(double radius_m, RoundFit fit, double tolerance_m);

} // namespace lugline
