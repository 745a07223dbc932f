// A figure that came out of tooth counts alone. Plain value; nothing here fails.
#pragma once

#include <string>

namespace lugline {

struct ExactFigure {
  double value = 0;           ///< as near as a double holds it
  std::string fraction = "0"; ///< "22/9", "-25/11", "1"
};

} // namespace lugline
