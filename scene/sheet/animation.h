// An animated model of the sequence: a GLB that plays in any glTF viewer.
//
// The unit's models, each written once, as nodes that move: one animation of the whole, and one of
// each step that moves something. Parts that are not in yet are there at scale 0, for glTF has no
// way to hide one. At rest, with no animation playing, everything stands as after the last step.
// Same unit and readings, same bytes.
//
// Extras (glTF's frame, metres and seconds): the scene says whose figures they are ("label"), who
// decides ("notice"), where each place stands ("places") and what each step is and when in the
// whole it begins, comes to rest and ends ("steps"); each animation names its step.
#pragma once

#include "scene/sheet/motion.h"

#include <cstdint>
#include <string>
#include <vector>

namespace lugline {

struct AnimationReport {
  std::vector<unsigned char> glb;
  std::size_t pieces = 0;     ///< nodes that are ever shown
  std::size_t animations = 0; ///< the whole, and the steps; 0 where nothing moves
  double seconds = 0;         ///< of the whole
};

AnimationReport animate(Workshop& workshop, const Simulation& simulation,
                        const MotionOptions& options);

/// The text before a step's id in its animation's name: "012 ".
std::string step_number(std::size_t step);

} // namespace lugline
