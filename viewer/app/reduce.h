// The one function that changes the state.
//
// Pure: same state and wish, same next state. A wish that makes no sense now
// changes nothing. New actions are appended to state.actions; putting them on
// disk is the caller's.
#pragma once

#include "viewer/app/state.h"

#include <vector>

namespace lugline {

AppState reduce(AppState state, const Wish& wish, const Facts& facts);

/// A state that stands where these actions end.
AppState stand_where(const std::vector<Action>& actions, const Settings& settings,
                     const Facts& facts);

/// Something is in hand and nothing moves it.
bool holds(const AppState& state, const Facts& facts);

} // namespace lugline
