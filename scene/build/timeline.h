// Where every piece is at any moment of a step: in hand, at the mouth, turned
// to its key, falling, seated.
//
// The way is a list of legs; moment 0 is the beginning of the step, 1 its end.
// Between steps nothing moves. Heights metres in the place's frame, radians.
#pragma once

#include "scene/build/simulate.h"

#include <string>
#include <vector>

namespace lugline {

struct PosedPiece {
  std::string id;
  double height_m = 0; ///< of its datum
  double turn_rad = 0;
  bool over = false;
  double over_more_rad = 0; ///< while it is being turned over: how much more, about over_about_m
  double over_about_m = 0;  ///< height in the place's frame
  double aside_m = 0;       ///< off the axis
  double squashed_to_m = 0;
  std::string band_state;
  bool in_hand = false;
  bool new_here = false; ///< this step moves it, or it is what the step looks at
};

struct Moment {
  std::string place;
  std::vector<PosedPiece> pieces; ///< what is in, then what is in hand
  double mouth_m = 0;             ///< height above everything that is in
  double falls_from_m = 0;        ///< of the lead in hand
  double falls_to_m = 0;
  bool moving = false; ///< this step has something that moves
};

/// How long a step's motion lasts at its natural pace; 0: nothing moves.
double natural_seconds(const Simulation& simulation, const Unit& unit, std::size_t step);

/// step must be in range, moment 0 to 1 (clamped).
Moment moment_of(Workshop& workshop, const Simulation& simulation, std::size_t step, double moment);

} // namespace lugline
