// The asset, meshes, nodes and scenes: what is used by what, and how much of it there is.
#include "scene/mesh/gltf_check.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace lugline::gltf {

namespace {

using nlohmann::json;

constexpr const char* quantization = "KHR_mesh_quantization";

std::string count(std::uint64_t n) {
  return std::to_string(n);
}
std::string entry(const char* what, std::size_t i) {
  return std::string(what) + " " + count(i);
}

bool one_of(int value, std::initializer_list<int> known) {
  return std::ranges::find(known, value) != known.end();
}

struct FigureWord {
  int type;
  const char* word;
};
constexpr FigureWord figure_words[] = {{5120, "8-bit"},           {5121, "unsigned 8-bit"},
                                       {5122, "16-bit"},          {5123, "unsigned 16-bit"},
                                       {5125, "unsigned 32-bit"}, {5126, "32-bit float"}};

class MeshCheck {
public:
  MeshCheck(const std::vector<AccessorFigures>& accessors, std::size_t materials,
            Quantized quantized, Problems& problems)
      : accessors_(accessors), materials_(materials), quantized_(quantized), problems_(problems) {}

  MeshFigures check(const json& value, std::size_t number) {
    const std::string place = entry("mesh", number);
    const Members mesh(value, place, problems_);
    MeshFigures figures;
    const json& list = mesh.array("primitives");
    if (mesh.is_object() && list.empty()) {
      mesh.complain("has no primitives");
    }
    shared_.clear();
    for (std::size_t i = 0; i < list.size() && !problems_.full(); ++i) {
      check_primitive(Members(list[i], place + ", primitive " + count(i) + ",", problems_),
                      figures);
    }
    return figures;
  }

private:
  void check_primitive(const Members& primitive, MeshFigures& figures) {
    const auto mode = primitive.whole_or("mode", 4);
    if (primitive.has("material")) {
      (void)primitive.index("material", materials_, "material"); // the complaint is the point
    }
    if (!mode || !primitive.is_object()) {
      return;
    }
    if (*mode > 6) {
      primitive.complain("is of mode " + count(*mode) + "; 0 to 6 are known");
      return;
    }
    if (!primitive.has("attributes") || !primitive.value()["attributes"].is_object()) {
      primitive.complain("has no attributes");
      return;
    }
    const Members attributes(primitive.value()["attributes"], primitive.place(), problems_);
    bool sound = true;
    for (const auto& [name, accessor] : attributes.value().items()) {
      sound = attributes.index(name.c_str(), accessors_.size(), "accessor").has_value() && sound;
    }
    if (primitive.has("indices")) {
      sound = primitive.index("indices", accessors_.size(), "accessor").has_value() && sound;
    }
    if (sound && *mode >= 4) {
      check_triangles(primitive, *mode, figures);
    }
  }

  const AccessorFigures& accessor(const json& index) const {
    return accessors_[index.get<std::uint64_t>()];
  }

  void check_triangles(const Members& primitive, std::uint64_t mode, MeshFigures& figures) {
    const json& attributes = primitive.value()["attributes"];
    if (!attributes.contains("POSITION")) {
      primitive.complain("has no POSITION");
      return;
    }
    const AccessorFigures& position = accessor(attributes["POSITION"]);
    const bool has_normals = attributes.contains("NORMAL");
    if (!position.sound || !positions_are_known(primitive, position) ||
        (has_normals && !normals_are_known(primitive, accessor(attributes["NORMAL"]), position))) {
      return;
    }
    std::uint64_t corners = position.count;
    if (primitive.has("indices")) {
      const AccessorFigures& indices = accessor(primitive.value()["indices"]);
      if (!indices.sound || !indices_are_known(primitive, indices)) {
        return;
      }
      corners = indices.count;
    }
    if (corners < 3 || (mode == 4 && corners % 3 != 0)) {
      primitive.complain(
          "has " + count(corners) + " corners; " +
          (mode == 4 ? "triangles take three each" : "a strip or fan takes at least three"));
      return;
    }
    const std::uint64_t triangles = mode == 4 ? corners / 3 : corners - 2;
    figures.primitives += 1;
    figures.triangles += triangles;
    if (!has_normals) {
      figures.vertices += triangles * 3;
    } else if (shared_.emplace(attributes["POSITION"], attributes["NORMAL"]).second) {
      figures.vertices += position.count;
    }
  }

