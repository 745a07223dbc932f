// Pulling the unit apart along its axis: one slider, from together to apart.
#pragma once

#include "viewer/panels/style.h"
#include "viewer/panels/wish.h"

namespace lugline {

/// apart: 0 together, 1 apart.
Wishes apart_panel(double apart, const PanelArea& area, const PanelStyle& style);

} // namespace lugline
