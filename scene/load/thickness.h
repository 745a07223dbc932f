// The thickness that a line of unit.toml states, and the ones that can be had.
#pragma once

#include "scene/load/draft.h"
#include "scene/part/component.h"

namespace lugline {

/// Puts the line's thickness into the part and judges it and its options: no
/// such figure, an absurd plate, inches written as millimetres, options that
/// do not rise. False where there is a complaint; the part is then as it was.
bool apply_thickness(const ComponentLine& line, Component& part, Findings& findings);

} // namespace lugline
