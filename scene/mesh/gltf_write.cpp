#include "scene/mesh/gltf.h"

#include "scene/mesh/gltf_quantize.h"
#include "scene/mesh/vector.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <bit>
#include <cassert>
#include <limits>
#include <map>
#include <optional>

namespace lugline {

namespace {

// Members keep the order in which they are set, which is the order people read them in.
using Json = nlohmann::ordered_json;
using Bytes = std::vector<unsigned char>;

constexpr int component_byte = 5120;
constexpr int component_short = 5122;
constexpr int component_unsigned_short = 5123;
constexpr int component_unsigned_int = 5125;
constexpr int component_float = 5126;
constexpr int target_vertices = 34962;
constexpr int target_indices = 34963;

/// glTF is little-endian, whatever this processor is.
template <class Unsigned>
void put(Bytes& bytes, Unsigned value) {
  for (std::size_t i = 0; i < sizeof(Unsigned); ++i) {
    bytes.push_back(static_cast<unsigned char>(value >> (8 * i)));
  }
}

/// Ours is z up along the axis, glTF's is y up. + 0: no "-0.0" in the file.
Vec3 y_up(const Vec3& v) {
  return {v.x + 0.0, v.z + 0.0, 0.0 - v.y};
}

struct MaterialLook {
  const char* name;
  double red; ///< linear, as glTF wants it
  double green;
  double blue;
  double metal;
  double rough;
};

constexpr MaterialLook looks[] = {
    {"steel", 0.42, 0.44, 0.46, 0.8, 0.45},
    {"iron", 0.20, 0.20, 0.21, 0.6, 0.70},
    {"aluminium", 0.60, 0.61, 0.62, 0.7, 0.55},
    {"bronze", 0.55, 0.34, 0.13, 0.8, 0.45},
    {"friction lining", 0.16, 0.09, 0.045, 0.0, 0.95},
    {"rubber", 0.02, 0.02, 0.022, 0.0, 0.90},
    {"spring steel", 0.24, 0.26, 0.30, 0.8, 0.40},
    {"tool", 0.55, 0.30, 0.02, 0.1, 0.60},
};
constexpr MaterialLook other_look = {"", 0.35, 0.35, 0.35, 0.2, 0.70};

Json material_of(const std::string& name) {
  const auto* known =
      std::ranges::find_if(looks, [&](const MaterialLook& l) { return l.name == name; });
  const MaterialLook& look = known == std::end(looks) ? other_look : *known;
  return {{"name", name},
          {"pbrMetallicRoughness",
           {{"baseColorFactor", {look.red, look.green, look.blue, 1.0}},
            {"metallicFactor", look.metal},
            {"roughnessFactor", look.rough}}}};
}

/// A run of the binary chunk that becomes one buffer view.
struct Section {
  Bytes bytes;
  int stride = 0; ///< 0: tightly packed indices
  int view = -1;
};

/// Gathers the document; each part is added in turn, then it is closed once.
class Writer {
public:
  Writer() {
    // Three figures, padded to the four bytes that vertices are laid on.
    floats_.stride = 12;
    positions_.stride = 8;
    normals_.stride = 4;
    number_views();
  }

  void add(const ModelPart& part) {
    Json node;
    node["name"] = part.name;
    if (part.mesh != nullptr && !part.mesh->triangles.empty()) {
      const ShownMesh& shown = shown_mesh(*part.mesh, part.name);
      node["mesh"] = shown.index;
      if (shown.quantized) {
        undo(*shown.quantized, node);
      }
    }
    if (!part.extras_json.empty()) {
      Json extras = Json::parse(part.extras_json, nullptr, false);
      assert(extras.is_object() && "extras are JSON object text");
      if (extras.is_object()) {
        node["extras"] = std::move(extras);
      }
    }
    nodes_.push_back(std::move(node));
  }

  Bytes close() {
    Bytes binary;
    Json views = Json::array();
    for (Section* section : {&floats_, &positions_, &normals_, &long_indices_, &short_indices_}) {
      if (!section->bytes.empty()) {
        views.push_back(view_of(*section, binary.size()));
        binary.insert(binary.end(), section->bytes.begin(), section->bytes.end());
        binary.resize((binary.size() + 3) / 4 * 4, 0);
      }
    }
    renumber_views();
    return glb(document(views, binary.size()), binary);
  }

private:
  // Views are numbered as if all were there, and closed up once it is known which are.
  void number_views() {
    int next = 0;
    for (Section* section : {&floats_, &positions_, &normals_, &long_indices_, &short_indices_}) {
      section->view = next++;
    }
  }

