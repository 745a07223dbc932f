// Poses: the turn angles at which a part is seated, as intervals.
//
// Seated is stopped by the seat that its step names, at the height that the
// sound sequence gives; never merely the lowest: with a washer laid in twice
// the lowest is high. Angles radians, heights metres.
#pragma once

#include "scene/seat/drop.h"

#include <vector>

namespace lugline {

struct TurnRange {
  double from_rad = 0; ///< in [0, 2 pi)
  double to_rad = 0;   ///< > from_rad; from_rad + 2 pi is the whole turn
  [[nodiscard]] double width_rad() const { return to_rad - from_rad; }
  [[nodiscard]] double middle_rad() const; ///< in [0, 2 pi)
  [[nodiscard]] bool whole() const;
};

/// The turns at which the part rests within tolerance_m of rest_m, by rising
/// from_rad; a range over 12 o'clock is one range.
std::vector<TurnRange> turns_resting_at(const DropAnswer& answer, double rest_m,
                                        double tolerance_m);

/// Those of them at which one of the bodies below[seat…] is among what carries it.
std::vector<TurnRange> poses(const DropQuestion& question, const DropAnswer& answer, double rest_m,
                             const std::vector<std::size_t>& seat, double tolerance_m);

/// Ranges with the same width at equal steps of the turn, told as one:
/// "24 poses, 15 deg apart".
struct PoseSummary {
  std::size_t count = 0;
  double width_rad = 0;
  double step_rad = 0; ///< 0 where they are not evenly spaced, or there is one
};
PoseSummary summary_of(const std::vector<TurnRange>& ranges);

/// The pose nearest to a wanted turn, and the turn within it that is nearest,
/// `inset` (0 to 1) of the way from its edge to its middle.
double nearest_turn(const std::vector<TurnRange>& ranges, double wanted_rad, double inset = 1);

} // namespace lugline
