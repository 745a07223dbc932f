// Our own look at a glTF document before tinygltf sees any of it: every index,
// size, range and nesting is held against what it points into.
//
// Used inside this room alone. Each check adds to the problems and answers with
// the figures of what it looked at, one for each entry of the document; a figure
// that is not `sound` has had its problem told and must not be used.
#pragma once

#include "scene/mesh/gltf_container.h"

#include <filesystem>

namespace lugline::gltf {

struct BufferSources {
  Container container;
  std::filesystem::path folder; ///< that URIs start from
  std::filesystem::path root;   ///< that nothing leaves
};

struct BufferFigures {
  std::vector<unsigned char> bytes; ///< as many as byteLength says
  bool sound = false;
};

struct ViewFigures {
  std::uint64_t buffer = 0;
  std::uint64_t offset = 0;
  std::uint64_t length = 0;
  std::uint64_t stride = 0; ///< 0: not stated
  bool sound = false;
};

struct AccessorFigures {
  int component_type = 0; ///< 5121, …
  std::string type;       ///< "VEC3", …
  std::uint64_t count = 0;
  bool normalized = false;
  bool has_view = false;
  std::uint64_t offset = 0; ///< of the first element in its view
  std::uint64_t stride = 0; ///< from one element to the next
  bool sound = false;
};

struct MeshFigures {
  std::uint64_t primitives = 0; ///< of triangles; points and lines do not count
  std::uint64_t triangles = 0;
  std::uint64_t vertices = 0; ///< at most
};

struct NodeFigures {
  std::string name;
  std::optional<std::uint64_t> mesh;
  std::optional<std::uint64_t> parent;
  std::vector<std::uint64_t> children;
};

/// What a file says of KHR_mesh_quantization, which whoever reads it must know.
enum class Quantized { unused, only_used, required };

/// "2.0", and no required extension that is not understood or not used.
Quantized check_asset(const nlohmann::json& document, Problems& problems);

std::vector<BufferFigures> check_buffers(const nlohmann::json& document,
                                         const BufferSources& sources, const ModelLimits& limits,
                                         Problems& problems);
std::vector<ViewFigures> check_views(const nlohmann::json& document,
                                     const std::vector<BufferFigures>& buffers, Problems& problems);
std::vector<AccessorFigures> check_accessors(const nlohmann::json& document,
                                             const std::vector<BufferFigures>& buffers,
                                             const std::vector<ViewFigures>& views,
                                             const ModelLimits& limits, Problems& problems);
void check_images(const nlohmann::json& document, const std::vector<ViewFigures>& views,
                  Problems& problems);

void check_materials(const nlohmann::json& document, const ModelLimits& limits, Problems& problems);
std::vector<MeshFigures> check_meshes(const nlohmann::json& document,
                                      const std::vector<AccessorFigures>& accessors,
                                      Quantized quantized, Problems& problems);

/// Nodes, and that they are trees: no node below itself, none with two parents.
std::vector<NodeFigures> check_nodes(const nlohmann::json& document, const ModelLimits& limits,
                                     Problems& problems);
/// The nodes that the default scene begins with, or every node without a parent.
std::vector<std::uint64_t> check_scenes(const nlohmann::json& document,
                                        const std::vector<NodeFigures>& nodes, Problems& problems);
/// What all nodes below the roots ask for together. Only for nodes without problems.
void check_amount(const std::vector<NodeFigures>& nodes, const std::vector<std::uint64_t>& roots,
                  const std::vector<MeshFigures>& meshes, const ModelLimits& limits,
                  Problems& problems);

/// Bytes of one component of that type; 0 where there is no such type.
std::uint64_t component_bytes(std::uint64_t component_type);

} // namespace lugline::gltf
