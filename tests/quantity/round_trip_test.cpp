// What is printed is read back as the same figure, over many figures of a fixed seed.
#include "scene/quantity/quantity.h"
#include "scene/quantity/units.h"

#include <catch2/catch.hpp>

#include <array>
#include <charconv>
#include <clocale>
#include <cmath>
#include <cstdint>
#include <locale>
#include <sstream>
#include <string>

using namespace lugline;

namespace {

// Our own, so that the figures are the same with every library.
class Figures {
public:
  explicit Figures(std::uint64_t seed) : state_(seed) {}

  double between(double low, double high) {
    state_ += 0x9E3779B97F4A7C15;
    std::uint64_t bits = state_;
    bits = (bits ^ (bits >> 30)) * 0xBF58476D1CE4E5B9;
    bits = (bits ^ (bits >> 27)) * 0x94D049BB133111EB;
    bits ^= bits >> 31;
    return low + (high - low) * static_cast<double>(bits >> 11) * 0x1p-53;
  }

private:
  std::uint64_t state_;
};

double read(const std::string& text, Dimension dimension) {
  const Outcome<Quantity> quantity = parse_quantity(text, dimension);
  INFO(text << ": " << (quantity.ok() ? "read" : quantity.problem()));
  REQUIRE(quantity.ok());
  return quantity.value().si;
}

class DecimalComma : public std::numpunct<char> {
protected:
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

std::string shortest(double value) {
  std::array<char, 40> buffer{};
  return {buffer.data(), std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr};
}

} // namespace

TEST_CASE("a printed length reads back to within half its last place") {
  Figures figures(20260101);
  for (int i = 0; i < 20'000; ++i) {
    const double length_m = figures.between(-0.5, 0.5) * std::pow(10, figures.between(-5, 1));
    for (int places = 0; places <= 6; ++places) {
      const double half_mm = 0.5 * std::pow(10, -places);
      const double from_mm =
          read(print_length(length_m, LengthUnit::millimetre, places), Dimension::length);
      CHECK(std::fabs(from_mm - length_m) <= half_mm * 1e-3 * (1 + 1e-6) + 1e-15);
      const double from_in =
          read(print_length(length_m, LengthUnit::inch, places), Dimension::length);
      CHECK(std::fabs(from_in - length_m) <= half_mm * 25.4e-3 * (1 + 1e-6) + 1e-15);
    }
  }
}

TEST_CASE("a figure with few places prints as it was written, through SI and back") {
  // Every hundredth of a millimetre and thousandth of an inch that a bench can read.
  for (int hundredths = 0; hundredths <= 30'000; ++hundredths) {
    const std::string places = std::to_string(hundredths % 100);
    const std::string written = std::to_string(hundredths / 100) + '.' +
                                std::string(2 - places.size(), '0') + places + " mm";
    CHECK(print_length(read(written, Dimension::length), LengthUnit::millimetre) == written);
  }
  for (int thousandths = 0; thousandths <= 12'000; ++thousandths) {
    const std::string places = std::to_string(thousandths % 1000);
    const std::string written = std::to_string(thousandths / 1000) + '.' +
                                std::string(3 - places.size(), '0') + places + " in";
    CHECK(print_length(read(written, Dimension::length), LengthUnit::inch) == written);
  }
}

TEST_CASE("rounding twice is rounding once") {
  Figures figures(7);
  for (int i = 0; i < 20'000; ++i) {
    const double length_m = figures.between(-1, 1);
    const double once_mm = rounded_mm(length_m);
    CHECK(rounded_mm(once_mm / 1e3) == once_mm);
    CHECK(std::fabs(once_mm - length_m * 1e3) <= 0.5e-4 * (1 + 1e-9));
    const double once_deg = rounded_deg(length_m);
    CHECK(std::fabs(once_deg * 3.14159265358979 / 180 - length_m) <= 0.5e-4 * 0.01746);
  }
}

TEST_CASE("every unit takes a figure to SI and back") {
  Figures figures(99);
  for (const UnitOfMeasure& unit : all_units()) {
    for (int i = 0; i < 500; ++i) {
      const double figure = figures.between(0, 1000);
      const double si = read(shortest(figure) + ' ' + std::string(unit.name), unit.dimension);
      INFO(unit.name << ' ' << figure);
      CHECK(unit.from_si(si) == Approx(figure).epsilon(1e-14).margin(1e-12));
    }
  }
}

TEST_CASE("adding a sign negates, except where there is a zero that is not nought") {
  Figures figures(5);
  for (const UnitOfMeasure& unit : all_units()) {
    if (unit.dimension == Dimension::temperature)
      continue;
    const std::string text = shortest(figures.between(0, 100)) + ' ' + std::string(unit.name);
    CHECK(read('-' + text, unit.dimension) == -read(text, unit.dimension));
  }
}

TEST_CASE("a locale with a decimal comma changes nothing") {
  // The C++ locale for certain, and the C one where such a locale is installed.
  const std::locale before = std::locale::global(std::locale(std::locale(), new DecimalComma));
  const std::string c_before = std::setlocale(LC_ALL, nullptr);
  const bool comma_in_c = std::setlocale(LC_ALL, "de_DE.UTF-8") != nullptr ||
                          std::setlocale(LC_ALL, "fr_FR.UTF-8") != nullptr;
  std::ostringstream stream;
  stream << 1.5;
  CHECK(stream.str() == "1,5"); // the trap is set
  INFO("C locale with a comma: " << comma_in_c);
  CHECK(read("1.98 mm", Dimension::length) == Approx(0.00198).epsilon(1e-15));
  CHECK(print_length(0.00198, LengthUnit::millimetre) == "1.98 mm");
  CHECK(print_length(1234.5, LengthUnit::millimetre) == "1234500.00 mm");
  CHECK(rounded_mm(0.00198) == 1.98);
  CHECK_FALSE(parse_quantity("1,98 mm", Dimension::length).ok());
  std::setlocale(LC_ALL, c_before.c_str());
  std::locale::global(before);
}
