// From tinygltf's model to our own meshes: accessors to figures, strips and fans
// to triangles, +Y up to z up, transforms applied.
//
// Used inside this room alone. What comes in has passed every check of
// gltf_check.h; what only the figures themselves can show (an index beyond the
// positions, a position that is not finite) is checked here.
#pragma once

#include "scene/mesh/gltf_check.h"

namespace tinygltf {
class Model;
}

namespace lugline::gltf {

/// Triangles of one glTF mesh in the file's own frame, +Y up.
std::optional<Mesh> mesh_from(const tinygltf::Model& model, std::size_t number, Problems& problems);

/// Every node below the roots that has a mesh, in order, parents first.
std::vector<ModelNode> nodes_from(const tinygltf::Model& model, const nlohmann::json& document,
                                  const std::vector<NodeFigures>& nodes,
                                  const std::vector<std::uint64_t>& roots,
                                  const ModelLimits& limits, Problems& problems);

} // namespace lugline::gltf
