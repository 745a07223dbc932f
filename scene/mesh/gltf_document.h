// A GLB as it is put together: meshes, nodes, materials, animations and the figures that they
// point to, closed once into bytes.
//
// Used inside this room alone; what it writes is told in gltf.h and gltf_animated.h. In: metres,
// z along the axis. Out: glTF's +Y up. Same things added in the same order, same bytes.
#pragma once

#include "scene/mesh/gltf_quantize.h"
#include "scene/mesh/mesh.h"

#include <nlohmann/json.hpp>

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace lugline::gltf {

// Members keep the order in which they are set, which is the order people read them in.
using Json = nlohmann::ordered_json;
using Bytes = std::vector<unsigned char>;

/// Ours is z up along the axis, glTF's is y up. + 0: no "-0.0" in the file.
inline Vec3 y_up(const Vec3& v) {
  return {v.x + 0.0, v.z + 0.0, 0.0 - v.y};
}

class GlbDocument {
public:
  GlbDocument();

  struct ShownMesh {
    int index = 0;
    std::optional<Quantization> quantized;
  };
  /// One glTF mesh for each Mesh, however many parts show it.
  const ShownMesh& shown_mesh(const Mesh& mesh, const std::string& name);
  /// "mesh" of a node, and the transform that brings its figures back to metres.
  void show(const Mesh& mesh, const std::string& name, Json& node);

  /// The node's index. Only those with root begin the scene.
  std::size_t add_node(Json node, bool root);
  /// Figures of an animation, as floats; equal ones are written once. width: figures of one key.
  int add_keys(const std::vector<float>& figures, std::size_t width, bool times);
  void add_animation(Json animation);

  /// Extras of the asset and of the scene's name; null and empty for none.
  Bytes close(const std::string& scene_name = {}, const Json& scene_extras = nullptr);

private:
  /// A run of the binary chunk that becomes one buffer view.
  struct Section {
    Bytes bytes;
    int stride = 0; ///< 0: tightly packed
    int target = 0; ///< 0: neither vertices nor indices
    int view = -1;
  };
  std::vector<Section*> sections();
  static Json view_of(const Section& section, std::size_t offset);
  void renumber_views();
  int add_accessor(const Section& section, std::size_t offset, int component, std::size_t count,
                   const char* type);
  int add_positions(const Mesh& mesh);
  int add_small_positions(const Mesh& mesh, const Quantization& quantization);
  int add_normals(const Mesh& mesh);
  int add_indices(const Mesh& mesh, const MaterialRange& range);
  int material_index(const std::string& name);
  [[nodiscard]] Json whole(const Json& views, std::size_t binary_bytes,
                           const std::string& scene_name, const Json& scene_extras) const;

  Json nodes_ = Json::array();
  Json roots_ = Json::array();
  Json meshes_ = Json::array();
  Json accessors_ = Json::array();
  Json animations_ = Json::array();
  std::vector<std::string> material_names_;
  std::map<const Mesh*, ShownMesh> shown_;
  std::map<std::pair<std::size_t, Bytes>, int> keys_;
  Section floats_;
  Section positions_;
  Section normals_;
  Section long_indices_;
  Section short_indices_;
  Section key_figures_;
};

} // namespace lugline::gltf
