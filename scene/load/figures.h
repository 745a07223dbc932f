// A component at another figure: a thickness that a person wrote or measured
// in place of the one that the model was drawn with.
//
// Lengths are metres. Pure functions on values.
#pragma once

#include "scene/part/component.h"
#include "scene/quantity/outcome.h"

#include <optional>
#include <string>

namespace lugline {

inline constexpr const char* thickness_figure = "thickness";
inline constexpr const char* free_height_figure = "free height"; ///< of a wave plate, …

/// The component with that figure at value_m: solid, band states, grooves,
/// keys, marks and the zones of its other figures move with it. A wave plate's
/// free and flat heights, and a ring's likewise, follow its thickness; the
/// free height of a wave plate, a waved ring or springs follows that figure alone.
/// A problem where there is no such figure, where nothing would be left of a
/// part of the solid, or where a free height would be below the flat one.
Outcome<Component> with_figure(const Component& component, const std::string& name, double value_m);

/// The heights that all rings of a solid share, as its thickness: for a part
/// with no figures of its own. Empty where they share none.
std::optional<Figure> shared_thickness(const Solid& solid);

} // namespace lugline
