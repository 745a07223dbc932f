// A piston under bench air, and the watch that times how long it holds.
//
// The piston in half section in its bore at true proportion of its travel, the springs behind it,
// the air before it; beneath it the hole that the hold tells of beside the hole that the unit
// calls good. Nothing is computed here but where things stand. SI; lengths of the drawing are
// pixels at scale 1. Nothing here fails.
#pragma once

#include "scene/quantity/quantity.h"
#include "viewer/stage/flat.h"

#include <optional>
#include <string>

namespace lugline {

struct AirPicture {
  std::string name;
  bool band = false;   ///< a servo, not a clutch's ring piston
  bool worked = false; ///< false: refused, the piston stays home
  double outer_m = 0;  ///< diameters
  double inner_m = 0;
  double travel_m = 0;
  double stroke_m = 0;
  double most_stroke_m = 0; ///< 0: not stated
  bool moves = false;
  bool completes = false;
  double push_N = 0;
  double clamp_N = 0;
  double pressure_Pa = 0;
  double floor_Pa = 0;
  double watch_s = 0;
  bool watch_runs = false;
  double good_hold_s = 0;       ///< 0: not stated
  std::optional<double> hole_m; ///< that the held seconds tell of
  std::optional<double> good_hole_m;
  LengthUnit unit = LengthUnit::millimetre;
};

Drawing2d draw_air(const AirPicture& air, const Box& box, const TextRuler& ruler);

} // namespace lugline
