// What a film shows and when: each step's sentence long enough to be read, its motion at its
// natural pace, and its end long enough to be seen.
//
// Pure; whole frames at a stated rate. Stills of one moment follow one another and are drawn once.
#pragma once

#include "viewer/stage/stage.h"

#include <cstddef>
#include <vector>

namespace lugline::cli {

struct FilmPace {
  int rate = 30; ///< frames a second
  double speed = 1;
};

/// One picture, and for how many frames it stands.
struct FilmShot {
  std::size_t step = 0;
  double moment = 0;
  double at_s = 0; ///< of its first frame
  std::size_t frames = 1;
  bool eases = false; ///< the eye may still be on its way here
};

std::vector<FilmShot> film_shots(const Stage& stage, std::size_t from, std::size_t to,
                                 const FilmPace& pace);
std::size_t frames_of(const std::vector<FilmShot>& shots);

} // namespace lugline::cli
