// The thickness that a line of unit.toml states, and the ones that can be had.
#pragma once

#include "scene/load/draft.h"
#include "scene/part/component.h"

#include <optional>
#include <string>

namespace lugline {

/// Why a thickness cannot be that of a part of this kind that is drawn with model_m.
struct ThicknessSlip {
  std::string words; ///< "60.00 mm for a steel: between 0.10 mm and 25.00 mm was expected"
  std::string hint;  ///< the slip of unit that it looks like; may be empty
};

/// Nothing at all, absurd for a plate, or 25.4 times off; empty where it may be.
std::optional<ThicknessSlip> slip_in_thickness(double thickness_m, ComponentKind kind,
                                               double model_m);
/// More than three times off what the part is drawn with: another part's?
bool is_far_off(double thickness_m, double model_m);

/// Puts the line's thickness into the part and judges it and its options: no
/// such figure, an absurd plate, inches written as millimetres, options that
/// do not rise. False where there is a complaint; the part is then as it was.
bool apply_thickness(const ComponentLine& line, Component& part, Findings& findings);

} // namespace lugline
