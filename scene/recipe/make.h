// From recipes.toml to a folder of models, one GLB for each part.
//
// Writes nothing where the recipes have complaints, and touches no file whose
// bytes would be the same. Prints nothing: the report says what was done.
#pragma once

#include "scene/recipe/recipe.h"

#include <cstdint>
#include <filesystem>
#include <functional>
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
  bool written = false; ///< false: it stood there already, byte for byte
};

struct MakeReport {
  std::vector<MadeModel> models;     ///< in the order of the recipes
  std::vector<Complaint> complaints; ///< of the recipes
  std::vector<std::string> problems; ///< files that could not be written, and why
  bool stopped = false;              ///< by the progress callback
};

/// Called before each part with how many are done, of how many, and its id;
/// false stops the work after what is done.
using MakeProgress = std::function<bool(std::size_t done, std::size_t of, const std::string& id)>;

MakeReport make_models(const std::filesystem::path& recipes_toml,
                       const std::filesystem::path& out_folder, const MakeProgress& progress = {},
                       const MeshOptions& options = {});

/// The bytes of a part's model file.
std::vector<unsigned char> model_bytes(const MadePart& part);

} // namespace lugline