  bool positions_are_known(const Members& primitive, const AccessorFigures& position) const {
    if (position.type != "VEC3" || position.component_type == 5125) {
      primitive.complain("has positions that are " + words_for(position) +
                         "; VEC3 of 32-bit floats was expected");
      return false;
    }
    return (position.component_type == 5126 ||
            is_announced(primitive, "has positions that are " + words_for(position))) &&
           lies_on_fours(primitive, "has positions that", position);
  }

  [[nodiscard]] bool is_announced(const Members& primitive, const std::string& what) const {
    if (quantized_ == Quantized::required) {
      return true;
    }
    primitive.complain(what + (quantized_ == Quantized::only_used
                                   ? std::string(", but the file lists ") + quantization +
                                         " as used and does not require it"
                                   : std::string(", but the file does not use ") + quantization));
    return false;
  }

  /// Vertices of small figures are padded to whole fours, each of them.
  static bool lies_on_fours(const Members& primitive, const std::string& what,
                            const AccessorFigures& accessor) {
    if (!accessor.has_view || (accessor.offset % 4 == 0 && accessor.stride % 4 == 0)) {
      return true;
    }
    primitive.complain(what + " begin at byte " + count(accessor.offset) +
                       " of their view and lie " + count(accessor.stride) +
                       " bytes apart; both must be multiples of 4");
    return false;
  }

  bool normals_are_known(const Members& primitive, const AccessorFigures& normal,
                         const AccessorFigures& position) const {
    if (!normal.sound) {
      return false;
    }
    const bool small = one_of(normal.component_type, {5120, 5122}) && normal.normalized;
    if (normal.type != "VEC3" || (normal.component_type != 5126 && !small)) {
      primitive.complain("has normals that are " + words_for(normal) +
                         "; VEC3 of floats, or of normalised signed figures, was expected");
      return false;
    }
    if ((small && !is_announced(primitive, "has normals that are " + words_for(normal))) ||
        !lies_on_fours(primitive, "has normals that", normal)) {
      return false;
    }
    if (normal.count != position.count) {
      primitive.complain("has " + count(normal.count) + " normals for " + count(position.count) +
                         " positions");
      return false;
    }
    return true;
  }

  static bool indices_are_known(const Members& primitive, const AccessorFigures& indices) {
    if (indices.type != "SCALAR" || !one_of(indices.component_type, {5121, 5123, 5125}) ||
        indices.normalized) {
      primitive.complain("has indices that are " + words_for(indices) +
                         "; unsigned whole SCALARs were expected");
      return false;
    }
    if (!indices.has_view) {
      primitive.complain("has indices without a buffer view");
      return false;
    }
    return true;
  }

  static std::string words_for(const AccessorFigures& accessor) {
    const auto* found = std::ranges::find(figure_words, accessor.component_type, &FigureWord::type);
    const char* word = found == std::end(figure_words) ? "unknown" : found->word;
    return accessor.type + " of " + (accessor.normalized ? "normalised " : "") + word + " figures";
  }

