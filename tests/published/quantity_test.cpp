// Unit factors against sources outside the project.
//
// SP 811: A. Thompson and B. N. Taylor, "Guide for the Use of the International System of
// Units (SI)", NIST Special Publication 811, 2008 edition, Appendix B.8. Each line says how
// we know its digits: "read" in public texts that quote the table, or "from memory".
#include "scene/quantity/quantity.h"
#include "scene/quantity/units.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

using namespace lugline;

namespace {

double si_of(const std::string& text, Dimension dimension) {
  const Outcome<Quantity> read = parse_quantity(text, dimension);
  INFO(text << ": " << (read.ok() ? "read" : read.problem()));
  REQUIRE(read.ok());
  return read.value().si;
}

double one(std::string_view unit) {
  const UnitOfMeasure* found = find_unit(unit);
  REQUIRE(found != nullptr);
  return si_of("1 " + std::string(unit), found->dimension);
}

// The figure in scientific notation with as many decimals as were printed.
std::string scientific(double value, int decimals) {
  std::array<char, 64> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "%.*E", decimals, value);
  return buffer.data();
}

struct Printed {
  const char* unit;
  const char* factor; ///< every digit as printed, without the spaces between them
  int decimals;
};

} // namespace

TEST_CASE("factors of SP 811 Appendix B.8, to every printed digit") {
  const std::vector<Printed> table = {
      {"in", "2.54E-02", 2},         // read; exact
      {"ft", "3.048E-01", 3},        // read; exact
      {"thou", "2.54E-05", 2},       // "mil"; read; exact
      {"lb", "4.535924E-01", 6},     // read
      {"oz", "2.834952E-02", 6},     // avoirdupois; read
      {"lbf", "4.448222E+00", 6},    // read
      {"kgf", "9.80665E+00", 5},     // read; exact
      {"psi", "6.894757E+03", 6},    // read
      {"kgf/cm2", "9.80665E+04", 5}, // read; exact
      {"bar", "1.0E+05", 1},         // from memory; exact
      {"lbf ft", "1.355818E+00", 6}, // read
      {"lbf in", "1.129848E-01", 6}, // read
      {"kgf m", "9.80665E+00", 5},   // read; exact
      {"lbf/in", "1.751268E+02", 6}, // from memory
      {"deg", "1.745329E-02", 6},    // from memory
      {"rpm", "1.047198E-01", 6},    // read
  };
  for (const Printed& printed : table) {
    INFO(printed.unit);
    CHECK(scientific(one(printed.unit), printed.decimals) == printed.factor);
  }
}

TEST_CASE("temperatures of SP 811 Appendix B.8") {
  // Read: T/K = t/degC + 273.15 and T/K = (t/degF + 459.67)/1.8, both exact.
  CHECK(si_of("20 degC", Dimension::temperature) == Approx(20 + 273.15).epsilon(1e-15));
  CHECK(si_of("68 degF", Dimension::temperature) == Approx((68 + 459.67) / 1.8).epsilon(1e-15));
  // Read: an interval of one degF is 5.555 556 E-01 K.
  const Quantity interval = parse_quantity("0 +/- 1 degF", Dimension::temperature).value();
  CHECK(scientific(interval.plus_minus_si, 6) == "5.555556E-01");
  // t/degC = (t/degF - 32)/1.8, read with the same table.
  CHECK(find_unit("degC")->from_si(si_of("212 degF", Dimension::temperature)) ==
        Approx((212 - 32) / 1.8).epsilon(1e-14));
}

TEST_CASE("exact values from the definitions") {
  // Inch, pound and standard gravity by definition (SI Brochure and SP 811); the products of
  // them carried out in full. From memory, as are the reciprocals below.
  CHECK(one("in") == 25.4e-3);
  CHECK(one("lb") == 0.45359237);
  CHECK(one("kgf") == 9.80665);
  CHECK(one("lbf") == 4.4482216152605);
  CHECK(one("psi") == Approx(6894.757293168).epsilon(1e-13));
  CHECK(one("lbf ft") == 1.3558179483314004);
  CHECK(one("lbf in") == 0.1129848290276167);
  CHECK(one("kgf/cm2") == 98066.5);
  CHECK(scientific(one("kgf/cm2") / one("psi"), 8) == "1.42233433E+01"); // 14.2233433
  CHECK(scientific(one("kgf m") / one("lbf ft"), 8) == "7.23301385E+00");
  CHECK(scientific(one("bar") / one("psi"), 8) == "1.45037738E+01"); // 14.5037738
}

TEST_CASE("inch and millimetre pairs printed in maintenance manuals") {
  struct Pair {
    const char* inch;
    const char* millimetre;
  };
  // Read: pairs printed side by side in US Army technical manuals (TM 10-3930-664-24 p. 4-57,
  // TM 5-3805-254-34 p. 6-142 and their kin) and in Duffy, "Automatic Transmissions &
  // Transaxles" (2010) p. 415 (.030 in).
  const std::vector<Pair> pairs = {
      {"0.030 in", "0.762 mm"},   {"0.048 in", "1.22 mm"}, {"0.080 in", "2.03 mm"},
      {"0.135 in", "3.43 mm"},    {"0.88 in", "22.35 mm"}, {"0.090 in", "2.286 mm"},
      {"0.0993 in", "2.5222 mm"},
  };
  for (const Pair& pair : pairs) {
    const std::string millimetre = pair.millimetre;
    const auto places = static_cast<int>(millimetre.find(' ') - millimetre.find('.') - 1);
    const double length_m = si_of(pair.inch, Dimension::length);
    CHECK(print_length(length_m, LengthUnit::millimetre, places) == millimetre);
  }
}

