#include "scene/recipe/finish.h"

#include "scene/mesh/closed.h"
#include "scene/mesh/vector.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <map>
#include <numbers>
#include <tuple>

namespace lugline {

namespace {

double angle_at(const Vec3& corner, const Vec3& a, const Vec3& b) {
  const Vec3 p = unit_or(a - corner, {1, 0, 0});
  const Vec3 q = unit_or(b - corner, {1, 0, 0});
  return std::acos(std::clamp(dot(p, q), -1.0, 1.0));
}

} // namespace

void bend(Mesh& mesh, const std::function<Vec3(const Vec3&)>& to) {
  for (Vec3& position : mesh.positions_m) {
    position = to(position);
  }
}

Mesh smoothed(const Mesh& mesh, double crease_rad) {
  const WeldedMesh welded = weld(mesh);
  struct Facet {
    Vec3 normal;
    std::array<double, 3> corner_rad{};
  };
  std::vector<Facet> facets;
  std::vector<std::vector<std::pair<std::size_t, std::size_t>>> at_vertex(
      welded.positions_m.size());
  for (std::size_t t = 0; t < welded.triangles.size(); ++t) {
    std::array<Vec3, 3> p;
    for (std::size_t k = 0; k < 3; ++k) {
      p[k] = welded.positions_m[welded.triangles[t][k]];
      at_vertex[welded.triangles[t][k]].emplace_back(t, k);
    }
    Facet facet;
    facet.normal = unit_or(cross(p[1] - p[0], p[2] - p[0]), {0, 0, 1});
    for (std::size_t k = 0; k < 3; ++k) {
      facet.corner_rad[k] = angle_at(p[k], p[(k + 1) % 3], p[(k + 2) % 3]);
    }
    facets.push_back(facet);
  }
  const double least_cos = std::cos(crease_rad);
  Mesh result;
  result.ranges = mesh.ranges;
  std::map<std::tuple<std::uint32_t, std::size_t, int, int, int>, std::uint32_t> known;
  for (std::size_t m = 0; m < mesh.ranges.size(); ++m) {
    const MaterialRange& range = mesh.ranges[m];
    for (std::uint32_t t = range.first_triangle; t < range.first_triangle + range.triangle_count;
         ++t) {
      std::array<std::uint32_t, 3> corners{};
      for (std::size_t k = 0; k < 3; ++k) {
        const std::uint32_t v = welded.triangles[t][k];
        Vec3 sum;
        for (const auto& [other, corner] : at_vertex[v]) {
          if (dot(facets[other].normal, facets[t].normal) > least_cos) {
            sum = sum + facets[other].normal * facets[other].corner_rad[corner];
          }
        }
        const Vec3 normal = unit_or(sum, facets[t].normal);
        const auto whole = [](double part) { return static_cast<int>(std::lround(part * 1e4)); };
        const auto key = std::make_tuple(v, m, whole(normal.x), whole(normal.y), whole(normal.z));
        const auto [found, is_new] =
            known.try_emplace(key, static_cast<std::uint32_t>(result.positions_m.size()));
        if (is_new) {
          result.positions_m.push_back(welded.positions_m[v]);
          result.normals.push_back(normal);
        }
        corners[k] = found->second;
      }
      result.triangles.push_back(corners);
    }
  }
  return result;
}

Mesh wire_along(const std::vector<Vec3>& line, double wire_m, int sides,
                const std::string& material) {
  assert(line.size() >= 2 && sides >= 3);
  Mesh mesh;
  const auto count = static_cast<std::uint32_t>(sides);
  const auto ring_at = [&](const Vec3& middle, const Vec3& along, const Vec3* flat_normal) {
    // Wires here never run straight up, so "up" always tells a side.
    const Vec3 side = unit_or(cross(along, {0, 0, 1}), {1, 0, 0});
    const Vec3 up = cross(side, along);
    const auto first = static_cast<std::uint32_t>(mesh.positions_m.size());
    for (std::uint32_t k = 0; k < count; ++k) {
      const double a = 2 * std::numbers::pi * k / sides;
      const Vec3 out = side * std::cos(a) + up * std::sin(a);
      mesh.positions_m.push_back(middle + out * (wire_m / 2));
      mesh.normals.push_back(flat_normal != nullptr ? *flat_normal : out);
    }
    return first;
  };
  const auto along_at = [&](std::size_t k) {
    const Vec3& from = line[k == 0 ? 0 : k - 1];
    const Vec3& to = line[k + 1 == line.size() ? k : k + 1];
    return unit_or(to - from, {1, 0, 0});
  };
  std::uint32_t last = 0;
  for (std::size_t k = 0; k < line.size(); ++k) {
    const std::uint32_t next = ring_at(line[k], along_at(k), nullptr);
    for (std::uint32_t s = 0; k > 0 && s < count; ++s) {
      const std::uint32_t t = (s + 1) % count;
      mesh.triangles.push_back({last + s, next + s, last + t});
      mesh.triangles.push_back({last + t, next + s, next + t});
    }
    last = next;
  }
  for (const bool end : {false, true}) {
    const std::size_t k = end ? line.size() - 1 : 0;
    const Vec3 normal = end ? along_at(k) : -along_at(k);
    const std::uint32_t first = ring_at(line[k], along_at(k), &normal);
    for (std::uint32_t s = 1; s + 1 < count; ++s) {
      if (end) {
        mesh.triangles.push_back({first, first + s + 1, first + s});
      } else {
        mesh.triangles.push_back({first, first + s, first + s + 1});
      }
    }
  }
  mesh.ranges = {{material, 0, static_cast<std::uint32_t>(mesh.triangles.size())}};
  return mesh;
}

Mesh block_over(const std::vector<Vec3>& outline, double low_m, double high_m,
                const std::string& material) {
  assert(outline.size() >= 4 && outline.size() % 2 == 0);
  Mesh mesh;
  const auto count = static_cast<std::uint32_t>(outline.size());
  for (const bool top : {false, true}) {
    const auto first = static_cast<std::uint32_t>(mesh.positions_m.size());
    for (const Vec3& p : outline) {
      mesh.positions_m.push_back({p.x, p.y, top ? high_m : low_m});
      mesh.normals.push_back({0, 0, top ? 1.0 : -1.0});
    }
    const auto add = [&](std::uint32_t a, std::uint32_t b, std::uint32_t c) {
      mesh.triangles.push_back({first + a, first + (top ? b : c), first + (top ? c : b)});
    };
    for (std::uint32_t k = 0; k + 1 < count / 2; ++k) {
      add(k, k + 1, count - 2 - k);
      add(k, count - 2 - k, count - 1 - k);
    }
  }
  for (std::uint32_t k = 0; k < count; ++k) {
    const Vec3& p = outline[k];
    const Vec3& q = outline[(k + 1) % count];
    const Vec3 normal = unit_or(cross(q - p, {0, 0, 1}), {1, 0, 0});
    const auto first = static_cast<std::uint32_t>(mesh.positions_m.size());
    for (const Vec3& corner : {Vec3{p.x, p.y, low_m}, Vec3{q.x, q.y, low_m}, Vec3{q.x, q.y, high_m},
                               Vec3{p.x, p.y, high_m}}) {
      mesh.positions_m.push_back(corner);
      mesh.normals.push_back(normal);
    }
    mesh.triangles.push_back({first, first + 1, first + 2});
    mesh.triangles.push_back({first, first + 2, first + 3});
  }
  mesh.ranges = {{material, 0, static_cast<std::uint32_t>(mesh.triangles.size())}};
  return mesh;
}

Mesh turned_outline(const std::vector<ProfileCorner>& outline, int segments,
                    const std::string& material) {
  assert(outline.size() >= 3 && segments >= 3);
  const auto point = [&](const ProfileCorner& corner, int k) {
    const double a = 2 * std::numbers::pi * (k % segments) / segments;
    return Vec3{-corner.r_m * std::sin(a), corner.r_m * std::cos(a), corner.z_m};
  };
  Mesh mesh;
  const auto add = [&](const Vec3& a, const Vec3& b, const Vec3& c) {
    const auto first = static_cast<std::uint32_t>(mesh.positions_m.size());
    const Vec3 normal = unit_or(cross(b - a, c - a), {0, 0, 1});
    for (const Vec3& corner : {a, b, c}) {
      mesh.positions_m.push_back(corner);
      mesh.normals.push_back(normal);
    }
    mesh.triangles.push_back({first, first + 1, first + 2});
  };
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const ProfileCorner& p = outline[i];
    const ProfileCorner& q = outline[(i + 1) % outline.size()];
    for (int k = 0; k < segments; ++k) {
      // Seen from outside the next turn lies to the left where the outline rises.
      if (p.r_m > 0) {
        add(point(p, k), point(p, k + 1), point(q, k));
      }
      if (q.r_m > 0) {
        add(point(p, k + 1), point(q, k + 1), point(q, k));
      }
    }
  }
  mesh.ranges = {{material, 0, static_cast<std::uint32_t>(mesh.triangles.size())}};
  return mesh;
}

Mesh round_bar(double diameter_m, double low_m, double high_m, const std::string& material) {
  const double r_m = diameter_m / 2;
  const int sides = std::min(chords_round(r_m, 0.02e-3), 48);
  return smoothed(
      turned_outline({{0, low_m}, {r_m, low_m}, {r_m, high_m}, {0, high_m}}, sides, material),
      40 * std::numbers::pi / 180);
}

int chords_round(double radius_m, double tolerance_m) {
  if (tolerance_m >= radius_m) {
    return 12;
  }
  const double least = std::numbers::pi / std::acos(1 - tolerance_m / radius_m);
  return std::max(12, 2 * static_cast<int>(std::ceil(least / 2 - 1e-9)));
}

} // namespace lugline
