// From recipes.toml to a folder of models, one GLB for each part.
//
// Writes nothing where the recipes have complaints or the making was stopped, and
// touches no file whose bytes would be the same: each part is made and compared every
// time, which takes a fraction of a second and leaves no record that could go stale.
// A file is written beside its place and then moved there, so that whatever stops the
// program, no model is ever half there. Prints nothing: the report says what was done.
#pragma once

#include "scene/recipe/recipe.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace lugline {

struct MadeModel {
  std::string id;
  std::string name;
  std::filesystem::path file;
  std::size_t triangles = 0;
  std::uintmax_t bytes = 0;
  double mass_kg = 0;
  Bounds bounds;        ///< of the mesh
  bool written = false; ///< false: it stood there already, byte for byte
};

struct MakeReport {
  std::vector<MadeModel> models;     ///< in the order of the recipes
  std::vector<Complaint> complaints; ///< of the recipes
  std::vector<std::string> problems; ///< files that could not be written, and why
  bool stopped = false;              ///< by the progress callback; nothing was written
};

MakeReport make_models(const std::filesystem::path& recipes_toml,
                       const std::filesystem::path& out_folder, const MakeProgress& progress = {},
                       const MeshOptions& options = {});

/// The bytes of a part's model file.
std::vector<unsigned char> model_bytes(const MadePart& part);

} // namespace lugline
