// What lies loose among other pieces: how far each falls, or can be pushed up.
//
// Pieces that are joined fast move as one group; group 0 does not move. Two
// rings whose radii and angles overlap keep the order in which they stand, so
// each pair of bodies leaves a gap, and a group travels no farther than the
// shortest chain of gaps, through other loose groups, to one that does not
// move. Exact, with no step size: gaps are never negative, and the chain is a
// shortest path. Rings that stand inside one another count as no pair. Metres,
// radians. Pure functions; of bad input there is none but our own.
#pragma once

#include "scene/seat/drop.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace lugline {

using LooseGroup = std::size_t;
inline constexpr LooseGroup held_group = 0;

/// How much nearer two bodies can come: the least over all their pairs of rings
/// in which `upper` stands above `lower`.
struct LooseGap {
  std::size_t upper = 0; ///< index of a body
  std::size_t lower = 0;
  double gap_m = 0; ///< >= 0
};

/// Gaps between bodies of different groups as they stand; groups[i] is bodies[i]'s.
std::vector<LooseGap> gaps_between(const std::vector<Body>& bodies,
                                   const std::vector<LooseGroup>& groups);

/// Whether a face of `upper` lies on one of `lower`, as they stand.
bool lies_on(const Body& upper, const Body& lower);

/// How far one group travels, and what stops it.
struct LooseTravel {
  double by_m = 0;                 ///< >= 0; infinite where nothing stops it
  std::optional<std::size_t> by;   ///< which of its own bodies is stopped
  std::optional<std::size_t> stop; ///< … and by which body
};

/// Every group travels as far as it goes, all together. One for each group, the
/// held one among them; `count` is how many there are.
std::vector<LooseTravel> falls_of(const std::vector<LooseGap>& gaps,
                                  const std::vector<LooseGroup>& groups, std::size_t count);
std::vector<LooseTravel> rises_of(const std::vector<LooseGap>& gaps,
                                  const std::vector<LooseGroup>& groups, std::size_t count);

} // namespace lugline
