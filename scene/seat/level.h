// Whether what carries a part can hold it level.
//
// The drop takes the part as level. If what carries it leaves more than half a
// turn empty, it tips: the verdict is cocked, with the side and the height at
// three places. The tipped stand is the lowest plane that stays above every
// place where the part could touch: exact for flat faces to first order in
// the tilt (a few degrees), friction left out. A part that stands aside, all of it
// within less than half a turn, is not judged: it stands on its own foot. Metres, radians.
#pragma once

#include "scene/seat/drop.h"

#include <array>

namespace lugline {

struct LevelReport {
  bool cocked = false;
  bool topples = false;      ///< nothing on its low side would stop it: no heights are told
  double empty_from_rad = 0; ///< the widest stretch that carries nothing
  double empty_to_rad = 0;
  double low_side_rad = 0; ///< towards which it tips
  /// Height of the datum plane at 12, 8 and 4 o'clock (0, 120, 240 deg), at
  /// radius reading_radius_m; all the same where it is level.
  std::array<double, 3> heights_m{};
  double reading_radius_m = 0;
};

LevelReport level_on(const DropQuestion& question, double hand_turn_rad, double rest_m);

} // namespace lugline
