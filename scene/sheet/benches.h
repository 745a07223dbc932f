// Benches side by side: where each place's own frame stands, so that none is in another's way.
//
// The place that the last step works on stands in the middle; the others to its left and right.
// A bench whose work has been brought away makes room for the next. Metres.
#pragma once

#include "scene/build/simulate.h"

#include <map>
#include <string>

namespace lugline {

/// Steps from and to (both in) are worked. By Place::id; only places that something stands in.
std::map<std::string, Vec3> benches_of(Workshop& workshop, const Simulation& simulation,
                                       std::size_t from, std::size_t to);

} // namespace lugline
