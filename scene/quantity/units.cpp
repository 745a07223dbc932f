#include "scene/quantity/units.h"

#include "scene/quantity/complaint.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <numbers>
#include <vector>

namespace lugline {

namespace {

using enum Dimension;

constexpr double pi = std::numbers::pi;

// lbf = 0.453 592 37 kg x 9.806 65 m/s2 = 4.448 221 615 260 5 N, as a fraction.
constexpr double lbf_times = 44482216152605.0;
constexpr double lbf_over = 1e13;

constexpr std::array units = {
    UnitOfMeasure{"mm", length, 1, 1e3},
    UnitOfMeasure{"cm", length, 1, 1e2},
    UnitOfMeasure{"m", length},
    UnitOfMeasure{"um", length, 1, 1e6},
    UnitOfMeasure{"in", length, 254, 1e4},
    UnitOfMeasure{"ft", length, 3048, 1e4},
    UnitOfMeasure{"thou", length, 254, 1e7},

    UnitOfMeasure{"deg", angle, pi, 180},
    UnitOfMeasure{"rad", angle},

    UnitOfMeasure{"N", force},
    UnitOfMeasure{"kN", force, 1e3},
    UnitOfMeasure{"lbf", force, lbf_times, lbf_over},
    UnitOfMeasure{"kgf", force, 980665, 1e5},

    UnitOfMeasure{"kPa", pressure, 1e3},
    UnitOfMeasure{"Pa", pressure},
    UnitOfMeasure{"MPa", pressure, 1e6},
    UnitOfMeasure{"bar", pressure, 1e5},
    UnitOfMeasure{"psi", pressure, lbf_times, 6451600000.0}, // over (0.0254 m)2
    UnitOfMeasure{"kgf/cm2", pressure, 980665, 10},

    UnitOfMeasure{"N m", torque},
    UnitOfMeasure{"kN m", torque, 1e3},
    UnitOfMeasure{"lbf ft", torque, 13558179483314004.0, 1e16},
    UnitOfMeasure{"lbf in", torque, 1129848290276167.0, 1e16},
    UnitOfMeasure{"kgf m", torque, 980665, 1e5},

    UnitOfMeasure{"kg", mass},
    UnitOfMeasure{"g", mass, 1, 1e3},
    UnitOfMeasure{"lb", mass, 45359237, 1e8},
    UnitOfMeasure{"oz", mass, 45359237, 16e8},

    UnitOfMeasure{"N/mm", stiffness, 1e3},
    UnitOfMeasure{"N/m", stiffness},
    UnitOfMeasure{"lbf/in", stiffness, lbf_times, 254e9},

    UnitOfMeasure{"degC", temperature, 1, 1, 273.15},
    UnitOfMeasure{"degF", temperature, 5, 9, 459.67},
    UnitOfMeasure{"K", temperature},

    UnitOfMeasure{"rpm", speed_of_turn, pi, 30},
    UnitOfMeasure{"rad/s", speed_of_turn},
    UnitOfMeasure{"deg/s", speed_of_turn, pi, 180},

    UnitOfMeasure{"s", time},
    UnitOfMeasure{"ms", time, 1, 1e3},
    UnitOfMeasure{"min", time, 60},

    UnitOfMeasure{"mL", volume, 1, 1e6},
    UnitOfMeasure{"L", volume, 1, 1e3},
    UnitOfMeasure{"cm3", volume, 1, 1e6},
    UnitOfMeasure{"mm3", volume, 1, 1e9},
    UnitOfMeasure{"in3", volume, 16387064, 1e12}, // (0.0254 m)3

    UnitOfMeasure{"kg/m3", density},
    UnitOfMeasure{"g/cm3", density, 1e3},
    UnitOfMeasure{"kg/L", density, 1e3},
    UnitOfMeasure{"lb/ft3", density, 453592370000.0, 28316846592.0}, // over (0.3048 m)3
};

struct Spelling {
  std::string_view written; ///< after plain_spelling
  std::string_view name;    ///< of a unit
};

// Other spellings that can mean nothing else here. A torque's "lb" is a force: nobody
// states a mass times a length.
constexpr std::array same = {
    Spelling{"inch", "in"},      Spelling{"mil", "thou"},      Spelling{"Nm", "N m"},
    Spelling{"kNm", "kN m"},     Spelling{"ft lbf", "lbf ft"}, Spelling{"lb ft", "lbf ft"},
    Spelling{"ft lb", "lbf ft"}, Spelling{"in lbf", "lbf in"}, Spelling{"lb in", "lbf in"},
    Spelling{"in lb", "lbf in"}, Spelling{"m kgf", "kgf m"},   Spelling{"kgfm", "kgf m"},
    Spelling{"ml", "mL"},        Spelling{"cc", "cm3"},        Spelling{"g/mL", "g/cm3"},
};

// Spellings that are refused, since they are loose or mean something else, each with
// the unit that was probably meant.
constexpr std::array meant = {
    Spelling{"\"", "in"},
    Spelling{"''", "in"},
    Spelling{"”", "in"},
    Spelling{"″", "in"},
    Spelling{"inches", "in"},
    Spelling{"ins", "in"},
    Spelling{"'", "ft"},
    Spelling{"′", "ft"},
    Spelling{"’", "ft"},
    Spelling{"foot", "ft"},
    Spelling{"feet", "ft"},
    Spelling{"mils", "thou"},
    Spelling{"thousandths", "thou"},
    Spelling{"millimetre", "mm"},
    Spelling{"millimetres", "mm"},
    Spelling{"millimeter", "mm"},
    Spelling{"millimeters", "mm"},
    Spelling{"micron", "um"},
    Spelling{"microns", "um"},
    Spelling{"metre", "m"},
    Spelling{"meter", "m"},
    Spelling{"degree", "deg"},
    Spelling{"degrees", "deg"},
    Spelling{"radian", "rad"},
    Spelling{"radians", "rad"},
    Spelling{"newton", "N"},
    Spelling{"newtons", "N"},
    Spelling{"psig", "psi"},
    Spelling{"psia", "psi"},
    Spelling{"kp", "kgf"},
    Spelling{"lbf/in2", "psi"},
    Spelling{"lb/in2", "psi"},
    Spelling{"kg/cm2", "kgf/cm2"},
    Spelling{"N/mm2", "MPa"},
    Spelling{"bars", "bar"},
    Spelling{"kg m", "kgf m"},
    Spelling{"kgm", "kgf m"},
    Spelling{"foot pounds", "lbf ft"},
    Spelling{"pounds", "lb"},
    Spelling{"pound", "lb"},
    Spelling{"lbs", "lb"},
    Spelling{"#", "lb"},
    Spelling{"ounces", "oz"},
    Spelling{"grams", "g"},
    Spelling{"gram", "g"},
    Spelling{"gr", "g"},
    Spelling{"lb/in", "lbf/in"},
    Spelling{"kg/mm", "N/mm"},
    Spelling{"C", "degC"},
    Spelling{"F", "degF"},
    Spelling{"celsius", "degC"},
    Spelling{"fahrenheit", "degF"},
    Spelling{"kelvin", "K"},
    Spelling{"r/min", "rpm"},
    Spelling{"rev/min", "rpm"},
    Spelling{"1/min", "rpm"},
    Spelling{"sec", "s"},
    Spelling{"second", "s"},
    Spelling{"seconds", "s"},
    Spelling{"minute", "min"},
    Spelling{"minutes", "min"},
    Spelling{"l", "L"},
    Spelling{"litre", "L"},
    Spelling{"litres", "L"},
    Spelling{"liter", "L"},
    Spelling{"liters", "L"},
    Spelling{"ccm", "cm3"},
    Spelling{"cu in", "in3"},
    Spelling{"g/cc", "g/cm3"},
    Spelling{"kg/l", "kg/L"},
    Spelling{"lbs/ft3", "lb/ft3"},
};

// One written character, or few, and what stands for it in the tables.
constexpr std::array<std::array<std::string_view, 2>, 11> plain = {{
    {"·", " "},
    {"⋅", " "},
    {"*", " "},
    {"-", " "},
    {"²", "2"},
    {"^2", "2"},
    {"³", "3"},
    {"^3", "3"},
    {"µ", "u"}, // the micro sign
    {"μ", "u"}, // the Greek letter
    {"°", "deg"},
}};

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

std::string plain_spelling(std::string_view written) {
  std::string text(written);
  for (const auto& [from, to] : plain)
    replace_all(text, from, to);
  std::string result;
  for (const char c : text) {
    const bool after_gap = result.empty() || result.back() == ' ' || result.back() == '/';
    if (c == ' ' && after_gap)
      continue;
    if (c == '/' && !result.empty() && result.back() == ' ')
      result.pop_back();
    result += c;
  }
  if (!result.empty() && result.back() == ' ')
    result.pop_back();
  return result;
}

std::string lowered(std::string_view text) {
  std::string result(text);
  for (char& c : result)
    if (c >= 'A' && c <= 'Z')
      c = static_cast<char>(c - 'A' + 'a');
  return result;
}

const UnitOfMeasure* unit_named(std::string_view name) {
  const auto found = std::find_if(units.begin(), units.end(),
                                  [&](const UnitOfMeasure& unit) { return unit.name == name; });
  return found == units.end() ? nullptr : std::to_address(found);
}

std::string write_instead(std::string_view name) {
  return "write \"" + std::string(name) + '"';
}

// The one unit that differs from what was written in its capitals alone, the
// expected dimension's first: "MM", "Mpa", "n m".
std::string_view name_but_for_capitals(const std::string& low, Dimension expected) {
  std::string_view found;
  const auto take = [&](std::string_view written, std::string_view name) {
    if (lowered(written) != low)
      return;
    if (found.empty() || unit_named(name)->dimension == expected)
      found = name;
  };
  for (const UnitOfMeasure& unit : units)
    take(unit.name, unit.name);
  for (const Spelling& spelling : same)
    take(spelling.written, spelling.name);
  return found;
}

} // namespace

std::span<const UnitOfMeasure> all_units() {
  return units;
}

const UnitOfMeasure* find_unit(std::string_view written) {
  const std::string text = plain_spelling(written);
  if (const UnitOfMeasure* unit = unit_named(text))
    return unit;
  for (const Spelling& spelling : same)
    if (spelling.written == text)
      return unit_named(spelling.name);
  return nullptr;
}

std::string unit_hint(std::string_view written, Dimension expected) {
  const std::string text = plain_spelling(written);
  const std::string low = lowered(text);
  if (const std::string_view name = name_but_for_capitals(low, expected); !name.empty())
    return write_instead(name);
  for (const Spelling& spelling : meant) {
    if (spelling.written != text && spelling.written != low)
      continue;
    const bool weight = expected == force && spelling.name == "lb";
    return write_instead(weight ? "lbf" : spelling.name);
  }
  std::vector<std::string> names;
  for (const UnitOfMeasure& unit : units)
    if (unit.dimension == expected)
      names.emplace_back(unit.name);
  const std::string nearest = nearest_name(text, names);
  return nearest.empty() ? std::string() : write_instead(nearest);
}

std::string unit_names(Dimension dimension) {
  std::vector<std::string_view> names;
  for (const UnitOfMeasure& unit : units)
    if (unit.dimension == dimension)
      names.push_back(unit.name);
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0)
      text += i + 1 == names.size() ? " or " : ", ";
    text += names[i];
  }
  return text;
}

} // namespace lugline
