// One line beneath the words: what the keys do just now.
#pragma once

#include "viewer/app/state.h"

#include <string>

namespace lugline {

std::string hint_for(const AppState& state, const Facts& facts);

} // namespace lugline
