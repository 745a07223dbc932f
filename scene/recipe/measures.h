// Volume and mass from a solid's own figures.
#pragma once

#include "scene/mesh/mesh.h"
#include "scene/part/solid.h"

#include <string>
#include <vector>

namespace lugline {

/// Exact: the integral of r times the angle between the flanks.
double volume_m3(const SectorRing& ring);

/// Of the ring's material, else of `material`.
double mass_kg(const Solid& solid, const std::string& material);

/// Of a closed mesh, each material range by itself closed.
double mesh_mass_kg(const Mesh& mesh);

/// Usual densities, good to a few parts in a hundred; the lining's is rougher.
double density_kg_per_m3(const std::string& material);

/// What density_kg_per_m3 knows.
const std::vector<std::string>& materials();

} // namespace lugline
