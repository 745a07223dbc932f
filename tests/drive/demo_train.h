// The demo unit's gear train, put together by hand: two sets on a common sun, 33/21/75 each.
// Its figures are invented.
#pragma once

#include "scene/load/drive.h"

namespace lugline {

Drive demo_train();

} // namespace lugline
