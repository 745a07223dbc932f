// Random solids of sector rings for property tests, from a seed.
#pragma once

#include "scene/part/solid.h"

#include <random>

namespace lugline::test {

/// Rings on a grid of radii and heights, full or in random sectors with radial
/// or parallel flanks. They touch each other at faces, edges and corners.
Solid random_grid_solid(std::mt19937_64& random);

/// A full ring with random features on its outside and in its bore, no two of
/// which meet in a mere line: its surface is a manifold.
Solid random_core_solid(std::mt19937_64& random);

/// Rings anywhere: they overlap, cross, nearly touch and may be thinner than a
/// hair. No part is like that, but a file may be.
Solid random_wild_solid(std::mt19937_64& random);

} // namespace lugline::test
