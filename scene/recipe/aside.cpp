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

std::string aside_problem(const Aside& aside, const AsideBody& body) {
  const double near_m = aside.from_axis_m + body.low_m;
  if (near_m <= 0) {
    return "reaches back past the unit's axis, by " + in_mm(-near_m);
  }
  if (std::abs(aside.aside_m) < body.diameter_m / 2 && near_m <= body.diameter_m / 2) {
    return "runs into the unit's axis";
  }
  return {};
}

namespace {

/// A level bar: along its own axis, across it, and up. Across is on one side of the
/// line through the unit's axis, or ends at it.
struct Bar {
  double near_m = 0;
  double far_m = 0;
  double inner_m = 0; ///< 0 or more
  double outer_m = 0;
  double low_m = 0;
  double high_m = 0;
  bool clockwise = false; ///< on that side of the line
};

/// Exactly the bar, but for a hair at its two corners nearest to and farthest from the
/// unit's axis: a sector must have some width even where it begins.
void add_bar(std::vector<SectorRing>& rings, double at_rad, const Bar& bar,
             const std::string& feature) {
  constexpr double hair_m = 0.02e-3;
  const Flank inner{0, bar.inner_m};
  const Flank outer{0, bar.outer_m};
  const Flank begin{pi / 2, -bar.near_m};
  const Flank end{pi / 2, -bar.far_m};
  const double least_m = std::hypot(bar.near_m, bar.inner_m) + hair_m;
  const double most_m = std::hypot(bar.far_m, bar.outer_m) - hair_m;
  // Up to its corners the bar is bounded by its ends, and beyond by its sides.
  const double near_corner_m = std::hypot(bar.near_m, bar.outer_m);
  const double far_corner_m = std::hypot(bar.far_m, bar.inner_m);
  std::vector<double> radii_m{least_m, near_corner_m, far_corner_m, most_m};
  std::ranges::sort(radii_m);
  for (std::size_t k = 0; k + 1 < radii_m.size(); ++k) {
    if (radii_m[k + 1] - radii_m[k] < 1e-6 || radii_m[k] < least_m || radii_m[k + 1] > most_m) {
      continue;
    }
    const double middle_m = (radii_m[k] + radii_m[k + 1]) / 2;
    Sector sector{middle_m < far_corner_m ? inner : end, middle_m < near_corner_m ? begin : outer};
    if (bar.clockwise) {
      sector = {{-sector.to.angle_rad, -sector.to.offset_m},
                {-sector.from.angle_rad, -sector.from.offset_m}};
    }
    sector.from.angle_rad += at_rad;
    sector.to.angle_rad += at_rad;
    SectorRing ring;
    ring.inner_m = radii_m[k];
    ring.outer_m = radii_m[k + 1];
    ring.low_m = bar.low_m;
    ring.high_m = bar.high_m;
    ring.sectors = {sector};
    ring.feature = feature;
    rings.push_back(ring);
  }
}

} // namespace

std::vector<SectorRing> held_aside(const Aside& aside, const AsideBody& body) {
  assert(aside_problem(aside, body).empty());
  std::vector<SectorRing> rings;
  const double r_m = body.diameter_m / 2;
  const double b_m = body.bore_m / 2;
  // Across, and up: a frame of four bars round the channel, or one bar.
  struct Side {
    double from_m, to_m, low_m, high_m;
  };
  std::vector<Side> sides{{-r_m, r_m, -r_m, r_m}};
  if (b_m > 0) {
    sides = {{-r_m, r_m, -r_m, -b_m},
             {-r_m, r_m, b_m, r_m},
             {-r_m, -b_m, -b_m, b_m},
             {b_m, r_m, -b_m, b_m}};
  }
  for (const Side& side : sides) {
    Bar bar;
    bar.near_m = aside.from_axis_m + body.low_m;
    bar.far_m = aside.from_axis_m + body.high_m;
    bar.low_m = aside.height_m + side.low_m;
    bar.high_m = aside.height_m + side.high_m;
    const double from_m = aside.aside_m + side.from_m;
    const double to_m = aside.aside_m + side.to_m;
    if (to_m > 0) {
      bar.inner_m = std::max(from_m, 0.0);
      bar.outer_m = to_m;
      add_bar(rings, aside.at_rad, bar, body.feature);
    }
    if (from_m < 0) {
      bar.inner_m = std::max(-to_m, 0.0);
      bar.outer_m = -from_m;
      bar.clockwise = true;
      add_bar(rings, aside.at_rad, bar, body.feature);
    }
  }
  return rings;
}

std::vector<SectorRing> holding_sectors(const Mesh& mesh, double at_rad,
                                        const std::string& feature) {
  constexpr double step_m = 0.25e-3; ///< along an edge
  constexpr int bands = 12;
  struct Point {
    double r_m, turned_rad;
  };
  std::vector<Point> points;
  double low_m = 1e9;
  double high_m = -1e9;
  double inner_m = 1e9;
  double outer_m = 0;
  for (const auto& t : mesh.triangles) {
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec3& p = mesh.positions_m[t[k]];
      const Vec3& q = mesh.positions_m[t[(k + 1) % 3]];
      const int steps = 1 + static_cast<int>(std::hypot(q.x - p.x, q.y - p.y) / step_m);
      for (int s = 0; s < steps; ++s) {
        const double share = 1.0 * s / steps;
        const double x = p.x + share * (q.x - p.x);
        const double y = p.y + share * (q.y - p.y);
        points.push_back({std::hypot(x, y), std::remainder(std::atan2(-x, y) - at_rad, 2 * pi)});
        inner_m = std::min(inner_m, points.back().r_m);
        outer_m = std::max(outer_m, points.back().r_m);
      }
      low_m = std::min(low_m, p.z);
      high_m = std::max(high_m, p.z);
    }
  }
  inner_m -= step_m;
  std::vector<SectorRing> rings;
  for (int band = 0; band < bands; ++band) {
    SectorRing ring;
    ring.inner_m = inner_m + (outer_m - inner_m) * band / bands;
    ring.outer_m = inner_m + (outer_m - inner_m) * (band + 1) / bands;
    ring.low_m = low_m;
    ring.high_m = high_m;
    ring.feature = feature;
    double least = pi;
    double most = -pi;
    for (const Point& point : points) {
      if (point.r_m > ring.inner_m - step_m && point.r_m < ring.outer_m + step_m) {
        least = std::min(least, point.turned_rad);
        most = std::max(most, point.turned_rad);
      }
    }
    const double more_rad = step_m / ring.inner_m;
    if (least <= most) {
      ring.sectors = {{{at_rad + least - more_rad, 0}, {at_rad + most + more_rad, 0}}};
      rings.push_back(ring);
    }
  }
  return rings;
}

} // namespace lugline
