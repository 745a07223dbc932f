// A component's features as the JSON that stands in its glTF node's extras,
// under "lugline", so that the model file alone is enough.
//
// Lengths there are millimetres and angles degrees, and every name ends in its
// unit (_mm, _deg, _N_per_mm), since people read these files; conversion is here.
// Written and read back, no length moves by more than 1e-9 mm and no angle by
// more than 1e-10 deg: figures are rounded just above what a double can hold,
// so that a thickness reads 1.98 and not 1.9799999999999998.
//
// Extras come from strangers: nothing in them is believed before it is checked.
#pragma once

#include "scene/part/component.h"
#include "scene/quantity/outcome.h"

#include <nlohmann/json_fwd.hpp>

#include <optional>
#include <string>

namespace lugline {

/// What extras may hold at most.
struct ExtrasLimits {
  int rings = 4096;           ///< of one component, band states included
  int sectors_of_ring = 4096; ///< of one ring
  int sectors = 65536;        ///< of one component
  int entries = 1024;         ///< of each other list
  int text_bytes = 1024;      ///< of each name, id or line of words
  double length_mm = 1e6;
  double angle_deg = 36000; ///< a hundred turns
};

/// The features of a component, under its own schema number: the value that
/// stands under "lugline".
nlohmann::json extras_of(const Component& component);

/// Reads them back. Fails with the JSON path of what is wrong: a missing, mistyped
/// or unknown member, a number that is not finite, a ring with no thickness,
/// sectors out of order, an unknown schema, more than ExtrasLimits allows.
Outcome<Component> component_from_extras(const nlohmann::json& extras);

/// A node's whole extras as text, {"lugline": …}: for ModelPart::extras_json.
std::string extras_text_of(const Component& component);

/// Reads a node's whole extras. Nothing where they hold no "lugline" member
/// (somebody else's extras, or none): that is no failure.
Outcome<std::optional<Component>> component_from_extras_text(const std::string& extras_json);

} // namespace lugline
