#include "scene/seat/level.h"

#include "scene/seat/turns.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

struct Arc {
  double from_rad;
  double to_rad;
};

struct Point {
  double x_m;
  double y_m;
  double height_m;
};

/// Height a + b x + c y.
struct Plane {
  double a = 0;
  double b = 0;
  double c = 0;
  [[nodiscard]] double at(double x_m, double y_m) const { return a + b * x_m + c * y_m; }
};

constexpr double far_below_m = -1e3;
constexpr double far_away_m = 10;
/// What is this far below the level rest cannot be reached by any tilt in the bore.
constexpr double reach_m = 0.05;

std::vector<Arc> arcs_of(const SectorRing& ring, double turn_rad, double r_m) {
  if (ring.full()) {
    return {{0, seat::whole_turn_rad}};
  }
  std::vector<Arc> arcs;
  for (const Sector& sector : ring.sectors) {
    const double width_rad = sector.to.at(r_m) - sector.from.at(r_m);
    const double from_rad = seat::reduced(sector.from.at(r_m) + turn_rad, seat::whole_turn_rad);
    arcs.push_back({from_rad, from_rad + width_rad});
    if (from_rad + width_rad > seat::whole_turn_rad) {
      arcs.push_back(
          {from_rad - seat::whole_turn_rad, from_rad + width_rad - seat::whole_turn_rad});
    }
  }
  return arcs;
}

std::vector<Arc> shared_arcs(const SectorRing& a, double turn_a_rad, const SectorRing& b,
                             double turn_b_rad, double r_m) {
  std::vector<Arc> shared;
  for (const Arc& in_a : arcs_of(a, turn_a_rad, r_m)) {
    for (const Arc& in_b : arcs_of(b, turn_b_rad, r_m)) {
      const double from_rad = std::max({in_a.from_rad, in_b.from_rad, 0.0});
      const double to_rad = std::min({in_a.to_rad, in_b.to_rad, seat::whole_turn_rad});
      if (to_rad - from_rad > seat::angle_tolerance_rad) {
        shared.push_back({from_rad, to_rad});
      }
    }
  }
  return shared;
}

/// Every place where the part could touch, as points, and the arcs on which it
/// does touch where it is level.
class Touching {
public:
  Touching(const DropQuestion& question, double hand_turn_rad, double rest_m) {
    const auto free = turns_after(question, hand_turn_rad);
    const auto turn_of = [&](const Body& body) {
      double turn_rad = body.turn_rad + (body.spin == spin_hand ? hand_turn_rad : 0);
      for (const SpinTurn& spin : free) {
        turn_rad += spin.spin == body.spin ? spin.turn_rad : 0;
      }
      return turn_rad;
    };
    for (const Body& moving : question.moving) {
      for (const Body& below : question.below) {
        for (const SectorRing& ring_m : moving.shape->rings()) {
          for (const SectorRing& ring_b : below.shape->rings()) {
            add(moving, ring_m, turn_of(moving), below, ring_b, turn_of(below), rest_m);
          }
        }
      }
    }
  }

  std::vector<Point> points;
  std::vector<Arc> carried;

private:
  void add(const Body& moving, const SectorRing& ring_m, double turn_m_rad, const Body& below,
           const SectorRing& ring_b, double turn_b_rad, double rest_m) {
    const double stop_m = (below.height_m + ring_b.high_m) - (moving.height_m + ring_m.low_m);
    if (!seat::radii_overlap(ring_m, ring_b) || stop_m > rest_m + contact_tolerance_m ||
        stop_m < rest_m - reach_m) {
      return;
    }
    const double near_m = std::max(ring_m.inner_m, ring_b.inner_m);
    const double far_m = std::min(ring_m.outer_m, ring_b.outer_m);
    for (const double r_m : {near_m, far_m}) {
      for (const Arc& arc : shared_arcs(ring_m, turn_m_rad, ring_b, turn_b_rad, r_m)) {
        if (stop_m > rest_m - contact_tolerance_m) {
          carried.push_back(arc);
        }
        constexpr double step_rad = std::numbers::pi / 90;
        const int pieces = static_cast<int>(std::ceil((arc.to_rad - arc.from_rad) / step_rad));
        for (int i = 0; i <= pieces; ++i) {
          const double angle_rad =
              arc.from_rad + (arc.to_rad - arc.from_rad) * i / std::max(pieces, 1);
          points.push_back({-r_m * std::sin(angle_rad), r_m * std::cos(angle_rad), stop_m});
        }
      }
    }
  }
};

/// The widest stretch that no arc covers.
Arc widest_gap(std::vector<Arc> arcs) {
  std::ranges::sort(arcs, {}, &Arc::from_rad);
  Arc widest{0, 0};
  double covered_to_rad = arcs.front().to_rad;
  for (const Arc& arc : arcs) {
    if (arc.from_rad - covered_to_rad > widest.to_rad - widest.from_rad) {
      widest = {covered_to_rad, arc.from_rad};
    }
    covered_to_rad = std::max(covered_to_rad, arc.to_rad);
  }
  const double round_rad = arcs.front().from_rad + seat::whole_turn_rad;
  if (round_rad - covered_to_rad > widest.to_rad - widest.from_rad) {
    widest = {covered_to_rad, round_rad};
  }
  return widest;
}

