// A component's features as the JSON that stands in its glTF node's extras,
// under "lugline", so that the model file alone is enough.
//
// Lengths there are millimetres and angles degrees, and every name ends in its
// unit (_mm, _deg, _N_per_mm), since people read these files; conversion is here.
#pragma once

#include "scene/part/component.h"
#include "scene/quantity/outcome.h"

#include <nlohmann/json_fwd.hpp>

namespace lugline {

/// The features of a component, under its own schema number.
nlohmann::json extras_of(const Component& component);

/// Reads them back. Fails with the JSON path of what is wrong: a missing or
/// mistyped member, a number that is not finite, a ring with no thickness,
/// sectors out of order, an unknown schema, more than 4096 rings or sectors.
Outcome<Component> component_from_extras(const nlohmann::json& extras);

} // namespace lugline
