#include "viewer/draw/topology.h"

#include "scene/mesh/closed.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <unordered_map>

namespace lugline {
Topology topology_of(const Mesh& mesh, double crease_rad) {
  Topology topology;
  const WeldedMesh welded = weld(mesh);
  for (const Vec3& p : welded.positions_m)
    topology.points_m.push_back({p.x, p.y, p.z});
  std::vector<std::size_t> material_of(mesh.triangles.size(), 0);
  for (std::size_t r = 0; r < mesh.ranges.size(); ++r)
    for (std::size_t i = 0; i < mesh.ranges[r].triangle_count; ++i)
      if (mesh.ranges[r].first_triangle + i < material_of.size())
        material_of[mesh.ranges[r].first_triangle + i] = r;

  std::unordered_map<std::uint64_t, std::size_t> edge_at;
  edge_at.reserve(welded.triangles.size() * 2);
  topology.face_normals.reserve(mesh.triangles.size());
  std::vector<int> balance; // of each edge: uses one way less uses the other
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const std::array<std::uint32_t, 3>& v = welded.triangles[t];
    const auto& q = topology.points_m;
    const glm::dvec3 normal = glm::cross(q[v[1]] - q[v[0]], q[v[2]] - q[v[0]]);
    const double size = glm::length(normal);
    topology.face_normals.push_back(size > 0 ? normal / size : glm::dvec3(0));
    for (std::size_t k = 0; k < 3; ++k) {
      const std::uint32_t a = v[k];
      const std::uint32_t b = v[(k + 1) % 3];
      if (a == b)
        continue;
      const std::uint64_t key = (std::uint64_t{std::min(a, b)} << 32) | std::max(a, b);
      const auto [place, fresh] = edge_at.emplace(key, topology.edges.size());
      if (fresh) {
        topology.edges.push_back({std::min(a, b), std::max(a, b), -1, -1, false});
        balance.push_back(0);
      }
      balance[place->second] += a < b ? 1 : -1;
      SharedEdge& edge = topology.edges[place->second];
      std::int32_t& side = a < b ? edge.one : edge.other;
      side = static_cast<std::int32_t>(t);
    }
  }
  // Solids that touch along an edge use it more than once each way and are still closed.
  topology.closed = !topology.edges.empty() &&
                    std::all_of(balance.begin(), balance.end(), [](int b) { return b == 0; });
  const double least_cosine = std::cos(crease_rad);
  for (SharedEdge& edge : topology.edges) {
    if (edge.one < 0 || edge.other < 0) {
      edge.crease = true;
      continue;
    }
    const auto one = static_cast<std::size_t>(edge.one);
    const auto other = static_cast<std::size_t>(edge.other);
    edge.crease =
        glm::dot(topology.face_normals[one], topology.face_normals[other]) < least_cosine ||
        material_of[one] != material_of[other];
  }
  return topology;
}

std::vector<EdgeChain> chains_of(const std::vector<std::array<std::uint32_t, 2>>& edges,
                                 std::size_t point_count) {
  // Edges at each point, as a packed list.
  std::vector<std::uint32_t> first(point_count + 1, 0);
  for (const auto& edge : edges) {
    ++first[edge[0] + 1];
    ++first[edge[1] + 1];
  }
  std::partial_sum(first.begin(), first.end(), first.begin());
  std::vector<std::uint32_t> at(edges.size() * 2);
  std::vector<std::uint32_t> filled(first.begin(), first.end() - 1);
  for (std::size_t e = 0; e < edges.size(); ++e) {
    at[filled[edges[e][0]]++] = static_cast<std::uint32_t>(e);
    at[filled[edges[e][1]]++] = static_cast<std::uint32_t>(e);
  }
  std::vector<bool> used(edges.size(), false);
  const auto step = [&](std::uint32_t point, std::uint32_t& next) {
    // A branching point ends the run, so that corners keep their own dashes.
    if (first[point + 1] - first[point] != 2)
      return false;
    for (std::uint32_t i = first[point]; i < first[point + 1]; ++i) {
      if (used[at[i]])
        continue;
      used[at[i]] = true;
      const auto& edge = edges[at[i]];
      next = edge[0] == point ? edge[1] : edge[0];
      return true;
    }
    return false;
  };
  std::vector<EdgeChain> chains;
  for (std::size_t e = 0; e < edges.size(); ++e) {
    if (used[e])
      continue;
    used[e] = true;
    EdgeChain forward = {edges[e][0], edges[e][1]};
    std::uint32_t next = 0;
    while (step(forward.back(), next))
      forward.push_back(next);
    EdgeChain backward = {edges[e][0]};
    while (step(backward.back(), next))
      backward.push_back(next);
    EdgeChain chain(backward.rbegin(), backward.rend());
    chain.insert(chain.end(), forward.begin() + 1, forward.end());
    chains.push_back(std::move(chain));
  }
  return chains;
}

} // namespace lugline
