// How a person likes to see things.
#pragma once

#include "viewer/panels/style.h"
#include "viewer/panels/wish.h"
#include "viewer/stage/stage.h"

#include <string>

namespace lugline {

/// told: lines at the foot, such as where the log is; may be empty.
Wishes settings_panel(const Settings& settings, const std::vector<std::string>& told,
                      const PanelArea& area, const PanelStyle& style);

} // namespace lugline