  const std::vector<AccessorFigures>& accessors_;
  std::size_t materials_;
  Quantized quantized_;
  Problems& problems_;
  std::set<std::pair<std::uint64_t, std::uint64_t>>
      shared_; ///< positions and normals met in this mesh
};

void check_name(const Members& members, const std::optional<std::string>& name,
                const ModelLimits& limits) {
  if (name && name->size() > limits.name_bytes) {
    members.complain("has a name of " + count(name->size()) + " bytes, at most " +
                     count(limits.name_bytes) + " are read");
  }
}

void check_transform(const Members& node) {
  if (node.has("matrix")) {
    if (node.has("translation") || node.has("rotation") || node.has("scale")) {
      node.complain(
          "has a matrix and a translation, rotation or scale; one or the other was expected");
    }
    const auto matrix = node.numbers("matrix", 16);
    if (matrix &&
        ((*matrix)[3] != 0 || (*matrix)[7] != 0 || (*matrix)[11] != 0 || (*matrix)[15] != 1)) {
      node.complain("has a matrix that is no placement: its last row is not 0 0 0 1");
    }
    return;
  }
  if (node.has("translation")) {
    (void)node.numbers("translation", 3); // the complaint is the point
  }
  if (node.has("scale")) {
    (void)node.numbers("scale", 3);
  }
  const auto rotation = node.has("rotation") ? node.numbers("rotation", 4) : std::nullopt;
  if (rotation) {
    double square = 0;
    for (const double part : *rotation) {
      square += part * part;
    }
    if (!(std::abs(square - 1) < 1e-2)) {
      node.complain("has a rotation that is no unit quaternion");
    }
  }
}

void set_parents(std::vector<NodeFigures>& nodes, Problems& problems) {
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    for (const std::uint64_t child : nodes[i].children) {
      std::optional<std::uint64_t>& parent = nodes[child].parent;
      if (parent && *parent == i) {
        problems.add(entry("node", i) + " lists node " + count(child) + " twice");
      } else if (parent) {
        problems.add(entry("node", child) + " has two parents, nodes " + count(*parent) + " and " +
                     count(i));
      } else {
        parent = i;
      }
    }
  }
}

/// With one parent each at most, a node that no root leads to lies on or below a ring of nodes.
void refuse_rings(const std::vector<NodeFigures>& nodes, Problems& problems) {
  std::vector<int> seen_by(nodes.size(), 0); // 0: not yet; else the number of the walk
  int walk = 0;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    if (seen_by[i] != 0) {
      continue;
    }
    ++walk;
    std::optional<std::uint64_t> at = i;
    while (at && seen_by[*at] == 0) {
      seen_by[*at] = walk;
      at = nodes[*at].parent;
    }
    if (at && seen_by[*at] == walk) {
      problems.add(entry("node", *at) + " is its own ancestor");
    }
  }
}

} // namespace

Quantized check_asset(const json& document, Problems& problems) {
  const Members top(document, "the file", problems);
  if (!top.has("asset")) {
    problems.add("the file has no asset: it does not say that it is glTF 2.0");
    return Quantized::unused;
  }
  const Members asset(document["asset"], "asset", problems);
  const auto version = asset.text("version");
  const auto least = asset.text("minVersion");
  if (version && !version->starts_with("2.")) {
    asset.complain("is glTF version " + in_quotes(*version) + "; 2.0 is understood");
  }
  if (least && !least->empty() && *least != "2.0") {
    asset.complain("asks for glTF version " + in_quotes(*least) + " at least; 2.0 is understood");
  }
  const json& used = top.array("extensionsUsed");
  const bool uses = std::ranges::find(used, json(quantization)) != used.end();
  bool requires_it = false;
  for (const json& name : top.array("extensionsRequired")) {
    if (name != quantization) {
      problems.add("the file requires extension " + shown_in_model(name) +
                   ", which is not understood");
    } else {
      requires_it = true;
    }
  }
  if (requires_it && !uses) {
    problems.add(std::string("the file requires ") + quantization +
                 " and does not list it in extensionsUsed");
  }
  return requires_it ? Quantized::required : uses ? Quantized::only_used : Quantized::unused;
}

void check_materials(const json& document, const ModelLimits& limits, Problems& problems) {
  const Members top(document, "the file", problems);
  std::size_t number = 0;
  for (const json& value : top.array("materials")) {
    const Members material(value, entry("material", number++), problems);
    check_name(material, material.text("name"), limits);
  }
}

std::vector<MeshFigures> check_meshes(const json& document,
                                      const std::vector<AccessorFigures>& accessors,
                                      Quantized quantized, Problems& problems) {
  const Members top(document, "the file", problems);
  MeshCheck check(accessors, top.array("materials").size(), quantized, problems);
  std::vector<MeshFigures> meshes;
  for (const json& value : top.array("meshes")) {
    meshes.push_back(check.check(value, meshes.size()));
  }
  return meshes;
}

