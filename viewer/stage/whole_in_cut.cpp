#include "viewer/stage/whole_in_cut.h"

#include "scene/mesh/closed.h"
#include "scene/mesh/vector.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace lugline {

namespace {

/// A centre drilling in the end of a shaft does not make it hollow.
constexpr double solid_share = 0.8;
/// Of a body's own size: so far its middle may be in the wedge, and it still stands.
constexpr double middle_allowance = 0.02;

/// How much of a part's height has metal on the axis.
double share_on_axis(const Solid& solid) {
  std::vector<std::pair<double, double>> spans;
  for (const SectorRing& ring : solid.rings) {
    if (ring.inner_m <= 1e-9 && ring.full()) {
      spans.emplace_back(ring.low_m, ring.high_m);
    }
  }
  std::ranges::sort(spans);
  double covered_m = 0;
  double reached_m = solid.low_m();
  for (const auto& [low_m, high_m] : spans) {
    covered_m += std::max(0.0, high_m - std::max(low_m, reached_m));
    reached_m = std::max(reached_m, high_m);
  }
  const double whole_m = solid.high_m() - solid.low_m();
  return whole_m > 0 ? covered_m / whole_m : 0;
}

/// The named triangles as a mesh of their own, each material's run kept.
std::shared_ptr<const Mesh> picked_out(const Mesh& mesh, std::vector<std::uint32_t> triangles) {
  if (triangles.empty()) {
    return nullptr;
  }
  std::ranges::sort(triangles);
  auto made = std::make_shared<Mesh>();
  constexpr std::uint32_t none = 0xffffffff;
  std::vector<std::uint32_t> new_of(mesh.positions_m.size(), none);
  std::size_t range = 0;
  for (const std::uint32_t triangle : triangles) {
    while (range < mesh.ranges.size() &&
           triangle >= mesh.ranges[range].first_triangle + mesh.ranges[range].triangle_count) {
      ++range;
    }
    const std::string material =
        range < mesh.ranges.size() ? mesh.ranges[range].material : std::string();
    if (made->ranges.empty() || made->ranges.back().material != material) {
      made->ranges.push_back({material, static_cast<std::uint32_t>(made->triangles.size()), 0});
    }
    ++made->ranges.back().triangle_count;
    std::array<std::uint32_t, 3> corners{};
    for (std::size_t k = 0; k < 3; ++k) {
      const std::uint32_t from = mesh.triangles[triangle][k];
      if (new_of[from] == none) {
        new_of[from] = static_cast<std::uint32_t>(made->positions_m.size());
        made->positions_m.push_back(mesh.positions_m[from]);
        made->normals.push_back(mesh.normals[from]);
      }
      corners[k] = new_of[from];
    }
    made->triangles.push_back(corners);
  }
  return made;
}

std::uint32_t root_of(std::vector<std::uint32_t>& parent, std::uint32_t at) {
  while (parent[at] != at) {
    parent[at] = parent[parent[at]];
    at = parent[at];
  }
  return at;
}

} // namespace

InCut in_cut(const Component& part) {
  switch (part.kind) {
  case ComponentKind::shaft:
    return share_on_axis(part.solid) >= solid_share ? InCut::whole : InCut::cut;
  case ComponentKind::tool:
    return InCut::whole;
  case ComponentKind::bolt:
  case ComponentKind::pin:
  case ComponentKind::check_ball:
  case ComponentKind::thrust_bearing:
  case ComponentKind::one_way_element:
  case ComponentKind::springs:
    return InCut::round_bodies;
  default:
    return InCut::cut;
  }
}

Vec3 placed_point(const Pose& pose, const Vec3& point_m) {
  const double z = point_m.z - pose.over_about_m;
  const double x = point_m.x * std::cos(pose.over_rad) + z * std::sin(pose.over_rad);
  const double up = z * std::cos(pose.over_rad) - point_m.x * std::sin(pose.over_rad);
  const double c = std::cos(pose.turn_rad);
  const double s = std::sin(pose.turn_rad);
  return {x * c - point_m.y * s + pose.aside_m, x * s + point_m.y * c,
          up + pose.over_about_m + pose.height_m};
}

