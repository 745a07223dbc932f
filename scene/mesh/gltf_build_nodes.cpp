#include "scene/mesh/gltf_build.h"
#include "scene/mesh/vector.h"

#include <tiny_gltf.h>

#include <algorithm>
#include <map>
#include <set>

namespace lugline::gltf {

namespace {

/// Columns of the linear part, and where the origin goes.
struct Affine {
  Vec3 x{1, 0, 0};
  Vec3 y{0, 1, 0};
  Vec3 z{0, 0, 1};
  Vec3 origin;

  [[nodiscard]] Vec3 direction(const Vec3& v) const { return x * v.x + y * v.y + z * v.z; }
  [[nodiscard]] Vec3 point(const Vec3& v) const { return direction(v) + origin; }
  [[nodiscard]] double determinant() const { return dot(x, cross(y, z)); }
};

Affine within(const Affine& outer, const Affine& inner) {
  return {outer.direction(inner.x), outer.direction(inner.y), outer.direction(inner.z),
          outer.point(inner.origin)};
}

Affine local_of(const tinygltf::Node& node) {
  if (node.matrix.size() == 16) {
    const auto& m = node.matrix;
    return {{m[0], m[1], m[2]}, {m[4], m[5], m[6]}, {m[8], m[9], m[10]}, {m[12], m[13], m[14]}};
  }
  Affine local;
  if (node.rotation.size() == 4) {
    const double size =
        std::sqrt(node.rotation[0] * node.rotation[0] + node.rotation[1] * node.rotation[1] +
                  node.rotation[2] * node.rotation[2] + node.rotation[3] * node.rotation[3]);
    const double x = node.rotation[0] / size;
    const double y = node.rotation[1] / size;
    const double z = node.rotation[2] / size;
    const double w = node.rotation[3] / size;
    local.x = {1 - 2 * (y * y + z * z), 2 * (x * y + z * w), 2 * (x * z - y * w)};
    local.y = {2 * (x * y - z * w), 1 - 2 * (x * x + z * z), 2 * (y * z + x * w)};
    local.z = {2 * (x * z + y * w), 2 * (y * z - x * w), 1 - 2 * (x * x + y * y)};
  }
  if (node.scale.size() == 3) {
    local.x = local.x * node.scale[0];
    local.y = local.y * node.scale[1];
    local.z = local.z * node.scale[2];
  }
  if (node.translation.size() == 3) {
    local.origin = {node.translation[0], node.translation[1], node.translation[2]};
  }
  return local;
}

/// Flattened to a plane, a line or a point, as near as figures can tell.
bool is_flat(const Affine& placed) {
  const double product = length(placed.x) * length(placed.y) * length(placed.z);
  return !(std::abs(placed.determinant()) > 1e-12 * product);
}

bool is_finite(const Affine& placed) {
  return finite(placed.x) && finite(placed.y) && finite(placed.z) && finite(placed.origin) &&
         std::isfinite(placed.determinant());
}

/// glTF is y up, ours z up along the axis.
Vec3 z_up(const Vec3& v) {
  return {v.x + 0.0, 0.0 - v.z, v.y + 0.0};
}

Mesh placed_mesh(const Mesh& mesh, const Affine& at) {
  Mesh placed = mesh;
  const bool mirrored = at.determinant() < 0;
  // Normals go by the inverse transpose, which is the cross products over the determinant.
  const double facing = mirrored ? -1 : 1;
  const Affine normal_of{
      cross(at.y, at.z) * facing, cross(at.z, at.x) * facing, cross(at.x, at.y) * facing, {}};
  for (Vec3& point : placed.positions_m) {
    point = z_up(at.point(point));
  }
  for (Vec3& normal : placed.normals) {
    normal = unit_or(z_up(normal_of.direction(normal)), {0, 0, 1});
  }
  if (mirrored) {
    for (auto& triangle : placed.triangles) {
      std::swap(triangle[1], triangle[2]);
    }
  }
  return placed;
}

class NodeBuilder {
public:
  NodeBuilder(const tinygltf::Model& model, const nlohmann::json& document,
              const std::vector<NodeFigures>& nodes, const ModelLimits& limits, Problems& problems)
      : model_(model), document_(document), nodes_(nodes), limits_(limits), problems_(problems) {}

