// How much care a moving picture gets, from how long its frames took.
//
// A still is always finished with everything. While things move, care is dropped in a stated
// order until frames come fast enough, and taken up again where there is time to spare: finer
// pixels and textures first, then fineness of triangles, then half the pixels each way, then the
// dark in corners. What proved too slow once is not tried again. Milliseconds; no clock of its own.
#pragma once

#include "viewer/draw/renderer.h"

#include <cstddef>
#include <vector>

namespace lugline {

/// From everything to the least, in the order in which care is dropped.
const std::vector<DrawQuality>& qualities_in_motion();

class Pace {
public:
  [[nodiscard]] const DrawQuality& quality() const { return qualities_in_motion()[level_]; }
  [[nodiscard]] std::size_t level() const { return level_; }
  /// A frame that moved took so long.
  void moved(double ms);

private:
  std::size_t level_ = 1; ///< a middling machine's; others are found within a few frames
  std::size_t finest_ = 0;
  int slow_ = 0;  ///< of the last few frames
  int quick_ = 0; ///< frames on end
  int seen_ = 0;
};

} // namespace lugline
