#include "scene/mesh/gltf_document.h"

#include "scene/mesh/vector.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cassert>
#include <limits>

namespace lugline::gltf {

namespace {

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

Bytes glb(const Json& document, const Bytes& binary) {
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

} // namespace

GlbDocument::GlbDocument() {
  // Three figures, padded to the four bytes that vertices are laid on.
  floats_.stride = 12;
  positions_.stride = 8;
  normals_.stride = 4;
  for (Section* section : {&floats_, &positions_, &normals_}) {
    section->target = target_vertices;
  }
  for (Section* section : {&long_indices_, &short_indices_}) {
    section->target = target_indices;
  }
  // Views are numbered as if all were there, and closed up once it is known which are.
  int next = 0;
  for (Section* section : sections()) {
    section->view = next++;
  }
}

std::vector<GlbDocument::Section*> GlbDocument::sections() {
  return {&floats_, &positions_, &normals_, &long_indices_, &short_indices_, &key_figures_};
}

void GlbDocument::show(const Mesh& mesh, const std::string& name, Json& node) {
  const ShownMesh& shown = shown_mesh(mesh, name);
  node["mesh"] = shown.index;
  if (!shown.quantized) {
    return;
  }
  // It is the mesh's alone: extras stand in the part's own metres, whatever transform their node
  // has.
  if (!(shown.quantized->from_m == Vec3{})) {
    const Vec3 from = y_up(shown.quantized->from_m);
    node["translation"] = {from.x, from.y, from.z};
  }
  const double step_m = shown.quantized->step_m;
  node["scale"] = {step_m, step_m, step_m};
}

std::size_t GlbDocument::add_node(Json node, bool root) {
  if (root) {
    roots_.push_back(nodes_.size());
  }
  nodes_.push_back(std::move(node));
  return nodes_.size() - 1;
}

int GlbDocument::add_keys(const std::vector<float>& figures, std::size_t width, bool times) {
  assert(!figures.empty() && figures.size() % width == 0);
  constexpr std::array<const char*, 5> types{"", "SCALAR", "", "VEC3", "VEC4"};
  Bytes bytes;
  for (const float figure : figures) {
    put(bytes, std::bit_cast<std::uint32_t>(figure));
  }
  const auto [place, fresh] = keys_.try_emplace({times ? 0 : width, bytes}, 0);
  if (fresh) {
    const std::size_t offset = key_figures_.bytes.size();
    key_figures_.bytes.insert(key_figures_.bytes.end(), bytes.begin(), bytes.end());
    place->second = add_accessor(key_figures_, offset, component_float, figures.size() / width,
                                 types.at(width));
    if (times) {
      accessors_.back()["min"] = {double{figures.front()}};
      accessors_.back()["max"] = {double{figures.back()}};
    }
  }
  return place->second;
}

void GlbDocument::add_animation(Json animation) {
  animations_.push_back(std::move(animation));
}

Bytes GlbDocument::close(const std::string& scene_name, const Json& scene_extras) {
  Bytes binary;
  Json views = Json::array();
  for (Section* section : sections()) {
    if (!section->bytes.empty()) {
      views.push_back(view_of(*section, binary.size()));
      binary.insert(binary.end(), section->bytes.begin(), section->bytes.end());
      binary.resize((binary.size() + 3) / 4 * 4, 0);
    }
  }
  renumber_views();
  return glb(whole(views, binary.size(), scene_name, scene_extras), binary);
}

void GlbDocument::renumber_views() {
  std::map<int, int> final_of;
  for (const Section* section : sections()) {
    if (!section->bytes.empty()) {
      final_of.emplace(section->view, static_cast<int>(final_of.size()));
    }
  }
  for (Json& accessor : accessors_) {
    accessor["bufferView"] = final_of.at(accessor["bufferView"].get<int>());
  }
}

Json GlbDocument::view_of(const Section& section, std::size_t offset) {
  Json view = {{"buffer", 0}, {"byteOffset", offset}, {"byteLength", section.bytes.size()}};
  if (section.stride > 0) {
    view["byteStride"] = section.stride;
  }
  if (section.target > 0) {
    view["target"] = section.target;
  }
  return view;
}

const GlbDocument::ShownMesh& GlbDocument::shown_mesh(const Mesh& mesh, const std::string& name) {
  const auto [place, fresh] = shown_.try_emplace(&mesh);
  ShownMesh& shown = place->second;
  if (!fresh) {
    return shown;
  }
  assert(slip_in(mesh).empty());
  shown = {static_cast<int>(meshes_.size()), quantization_of(mesh)};
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

int GlbDocument::add_accessor(const Section& section, std::size_t offset, int component,
                              std::size_t count, const char* type) {
  accessors_.push_back({{"bufferView", section.view},
                        {"byteOffset", offset},
                        {"componentType", component},
                        {"count", count},
                        {"type", type}});
  return static_cast<int>(accessors_.size()) - 1;
}

int GlbDocument::add_positions(const Mesh& mesh) {
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

int GlbDocument::add_small_positions(const Mesh& mesh, const Quantization& quantized) {
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

int GlbDocument::add_normals(const Mesh& mesh) {
  const std::size_t offset = normals_.bytes.size();
  for (const Vec3& normal : mesh.normals) {
    for (const std::int8_t figure : small_normal(y_up(unit_or(normal, {0, 0, 1})))) {
      put(normals_.bytes, static_cast<std::uint8_t>(figure));
    }
    put(normals_.bytes, std::uint8_t{0});
  }
  const int accessor = add_accessor(normals_, offset, component_byte, mesh.normals.size(), "VEC3");
  accessors_.back()["normalized"] = true;
  return accessor;
}

int GlbDocument::add_indices(const Mesh& mesh, const MaterialRange& range) {
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

int GlbDocument::material_index(const std::string& name) {
  const auto found = std::ranges::find(material_names_, name);
  if (found == material_names_.end()) {
    material_names_.push_back(name);
    return static_cast<int>(material_names_.size()) - 1;
  }
  return static_cast<int>(found - material_names_.begin());
}

Json GlbDocument::whole(const Json& views, std::size_t binary_bytes, const std::string& scene_name,
                        const Json& scene_extras) const {
  Json whole = {{"asset", {{"version", "2.0"}, {"generator", "Lugline"}}}};
  if (!meshes_.empty()) {
    whole["extensionsUsed"] = {"KHR_mesh_quantization"};
    whole["extensionsRequired"] = {"KHR_mesh_quantization"};
  }
  if (!nodes_.empty()) {
    Json scene;
    if (!scene_name.empty()) {
      scene["name"] = scene_name;
    }
    scene["nodes"] = roots_;
    if (!scene_extras.is_null()) {
      scene["extras"] = scene_extras;
    }
    whole["scene"] = 0;
    whole["scenes"] = Json::array({std::move(scene)});
    whole["nodes"] = nodes_;
  }
  for (const std::string& name : material_names_) {
    whole["materials"].push_back(material_of(name));
  }
  if (!meshes_.empty()) {
    whole["meshes"] = meshes_;
  }
  if (!animations_.empty()) {
    whole["animations"] = animations_;
  }
  if (!accessors_.empty()) {
    whole["accessors"] = accessors_;
    whole["bufferViews"] = views;
    whole["buffers"] = {{{"byteLength", binary_bytes}}};
  }
  return whole;
}

} // namespace lugline::gltf
