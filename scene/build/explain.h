// A stand-off was measured: what would give it?
//
// Each likely cause is simulated on its own: one plate not picked up (with all
// above it picked up or not makes no difference: the one stood on decides), a
// thrust washer beneath or in hand left out or laid in twice, a spline not entered. The
// causes are ranked by how near each comes to the reading; those that fit
// within the reading's doubt are offered, none is hidden. Metres.
#pragma once

#include "scene/build/simulate.h"

#include <string>
#include <vector>

namespace lugline {

struct Cause {
  std::string words;      ///< "friction 1 is not picked up"
  std::string part;       ///< component id
  std::string stands_on;  ///< component id
  double stand_off_m = 0; ///< what it would give, wave plate free
  double sinks_m = 0;     ///< how much less under the weight of what stands on it
  double misses_by_m = 0; ///< distance of the reading from the nearest of the two
  bool fits = false;      ///< within the reading's doubt
  /// Ids of the parts whose causes give the same: no reading here tells them apart.
  std::vector<std::string> alike;
};

/// Causes for the part of a step (place, grease or bring) standing off by
/// stand_off_m, nearest first. doubt_m: half width of what the gauge and the
/// hand leave open.
std::vector<Cause> explain(Workshop& workshop, const Simulation& simulation, std::size_t step,
                           double stand_off_m, double doubt_m);

/// Every such cause with what it would give, by rising stand-off.
std::vector<Cause> likely_causes(Workshop& workshop, const Simulation& simulation,
                                 std::size_t step);

} // namespace lugline
