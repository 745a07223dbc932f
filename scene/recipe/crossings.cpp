#include "scene/recipe/crossings.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace lugline {

namespace {

constexpr double turn_rad = 2 * std::numbers::pi;

/// One flank between the radii, its angles unwound so that they can be compared.
struct Line {
  std::size_t flank = 0;
  double inner_rad = 0;
  double outer_rad = 0;
};

double crossing(const Flank& a, const Flank& b, double low_m, double high_m) {
  const auto apart = [&](double r_m) { return signed_turn(b.at(r_m) - a.at(r_m)); };
  const bool rises = apart(low_m) < 0;
  for (int step = 0; step < 60; ++step) {
    const double middle_m = (low_m + high_m) / 2;
    ((apart(middle_m) < 0) == rises ? low_m : high_m) = middle_m;
  }
  return (low_m + high_m) / 2;
}

} // namespace

double reduced_turn(double angle_rad) {
  double a = std::fmod(angle_rad, turn_rad);
  if (a < 0) {
    a += turn_rad;
  }
  return a >= turn_rad ? 0 : a;
}

double signed_turn(double angle_rad) {
  const double a = reduced_turn(angle_rad);
  return a > turn_rad / 2 ? a - turn_rad : a;
}

std::vector<double> crossing_radii(const std::vector<Flank>& flanks, double inner_m, double outer_m,
                                   double merge_m) {
  const double low_m = std::max(inner_m, merge_m);
  std::vector<Line> lines;
  for (std::size_t k = 0; k < flanks.size(); ++k) {
    const double at_inner = reduced_turn(flanks[k].at(low_m));
    const double turned = signed_turn(flanks[k].at(outer_m) - at_inner);
    // Twice round, so that crossings over 12 o'clock are met as well.
    lines.push_back({k, at_inner, at_inner + turned});
    lines.push_back({k, at_inner + turn_rad, at_inner + turned + turn_rad});
  }
  std::sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) {
    return a.inner_rad != b.inner_rad ? a.inner_rad < b.inner_rad : a.outer_rad < b.outer_rad;
  });
  // Sorting by the outer angles what is sorted by the inner ones: each step
  // past a neighbour is a crossing.
  const double merge_rad = merge_m / outer_m;
  std::vector<double> radii_m;
  for (std::size_t k = 1; k < lines.size(); ++k) {
    for (std::size_t j = k; j > 0 && lines[j].outer_rad < lines[j - 1].outer_rad; --j) {
      const Line& a = lines[j - 1];
      const Line& b = lines[j];
      if (b.inner_rad - a.inner_rad > merge_rad && a.outer_rad - b.outer_rad > merge_rad) {
        radii_m.push_back(crossing(flanks[a.flank], flanks[b.flank], low_m, outer_m));
      }
      std::swap(lines[j - 1], lines[j]);
    }
  }
  return radii_m;
}

} // namespace lugline
