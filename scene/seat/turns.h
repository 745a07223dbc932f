// Turn angles: the forbidden turns of a pair of rings, and profiles of rest
// heights over a turn. Inside the drop only. Angles are radians.
#pragma once

#include "scene/seat/drop.h"

#include <vector>

namespace lugline::seat {

inline constexpr double whole_turn_rad = 6.283185307179586476925286766559;
/// Turn intervals narrower than this are rounding, not openings.
inline constexpr double angle_tolerance_rad = 1e-12;

/// An angle reduced to [0, period).
double reduced(double angle_rad, double period_rad);

/// Turns of ring a against ring b at which they overlap: open intervals,
/// repeated `repeats` times round the circle.
struct Forbidden {
  bool always = false;
  int repeats = 1;
  struct Interval {
    double from_rad;
    double to_rad;
  };
  std::vector<Interval> intervals; ///< of one period, not reduced, may overlap

  /// Whether they overlap at this turn of a against b. Flank on flank is not overlap.
  [[nodiscard]] bool forbids(double turn_rad) const;
};

/// False where their radii do not overlap by more than a hair: never forbidden.
bool radii_overlap(const SectorRing& a, const SectorRing& b);

Forbidden forbidden_turns(const SectorRing& a, int symmetry_a, const SectorRing& b, int symmetry_b);

/// One pair of rings that may stop the fall at a height.
struct Stop {
  double height_m = 0;
  Contact contact;
  Forbidden turns;
};

/// The highest stop at each turn, over one period.
struct Profile {
  double period_rad = whole_turn_rad;
  std::vector<RestSpan> spans; ///< cover [0, period) in order
  [[nodiscard]] bool constant() const { return spans.size() == 1; }
  [[nodiscard]] const RestSpan& at(double turn_rad) const;
  [[nodiscard]] const RestSpan& lowest() const;
  [[nodiscard]] const RestSpan& highest() const;
};

/// Stops in any order. Only those above the highest `always` stop matter.
Profile profile_of(std::vector<Stop> stops);

/// The higher of the two at each turn.
Profile higher_of(const Profile& a, const Profile& b);
/// The same profile, seen from angles moved by `by_rad`.
Profile shifted(const Profile& profile, double by_rad);

} // namespace lugline::seat
