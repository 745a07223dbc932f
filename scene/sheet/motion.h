// The whole sequence as motion: where every piece is, from the first step's hand to the last seat.
//
// Sampled from the timeline (scene/build/timeline.h), whose path each step follows; work that is
// finished on another bench is carried over first. Seconds from the beginning of the first step;
// metres. Pure but for the workshop's cache.
#pragma once

#include "scene/sheet/piece_frame.h"

#include <map>
#include <string>
#include <vector>

namespace lugline {

struct MotionOptions {
  std::size_t from = 0; ///< first step
  std::size_t to = 0;   ///< last step; from <= to, both in range
  double seconds = 0;   ///< of each step that moves something; 0: its natural length
};

struct StepMotion {
  std::size_t step = 0;
  double start_s = 0;
  double rests_s = 0;       ///< nothing moves from here to the end
  double end_s = 0;         ///< the next step starts; equal to start_s where nothing moves
  PieceFrames before;       ///< every piece of the unit at its start
  std::vector<double> at_s; ///< since start_s, rising from 0; empty where nothing moves
  std::map<std::string, std::vector<PieceFrame>> moves; ///< those that change: one for each at_s
};

struct SequenceMotion {
  std::vector<StepMotion> steps;
  PieceFrames after;                   ///< every piece at the end
  std::map<std::string, Vec3> origins; ///< of the places' own frames, by Place::id
  double seconds = 0;
};

SequenceMotion motion_of(Workshop& workshop, const Simulation& simulation,
                         const MotionOptions& options);

} // namespace lugline
