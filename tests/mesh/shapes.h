// Closed meshes whose volumes are known, for the tests of this room.
//
// Lengths are metres. Corners are doubled, one for each face's normal, as the
// recipes make them.
#pragma once

#include "scene/mesh/mesh.h"
#include "scene/mesh/vector.h"

#include <cmath>
#include <numbers>

namespace lugline::shapes {

/// Corners counter-clockwise from outside.
inline void add_quad(Mesh& mesh, const Vec3& a, const Vec3& b, const Vec3& c, const Vec3& d) {
  const Vec3 normal = unit_or(cross(b - a, c - a), {0, 0, 1});
  const auto at = static_cast<std::uint32_t>(mesh.positions_m.size());
  mesh.positions_m.insert(mesh.positions_m.end(), {a, b, c, d});
  mesh.normals.insert(mesh.normals.end(), 4, normal);
  mesh.triangles.push_back({at, at + 1, at + 2});
  mesh.triangles.push_back({at, at + 2, at + 3});
}

inline void all_of(Mesh& mesh, const std::string& material) {
  mesh.ranges = {{material, 0, static_cast<std::uint32_t>(mesh.triangles.size())}};
}

inline Mesh box(const Vec3& low, const Vec3& high, const std::string& material = "steel") {
  Mesh mesh;
  const auto at = [&](int x, int y, int z) {
    return Vec3{x ? high.x : low.x, y ? high.y : low.y, z ? high.z : low.z};
  };
  add_quad(mesh, at(0, 0, 0), at(0, 1, 0), at(1, 1, 0), at(1, 0, 0)); // below
  add_quad(mesh, at(0, 0, 1), at(1, 0, 1), at(1, 1, 1), at(0, 1, 1)); // above
  add_quad(mesh, at(0, 0, 0), at(1, 0, 0), at(1, 0, 1), at(0, 0, 1)); // -y
  add_quad(mesh, at(1, 1, 0), at(0, 1, 0), at(0, 1, 1), at(1, 1, 1)); // +y
  add_quad(mesh, at(0, 1, 0), at(0, 0, 0), at(0, 0, 1), at(0, 1, 1)); // -x
  add_quad(mesh, at(1, 0, 0), at(1, 1, 0), at(1, 1, 1), at(1, 0, 1)); // +x
  all_of(mesh, material);
  return mesh;
}

/// A ring prism of n segments, both circles inscribed, from z = 0 to thickness.
inline Mesh ring(double outer_m, double inner_m, double thickness_m, int n,
                 const std::string& material = "steel") {
  Mesh mesh;
  const auto at = [&](double r, int i, double z) {
    const double angle = 2 * std::numbers::pi * (i % n) / n;
    return Vec3{-r * std::sin(angle), r * std::cos(angle), z};
  };
  for (int i = 0; i < n; ++i) {
    const int j = i + 1;
    add_quad(mesh, at(outer_m, i, 0), at(outer_m, j, 0), at(outer_m, j, thickness_m),
             at(outer_m, i, thickness_m));
    add_quad(mesh, at(inner_m, j, 0), at(inner_m, i, 0), at(inner_m, i, thickness_m),
             at(inner_m, j, thickness_m));
    add_quad(mesh, at(inner_m, i, thickness_m), at(outer_m, i, thickness_m),
             at(outer_m, j, thickness_m), at(inner_m, j, thickness_m));
    add_quad(mesh, at(inner_m, j, 0), at(outer_m, j, 0), at(outer_m, i, 0), at(inner_m, i, 0));
  }
  all_of(mesh, material);
  return mesh;
}

/// A lug: an annular sector of an angle less than a turn, n segments, both arcs inscribed,
/// from z = 0 to thickness, counter-clockwise from 12 o'clock.
inline Mesh lug(double outer_m, double inner_m, double thickness_m, double angle_rad, int n,
                const std::string& material = "steel") {
  Mesh mesh;
  const auto at = [&](double r, int i, double z) {
    const double angle = angle_rad * i / n;
    return Vec3{-r * std::sin(angle), r * std::cos(angle), z};
  };
  const double top = thickness_m;
  for (int i = 0; i < n; ++i) {
    const int j = i + 1;
    add_quad(mesh, at(outer_m, i, 0), at(outer_m, j, 0), at(outer_m, j, top), at(outer_m, i, top));
    add_quad(mesh, at(inner_m, j, 0), at(inner_m, i, 0), at(inner_m, i, top), at(inner_m, j, top));
    add_quad(mesh, at(inner_m, i, top), at(outer_m, i, top), at(outer_m, j, top),
             at(inner_m, j, top));
    add_quad(mesh, at(inner_m, j, 0), at(outer_m, j, 0), at(outer_m, i, 0), at(inner_m, i, 0));
  }
  add_quad(mesh, at(inner_m, 0, 0), at(outer_m, 0, 0), at(outer_m, 0, top), at(inner_m, 0, top));
  add_quad(mesh, at(outer_m, n, 0), at(inner_m, n, 0), at(inner_m, n, top), at(outer_m, n, top));
  all_of(mesh, material);
  return mesh;
}

/// A closed cone of n segments round the axis, its tip up: a revolved triangle.
inline Mesh cone(double radius_m, double height_m, int n) {
  Mesh mesh;
  mesh.positions_m = {{0, 0, 0}, {0, 0, height_m}};
  for (int i = 0; i < n; ++i) {
    const double angle = 2 * std::numbers::pi * i / n;
    mesh.positions_m.push_back({-radius_m * std::sin(angle), radius_m * std::cos(angle), 0});
  }
  for (int i = 0; i < n; ++i) {
    const auto a = static_cast<std::uint32_t>(2 + i);
    const auto b = static_cast<std::uint32_t>(2 + (i + 1) % n);
    mesh.triangles.push_back({0, b, a});
    mesh.triangles.push_back({1, a, b});
  }
  mesh.normals.assign(mesh.positions_m.size(), {0, 0, 1});
  all_of(mesh, "steel");
  return flat_shaded(mesh);
}

} // namespace lugline::shapes
