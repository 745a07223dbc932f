#include "scene/quantity/quantity.h"

#include <catch2/catch.hpp>

#include <numbers>

using lugline::Dimension;
using lugline::Outcome;
using lugline::parse_quantity;
using lugline::Quantity;

namespace {

double si_of(std::string_view text, Dimension dimension) {
  const Outcome<Quantity> read = parse_quantity(text, dimension);
  INFO(text << ": " << (read.ok() ? "read" : read.problem()));
  REQUIRE(read.ok());
  CHECK(read.value().dimension == dimension);
  CHECK(read.value().plus_minus_si == 0);
  return read.value().si;
}

std::string problem_of(std::string_view text, Dimension dimension) {
  const Outcome<Quantity> read = parse_quantity(text, dimension);
  INFO(text);
  REQUIRE_FALSE(read.ok());
  return read.problem();
}

std::string length_problem(std::string_view text) {
  return problem_of(text, Dimension::length);
}

} // namespace

TEST_CASE("one figure of each dimension is read into SI") {
  CHECK(si_of("1.98 mm", Dimension::length) == Approx(0.00198).epsilon(1e-15));
  CHECK(si_of("0.078 in", Dimension::length) == Approx(0.0019812).epsilon(1e-15));
  CHECK(si_of("30 psi", Dimension::pressure) ==
        Approx(30 * 4.4482216152605 / (0.0254 * 0.0254)).epsilon(1e-15));
  CHECK(si_of("12 lbf ft", Dimension::torque) == Approx(16.2698153799768).epsilon(1e-14));
  CHECK(si_of("40 deg", Dimension::angle) == Approx(std::numbers::pi * 2 / 9).epsilon(1e-15));
  CHECK(si_of("2 kN", Dimension::force) == 2000);
  CHECK(si_of("250 g", Dimension::mass) == 0.25);
  CHECK(si_of("13 N/mm", Dimension::stiffness) == 13000);
  CHECK(si_of("20 degC", Dimension::temperature) == Approx(293.15).epsilon(1e-15));
  CHECK(si_of("3000 rpm", Dimension::speed_of_turn) ==
        Approx(100 * std::numbers::pi).epsilon(1e-15));
  CHECK(si_of("1.5 min", Dimension::time) == 90);
  CHECK(si_of("60 mL", Dimension::volume) == 60e-6);
  CHECK(si_of("2 in3", Dimension::volume) == Approx(2 * 0.0254 * 0.0254 * 0.0254).epsilon(1e-15));
  CHECK(si_of("0.85 kg/L", Dimension::density) == 850);
}

TEST_CASE("the unit is kept as it was written") {
  CHECK(parse_quantity("12 ft-lb", Dimension::torque).value().unit == "ft-lb");
  CHECK(parse_quantity("  1.98   mm ", Dimension::length).value().unit == "mm");
}

TEST_CASE("figures may be written in the usual ways") {
  CHECK(si_of("2mm", Dimension::length) == 0.002);
  CHECK(si_of("+2 mm", Dimension::length) == 0.002);
  CHECK(si_of("-2 mm", Dimension::length) == -0.002);
  CHECK(si_of("\u22122 mm", Dimension::length) == -0.002); // a typesetter's minus
  CHECK(si_of("2\u00A0mm", Dimension::length) == 0.002);   // a space that does not break
  CHECK(si_of("2\tmm", Dimension::length) == 0.002);
  CHECK(si_of(".5 m", Dimension::length) == 0.5);
  CHECK(si_of("5. m", Dimension::length) == 5);
  CHECK(si_of("2e-3 m", Dimension::length) == 0.002);
  CHECK(si_of("2E3 mm", Dimension::length) == 2);
  CHECK(si_of("0 mm", Dimension::length) == 0);
}

TEST_CASE("spellings that can mean nothing else are read") {
  for (const char* text : {"5 N m", "5 Nm", "5 N·m", "5 N*m", "5 N-m", "5 N  m"})
    CHECK(si_of(text, Dimension::torque) == 5);
  const double one = si_of("1 lbf ft", Dimension::torque);
  for (const char* text : {"1 lb ft", "1 ft lbf", "1 ft-lb", "1 lb-ft", "1 lbf·ft", "1 ft lb"})
    CHECK(si_of(text, Dimension::torque) == one);
  CHECK(si_of("12 lb in", Dimension::torque) == Approx(one).epsilon(1e-15));
  CHECK(si_of("7 mil", Dimension::length) == si_of("7 thou", Dimension::length));
  CHECK(si_of("7 µm", Dimension::length) == si_of("7 um", Dimension::length));
  CHECK(si_of("7 μm", Dimension::length) == si_of("7 um", Dimension::length));
  CHECK(si_of("7 kgf/cm²", Dimension::pressure) == si_of("7 kgf/cm2", Dimension::pressure));
  CHECK(si_of("7 kgf / cm^2", Dimension::pressure) == si_of("7 kgf/cm2", Dimension::pressure));
  CHECK(si_of("7°", Dimension::angle) == si_of("7 deg", Dimension::angle));
  CHECK(si_of("7 °C", Dimension::temperature) == si_of("7 degC", Dimension::temperature));
}

