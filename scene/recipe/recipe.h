// Parts from caliper figures: recipes in, components with solids and meshes out.
//
// recipes.toml states, for each part, its recipe and its figures as quantities
// with units. Lengths in the results are metres. Same figures in, same bytes
// out. A figure that cannot be made (a bore larger than the outside, a lug
// wider than its pitch, a thickness of nothing) is a complaint that names it.
#pragma once

#include "scene/mesh/mesh.h"
#include "scene/part/component.h"
#include "scene/quantity/complaint.h"

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace lugline {

struct MeshOptions {
  double chord_tolerance_m = 0.02e-3; ///< how far a facet may stand off the true circle
  int most_segments = 360;
};

/// A part as made: what it is, and what it looks like.
struct MadePart {
  Component component;
  Mesh mesh;
};

struct RecipeBook {
  std::vector<MadePart> parts;       ///< in the order of the file
  std::vector<Complaint> complaints; ///< not empty: parts is empty
  bool stopped = false;              ///< by the progress callback; parts is empty
};

/// Called before each part with how many are done, of how many, and its id;
/// false stops the work.
using MakeProgress = std::function<bool(std::size_t done, std::size_t of, const std::string& id)>;

/// Reads recipes.toml and makes every part in it.
RecipeBook make_parts(const std::filesystem::path& recipes_toml, const MeshOptions& options = {},
                      const MakeProgress& progress = {});

/// The mesh of a solid of sector rings: one closed surface, outward, with
/// normals smooth round the axis and sharp at edges. Rings that touch are
/// joined. Agrees with the solid to the chord tolerance.
Mesh mesh_of(const Solid& solid, const std::string& material, const MeshOptions& options = {});

} // namespace lugline