  void renumber_views() {
    std::map<int, int> final_of;
    for (const Section* section :
         {&floats_, &positions_, &normals_, &long_indices_, &short_indices_}) {
      if (!section->bytes.empty()) {
        final_of.emplace(section->view, static_cast<int>(final_of.size()));
      }
    }
    for (Json& accessor : accessors_) {
      accessor["bufferView"] = final_of.at(accessor["bufferView"].get<int>());
    }
  }

  static Json view_of(const Section& section, std::size_t offset) {
    Json view = {{"buffer", 0}, {"byteOffset", offset}, {"byteLength", section.bytes.size()}};
    if (section.stride > 0) {
      view["byteStride"] = section.stride;
    }
    view["target"] = section.stride > 0 ? target_vertices : target_indices;
    return view;
  }

  struct ShownMesh {
    int index = 0;
    std::optional<gltf::Quantization> quantized;
  };

  /// What brings the mesh back to metres. It is the mesh's alone: extras stand in
  /// the part's own metres, whatever transform their node has.
  static void undo(const gltf::Quantization& quantized, Json& node) {
    if (!(quantized.from_m == Vec3{})) {
      const Vec3 from = y_up(quantized.from_m);
      node["translation"] = {from.x, from.y, from.z};
    }
    node["scale"] = {quantized.step_m, quantized.step_m, quantized.step_m};
  }

  /// One glTF mesh for each Mesh, however many parts show it.
  const ShownMesh& shown_mesh(const Mesh& mesh, const std::string& name) {
    const auto [place, fresh] = shown_.try_emplace(&mesh);
    ShownMesh& shown = place->second;
    if (!fresh) {
      return shown;
    }
    assert(slip_in(mesh).empty());
    shown = {static_cast<int>(meshes_.size()), gltf::quantization_of(mesh)};
    const int position =
        shown.quantized ? add_small_positions(mesh, *shown.quantized) : add_positions(mesh);
    const int normal = add_normals(mesh);
    Json primitives = Json::array();
    for (const MaterialRange& range : mesh.ranges) {
      if (range.triangle_count == 0) {
        continue;
      }
      Json primitive = {{"attributes", {{"POSITION", position}, {"NORMAL", normal}}},
                        {"indices", add_indices(mesh, range)}};
      if (!range.material.empty()) {
        primitive["material"] = material_index(range.material);
      }
      primitives.push_back(std::move(primitive));
    }
    meshes_.push_back({{"name", name}, {"primitives", std::move(primitives)}});
    return shown;
  }

  int add_accessor(const Section& section, std::size_t offset, int component, std::size_t count,
                   const char* type) {
    accessors_.push_back({{"bufferView", section.view},
                          {"byteOffset", offset},
                          {"componentType", component},
                          {"count", count},
                          {"type", type}});
    return static_cast<int>(accessors_.size()) - 1;
  }

  int add_positions(const Mesh& mesh) {
    const std::size_t offset = floats_.bytes.size();
    std::array<double, 3> low{};
    std::array<double, 3> high{};
    low.fill(std::numeric_limits<double>::max());
    high.fill(std::numeric_limits<double>::lowest());
    for (const Vec3& position : mesh.positions_m) {
      const Vec3 turned = y_up(position);
      const std::array<float, 3> figures{static_cast<float>(turned.x), static_cast<float>(turned.y),
                                         static_cast<float>(turned.z)};
      for (std::size_t i = 0; i < 3; ++i) {
        put(floats_.bytes, std::bit_cast<std::uint32_t>(figures[i]));
        low[i] = std::min(low[i], double{figures[i]});
        high[i] = std::max(high[i], double{figures[i]});
      }
    }
    const int accessor =
        add_accessor(floats_, offset, component_float, mesh.positions_m.size(), "VEC3");
    // As doubles: they print so that the very float comes back.
    accessors_.back()["min"] = low;
    accessors_.back()["max"] = high;
    return accessor;
  }

  int add_small_positions(const Mesh& mesh, const gltf::Quantization& quantized) {
    const std::size_t offset = positions_.bytes.size();
    std::array<int, 3> low{};
    std::array<int, 3> high{};
    low.fill(std::numeric_limits<int>::max());
    high.fill(std::numeric_limits<int>::lowest());
    for (const Vec3& position : mesh.positions_m) {
      const auto [x, y, z] = quantized.figures_of(position);
      const std::array<int, 3> turned{x, z, -y};
      for (std::size_t i = 0; i < 3; ++i) {
        put(positions_.bytes, static_cast<std::uint16_t>(turned[i]));
        low[i] = std::min(low[i], turned[i]);
        high[i] = std::max(high[i], turned[i]);
      }
      put(positions_.bytes, std::uint16_t{0});
    }
    const int accessor =
        add_accessor(positions_, offset, component_short, mesh.positions_m.size(), "VEC3");
    accessors_.back()["min"] = low;
    accessors_.back()["max"] = high;
    return accessor;
  }