TEST_CASE("a tolerance is half a width in the same unit or its own") {
  const double half_m = 0.02e-3;
  for (const char* text : {"1.98 mm +/- 0.02 mm", "1.98 +/- 0.02 mm", "1.98 mm ± 0.02 mm",
                           "1.98mm±0.02mm", "1.98 ±0.02 mm", "1.98 mm +- 0.02 mm"}) {
    const Outcome<Quantity> read = parse_quantity(text, Dimension::length);
    INFO(text);
    REQUIRE(read.ok());
    CHECK(read.value().si == Approx(0.00198).epsilon(1e-15));
    CHECK(read.value().plus_minus_si == Approx(half_m).epsilon(1e-15));
    CHECK(read.value().unit == "mm");
  }
  const Quantity mixed = parse_quantity("1 in +/- 0.1 mm", Dimension::length).value();
  CHECK(mixed.si == 0.0254);
  CHECK(mixed.plus_minus_si == Approx(1e-4).epsilon(1e-15));
}

TEST_CASE("a tolerance of a temperature is a difference") {
  const Quantity read = parse_quantity("68 +/- 9 degF", Dimension::temperature).value();
  CHECK(read.si == Approx(293.15).epsilon(1e-15));
  CHECK(read.plus_minus_si == Approx(5).epsilon(1e-15));
}

TEST_CASE("a tolerance gone wrong is told") {
  CHECK(length_problem("1.98 mm +/- 0.02") ==
        "\"1.98 mm +/- 0.02\" has a bare number for its tolerance: write "
        "\"1.98 mm +/- 0.02 mm\"");
  CHECK(length_problem("1.98 +/- 0.02") ==
        "\"1.98 +/- 0.02\" is a bare number: write \"0.02 mm\" or \"0.02 in\"");
  CHECK(length_problem("1.98 mm +/-") == "\"1.98 mm +/-\" has nothing after its +/-");
  CHECK(length_problem("1.98 mm +/- -0.02 mm") ==
        "\"1.98 mm +/- -0.02 mm\" has a sign on its tolerance: the half width after +/- has none");
  CHECK(length_problem("1 mm +/- 1 mm +/- 1 mm") ==
        "\"1 mm +/- 1 mm +/- 1 mm\" has more than one +/-");
  CHECK(length_problem("1.98 mm +0.02/-0.01 mm") ==
        "\"1.98 mm +0.02/-0.01 mm\" has unequal limits, which are not read: write the middle "
        "figure and half the width, like \"1.98 mm +/- 0.02 mm\"");
  CHECK(length_problem("1.98 mm +/- 2 psi") ==
        "\"1.98 mm +/- 2 psi\" is a pressure where a length was expected: a length is written in "
        "mm, cm, m, um, in, ft or thou");
}

TEST_CASE("a bare number is refused with both readings of it") {
  CHECK(length_problem("1.98") == "\"1.98\" is a bare number: write \"1.98 mm\" or \"1.98 in\"");
  CHECK(length_problem("0") == "\"0\" is a bare number: write \"0 mm\" or \"0 in\"");
  CHECK(problem_of("30", Dimension::pressure) ==
        "\"30\" is a bare number: write \"30 kPa\" or \"30 psi\"");
  CHECK(problem_of("12", Dimension::torque) ==
        "\"12\" is a bare number: write \"12 N m\" or \"12 lbf ft\"");
}

TEST_CASE("a decimal comma is refused with the point put in") {
  CHECK(length_problem("1,98 mm") == "\"1,98 mm\" has a decimal comma: write \"1.98 mm\"");
  CHECK(length_problem("0,035 in") == "\"0,035 in\" has a decimal comma: write \"0.035 in\"");
  CHECK(length_problem("1,98") == "\"1,98\" has a decimal comma: write \"1.98\"");
}

