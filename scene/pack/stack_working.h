// A pack's clearance told in full: every plate, what it counts and why, the sum, what is left.
//
// From a PackReport, computing nothing that is not in it but differences of its figures. Metres.
// Source: as stack.h says, common practice. Nothing here fails; a pack that is not closed yet
// is told so.
#pragma once

#include "scene/pack/stack.h"
#include "scene/quantity/report.h"

namespace lugline {

CalculationReport stack_working(const PackReport& pack);

} // namespace lugline
