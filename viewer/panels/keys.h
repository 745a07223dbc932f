// The list of keys. What it lists is given, so that it cannot differ from what
// the keys do.
#pragma once

#include "viewer/panels/style.h"
#include "viewer/panels/wish.h"

#include <string>
#include <vector>

namespace lugline {

struct KeyLine {
  std::string group; ///< where one starts; else empty
  std::string key;   ///< "Page Down"
  std::string words; ///< "goes on"
};

Wishes keys_panel(const std::vector<KeyLine>& keys, const PanelArea& area, const PanelStyle& style);

} // namespace lugline
