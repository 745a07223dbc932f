#include "scene/mesh/vector.h"

namespace lugline {

Placement Placement::turned(double angle_rad) {
  const double c = std::cos(angle_rad);
  const double s = std::sin(angle_rad);
  return {{c, s, 0}, {-s, c, 0}, {0, 0, 1}, {}};
}

Placement Placement::turned_over(double over_rad, double about_m) {
  const double c = std::cos(over_rad);
  const double s = std::sin(over_rad);
  return {{c, 0, -s}, {0, 1, 0}, {s, 0, c}, {-s * about_m, 0, about_m - c * about_m}};
}

Placement Placement::moved(const Vec3& by_m) {
  Placement placement;
  placement.origin_m = by_m;
  return placement;
}

Placement Placement::then(const Placement& next) const {
  return {next.direction(x_axis), next.direction(y_axis), next.direction(z_axis),
          next.point(origin_m)};
}

Vec3 Placement::point(const Vec3& point_m) const {
  return direction(point_m) + origin_m;
}

Vec3 Placement::direction(const Vec3& direction) const {
  return x_axis * direction.x + y_axis * direction.y + z_axis * direction.z;
}

Mesh placed(const Mesh& mesh, const Placement& placement) {
  Mesh moved = mesh;
  for (Vec3& point : moved.positions_m) {
    point = placement.point(point);
  }
  for (Vec3& normal : moved.normals) {
    normal = placement.direction(normal);
  }
  return moved;
}

} // namespace lugline