double depth_in_wedge_m(const Cut& cut, const Vec3& point_m) {
  double width = std::fmod(cut.to_rad - cut.from_rad, 2 * std::numbers::pi);
  if (width < 0) {
    width += 2 * std::numbers::pi;
  }
  if (!cut.on || width < 1e-9) {
    return -1e9;
  }
  const double past_from_m =
      -point_m.x * std::cos(cut.from_rad) - point_m.y * std::sin(cut.from_rad);
  const double before_to_m = point_m.x * std::cos(cut.to_rad) + point_m.y * std::sin(cut.to_rad);
  return width <= std::numbers::pi ? std::min(past_from_m, before_to_m)
                                   : std::max(past_from_m, before_to_m);
}

BodySorter::Sorted BodySorter::sorted(const std::shared_ptr<const Mesh>& mesh) {
  Sorted made;
  made.source = mesh;
  const WeldedMesh welded = weld(*mesh);
  std::vector<std::uint32_t> parent(welded.positions_m.size());
  std::iota(parent.begin(), parent.end(), 0u);
  for (const auto& corners : welded.triangles) {
    for (std::size_t k = 1; k < 3; ++k) {
      parent[root_of(parent, corners[k])] = root_of(parent, corners[0]);
    }
  }
  std::map<std::uint32_t, std::size_t> body_of;
  for (std::uint32_t t = 0; t < welded.triangles.size(); ++t) {
    const auto [place, fresh] =
        body_of.emplace(root_of(parent, welded.triangles[t][0]), made.bodies.size());
    if (fresh) {
      const Vec3& first = welded.positions_m[welded.triangles[t][0]];
      made.bodies.push_back({first, first, {}, false});
    }
    Body& body = made.bodies[place->second];
    body.triangles.push_back(t);
    for (const std::uint32_t corner : welded.triangles[t]) {
      const Vec3& p = welded.positions_m[corner];
      body.low_m = {std::min(body.low_m.x, p.x), std::min(body.low_m.y, p.y),
                    std::min(body.low_m.z, p.z)};
      body.high_m = {std::max(body.high_m.x, p.x), std::max(body.high_m.y, p.y),
                     std::max(body.high_m.z, p.z)};
    }
  }
  std::vector<std::uint32_t> cut;
  for (Body& body : made.bodies) {
    body.round = body.low_m.x < 0 && body.high_m.x > 0 && body.low_m.y < 0 && body.high_m.y > 0;
    if (body.round) {
      cut.insert(cut.end(), body.triangles.begin(), body.triangles.end());
    }
  }
  made.cut = cut.size() == mesh->triangles.size() ? mesh : picked_out(*mesh, std::move(cut));
  return made;
}

CutShares BodySorter::shares(const std::shared_ptr<const Mesh>& mesh, const Pose& pose,
                             const Cut& cut) {
  auto found = sorted_.find(mesh.get());
  if (found == sorted_.end()) {
    found = sorted_.emplace(mesh.get(), sorted(mesh)).first;
  }
  Sorted& of = found->second;
  std::vector<bool> stands;
  for (const Body& body : of.bodies) {
    const double size_m = length(body.high_m - body.low_m);
    const Vec3 middle = placed_point(pose, (body.low_m + body.high_m) * 0.5);
    stands.push_back(!body.round && depth_in_wedge_m(cut, middle) < middle_allowance * size_m);
  }
  const auto [place, fresh] = of.whole.try_emplace(stands);
  if (fresh) {
    std::vector<std::uint32_t> triangles;
    for (std::size_t i = 0; i < of.bodies.size(); ++i) {
      if (stands[i]) {
        triangles.insert(triangles.end(), of.bodies[i].triangles.begin(),
                         of.bodies[i].triangles.end());
      }
    }
    place->second =
        triangles.size() == mesh->triangles.size() ? mesh : picked_out(*mesh, std::move(triangles));
  }
  return {of.cut, place->second};
}

} // namespace lugline
