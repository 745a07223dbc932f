// The list of steps, chapter by chapter.
#pragma once

#include "viewer/panels/style.h"
#include "viewer/panels/wish.h"

#include <string>
#include <vector>

namespace lugline {

struct StepLine {
  std::string chapter; ///< where one starts; else empty
  std::string words;
  bool fails = false;
};

/// here: the present step.
Wishes steps_panel(const std::vector<StepLine>& steps, std::size_t here, const PanelArea& area,
                   const PanelStyle& style);

} // namespace lugline