  int add_normals(const Mesh& mesh) {
    const std::size_t offset = normals_.bytes.size();
    for (const Vec3& normal : mesh.normals) {
      for (const std::int8_t figure : gltf::small_normal(y_up(unit_or(normal, {0, 0, 1})))) {
        put(normals_.bytes, static_cast<std::uint8_t>(figure));
      }
      put(normals_.bytes, std::uint8_t{0});
    }
    const int accessor =
        add_accessor(normals_, offset, component_byte, mesh.normals.size(), "VEC3");
    accessors_.back()["normalized"] = true;
    return accessor;
  }

  int add_indices(const Mesh& mesh, const MaterialRange& range) {
    // The largest 16-bit index is kept free: it means "begin again" to some hardware.
    const bool fits = mesh.positions_m.size() <= 0xffff;
    Section& section = fits ? short_indices_ : long_indices_;
    const std::size_t offset = section.bytes.size();
    for (std::uint32_t t = 0; t < range.triangle_count; ++t) {
      for (const std::uint32_t corner : mesh.triangles[range.first_triangle + t]) {
        if (fits) {
          put(section.bytes, static_cast<std::uint16_t>(corner));
        } else {
          put(section.bytes, corner);
        }
      }
    }
    return add_accessor(section, offset, fits ? component_unsigned_short : component_unsigned_int,
                        std::size_t{range.triangle_count} * 3, "SCALAR");
  }

  int material_index(const std::string& name) {
    const auto found = std::ranges::find(material_names_, name);
    if (found == material_names_.end()) {
      material_names_.push_back(name);
      return static_cast<int>(material_names_.size()) - 1;
    }
    return static_cast<int>(found - material_names_.begin());
  }

  [[nodiscard]] Json document(const Json& views, std::size_t binary_bytes) const {
    Json whole = {{"asset", {{"version", "2.0"}, {"generator", "Lugline"}}}};
    if (!meshes_.empty()) {
      whole["extensionsUsed"] = {"KHR_mesh_quantization"};
      whole["extensionsRequired"] = {"KHR_mesh_quantization"};
    }
    if (!nodes_.empty()) {
      Json roots = Json::array();
      for (std::size_t i = 0; i < nodes_.size(); ++i) {
        roots.push_back(i);
      }
      whole["scene"] = 0;
      whole["scenes"] = {{{"nodes", std::move(roots)}}};
      whole["nodes"] = nodes_;
    }
    for (const std::string& name : material_names_) {
      whole["materials"].push_back(material_of(name));
    }
    if (!meshes_.empty()) {
      whole["meshes"] = meshes_;
      whole["accessors"] = accessors_;
      whole["bufferViews"] = views;
      whole["buffers"] = {{{"byteLength", binary_bytes}}};
    }
    return whole;
  }

  static Bytes glb(const Json& document, const Bytes& binary) {
    std::string text = document.dump(-1, ' ', false, Json::error_handler_t::replace);
    text.resize((text.size() + 3) / 4 * 4, ' ');
    const std::size_t total = 12 + 8 + text.size() + (binary.empty() ? 0 : 8 + binary.size());
    assert(total <= std::numeric_limits<std::uint32_t>::max() && "a GLB is at most 4 GiB");
    Bytes bytes;
    bytes.reserve(total);
    put(bytes, std::uint32_t{0x46546c67}); // "glTF"
    put(bytes, std::uint32_t{2});
    put(bytes, static_cast<std::uint32_t>(total));
    put(bytes, static_cast<std::uint32_t>(text.size()));
    put(bytes, std::uint32_t{0x4e4f534a}); // "JSON"
    bytes.insert(bytes.end(), text.begin(), text.end());
    if (!binary.empty()) {
      put(bytes, static_cast<std::uint32_t>(binary.size()));
      put(bytes, std::uint32_t{0x004e4942}); // "BIN"
      bytes.insert(bytes.end(), binary.begin(), binary.end());
    }
    return bytes;
  }

  Json nodes_ = Json::array();
  Json meshes_ = Json::array();
  Json accessors_ = Json::array();
  std::vector<std::string> material_names_;
  std::map<const Mesh*, ShownMesh> shown_;
  Section floats_;
  Section positions_;
  Section normals_;
  Section long_indices_;
  Section short_indices_;
};

} // namespace

std::vector<unsigned char> write_glb(const std::vector<ModelPart>& parts) {
  Writer writer;
  for (const ModelPart& part : parts) {
    writer.add(part);
  }
  return writer.close();
}

} // namespace lugline