TEST_CASE("a thousands mark is refused, and where a comma may be either both are offered") {
  CHECK(length_problem("1,234 mm") == "\"1,234 mm\" has a comma that may mark decimals or "
                                      "thousands: write \"1.234 mm\" or \"1234 mm\"");
  for (const char* text : {"1,234.5 mm", "1.234,5 mm", "1 234.5 mm", "1'234.5 mm", "1_234.5 mm"})
    CHECK(length_problem(text) ==
          '"' + std::string(text) + "\" has marks between its digits: write \"1234.5 mm\"");
  CHECK(length_problem("12 345 mm") ==
        "\"12 345 mm\" has marks between its digits: write \"12345 mm\"");
  CHECK(length_problem("1.9.8 mm") == "\"1.9.8 mm\" has more than one decimal point");
}

TEST_CASE("a unit that is nearly one is hinted at") {
  const auto hint = [](std::string_view unit, Dimension dimension) {
    const std::string problem = problem_of("2 " + std::string(unit), dimension);
    const std::size_t at = problem.rfind(": write ");
    INFO(problem);
    REQUIRE(at != std::string::npos);
    return problem.substr(at + 8);
  };
  CHECK(length_problem("1.98 MM") ==
        "\"1.98 MM\" has a unit that is not known, \"MM\": write \"mm\"");
  CHECK(length_problem("0.078\"") == "\"0.078\"\" has an inch mark for its unit: write \"in\"");
  CHECK(hint("''", Dimension::length) == "\"in\"");
  CHECK(hint("inches", Dimension::length) == "\"in\"");
  CHECK(hint("IN", Dimension::length) == "\"in\"");
  CHECK(hint("'", Dimension::length) == "\"ft\"");
  CHECK(hint("mils", Dimension::length) == "\"thou\"");
  CHECK(hint("thuo", Dimension::length) == "\"thou\"");
  CHECK(hint("PSI", Dimension::pressure) == "\"psi\"");
  CHECK(hint("psig", Dimension::pressure) == "\"psi\"");
  CHECK(hint("kpa", Dimension::pressure) == "\"kPa\"");
  CHECK(hint("kg/cm2", Dimension::pressure) == "\"kgf/cm2\"");
  CHECK(hint("NM", Dimension::torque) == "\"N m\"");
  CHECK(hint("nm", Dimension::torque) == "\"N m\"");
  CHECK(hint("foot-pounds", Dimension::torque) == "\"lbf ft\"");
  CHECK(hint("lbs", Dimension::mass) == "\"lb\"");
  CHECK(hint("lbs", Dimension::force) == "\"lbf\"");
  CHECK(hint("degrees", Dimension::angle) == "\"deg\"");
  CHECK(hint("C", Dimension::temperature) == "\"degC\"");
  CHECK(hint("RPM", Dimension::speed_of_turn) == "\"rpm\"");
  CHECK(hint("lb/in", Dimension::stiffness) == "\"lbf/in\"");
  CHECK(hint("seconds", Dimension::time) == "\"s\"");
  CHECK(hint("l", Dimension::volume) == "\"L\"");
  CHECK(hint("litres", Dimension::volume) == "\"L\"");
  CHECK(hint("cu in", Dimension::volume) == "\"in3\"");
  CHECK(hint("g/cc", Dimension::density) == "\"g/cm3\"");
}

TEST_CASE("a unit like no other is refused with the list") {
  CHECK(length_problem("3 furlongs") ==
        "\"3 furlongs\" has a unit that is not known, \"furlongs\": a length is written in "
        "mm, cm, m, um, in, ft or thou");
  CHECK(problem_of("3 furlongs", Dimension::angle) ==
        "\"3 furlongs\" has a unit that is not known, \"furlongs\": an angle is written in "
        "deg or rad");
}

TEST_CASE("another dimension's unit is refused") {
  CHECK(length_problem("30 psi") == "\"30 psi\" is a pressure where a length was expected: a "
                                    "length is written in mm, cm, m, um, in, ft or thou");
  CHECK(problem_of("20 mm", Dimension::angle) ==
        "\"20 mm\" is a length where an angle was expected: an angle is written in deg or rad");
}

TEST_CASE("a mass is told from its weight") {
  CHECK(problem_of("12 lb", Dimension::force) ==
        "\"12 lb\" is a mass where a force was expected: write \"12 lbf\"");
  CHECK(problem_of("12 kg", Dimension::force) ==
        "\"12 kg\" is a mass where a force was expected: write \"12 kgf\"");
  CHECK(problem_of("12 lbf", Dimension::mass) ==
        "\"12 lbf\" is a force where a mass was expected: write \"12 lb\"");
  CHECK(problem_of("12 g", Dimension::force) ==
        "\"12 g\" is a mass where a force was expected: a force is written in N, kN, lbf or kgf");
}

