#include "viewer/panels/wish.h"

namespace lugline {

std::vector<double> scales() {
  return {1.0, 1.25, 1.5, 1.75, 2.0, 2.25, 2.5};
}

} // namespace lugline