Plane through(const Point& p, const Point& q, const Point& r) {
  const double ux = q.x_m - p.x_m;
  const double uy = q.y_m - p.y_m;
  const double vx = r.x_m - p.x_m;
  const double vy = r.y_m - p.y_m;
  const double area = ux * vy - uy * vx;
  const double uh = q.height_m - p.height_m;
  const double vh = r.height_m - p.height_m;
  Plane plane;
  plane.b = (uh * vy - vh * uy) / area;
  plane.c = (ux * vh - vx * uh) / area;
  plane.a = p.height_m - plane.b * p.x_m - plane.c * p.y_m;
  return plane;
}

double turn_of(const Point& p, const Point& q) {
  return p.x_m * q.y_m - p.y_m * q.x_m;
}

/// Whether the axis is inside the triangle, corners counter-clockwise.
bool holds_axis(const std::array<Point, 3>& corners) {
  return turn_of(corners[0], corners[1]) >= 0 && turn_of(corners[1], corners[2]) >= 0 &&
         turn_of(corners[2], corners[0]) >= 0;
}

/// The lowest plane (at the axis) above all points: the simplex method on the
/// three points that carry it. Starts from a far triangle, deep down.
Plane resting_plane(const std::vector<Point>& points) {
  std::array<Point, 3> carrying{};
  for (int i = 0; i < 3; ++i) {
    const double angle_rad = seat::whole_turn_rad * i / 3;
    carrying[static_cast<std::size_t>(i)] = {far_away_m * std::cos(angle_rad),
                                             far_away_m * std::sin(angle_rad), far_below_m};
  }
  Plane plane = through(carrying[0], carrying[1], carrying[2]);
  for (std::size_t round = 0; round < 1000; ++round) {
    const Point* worst = nullptr;
    double by_m = contact_tolerance_m / 10;
    for (const Point& point : points) {
      const double over_m = point.height_m - plane.at(point.x_m, point.y_m);
      if (over_m > by_m) {
        by_m = over_m;
        worst = &point;
      }
    }
    if (worst == nullptr) {
      break;
    }
    for (std::size_t leaves = 0; leaves < 3; ++leaves) {
      auto next = carrying;
      next[leaves] = *worst;
      const double area =
          turn_of(next[0], next[1]) + turn_of(next[1], next[2]) + turn_of(next[2], next[0]);
      if (area > 1e-12 && holds_axis(next)) {
        carrying = next;
        break;
      }
    }
    plane = through(carrying[0], carrying[1], carrying[2]);
  }
  return plane;
}

/// Whether all that moves is within less than half a turn, off the axis.
bool stands_aside(const DropQuestion& question, double hand_turn_rad) {
  std::vector<Arc> arcs;
  for (const Body& body : question.moving) {
    for (const SectorRing& ring : body.shape->rings()) {
      const double turn_rad = body.turn_rad + (body.spin == spin_hand ? hand_turn_rad : 0);
      for (const Arc& arc : arcs_of(ring, turn_rad, (ring.inner_m + ring.outer_m) / 2)) {
        arcs.push_back(arc);
      }
    }
  }
  if (arcs.empty()) {
    return false;
  }
  const Arc gap = widest_gap(arcs);
  return gap.to_rad - gap.from_rad > std::numbers::pi;
}

} // namespace

LevelReport level_on(const DropQuestion& question, double hand_turn_rad, double rest_m) {
  LevelReport report;
  report.heights_m.fill(rest_m);
  for (const Body& body : question.moving) {
    report.reading_radius_m = std::max(report.reading_radius_m, body.shape->solid().outer_m());
  }
  const Touching touching(question, hand_turn_rad, rest_m);
  if (touching.carried.empty() || stands_aside(question, hand_turn_rad)) {
    return report;
  }
  const Arc gap = widest_gap(touching.carried);
  report.empty_from_rad = gap.from_rad;
  report.empty_to_rad = gap.to_rad;
  report.cocked = gap.to_rad - gap.from_rad > std::numbers::pi + 1e-9;
  if (!report.cocked) {
    return report;
  }
  const Plane plane = resting_plane(touching.points);
  // A far, deep point still carries it: it leans on nothing that is there.
  report.topples = plane.a < rest_m - reach_m || std::hypot(plane.b, plane.c) > 1;
  for (std::size_t i = 0; i < 3 && !report.topples; ++i) {
    const double angle_rad = seat::whole_turn_rad * static_cast<double>(i) / 3;
    report.heights_m[i] = plane.at(-report.reading_radius_m * std::sin(angle_rad),
                                   report.reading_radius_m * std::cos(angle_rad));
  }
  // Down the slope, as an angle: (x, y) = (-sin, cos).
  report.low_side_rad = seat::reduced(std::atan2(plane.b, -plane.c), seat::whole_turn_rad);
  return report;
}

} // namespace lugline
