// A figure as a person types it beside a plate.
//
// In files a bare number is refused; here the unit that is shown stands beside
// the field, so a bare number is taken in it and always said back with it.
#pragma once

#include "scene/quantity/outcome.h"
#include "scene/quantity/quantity.h"

#include <string>
#include <string_view>

namespace lugline {

/// "1.98", "1.98 mm", "0.078 in", "1.98 +/- 0.02": metres inside.
Outcome<Quantity> typed_length(std::string_view text, LengthUnit shown);

/// "200", "200 N m", "150 lbf ft"; "0.25 MPa", "36 psi": a bare number is in the unit that is
/// shown, N m and kPa with millimetres, lbf ft and psi with inches. Torque or pressure.
Outcome<Quantity> typed_figure(std::string_view text, Dimension dimension, LengthUnit shown);

/// Only blanks, or nothing.
bool is_blank(std::string_view text);

} // namespace lugline
