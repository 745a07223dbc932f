#include "scene/mesh/mesh.h"

#include "scene/mesh/vector.h"

#include <algorithm>
#include <cassert>

namespace lugline {

namespace {

/// What one tetrahedron, from the middle to a triangle, adds.
struct Sums {
  double volume_m3 = 0;
  double surface_m2 = 0;
  Vec3 firsts_m4;
  Vec3 squares_m5;
};

double pair_sum(double a, double b, double c) {
  return a * a + b * b + c * c + a * b + b * c + c * a;
}

void add_triangle(Sums& sums, const Vec3& a, const Vec3& b, const Vec3& c) {
  const double volume_m3 = dot(a, cross(b, c)) / 6;
  sums.volume_m3 += volume_m3;
  sums.surface_m2 += length(cross(b - a, c - a)) / 2;
  sums.firsts_m4 = sums.firsts_m4 + (a + b + c) * (volume_m3 / 4);
  const Vec3 squares{pair_sum(a.x, b.x, c.x), pair_sum(a.y, b.y, c.y), pair_sum(a.z, b.z, c.z)};
  sums.squares_m5 = sums.squares_m5 + squares * (volume_m3 / 10);
}

Vec3 middle_of(const Bounds& bounds) {
  return bounds.low_m + (bounds.high_m - bounds.low_m) * 0.5;
}

/// The integral of (x + d)² from those of 1, x and x².
double shifted_square(double square, double first, double volume, double shift) {
  return square + 2 * shift * first + shift * shift * volume;
}

std::string slip_in_ranges(const Mesh& mesh) {
  std::uint64_t next = 0;
  for (const MaterialRange& range : mesh.ranges) {
    if (range.first_triangle != next) {
      return "a material range begins at triangle " + std::to_string(range.first_triangle) +
             " where " + std::to_string(next) + " comes next";
    }
    next += range.triangle_count;
  }
  if (next != mesh.triangles.size()) {
    return "the material ranges cover " + std::to_string(next) + " of " +
           std::to_string(mesh.triangles.size()) + " triangles";
  }
  return {};
}

} // namespace

std::string slip_in(const Mesh& mesh) {
  if (mesh.normals.size() != mesh.positions_m.size()) {
    return std::to_string(mesh.normals.size()) + " normals for " +
           std::to_string(mesh.positions_m.size()) + " positions";
  }
  if (!std::ranges::all_of(mesh.positions_m, finite) ||
      !std::ranges::all_of(mesh.normals, finite)) {
    return "a position or normal that is not finite";
  }
  for (const auto& triangle : mesh.triangles) {
    for (const std::uint32_t corner : triangle) {
      if (corner >= mesh.positions_m.size()) {
        return "corner " + std::to_string(corner) + " of " +
               std::to_string(mesh.positions_m.size()) + " positions";
      }
    }
  }
  return slip_in_ranges(mesh);
}

Bounds bounds_of(const Mesh& mesh) {
  Bounds bounds;
  for (const Vec3& point : mesh.positions_m) {
    bounds = joined(bounds, {point, point, false});
  }
  return bounds;
}

Bounds joined(const Bounds& a, const Bounds& b) {
  if (a.empty) {
    return b;
  }
  if (b.empty) {
    return a;
  }
  return {{std::min(a.low_m.x, b.low_m.x), std::min(a.low_m.y, b.low_m.y),
           std::min(a.low_m.z, b.low_m.z)},
          {std::max(a.high_m.x, b.high_m.x), std::max(a.high_m.y, b.high_m.y),
           std::max(a.high_m.z, b.high_m.z)},
          false};
}

BodyFigures body_figures(const Mesh& mesh) {
  const Vec3 middle = middle_of(bounds_of(mesh));
  Sums sums;
  for (const auto& [a, b, c] : mesh.triangles) {
    add_triangle(sums, mesh.positions_m[a] - middle, mesh.positions_m[b] - middle,
                 mesh.positions_m[c] - middle);
  }
  BodyFigures figures;
  figures.volume_m3 = sums.volume_m3;
  figures.surface_m2 = sums.surface_m2;
  figures.centroid_m = middle;
  if (sums.volume_m3 != 0) {
    figures.centroid_m = middle + sums.firsts_m4 * (1 / sums.volume_m3);
  }
  figures.squares_m5 = {
      shifted_square(sums.squares_m5.x, sums.firsts_m4.x, sums.volume_m3, middle.x),
      shifted_square(sums.squares_m5.y, sums.firsts_m4.y, sums.volume_m3, middle.y),
      shifted_square(sums.squares_m5.z, sums.firsts_m4.z, sums.volume_m3, middle.z)};
  return figures;
}

Mesh flat_shaded(const Mesh& mesh) {
  Mesh flat;
  flat.ranges = mesh.ranges;
  flat.positions_m.reserve(mesh.triangles.size() * 3);
  flat.normals.reserve(mesh.triangles.size() * 3);
  flat.triangles.reserve(mesh.triangles.size());
  for (const auto& [a, b, c] : mesh.triangles) {
    const Vec3& first = mesh.positions_m[a];
    const Vec3& second = mesh.positions_m[b];
    const Vec3& third = mesh.positions_m[c];
    const Vec3 normal = unit_or(cross(second - first, third - first), {0, 0, 1});
    const auto at = static_cast<std::uint32_t>(flat.positions_m.size());
    flat.positions_m.insert(flat.positions_m.end(), {first, second, third});
    flat.normals.insert(flat.normals.end(), 3, normal);
    flat.triangles.push_back({at, at + 1, at + 2});
  }
  return flat;
}

void append(Mesh& a, const Mesh& b) {
  const auto corner_shift = static_cast<std::uint32_t>(a.positions_m.size());
  const auto triangle_shift = static_cast<std::uint32_t>(a.triangles.size());
  a.positions_m.insert(a.positions_m.end(), b.positions_m.begin(), b.positions_m.end());
  a.normals.insert(a.normals.end(), b.normals.begin(), b.normals.end());
  a.triangles.reserve(a.triangles.size() + b.triangles.size());
  for (const auto& [i, j, k] : b.triangles) {
    a.triangles.push_back({i + corner_shift, j + corner_shift, k + corner_shift});
  }
  for (const MaterialRange& range : b.ranges) {
    if (!a.ranges.empty() && a.ranges.back().material == range.material) {
      a.ranges.back().triangle_count += range.triangle_count;
    } else {
      a.ranges.push_back(
          {range.material, range.first_triangle + triangle_shift, range.triangle_count});
    }
  }
}

} // namespace lugline
