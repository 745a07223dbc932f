#include "viewer/app/pace.h"

namespace lugline {

namespace {

constexpr double slow_ms = 45;  ///< 22 frames a second
constexpr double quick_ms = 14; ///< twice as long would still be quick enough
constexpr int frames_judged = 4;
constexpr int slow_of_them = 2; ///< one slow frame may be somebody else's fault
constexpr int quick_on_end = 20;

} // namespace

const std::vector<DrawQuality>& qualities_in_motion() {
  static const std::vector<DrawQuality> all = [] {
    DrawQuality coarse = motion_quality;
    coarse.coarse_px = 2;
    DrawQuality half = coarse;
    half.half_pixels = true;
    DrawQuality no_crevices = half;
    no_crevices.crevices = false;
    return std::vector<DrawQuality>{still_quality, motion_quality, coarse, half, no_crevices};
  }();
  return all;
}

void Pace::moved(double ms) {
  quick_ = ms < quick_ms ? quick_ + 1 : 0;
  slow_ += ms > slow_ms ? 1 : 0;
  if (slow_ >= slow_of_them && level_ + 1 < qualities_in_motion().size()) {
    ++level_;
    finest_ = level_;
    slow_ = quick_ = seen_ = 0;
  } else if (quick_ >= quick_on_end && level_ > finest_) {
    --level_;
    slow_ = quick_ = seen_ = 0;
  } else if (++seen_ >= frames_judged) {
    slow_ = seen_ = 0;
  }
}

} // namespace lugline
