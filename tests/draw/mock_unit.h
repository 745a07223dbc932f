// A made-up unit for pictures: a cut case, its shaft and gears, a pack of
// plates, and a drum in hand above. Every figure is invented.
#pragma once

#include "viewer/stage/picture.h"

namespace lugline::shapes {

/// The whole scene as the viewer would show it, keys, arrow and paths included.
Picture mock_picture();

} // namespace lugline::shapes
