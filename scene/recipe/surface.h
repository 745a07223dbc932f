// The surface of a solid with further lines in it, for parts that are bent,
// bevelled or waved after they are meshed. Lengths metres.
#pragma once

#include "scene/mesh/mesh.h"
#include "scene/recipe/planar.h"
#include "scene/recipe/recipe.h"

#include <string>

namespace lugline {

/// As mesh_of, with vertices also where the cuts run through the solid.
Mesh surface_of(const Solid& solid, const std::string& material, const MeshOptions& options,
                const ExtraCuts& cuts);

} // namespace lugline
