#include "viewer/draw/arrow.h"

#include <glm/gtc/matrix_transform.hpp>

#include <cmath>
#include <numbers>

namespace lugline {
namespace {

constexpr int around = 40;
constexpr double length_px = 78;
constexpr double stand_off_px = 7;

struct ProfilePoint {
  double r_m;
  double z_m;
};

/// One turned band between two profile points, flat-shaded along, smooth around.
void add_band(const ProfilePoint& low, const ProfilePoint& high, Mesh& mesh) {
  const double dr = high.r_m - low.r_m;
  const double dz = high.z_m - low.z_m;
  const double size = std::hypot(dr, dz);
  const auto first = static_cast<std::uint32_t>(mesh.positions_m.size());
  for (int i = 0; i <= around; ++i) {
    const double a = 2 * std::numbers::pi * i / around;
    const double c = std::cos(a);
    const double s = std::sin(a);
    for (const ProfilePoint& p : {low, high}) {
      mesh.positions_m.push_back({p.r_m * c, p.r_m * s, p.z_m});
      mesh.normals.push_back({c * dz / size, s * dz / size, -dr / size});
    }
  }
  for (std::uint32_t i = 0; i < around; ++i) {
    const std::uint32_t k = first + 2 * i;
    if (low.r_m > 0)
      mesh.triangles.push_back({k, k + 2, k + 1});
    if (high.r_m > 0)
      mesh.triangles.push_back({k + 1, k + 2, k + 3});
  }
}

} // namespace

Mesh arrow_mesh() {
  Mesh mesh;
  const std::vector<ProfilePoint> profile = {
      {0, 0}, {0.085, 0}, {0.085, 0.52}, {0.215, 0.52}, {0, 1}};
  for (std::size_t i = 0; i + 1 < profile.size(); ++i)
    add_band(profile[i], profile[i + 1], mesh);
  mesh.ranges.push_back({"", 0, static_cast<std::uint32_t>(mesh.triangles.size())});
  return mesh;
}

glm::dmat4 arrow_place(const UpArrow& arrow, const FrameItem* item, const Frame& frame) {
  glm::dmat4 place(1.0);
  double height = arrow.height_m;
  if (item != nullptr) {
    place = item->place;
    height = stretched_point({0, 0, arrow.height_m}, item->item->stretch).z;
  }
  const glm::dvec3 foot(place * glm::dvec4(polar(arrow.radius_m, arrow.angle_rad, height), 1.0));
  const double px = frame.options.scale / frame.view.px_per_m(foot);
  glm::dmat4 m = glm::translate(place, polar(arrow.radius_m, arrow.angle_rad, height));
  m = glm::translate(m, glm::dvec3(0, 0, stand_off_px * px));
  return glm::scale(m, glm::dvec3(length_px * px));
}

const FrameItem* item_named(const Frame& frame, const std::string& id) {
  for (const FrameItem& item : frame.items)
    if (item.item->id == id)
      return &item;
  return nullptr;
}

} // namespace lugline
