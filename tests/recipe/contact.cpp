#include "tests/recipe/contact.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline::test {

namespace {

constexpr double turn = 2 * std::numbers::pi;
constexpr double least_rad = 1e-9;

bool meet_at(const SectorRing& a, double a_turn, const SectorRing& b, double b_turn, double r) {
  if (a.full() || b.full()) {
    return true;
  }
  for (const Sector& p : a.sectors) {
    for (const Sector& q : b.sectors) {
      const double p_from = p.from.at(r) + a_turn;
      const double q_from = q.from.at(r) + b_turn;
      double ahead = std::fmod(q_from - p_from, turn);
      ahead = ahead < 0 ? ahead + turn : ahead;
      if (ahead < p.to.at(r) - p.from.at(r) - least_rad ||
          turn - ahead < q.to.at(r) - q.from.at(r) - least_rad) {
        return true;
      }
    }
  }
  return false;
}

} // namespace

bool meet_in_plan(const SectorRing& a, double a_turn_rad, const SectorRing& b, double b_turn_rad) {
  const double inner = std::max(a.inner_m, b.inner_m);
  const double outer = std::min(a.outer_m, b.outer_m);
  if (outer - inner < 1e-9) {
    return false;
  }
  for (int k = 0; k <= 20; ++k) {
    if (meet_at(a, a_turn_rad, b, b_turn_rad, inner + (outer - inner) * k / 20)) {
      return true;
    }
  }
  return false;
}

std::optional<double> rest_height(const Solid& moving, double turn_rad, const Stood& below) {
  std::optional<double> rest;
  for (const SectorRing& upper : moving.rings) {
    for (const SectorRing& lower : below.solid->rings) {
      const double at = below.height_m + lower.high_m - upper.low_m;
      if ((!rest || at > *rest) && meet_in_plan(upper, turn_rad, lower, below.turn_rad)) {
        rest = at;
      }
    }
  }
  return rest;
}

double depth_inside(const Stood& a, const Stood& b) {
  double deepest = -1;
  for (const SectorRing& p : a.solid->rings) {
    for (const SectorRing& q : b.solid->rings) {
      const double depth = std::min(p.high_m + a.height_m, q.high_m + b.height_m) -
                           std::max(p.low_m + a.height_m, q.low_m + b.height_m);
      if (depth > deepest && meet_in_plan(p, a.turn_rad, q, b.turn_rad)) {
        deepest = depth;
      }
    }
  }
  return deepest;
}

} // namespace lugline::test
