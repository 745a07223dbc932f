#include "scene/quantity/quantity.h"
#include "scene/quantity/units.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace lugline {

namespace {

// A double holds any decimal of this many figures, and a conversion there and back
// stays within them. Rounding starts from these figures and not from the bits, so
// that 1.005 mm prints as the 1.01 that a person expects.
constexpr int trusted_figures = 15;

struct Decimal {
  std::string figures; ///< of the magnitude, the first before the point
  int exponent = 0;    ///< power of ten of the first figure
};

Decimal decimal_of(double magnitude) {
  std::array<char, 40> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), magnitude,
                                 std::chars_format::scientific, trusted_figures - 1)
                       .ptr;
  const std::string text(buffer.data(), end);
  const std::size_t e = text.find('e');
  Decimal result;
  result.figures = text.substr(0, 1) + text.substr(2, e - 2);
  const char* exponent = text.data() + e + (text[e + 1] == '+' ? 2 : 1);
  std::from_chars(exponent, text.data() + text.size(), result.exponent);
  return result;
}

// Half goes up; a nine carries, and so may lengthen the figures by one.
void add_one_at_the_end(Decimal& decimal) {
  std::size_t at = decimal.figures.size();
  while (at > 0 && decimal.figures[at - 1] == '9')
    decimal.figures[--at] = '0';
  if (at > 0) {
    ++decimal.figures[at - 1];
    return;
  }
  decimal.figures.insert(decimal.figures.begin(), '1');
  ++decimal.exponent;
}

// Rounded half away from zero, never "-0.00".
std::string decimal_text(double value, int places) {
  assert(places >= 0 && places <= 15);
  assert(std::isfinite(value));
  if (!std::isfinite(value))
    return "?";
  Decimal decimal = decimal_of(std::fabs(value));
  const int kept = decimal.exponent + 1 + places;
  if (kept < 0)
    decimal = {"0", -places};
  else if (kept < static_cast<int>(decimal.figures.size())) {
    const bool up = decimal.figures[static_cast<std::size_t>(kept)] >= '5';
    decimal.figures.resize(static_cast<std::size_t>(kept));
    if (up)
      add_one_at_the_end(decimal);
  }

  // Zeros in front up to the units' place, and behind up to the last place kept.
  std::string figures = std::move(decimal.figures);
  if (decimal.exponent < 0)
    figures.insert(0, static_cast<std::size_t>(-decimal.exponent), '0');
  const std::size_t whole = static_cast<std::size_t>(std::max(decimal.exponent, 0)) + 1;
  figures.resize(whole + static_cast<std::size_t>(places), '0');

  const bool zero = figures.find_first_not_of('0') == std::string::npos;
  std::string text = value < 0 && !zero ? "-" : "";
  text += figures.substr(0, whole);
  if (places > 0)
    text += '.' + figures.substr(whole);
  return text;
}

// As many places as leave `figures` figures, and none left of the point.
std::string with_figures(double value, int figures) {
  const double magnitude = std::fabs(value);
  int places = figures - 1;
  for (double limit = 10; places > 0 && magnitude >= limit; limit *= 10)
    --places;
  return decimal_text(value, places);
}

double value_of(const std::string& text) {
  double value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

double in_unit(double length_m, LengthUnit unit) {
  return unit == LengthUnit::millimetre ? length_m * 1e3 : length_m / inch_m;
}

double degrees(double angle_rad) {
  return angle_rad * 180 / std::numbers::pi;
}

std::string print_in(std::string_view metric, std::string_view inch, double si, LengthUnit style,
                     int figures) {
  const std::string_view name = style == LengthUnit::millimetre ? metric : inch;
  const UnitOfMeasure* unit = find_unit(name);
  assert(unit != nullptr);
  return with_figures(unit->from_si(si), figures) + ' ' + std::string(name);
}

} // namespace

std::string_view word_for(Dimension dimension) {
  switch (dimension) {
  case Dimension::length:
    return "length";
  case Dimension::angle:
    return "angle";
  case Dimension::force:
    return "force";
  case Dimension::pressure:
    return "pressure";
  case Dimension::torque:
    return "torque";
  case Dimension::mass:
    return "mass";
  case Dimension::stiffness:
    return "stiffness";
  case Dimension::temperature:
    return "temperature";
  case Dimension::speed_of_turn:
    return "speed of turn";
  case Dimension::time:
    return "time";
  case Dimension::volume:
    return "volume";
  case Dimension::density:
    return "density";
  }
  assert(false);
  return "";
}

std::string print_length(double length_m, LengthUnit unit) {
  return print_length(length_m, unit, unit == LengthUnit::millimetre ? 2 : 3);
}

std::string print_length(double length_m, LengthUnit unit, int places) {
  return print_length_figure(length_m, unit, places) +
         (unit == LengthUnit::millimetre ? " mm" : " in");
}

std::string print_length_figure(double length_m, LengthUnit unit, int places) {
  return decimal_text(in_unit(length_m, unit), places);
}

std::string print_length_both(double length_m, LengthUnit first) {
  const LengthUnit second =
      first == LengthUnit::millimetre ? LengthUnit::inch : LengthUnit::millimetre;
  return print_length(length_m, first) + " (" + print_length(length_m, second) + ')';
}

std::string print_angle(double angle_rad, int places) {
  return decimal_text(degrees(angle_rad), places) + " deg";
}

std::string print_pressure(double pressure_Pa, LengthUnit style) {
  return print_in("kPa", "psi", pressure_Pa, style, 3);
}

std::string print_force(double force_N, LengthUnit style) {
  return print_in("N", "lbf", force_N, style, 3);
}

std::string print_torque(double torque_Nm, LengthUnit style) {
  return print_in("N m", "lbf ft", torque_Nm, style, 3);
}

std::string print_mass(double mass_kg, LengthUnit style) {
  return print_in("kg", "lb", mass_kg, style, 4);
}

double rounded_mm(double length_m, int places) {
  return value_of(print_length_figure(length_m, LengthUnit::millimetre, places));
}

double rounded_deg(double angle_rad, int places) {
  return value_of(decimal_text(degrees(angle_rad), places));
}

} // namespace lugline
