// The eye goes from one step's view to the next in a third of a second rather
// than leaping, so that one does not lose one's bearings.
//
// Pure but for what it remembers: the view that was last shown. Seconds are the
// caller's. Where the next step is at another place nothing is eased: there is
// nothing to keep one's bearings by.
#pragma once

#include "viewer/stage/picture.h"

#include <cstddef>
#include <optional>
#include <string>

namespace lugline {

class CameraEase {
public:
  /// The picture as it is to be shown now.
  Picture shown(Picture wanted, std::size_t step, const std::string& place, bool motion,
                double now_s);
  [[nodiscard]] bool going(double now_s) const { return from_.has_value() && now_s < until_s_; }

private:
  struct Seen {
    Camera camera;
    Cut cut;
    std::size_t step = 0;
    std::string place;
  };
  std::optional<Seen> last_;
  std::optional<Seen> from_;
  double until_s_ = 0;
};

} // namespace lugline
