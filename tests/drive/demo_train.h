// The demo unit's gear train, put together by hand: two sets on a common sun, 33/21/75 each.
// Its figures are invented.
#pragma once

#include "scene/drive/faults.h"
#include "scene/load/drive.h"

namespace lugline {

Drive demo_train();

/// The same with what applies its elements, and what its ranges ask of them.
Drive demo_drive();
ElementPacks demo_packs();

} // namespace lugline
