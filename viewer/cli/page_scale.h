// The scale of words and lines on a page that is drawn to a file.
#pragma once

#include <algorithm>

namespace lugline::cli {

/// As asked; 0: words that can be read at 1366x768 are as large in proportion on a larger page.
inline double page_scale_for(double asked, int width_px, int height_px) {
  if (asked > 0) {
    return asked;
  }
  return std::clamp(std::min(width_px / 1366.0, height_px / 768.0), 1.0, 2.5);
}

} // namespace lugline::cli
