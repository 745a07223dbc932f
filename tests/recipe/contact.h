// Where one solid comes to rest on another, by the plainest means: every pair
// of rings, tried at many radii. Shares no code with the drop. Lengths metres,
// angles radians.
#pragma once

#include "scene/part/solid.h"

#include <optional>

namespace lugline::test {

/// A solid at a height and turned.
struct Stood {
  const Solid* solid = nullptr;
  double height_m = 0;
  double turn_rad = 0;
};

/// Whether two rings overlap in plan, each turned.
bool meet_in_plan(const SectorRing& a, double a_turn_rad, const SectorRing& b, double b_turn_rad);

/// The height at which `moving`, let down at its turn, is first stopped by
/// `below`; empty where nothing stops it.
std::optional<double> rest_height(const Solid& moving, double turn_rad, const Stood& below);

/// How deep two solids are in each other; not above 0 where they are clear.
double depth_inside(const Stood& a, const Stood& b);

} // namespace lugline::test
