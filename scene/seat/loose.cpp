#include "scene/seat/loose.h"

#include "scene/seat/turns.h"

#include <algorithm>
#include <cassert>
#include <limits>

namespace lugline {

namespace {

constexpr double never_m = std::numeric_limits<double>::infinity();

bool angles_overlap(const Body& a, std::size_t i, const Body& b, std::size_t j) {
  return seat::forbidden_turns(a.shape->rings()[i], a.shape->symmetry(i), b.shape->rings()[j],
                               b.shape->symmetry(j))
      .forbids(a.turn_rad - b.turn_rad);
}

/// The least gap with a above b; infinite where none of its rings is.
double gap_above(const Body& a, const Body& b) {
  double least_m = never_m;
  for (std::size_t i = 0; i < a.shape->rings().size(); ++i) {
    const SectorRing& ring_a = a.shape->rings()[i];
    for (std::size_t j = 0; j < b.shape->rings().size(); ++j) {
      const SectorRing& ring_b = b.shape->rings()[j];
      const double gap_m = (a.height_m + ring_a.low_m) - (b.height_m + ring_b.high_m);
      if (gap_m >= -contact_tolerance_m && gap_m < least_m && seat::radii_overlap(ring_a, ring_b) &&
          angles_overlap(a, i, b, j)) {
        least_m = std::max(gap_m, 0.0);
      }
    }
  }
  return least_m;
}

/// One gap as seen by the group that travels towards it.
struct Way {
  LooseGroup group;   ///< what travels
  LooseGroup towards; ///< what it comes nearer to
  std::size_t by;
  std::size_t stop;
  double gap_m;
};

/// Shortest ways to the held group, nearest group first.
std::vector<LooseTravel> shortest(const std::vector<Way>& ways, std::size_t count) {
  std::vector<LooseTravel> travels(count, {never_m, std::nullopt, std::nullopt});
  std::vector<bool> done(count, false);
  travels[held_group].by_m = 0;
  for (std::size_t round = 0; round < count; ++round) {
    std::optional<LooseGroup> nearest;
    for (LooseGroup group = 0; group < count; ++group) {
      if (!done[group] && travels[group].by_m < never_m &&
          (!nearest || travels[group].by_m < travels[*nearest].by_m)) {
        nearest = group;
      }
    }
    if (!nearest) {
      break;
    }
    done[*nearest] = true;
    for (const Way& way : ways) {
      const double by_m = travels[*nearest].by_m + way.gap_m;
      if (way.towards == *nearest && !done[way.group] && by_m < travels[way.group].by_m) {
        travels[way.group] = {by_m, way.by, way.stop};
      }
    }
  }
  return travels;
}

} // namespace

std::vector<LooseGap> gaps_between(const std::vector<Body>& bodies,
                                   const std::vector<LooseGroup>& groups) {
  assert(bodies.size() == groups.size());
  std::vector<LooseGap> gaps;
  for (std::size_t upper = 0; upper < bodies.size(); ++upper) {
    for (std::size_t lower = 0; lower < bodies.size(); ++lower) {
      if (groups[upper] == groups[lower]) {
        continue;
      }
      const double gap_m = gap_above(bodies[upper], bodies[lower]);
      if (gap_m < never_m) {
        gaps.push_back({upper, lower, gap_m});
      }
    }
  }
  return gaps;
}

bool lies_on(const Body& upper, const Body& lower) {
  return gap_above(upper, lower) <= contact_tolerance_m;
}

std::vector<LooseTravel> falls_of(const std::vector<LooseGap>& gaps,
                                  const std::vector<LooseGroup>& groups, std::size_t count) {
  std::vector<Way> ways;
  for (const LooseGap& gap : gaps) {
    ways.push_back({groups[gap.upper], groups[gap.lower], gap.upper, gap.lower, gap.gap_m});
  }
  return shortest(ways, count);
}

std::vector<LooseTravel> rises_of(const std::vector<LooseGap>& gaps,
                                  const std::vector<LooseGroup>& groups, std::size_t count) {
  std::vector<Way> ways;
  for (const LooseGap& gap : gaps) {
    ways.push_back({groups[gap.lower], groups[gap.upper], gap.lower, gap.upper, gap.gap_m});
  }
  return shortest(ways, count);
}

} // namespace lugline
