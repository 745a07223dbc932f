#include "scene/recipe/aside.h"

#include "scene/recipe/kinds.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {
constexpr double pi = std::numbers::pi;
} // namespace

Placement Aside::placement() const {
  Placement placement;
  placement.z_axis = point_at(1, at_rad, 0);
  placement.x_axis = {0, 0, 1};
  placement.y_axis = point_at(1, at_rad - pi / 2, 0);
  const Vec3 out = point_at(from_axis_m, at_rad, 0);
  const Vec3 across = point_at(aside_m, at_rad + pi / 2, 0);
  placement.origin_m = {out.x + across.x, out.y + across.y, height_m};
  return placement;
}

std::optional<Aside> read_aside(FigureReader& f) {
  if (!f.has("from_axis")) {
    return std::nullopt;
  }
  Aside aside;
  aside.from_axis_m = f.length("from_axis");
  aside.at_rad = f.angle("at");
  aside.height_m = f.height("height");
  aside.aside_m = f.height_or("aside", 0);
  return aside;
}

std::string aside_problem(const Aside& aside, double low_m, double diameter_m) {
  const double near_m = aside.from_axis_m + low_m;
  const double inner_m = std::abs(aside.aside_m) - diameter_m / 2;
  if (near_m <= 0) {
    return "reaches back past the unit's axis, by " + in_mm(-near_m);
  }
  if (inner_m < 0 && near_m <= diameter_m / 2) {
    return "runs into the unit's axis";
  }
  return {};
}

std::vector<SectorRing> held_aside(const Aside& aside, double low_m, double high_m,
                                   double diameter_m, const std::string& feature) {
  assert(aside_problem(aside, low_m, diameter_m).empty());
  const double r_m = diameter_m / 2;
  const double near_m = aside.from_axis_m + low_m;
  const double far_m = aside.from_axis_m + high_m;
  const double inner_m = aside.aside_m - r_m; // the strip's two sides, signed
  const double outer_m = aside.aside_m + r_m;
  const double widest_m = std::max(std::abs(inner_m), std::abs(outer_m));
  const bool crosses = inner_m < 0 && outer_m > 0;
  const double least_m =
      std::hypot(near_m, crosses ? 0 : std::min(std::abs(inner_m), std::abs(outer_m)));
  const double most_m = std::hypot(far_m, widest_m);
  std::vector<SectorRing> rings;
  const auto add = [&](double from_m, double to_m, const Sector& sector) {
    if (to_m - from_m > 1e-7) {
      SectorRing ring;
      ring.inner_m = from_m;
      ring.outer_m = to_m;
      ring.low_m = aside.height_m - r_m;
      ring.high_m = aside.height_m + r_m;
      ring.sectors = {sector};
      ring.feature = feature;
      rings.push_back(ring);
    }
  };
  const double a = aside.at_rad;
  // Nearer to the axis than the strip's outer side the strip ends at its own beginning,
  // or a little before: a sector must have some width even where it begins.
  const double begins_m = near_m - 0.1e-3;
  if (crosses || least_m >= widest_m) {
    add(least_m, most_m, {{a, inner_m}, {a, outer_m}});
  } else if (outer_m > 0) {
    add(least_m, widest_m, {{a, inner_m}, {a + pi / 2, -begins_m}});
    add(widest_m, most_m, {{a, inner_m}, {a, outer_m}});
  } else {
    add(least_m, widest_m, {{a - pi / 2, begins_m}, {a, outer_m}});
    add(widest_m, most_m, {{a, inner_m}, {a, outer_m}});
  }
  return rings;
}

SectorRing holding_sector(const Mesh& mesh, double at_rad, const std::string& feature) {
  SectorRing ring;
  ring.inner_m = 1e9;
  ring.low_m = 1e9;
  ring.high_m = -1e9;
  double least = pi;
  double most = -pi;
  for (const auto& t : mesh.triangles) {
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec3& p = mesh.positions_m[t[k]];
      const Vec3& q = mesh.positions_m[t[(k + 1) % 3]];
      const double r_m = std::hypot(p.x, p.y);
      const double turned = std::remainder(std::atan2(-p.x, p.y) - at_rad, 2 * pi);
      least = std::min(least, turned);
      most = std::max(most, turned);
      ring.outer_m = std::max(ring.outer_m, r_m);
      // An edge comes nearer to the axis than its ends do.
      const double dx = q.x - p.x;
      const double dy = q.y - p.y;
      const double length2 = dx * dx + dy * dy;
      const double share =
          length2 > 0 ? std::clamp(-(p.x * dx + p.y * dy) / length2, 0.0, 1.0) : 0.0;
      ring.inner_m = std::min(ring.inner_m, std::hypot(p.x + share * dx, p.y + share * dy));
      ring.low_m = std::min(ring.low_m, p.z);
      ring.high_m = std::max(ring.high_m, p.z);
    }
  }
  ring.sectors = {{{at_rad + least, 0}, {at_rad + most, 0}}};
  ring.feature = feature;
  return ring;
}

} // namespace lugline
