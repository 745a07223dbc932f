#include "tests/recipe/mesh_quality.h"

#include "scene/mesh/vector.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <set>
#include <tuple>

namespace lugline::test {

namespace {

constexpr double pi = std::numbers::pi;

std::tuple<long, long, long> cell_of(const Vec3& v, double width) {
  return {std::lround(v.x / width), std::lround(v.y / width), std::lround(v.z / width)};
}

struct Side {
  Vec3 facing;                   ///< unit, of the triangle itself
  std::array<Vec3, 2> normals{}; ///< at the edge's two ends, the lower one first
};

double angle_between(const Vec3& a, const Vec3& b) {
  return std::atan2(length(cross(a, b)), dot(a, b));
}

void look_at_edge(Quality& quality, const std::vector<Side>& sides) {
  if (sides.size() != 2) {
    return; // the manifold tests' business
  }
  const double turned = angle_between(sides[0].facing, sides[1].facing);
  const double apart = std::max(angle_between(sides[0].normals[0], sides[1].normals[0]),
                                angle_between(sides[0].normals[1], sides[1].normals[1]));
  quality.rounded_edges += turned > 35 * pi / 180 && apart < 1e-3 ? 1 : 0;
  quality.parted_planes += turned < 1e-6 && apart > 1e-3 ? 1 : 0;
}

} // namespace

Quality quality_of(const Mesh& mesh) {
  Quality quality;
  std::set<std::tuple<std::tuple<long, long, long>, std::tuple<long, long, long>>> met;
  std::map<std::tuple<long, long, long>, std::size_t> places;
  std::vector<std::size_t> place_of;
  for (std::size_t i = 0; i < mesh.positions_m.size(); ++i) {
    const auto at = cell_of(mesh.positions_m[i], 1e-8);
    place_of.push_back(places.try_emplace(at, places.size()).first->second);
    quality.doubled += met.insert({at, cell_of(mesh.normals[i], 1e-6)}).second ? 0 : 1;
  }
  std::vector<bool> used(mesh.positions_m.size(), false);
  std::map<std::pair<std::size_t, std::size_t>, std::vector<Side>> edges;
  quality.lowest_m = 1e300;
  quality.flattest = 1e300;
  for (const auto& t : mesh.triangles) {
    const Vec3& a = mesh.positions_m[t[0]];
    const Vec3& b = mesh.positions_m[t[1]];
    const Vec3& c = mesh.positions_m[t[2]];
    const Vec3 twice_area = cross(b - a, c - a);
    const auto [shortest, longest] = std::minmax({length(b - a), length(c - b), length(a - c)});
    const double height_m = length(twice_area) / longest;
    quality.lowest_m = std::min(quality.lowest_m, height_m);
    quality.flattest = std::min(quality.flattest, height_m / shortest);
    for (std::size_t k = 0; k < 3; ++k) {
      used[t[k]] = true;
      std::uint32_t from = t[k];
      std::uint32_t to = t[(k + 1) % 3];
      if (place_of[from] > place_of[to]) {
        std::swap(from, to);
      }
      edges[{place_of[from], place_of[to]}].push_back(
          {unit_or(twice_area, {0, 0, 1}), {mesh.normals[from], mesh.normals[to]}});
    }
  }
  quality.unused = static_cast<std::size_t>(std::count(used.begin(), used.end(), false));
  for (const auto& [ends, sides] : edges) {
    look_at_edge(quality, sides);
  }
  return quality;
}

RoundWalls round_walls_of(const Mesh& mesh) {
  RoundWalls walls;
  for (const auto& t : mesh.triangles) {
    const Vec3& a = mesh.positions_m[t[0]];
    const double r_m = std::hypot(a.x, a.y);
    bool round = r_m > 0;
    double chord_m = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec3& p = mesh.positions_m[t[k]];
      const Vec3& q = mesh.positions_m[t[(k + 1) % 3]];
      round = round && std::abs(std::hypot(p.x, p.y) - r_m) < 1e-9;
      chord_m = std::max(chord_m, std::hypot(p.x - q.x, p.y - q.y));
    }
    const Vec3 facing = unit_or(cross(mesh.positions_m[t[1]] - a, mesh.positions_m[t[2]] - a), {});
    if (!round || std::abs(facing.z) > 1e-6) {
      continue;
    }
    ++walls.triangles;
    walls.sagitta_m = std::max(walls.sagitta_m, r_m - std::sqrt(r_m * r_m - chord_m * chord_m / 4));
    for (const std::uint32_t v : t) {
      const Vec3& p = mesh.positions_m[v];
      const double sign = dot(facing, {p.x, p.y, 0}) < 0 ? -1 : 1;
      const Vec3 out{sign * p.x / r_m, sign * p.y / r_m, 0};
      walls.leaning_rad = std::max(walls.leaning_rad, angle_between(mesh.normals[v], out));
    }
  }
  return walls;
}

} // namespace lugline::test
