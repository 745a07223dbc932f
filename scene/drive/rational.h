// Whole-number fractions of any size, so that "still", "locked" and "held" are decided and not
// guessed at.
//
// Only the sources of this room include this: it is slow to compile. What leaves the room is an
// ExactFigure (exact.h).
#pragma once

#include "scene/drive/exact.h"

#include <boost/multiprecision/cpp_int.hpp>

namespace lugline {

// Without expression templates: the arithmetic is small, and `auto` stays harmless.
using Rational = boost::multiprecision::number<boost::multiprecision::cpp_rational_backend,
                                               boost::multiprecision::et_off>;

inline ExactFigure exact_figure(const Rational& value) {
  return {value.convert_to<double>(), value.str()};
}

} // namespace lugline
