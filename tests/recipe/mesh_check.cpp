#include "tests/recipe/mesh_check.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

namespace lugline::test {

namespace {

constexpr double pi = std::numbers::pi;

Vec3 minus(const Vec3& a, const Vec3& b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}
double dot(const Vec3& a, const Vec3& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
Vec3 cross(const Vec3& a, const Vec3& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
double length(const Vec3& a) {
  return std::sqrt(dot(a, a));
}

struct Corners {
  Vec3 a, b, c;
};

Corners corners_of(const Mesh& mesh, const std::array<std::uint32_t, 3>& t) {
  return {mesh.positions_m[t[0]], mesh.positions_m[t[1]], mesh.positions_m[t[2]]};
}

/// Positions that are the same as 32-bit figures, as they stand in a file, are one.
std::vector<int> corner_ids(const Mesh& mesh, std::size_t& count) {
  std::map<std::array<float, 3>, int> known;
  std::vector<int> ids;
  for (const Vec3& p : mesh.positions_m) {
    const std::array<float, 3> key{static_cast<float>(p.x) + 0.0F, static_cast<float>(p.y) + 0.0F,
                                   static_cast<float>(p.z) + 0.0F};
    ids.push_back(known.try_emplace(key, static_cast<int>(known.size())).first->second);
  }
  count = known.size();
  return ids;
}

bool ranges_cover(const Mesh& mesh) {
  std::size_t next = 0;
  for (const MaterialRange& range : mesh.ranges) {
    if (range.first_triangle != next || range.triangle_count == 0) {
      return false;
    }
    next += range.triangle_count;
  }
  return next == mesh.triangles.size();
}

} // namespace

Topology topology_of(const Mesh& mesh) {
  Topology result;
  result.triangles = mesh.triangles.size();
  result.ranges_cover = ranges_cover(mesh);
  const std::vector<int> ids = corner_ids(mesh, result.corners);
  std::map<std::pair<int, int>, std::pair<int, int>> edges; // gone over forwards, backwards
  for (const auto& t : mesh.triangles) {
    const Corners at = corners_of(mesh, t);
    const Vec3 facing = cross(minus(at.b, at.a), minus(at.c, at.a));
    const double longest =
        std::max({length(minus(at.b, at.a)), length(minus(at.c, at.b)), length(minus(at.a, at.c))});
    if (length(facing) < 1e-5 * longest * longest || length(facing) < 1e-8 * longest) {
      ++result.flat_triangles;
    }
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec3& normal = mesh.normals[t[k]];
      if (std::abs(length(normal) - 1) > 1e-6 || dot(normal, facing) <= 0) {
        result.normals_fit = false;
      }
      const int from = ids[t[k]];
      const int to = ids[t[(k + 1) % 3]];
      if (from < to) {
        edges[{from, to}].first += 1;
      } else {
        edges[{to, from}].second += 1;
      }
    }
  }
  for (const auto& [edge, times] : edges) {
    result.open_edges += times.first != times.second ? 1 : 0;
    result.shared_edges += times.first > 1 ? 1 : 0;
  }
  return result;
}

double mesh_volume_m3(const Mesh& mesh) {
  double six = 0;
  for (const auto& t : mesh.triangles) {
    const Corners at = corners_of(mesh, t);
    six += dot(at.a, cross(at.b, at.c));
  }
  return six / 6;
}

double lost_to_facets_m3(const Mesh& mesh) {
  double lost = 0;
  for (const auto& t : mesh.triangles) {
    const Corners at = corners_of(mesh, t);
    const Vec3& normal = mesh.normals[t[0]];
    const double r = std::hypot(at.a.x, at.a.y);
    const double radial = (normal.x * at.a.x + normal.y * at.a.y) / r;
    const bool round = std::abs(std::abs(radial) - 1) < 1e-9 &&
                       std::abs(std::hypot(at.b.x, at.b.y) - r) < 1e-9 &&
                       std::abs(std::hypot(at.c.x, at.c.y) - r) < 1e-9;
    if (!round) {
      continue;
    }
    const double chord = std::max({std::hypot(at.b.x - at.a.x, at.b.y - at.a.y),
                                   std::hypot(at.c.x - at.b.x, at.c.y - at.b.y),
                                   std::hypot(at.a.x - at.c.x, at.a.y - at.c.y)});
    const double area = length(cross(minus(at.b, at.a), minus(at.c, at.a))) / 2;
    const double angle = 2 * std::asin(std::min(1.0, chord / (2 * r)));
    const double segment = r * r * (angle - std::sin(angle)) / 2;
    lost += (radial > 0 ? 1 : -1) * segment * area / chord;
  }
  return lost;
}

double solid_volume_m3(const Solid& solid) {
  // The integral of r asin(o / r) dr.
  const auto part = [](const Flank& flank, double r) {
    const double o = flank.offset_m;
    const double plain = flank.angle_rad * r * r / 2;
    return o == 0 ? plain : plain + r * r / 2 * std::asin(o / r) + o / 2 * std::sqrt(r * r - o * o);
  };
  double volume = 0;
  for (const SectorRing& ring : solid.rings) {
    const double r0 = ring.inner_m;
    const double r1 = ring.outer_m;
    double area = ring.full() ? pi * (r1 * r1 - r0 * r0) : 0;
    for (const Sector& s : ring.sectors) {
      area += part(s.to, r1) - part(s.to, r0) - part(s.from, r1) + part(s.from, r0);
    }
    volume += area * (ring.high_m - ring.low_m);
  }
  return volume;
}

bool in_solid(const Solid& solid, const Vec3& point, double by_m) {
  const double r = std::hypot(point.x, point.y);
  const double angle = std::atan2(-point.x, point.y);
  const auto in_ring = [&](const SectorRing& ring, double grown) {
    if (r < ring.inner_m - grown || r > ring.outer_m + grown || point.z < ring.low_m - grown ||
        point.z > ring.high_m + grown) {
      return false;
    }
    if (ring.full()) {
      return true;
    }
    const double at = std::clamp(r, ring.inner_m, ring.outer_m);
    return std::ranges::any_of(ring.sectors, [&](const Sector& s) {
      const double more = grown / std::max(r, 1e-12);
      const double from = s.from.at(at) - more;
      const double span = s.to.at(at) + more - from;
      double a = std::fmod(angle - from, 2 * pi);
      a = a < 0 ? a + 2 * pi : a;
      return a <= span;
    });
  };
  if (by_m >= 0) {
    return std::ranges::any_of(solid.rings,
                               [&](const SectorRing& ring) { return in_ring(ring, by_m); });
  }
  // Deep inside: every point of a small cross about it is inside.
  for (int k = 0; k < 8; ++k) {
    const double turn = pi * k / 4;
    for (const double up : {-by_m, 0.0, by_m}) {
      const Vec3 near{point.x - by_m * std::cos(turn), point.y - by_m * std::sin(turn),
                      point.z + up};
      if (!in_solid(solid, near, 1e-12)) {
        return false;
      }
    }
  }
  return true;
}

bool in_mesh(const Mesh& mesh, const Vec3& point) {
  double angle = 0;
  for (const auto& t : mesh.triangles) {
    const Corners at = corners_of(mesh, t);
    const Vec3 a = minus(at.a, point);
    const Vec3 b = minus(at.b, point);
    const Vec3 c = minus(at.c, point);
    const double la = length(a);
    const double lb = length(b);
    const double lc = length(c);
    angle += 2 * std::atan2(dot(a, cross(b, c)),
                            la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb);
  }
  return angle > 2 * pi;
}

Vec3 random_surface_point(const Mesh& mesh, std::mt19937_64& random) {
  std::uniform_int_distribution<std::size_t> pick(0, mesh.triangles.size() - 1);
  std::uniform_real_distribution<double> unit(0, 1);
  const Corners at = corners_of(mesh, mesh.triangles[pick(random)]);
  double u = unit(random);
  double v = unit(random);
  if (u + v > 1) {
    u = 1 - u;
    v = 1 - v;
  }
  const double w = 1 - u - v;
  return {w * at.a.x + u * at.b.x + v * at.c.x, w * at.a.y + u * at.b.y + v * at.c.y,
          w * at.a.z + u * at.b.z + v * at.c.z};
}

} // namespace lugline::test