std::vector<NodeFigures> check_nodes(const json& document, const ModelLimits& limits,
                                     Problems& problems) {
  const Members top(document, "the file", problems);
  const json& list = top.array("nodes");
  const std::size_t mesh_count = top.array("meshes").size();
  if (list.size() > limits.nodes) {
    problems.add("the file has " + count(list.size()) + " nodes, at most " + count(limits.nodes) +
                 " are read");
    return {};
  }
  std::vector<NodeFigures> nodes(list.size());
  for (std::size_t i = 0; i < list.size() && !problems.full(); ++i) {
    const Members node(list[i], entry("node", i), problems);
    const auto name = node.text("name");
    check_name(node, name, limits);
    nodes[i].name = name.value_or("");
    if (node.has("mesh")) {
      nodes[i].mesh = node.index("mesh", mesh_count, "mesh");
    }
    nodes[i].children =
        node.indices("children", list.size(), "node").value_or(std::vector<std::uint64_t>{});
    check_transform(node);
  }
  set_parents(nodes, problems);
  refuse_rings(nodes, problems);
  return nodes;
}

std::vector<std::uint64_t> check_scenes(const json& document, const std::vector<NodeFigures>& nodes,
                                        Problems& problems) {
  const Members top(document, "the file", problems);
  std::vector<std::uint64_t> roots;
  if (!top.has("scene")) {
    for (std::size_t i = 0; i < nodes.size(); ++i) {
      if (!nodes[i].parent) {
        roots.push_back(i);
      }
    }
    return roots;
  }
  const json& scenes = top.array("scenes");
  const auto number = top.index("scene", scenes.size(), "scene");
  if (!number) {
    return {};
  }
  const Members scene(scenes[*number], entry("scene", *number), problems);
  roots = scene.indices("nodes", nodes.size(), "node").value_or(std::vector<std::uint64_t>{});
  std::set<std::uint64_t> seen;
  for (const std::uint64_t root : roots) {
    if (!seen.insert(root).second) {
      scene.complain("lists node " + count(root) + " twice");
    } else if (nodes[root].parent) {
      scene.complain("lists node " + count(root) + ", which is below node " +
                     count(*nodes[root].parent) + "; roots were expected");
    }
  }
  return roots;
}

void check_amount(const std::vector<NodeFigures>& nodes, const std::vector<std::uint64_t>& roots,
                  const std::vector<MeshFigures>& meshes, const ModelLimits& limits,
                  Problems& problems) {
  struct Visit {
    std::uint64_t node;
    int depth;
    std::uint64_t path_bytes;
  };
  constexpr std::uint64_t bracketed = 10; // "/", and an index in brackets
  std::vector<Visit> to_see;
  for (const std::uint64_t root : roots) {
    to_see.push_back({root, 1, 0});
  }
  MeshFigures all;
  std::uint64_t path_bytes = 0;
  bool any_mesh = false;
  while (!to_see.empty()) {
    const Visit visit = to_see.back();
    to_see.pop_back();
    if (visit.depth > limits.node_depth) {
      problems.add(entry("node", visit.node) + " is nested deeper than " +
                   count(static_cast<std::uint64_t>(limits.node_depth)));
      return;
    }
    const NodeFigures& node = nodes[visit.node];
    const std::uint64_t path = visit.path_bytes + node.name.size() + bracketed;
    path_bytes += path;
    if (node.mesh) {
      const MeshFigures& mesh = meshes[*node.mesh];
      any_mesh = true;
      if (mesh.triangles == 0) {
        problems.add(entry("node", visit.node) + " has no triangles, only points or lines");
      }
      all.primitives += mesh.primitives;
      all.triangles += mesh.triangles;
      all.vertices += mesh.vertices;
    }
    if (all.triangles > limits.triangles || all.vertices > limits.vertices ||
        all.primitives > limits.primitives || path_bytes > limits.path_bytes) {
      problems.add("the nodes together hold more than is read: at most " + count(limits.triangles) +
                   " triangles, " + count(limits.vertices) + " vertices, " +
                   count(limits.primitives) + " primitives and paths of " +
                   count(limits.path_bytes) + " bytes");
      return;
    }
    for (const std::uint64_t child : node.children) {
      to_see.push_back({child, visit.depth + 1, path});
    }
  }
  if (!any_mesh && problems.none()) {
    problems.add("no node of the scene has a mesh");
  }
}

} // namespace lugline::gltf