  std::vector<ModelNode> build(const std::vector<std::uint64_t>& roots) {
    push(roots, Visit{});
    while (!to_see_.empty() && !problems_.full()) {
      const Visit visit = std::move(to_see_.back());
      to_see_.pop_back();
      if (nodes_[visit.node].mesh) {
        add(visit);
      }
      push(nodes_[visit.node].children, visit);
    }
    return std::move(built_);
  }

private:
  struct Visit {
    std::uint64_t node = 0;
    Affine placed;
    std::string path;
  };

  /// The brothers and sisters of one parent, to be seen next and in order.
  void push(const std::vector<std::uint64_t>& siblings, const Visit& parent) {
    std::map<std::string, int> uses;
    for (const std::uint64_t sibling : siblings) {
      ++uses[nodes_[sibling].name];
    }
    for (auto sibling = siblings.rbegin(); sibling != siblings.rend(); ++sibling) {
      const std::string& name = nodes_[*sibling].name;
      std::string path = parent.path.empty() ? "" : parent.path + "/";
      path += name;
      if (name.empty() || uses[name] > 1) {
        path += "[" + std::to_string(*sibling) + "]";
      }
      to_see_.push_back(
          {*sibling, within(parent.placed, local_of(model_.nodes[*sibling])), std::move(path)});
    }
  }

  void add(const Visit& visit) {
    const std::string place =
        "node " + std::to_string(visit.node) + " (" + in_quotes(visit.path) + ") ";
    if (!is_finite(visit.placed)) {
      problems_.add(place + "has transforms beyond all bounds");
      return;
    }
    if (is_flat(visit.placed)) {
      problems_.add(place + "is flattened by its transforms: their determinant is 0");
      return;
    }
    const Mesh* mesh = mesh_of(*nodes_[visit.node].mesh);
    if (mesh == nullptr) {
      return;
    }
    ModelNode built{nodes_[visit.node].name, visit.path, placed_mesh(*mesh, visit.placed), {}};
    if (built.mesh.triangles.empty()) {
      problems_.add(place + "has no triangles that enclose anything");
      return;
    }
    const auto beyond = [&](const Vec3& point) { return !(length(point) <= limits_.reach_m); };
    if (std::ranges::any_of(built.mesh.positions_m, beyond)) {
      problems_.add(place + "reaches further than " +
                    std::to_string(static_cast<long long>(limits_.reach_m)) + " m from the origin");
      return;
    }
    const auto& node = document_["nodes"][visit.node];
    if (node.contains("extras")) {
      built.extras_json = node["extras"].dump();
    }
    built_.push_back(std::move(built));
  }

  /// Each mesh is read once; null, with its problems told once, where it cannot be.
  const Mesh* mesh_of(std::uint64_t number) {
    const auto [place, fresh] = meshes_.try_emplace(number);
    if (fresh) {
      place->second = mesh_from(model_, number, problems_);
    }
    return place->second ? &*place->second : nullptr;
  }

  const tinygltf::Model& model_;
  const nlohmann::json& document_;
  const std::vector<NodeFigures>& nodes_;
  const ModelLimits& limits_;
  Problems& problems_;
  std::map<std::uint64_t, std::optional<Mesh>> meshes_;
  std::vector<Visit> to_see_;
  std::vector<ModelNode> built_;
};

} // namespace

std::vector<ModelNode> nodes_from(const tinygltf::Model& model, const nlohmann::json& document,
                                  const std::vector<NodeFigures>& nodes,
                                  const std::vector<std::uint64_t>& roots,
                                  const ModelLimits& limits, Problems& problems) {
  return NodeBuilder(model, document, nodes, limits, problems).build(roots);
}

} // namespace lugline::gltf
