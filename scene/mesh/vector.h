// Sums and products of Vec3, for the rooms that compute with meshes.
//
// Plain values; whatever unit goes in comes out.
#pragma once

#include "scene/mesh/mesh.h"

#include <cmath>

namespace lugline {

inline Vec3 operator+(const Vec3& a, const Vec3& b) {
  return {a.x + b.x, a.y + b.y, a.z + b.z};
}
inline Vec3 operator-(const Vec3& a, const Vec3& b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}
inline Vec3 operator-(const Vec3& a) {
  return {-a.x, -a.y, -a.z};
}
inline Vec3 operator*(const Vec3& a, double s) {
  return {a.x * s, a.y * s, a.z * s};
}
inline double dot(const Vec3& a, const Vec3& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
inline Vec3 cross(const Vec3& a, const Vec3& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double length(const Vec3& a) {
  return std::hypot(a.x, a.y, a.z);
}
inline bool finite(const Vec3& a) {
  return std::isfinite(a.x) && std::isfinite(a.y) && std::isfinite(a.z);
}

/// Of unit length, or the second where the first has no direction.
inline Vec3 unit_or(const Vec3& a, const Vec3& otherwise) {
  const double size = length(a);
  if (!(size > 0) || !std::isfinite(size)) {
    return otherwise;
  }
  return {a.x / size, a.y / size, a.z / size};
}

} // namespace lugline
