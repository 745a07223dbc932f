// The units of measure Lugline reads: names, dimensions and exact factors.
//
// A factor is a fraction of two doubles that are both exact, so that converting
// costs one rounding in the product and one in the quotient. Values: NIST SP 811,
// Appendix B. The inch (25.4 mm), the pound (0.453 592 37 kg) and standard gravity
// (9.806 65 m/s2) are exact by definition, and the rest follow from them.
// The table is fixed; looking up never fails, it finds nothing.
#pragma once

#include "scene/quantity/quantity.h"

#include <span>
#include <string>
#include <string_view>

namespace lugline {

struct UnitOfMeasure {
  std::string_view name; ///< as Lugline itself writes it: "mm", "lbf ft"
  Dimension dimension;
  double times = 1;
  double over = 1;
  double zero_at = 0; ///< temperatures only: added before scaling

  /// A reading in this unit, in SI.
  [[nodiscard]] double to_si(double value) const { return (value + zero_at) * times / over; }
  /// The reading in this unit of a value in SI.
  [[nodiscard]] double from_si(double si) const { return si * over / times - zero_at; }
  /// A difference of two readings in this unit, in SI: for tolerances.
  [[nodiscard]] double difference_to_si(double value) const { return value * times / over; }
};

/// Every unit, each dimension's together, its commonest first.
std::span<const UnitOfMeasure> all_units();

/// The unit so written, or nullptr. Spellings that mean the same and nothing else
/// are read too: "Nm", "N·m", "ft-lb", "mil", "°C".
const UnitOfMeasure* find_unit(std::string_view written);

/// What to say of a unit that find_unit did not find: the nearest one, in words
/// ("write \"mm\""), or empty.
std::string unit_hint(std::string_view written, Dimension expected);

/// "mm, cm, m, um, in, ft or thou".
std::string unit_names(Dimension dimension);

} // namespace lugline
