#include "scene/recipe/strip.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace lugline {

namespace {

/// Beyond this the best filling would take seconds to find.
constexpr std::size_t most_pairs = 1 << 24;

constexpr double never = std::numeric_limits<double>::infinity();

/// Twice the area, positive counter-clockwise.
double turn_of(const StripPoint& a, const StripPoint& b, const StripPoint& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

double square(const StripPoint& a, const StripPoint& b) {
  return (b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y);
}

/// Counter-clockwise and no needle beyond all use.
bool stands(const StripPoint& a, const StripPoint& b, const StripPoint& c) {
  const double longest = std::max({square(a, b), square(b, c), square(c, a)});
  return turn_of(a, b, c) > 1e-9 * longest;
}

} // namespace

namespace {

/// Both lines gone along at the same pace: what is left where nothing better
/// is found, or the lines are too long to look for it.
StripSteps even_steps(std::size_t n, std::size_t m) {
  StripSteps steps;
  steps.reserve(n + m - 2);
  std::size_t i = 0;
  std::size_t j = 0;
  while (i + 1 < n || j + 1 < m) {
    // The one that would be less far along its line; beginnings count half.
    const bool second = i + 1 == n || (j + 1 < m && (2 * j + 1) * (n - 1) <= (2 * i + 1) * (m - 1));
    steps.push_back(second);
    (second ? j : i) += 1;
  }
  return steps;
}

} // namespace

StripSteps strip_between(const std::vector<StripPoint>& first,
                         const std::vector<StripPoint>& second) {
  assert(!first.empty() && !second.empty());
  const std::size_t n = first.size();
  const std::size_t m = second.size();
  if (n * m > most_pairs) {
    return even_steps(n, m);
  }
  // cost[j]: of the best filling up to the cross line first[i] to second[j].
  std::vector<double> cost(m, never);
  std::vector<bool> took_second(n * m, false);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < m; ++j) {
      if (i == 0 && j == 0) {
        cost[0] = 0;
        continue;
      }
      double best = never;
      if (i > 0 && cost[j] < never && stands(first[i - 1], second[j], first[i])) {
        best = cost[j];
      }
      if (j > 0 && cost[j - 1] < never && stands(first[i], second[j - 1], second[j])) {
        // Ties are common where parts are regular: they must not hang on a last bit.
        if (best == never || cost[j - 1] < best * (1 - 1e-9)) {
          best = cost[j - 1];
          took_second[i * m + j] = true;
        }
      }
      cost[j] = best == never ? never : best + square(first[i], second[j]);
    }
  }
  if (cost[m - 1] == never) {
    return even_steps(n, m);
  }
  StripSteps steps(n + m - 2);
  std::size_t i = n - 1;
  std::size_t j = m - 1;
  for (std::size_t k = steps.size(); k-- > 0;) {
    steps[k] = took_second[i * m + j];
    (steps[k] ? j : i) -= 1;
  }
  return steps;
}

} // namespace lugline
