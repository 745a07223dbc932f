// Reading a model from bytes, under stated limits: the entry behind read_model.
//
// Nothing in the bytes is believed: whatever they are, the answer is nodes or
// problems. Files beside the model are read only inside root.
#pragma once

#include "scene/mesh/gltf.h"

#include <cstdint>
#include <span>

namespace lugline {

/// What a model may ask for at most. A small file must not be able to ask for a
/// great deal of memory, so each size is held to these before it is used.
struct ModelLimits {
  std::uint64_t file_bytes = std::uint64_t{1} << 30; ///< the model; and all its buffers together
  std::uint64_t json_bytes = std::uint64_t{1} << 28;
  std::uint64_t json_values = 4'000'000;
  int json_depth = 64;
  std::uint64_t buffers = 4'096;
  std::uint64_t nodes = 65'536;
  int node_depth = 64;
  std::uint64_t name_bytes = 256;          ///< of a node's or material's name
  std::uint64_t path_bytes = 1 << 26;      ///< of all paths to nodes together
  std::uint64_t zero_elements = 1'000'000; ///< of an accessor that has no buffer view: all zeros
  std::uint64_t triangles = 10'000'000;    ///< of all nodes together, a mesh once for each node
  std::uint64_t vertices = 20'000'000;     ///< the same; and of all sparse elements
  std::uint64_t primitives = 200'000;
  double reach_m = 1e9;      ///< of any position from the origin
  std::size_t problems = 50; ///< listed; the rest is only said to be there
};

/// name: the model's path relative to root, "/" between; URIs start from its folder.
ModelReport read_model_bytes(std::span<const unsigned char> bytes, const std::string& name,
                             const std::filesystem::path& root, const ModelLimits& limits = {});

} // namespace lugline
