// A model's outermost layer: a GLB's header and chunks, or bare JSON, and the
// JSON itself, parsed only after its depth and size were looked at.
//
// Used inside this room alone. Views point into the bytes that were given.
#pragma once

#include "scene/mesh/gltf_problems.h"
#include "scene/mesh/gltf_read.h"

#include <optional>
#include <span>
#include <string_view>

namespace lugline::gltf {

struct Container {
  std::string_view json;
  std::span<const unsigned char> binary; ///< a GLB's own buffer
  bool has_binary = false;
};

/// Nothing where the bytes are no model, with the problem added.
std::optional<Container> split_container(std::span<const unsigned char> bytes,
                                         const ModelLimits& limits, Problems& problems);

/// The JSON object, or nothing.
std::optional<nlohmann::json> parse_document(std::string_view text, const ModelLimits& limits,
                                             Problems& problems);

} // namespace lugline::gltf