TEST_CASE("a fraction is refused with its decimal") {
  CHECK(length_problem("1/2 in") == "\"1/2 in\" is a fraction: write it as a decimal, \"0.5 in\"");
  CHECK(length_problem("1 1/8 in") ==
        "\"1 1/8 in\" is a fraction: write it as a decimal, \"1.125 in\"");
  CHECK(length_problem("1/0 in") == "\"1/0 in\" is a fraction: write it as a decimal");
}

TEST_CASE("two figures for one are refused") {
  CHECK(length_problem("5 ft 3 in") ==
        "\"5 ft 3 in\" has a second figure after the unit: write one figure in one unit");
}

TEST_CASE("what is no figure is refused") {
  CHECK(length_problem("") ==
        "nothing is written where a length was expected, like \"1 mm\" or \"1 in\"");
  CHECK(length_problem("   ") ==
        "nothing is written where a length was expected, like \"1 mm\" or \"1 in\"");
  CHECK(length_problem("mm") == "\"mm\" has a unit but no figure before it");
  CHECK(length_problem("about 2 mm") == "\"about 2 mm\" does not begin with a figure");
  CHECK(length_problem("--2 mm") == "\"--2 mm\" does not begin with a figure");
  CHECK(length_problem(". mm") == "\". mm\" does not begin with a figure");
  CHECK(length_problem("0x10 mm").find("unit that is not known, \"x10 mm\"") != std::string::npos);
}

TEST_CASE("what is not finite is refused") {
  for (const char* text : {"inf mm", "-inf mm", "nan mm", "Infinity mm", "NaN"})
    CHECK(length_problem(text) == '"' + std::string(text) + "\" is not a finite figure");
  CHECK(length_problem("1e999 mm") ==
        "\"1e999 mm\" is beyond the largest or the smallest figure that can be held");
  CHECK(length_problem("1e-999 mm") ==
        "\"1e-999 mm\" is beyond the largest or the smallest figure that can be held");
  CHECK(problem_of("1e308 kPa", Dimension::pressure) ==
        "\"1e308 kPa\" is beyond the largest figure that can be held");
}

TEST_CASE("nothing is colder than absolute zero") {
  CHECK(si_of("-273.15 degC", Dimension::temperature) == 0);
  CHECK(si_of("-459.67 degF", Dimension::temperature) == 0);
  CHECK(problem_of("-300 degC", Dimension::temperature) == "\"-300 degC\" is below absolute zero");
}

TEST_CASE("a problem quotes little, and only what can be printed") {
  const std::string long_text = "1 " + std::string(150, 'x');
  CHECK(length_problem(long_text).size() < 300);
  const std::string page(100'000, '7');
  CHECK(length_problem(page) == '"' + std::string(59, '7') + "...\" is too long to be a length");
  // Bytes that are no text: a lone continuation, a cut sequence, an overlong one, controls.
  CHECK(
      length_problem("2 \x80\xC3\xE0\x80\x80\x1B\x7F") ==
      "\"2 ???????\" has a unit that is not known, \"???????\": a length is written in mm, cm, m, "
      "um, in, ft or thou");
  CHECK(length_problem(std::string_view("2\0mm", 4)).find("\"2?mm\"") == 0);
}

TEST_CASE("a bench has no figure of 1e300 mm, in any unit") {
  const auto refused = [](const char* text, Dimension dimension, const std::string& words) {
    const auto read = parse_bench_quantity(text, dimension);
    INFO(text);
    REQUIRE_FALSE(read.ok());
    CHECK(read.problem().find(std::string("\"") + text + "\" is " + words) == 0);
  };
  refused("1e300 mm", Dimension::length, "beyond 10 m");
  refused("-1e300 mm", Dimension::length, "beyond 10 m");
  refused("500 in", Dimension::length, "beyond 10 m");
  refused("1.5 mm +/- 1e300 mm", Dimension::length, "beyond 10 m");
  refused("1e-300 mm", Dimension::length, "below 0.0001 mm");
  refused("1e300 deg", Dimension::angle, "beyond 100 turns");
  refused("-1e308 rad", Dimension::angle, "beyond 100 turns");
  refused("nan mm", Dimension::length, "not a finite figure");
  CHECK(parse_bench_quantity("0 mm", Dimension::length).value().si == 0);
  CHECK(parse_bench_quantity("-2 mm", Dimension::length).value().si == Approx(-0.002));
  CHECK(parse_bench_quantity("318.3 mm", Dimension::length).ok());
  CHECK(parse_bench_quantity("-720 deg", Dimension::angle).ok());
  CHECK(parse_bench_quantity("1e12 kPa", Dimension::pressure).ok());
}
