// Where flanks cross between two radii. Lengths metres, angles radians.
#pragma once

#include "scene/part/solid.h"

#include <numbers>
#include <vector>

namespace lugline {

/// Into [0, one turn).
double reduced_turn(double angle_rad);
/// Into (-half a turn, half a turn].
double signed_turn(double angle_rad);

/// The radii, strictly between the two, at which two of the flanks cross. In
/// time by the number of flanks and of crossings, not by the flanks squared.
/// Flanks nearer than merge_m to each other at either end are not said to cross.
std::vector<double> crossing_radii(const std::vector<Flank>& flanks, double inner_m, double outer_m,
                                   double merge_m);

} // namespace lugline