TEST_CASE("a misprinted pair in a manual is not agreed with") {
  // Read: a technical manual prints "0.102 in (2.74 mm)"; 0.102 in is 2.59 mm.
  const double length_m = si_of("0.102 in", Dimension::length);
  CHECK(print_length(length_m, LengthUnit::millimetre) == "2.59 mm");
  CHECK(print_length(length_m, LengthUnit::millimetre) != "2.74 mm");
}

TEST_CASE("pressure pairs printed in maintenance manuals") {
  // Read: 50 psi = 345 kPa (TM 9-2320-280-34); 185 to 215 psi = 1276 to 1482 kPa
  // (TM 55-1905-220-14-4).
  const auto kPa = [](const char* text) {
    return std::lround(si_of(text, Dimension::pressure) / 1e3);
  };
  CHECK(kPa("50 psi") == 345);
  CHECK(kPa("185 psi") == 1276);
  CHECK(kPa("215 psi") == 1482);
  CHECK(print_pressure(si_of("50 psi", Dimension::pressure), LengthUnit::millimetre) == "345 kPa");
}

TEST_CASE("force pairs printed in a maintenance manual") {
  // Read: a return spring of 13.6 to 16.4 lb = 60.5 to 72.9 N (TM 9-2320-272-24-4 p. 5-380).
  // 16.4 lbf is 72.951 N, so the manual cut where it should have rounded: to within its place.
  CHECK(print_force(si_of("13.6 lbf", Dimension::force), LengthUnit::millimetre) == "60.5 N");
  CHECK(si_of("16.4 lbf", Dimension::force) == Approx(72.9).margin(0.1));
}

namespace {

struct Closer {
  void operator()(std::FILE* file) const { pclose(file); }
};

// GNU units' answer, or nothing when it says anything but one figure.
std::optional<double> gnu_units(const std::string& from, const std::string& to) {
  const std::string command =
      "LC_ALL=C units -f '' -t -o %.17g '" + from + "' '" + to + "' </dev/null 2>&1";
  const std::unique_ptr<std::FILE, Closer> pipe(popen(command.c_str(), "r"));
  if (!pipe)
    return std::nullopt;
  std::string text;
  std::array<char, 256> buffer{};
  while (std::fgets(buffer.data(), static_cast<int>(buffer.size()), pipe.get()) != nullptr)
    text += buffer.data();
  double value = 0;
  int used = 0;
  if (std::sscanf(text.c_str(), "%lf %n", &value, &used) != 1 ||
      static_cast<std::size_t>(used) != text.size())
    return std::nullopt;
  return value;
}

std::string gnu_si(Dimension dimension) {
  switch (dimension) {
  case Dimension::length:
    return "m";
  case Dimension::angle:
    return "radian";
  case Dimension::force:
    return "N";
  case Dimension::pressure:
    return "Pa";
  case Dimension::torque:
    return "N m";
  case Dimension::mass:
    return "kg";
  case Dimension::stiffness:
    return "N/m";
  case Dimension::temperature:
    return "K";
  case Dimension::speed_of_turn:
    return "radian/s";
  case Dimension::time:
    return "s";
  case Dimension::volume:
    return "m^3";
  case Dimension::density:
    return "kg/m^3";
  }
  return {};
}

// How GNU units writes "<figure> <unit>", where it differs from us.
std::string gnu_quantity(const std::string& figure, std::string_view unit) {
  static const std::map<std::string_view, std::string> names = {
      {"thou", "mil"},       {"um", "micrometer"}, {"deg", "degree"},     {"kgf/cm2", "kgf/cm^2"},
      {"deg/s", "degree/s"}, {"rad", "radian"},    {"rad/s", "radian/s"}, {"rpm", "revolution/min"},
  };
  if (unit == "degC" || unit == "degF")
    return (unit == "degC" ? "tempC(" : "tempF(") + figure + ')';
  const auto other = names.find(unit);
  return figure + ' ' + (other == names.end() ? std::string(unit) : other->second);
}

} // namespace

TEST_CASE("GNU units agrees about every unit") {
  if (std::system("command -v units >/dev/null 2>&1") != 0) {
    WARN("SKIPPED: the program 'units' is not installed, so it could not be asked");
    return;
  }
  for (const UnitOfMeasure& unit : all_units()) {
    for (const std::string figure : {"1", "1.98", "12345.678"}) {
      const std::string from = gnu_quantity(figure, unit.name);
      const std::optional<double> judge = gnu_units(from, gnu_si(unit.dimension));
      INFO(from);
      REQUIRE(judge.has_value());
      CHECK(si_of(figure + ' ' + std::string(unit.name), unit.dimension) ==
            Approx(*judge).epsilon(4e-15));
    }
  }
}

TEST_CASE("GNU units is not asked in a way that agrees with anything") {
  if (std::system("command -v units >/dev/null 2>&1") != 0) {
    WARN("SKIPPED: the program 'units' is not installed");
    return;
  }
  CHECK_FALSE(gnu_units("1 lbf", "m").has_value());
  CHECK_FALSE(gnu_units("1 furlongue", "m").has_value());
  CHECK(gnu_units("1 lbf", "N").value() != gnu_units("1 kgf", "N").value());
}
