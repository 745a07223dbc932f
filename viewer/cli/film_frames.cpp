#include "viewer/cli/film_frames.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>

namespace lugline::cli {

namespace {

/// A little over three words a second are read at ease, after the eye has found them.
constexpr double found_s = 0.8;
constexpr double word_s = 0.28;
constexpr double longest_s = 7;
constexpr double end_s = 0.9;
/// The eye is on its way for so long at the beginning of a step (camera_ease.h).
constexpr double eased_s = 0.4;

double reading_s(const Step& step) {
  std::size_t words = 0;
  std::istringstream text(step.do_text + " " + step.caution_text);
  for (std::string word; text >> word;) {
    ++words;
  }
  return std::min(found_s + word_s * static_cast<double>(words), longest_s);
}

} // namespace

std::vector<FilmShot> film_shots(const Stage& stage, std::size_t from, std::size_t to,
                                 const FilmPace& pace) {
  std::vector<FilmShot> shots;
  std::size_t frame = 0;
  const auto count = [&](double seconds) {
    return static_cast<std::size_t>(std::lround(seconds * pace.rate / pace.speed));
  };
  const auto add = [&](std::size_t step, double moment, std::size_t frames, bool eases) {
    shots.push_back({step, moment, static_cast<double>(frame) / pace.rate, frames, eases});
    frame += frames;
  };
  for (std::size_t step = from; step <= to; ++step) {
    const double moves_s = stage.seconds(step);
    // At least one frame each, however fast: no step is passed over.
    const std::size_t reading =
        std::max<std::size_t>(count(reading_s(stage.unit().steps[step])), 1);
    const double first = moves_s > 0 ? 0 : 1;
    const auto eased = static_cast<std::size_t>(std::ceil(eased_s * pace.rate));
    const std::size_t easing = step == from ? 0 : std::min(reading - 1, eased);
    for (std::size_t i = 0; i < easing; ++i) {
      add(step, first, 1, true);
    }
    add(step, first, reading - easing, false);
    if (moves_s <= 0) {
      continue;
    }
    const std::size_t moves = count(moves_s);
    for (std::size_t i = 1; i < moves; ++i) {
      add(step, static_cast<double>(i) / static_cast<double>(moves), 1, false);
    }
    add(step, 1, std::max<std::size_t>(count(end_s), 1), false);
  }
  return shots;
}

std::size_t frames_of(const std::vector<FilmShot>& shots) {
  std::size_t frames = 0;
  for (const FilmShot& shot : shots) {
    frames += shot.frames;
  }
  return frames;
}

} // namespace lugline::cli
