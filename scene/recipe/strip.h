// The triangles between two lines of points that run the same way.
#pragma once

#include <array>
#include <vector>

namespace lugline {

struct StripPoint {
  double x = 0;
  double y = 0;
};

/// One triangle: true takes the next point of the second line, false of the first.
using StripSteps = std::vector<bool>;

/// Fills what lies between `first` and `second`, which run the same way with
/// `first` on the left of `second` (the side that a counter-clockwise turn
/// leads to); either may be a single point. Of all fillings whose triangles
/// are counter-clockwise the one with the shortest cross lines; where there is
/// none (the lines cross, or touch) an even one.
StripSteps strip_between(const std::vector<StripPoint>& first,
                         const std::vector<StripPoint>& second);

} // namespace lugline
