// The row of words at the foot that open the panels, for the mouse.
#pragma once

#include "viewer/panels/style.h"
#include "viewer/panels/wish.h"

#include <string>
#include <vector>

namespace lugline {

struct FootWord {
  std::string words; ///< "steps"
  std::string key;   ///< "L"
  Wish wish;
  bool shown = false; ///< what it opens is open
};

/// How wide the first `count` words are, with their gaps.
float foot_width(const std::vector<FootWord>& words, std::size_t count, const PanelStyle& style);

/// As many as fit, from the first, flush right.
Wishes foot_panel(const std::vector<FootWord>& words, const PanelArea& area,
                  const PanelStyle& style);

} // namespace lugline
