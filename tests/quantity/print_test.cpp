#include "scene/quantity/quantity.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace lugline;

TEST_CASE("a length has two places in millimetres and three in inches") {
  CHECK(print_length(0.0009, LengthUnit::millimetre) == "0.90 mm");
  CHECK(print_length(0.0009, LengthUnit::inch) == "0.035 in");
  CHECK(print_length(0.0009, LengthUnit::millimetre, 3) == "0.900 mm");
  CHECK(print_length(0.12345, LengthUnit::millimetre, 0) == "123 mm");
  CHECK(print_length_figure(0.0254, LengthUnit::inch, 4) == "1.0000");
  CHECK(print_length_both(0.0009, LengthUnit::millimetre) == "0.90 mm (0.035 in)");
  CHECK(print_length_both(0.0009, LengthUnit::inch) == "0.035 in (0.90 mm)");
}

TEST_CASE("halves go away from zero as they are written, not as their bits fall") {
  // 1.005 and 1.015 lie below and above their decimal in binary.
  CHECK(print_length(1.005e-3, LengthUnit::millimetre) == "1.01 mm");
  CHECK(print_length(1.015e-3, LengthUnit::millimetre) == "1.02 mm");
  CHECK(print_length(1.025e-3, LengthUnit::millimetre) == "1.03 mm");
  CHECK(print_length(-1.005e-3, LengthUnit::millimetre) == "-1.01 mm");
  CHECK(print_length(1.0049999e-3, LengthUnit::millimetre) == "1.00 mm");
  CHECK(print_length(0.5e-3, LengthUnit::millimetre, 0) == "1 mm");
  CHECK(print_length(0.4999e-3, LengthUnit::millimetre, 0) == "0 mm");
}

TEST_CASE("nines carry") {
  CHECK(print_length(9.996e-3, LengthUnit::millimetre) == "10.00 mm");
  CHECK(print_length(99.996e-3, LengthUnit::millimetre) == "100.00 mm");
  CHECK(print_length(0.006e-3, LengthUnit::millimetre) == "0.01 mm");
  CHECK(print_length(0.996e-3, LengthUnit::millimetre) == "1.00 mm");
}

TEST_CASE("no figure is minus nothing") {
  CHECK(print_length(-0.0, LengthUnit::millimetre) == "0.00 mm");
  CHECK(print_length(-1e-9, LengthUnit::millimetre) == "0.00 mm");
  CHECK(print_length(-4.999e-6, LengthUnit::millimetre) == "0.00 mm");
  CHECK(print_length(-5e-6, LengthUnit::millimetre) == "-0.01 mm");
  CHECK(print_length(1e-300, LengthUnit::millimetre) == "0.00 mm");
  CHECK_FALSE(std::signbit(rounded_mm(-1e-12)));
  CHECK_FALSE(std::signbit(rounded_deg(-0.0)));
}

TEST_CASE("large figures keep every place") {
  CHECK(print_length(123456.789, LengthUnit::millimetre) == "123456789.00 mm");
  CHECK(print_length(1e20, LengthUnit::millimetre, 1) == "100000000000000000000000.0 mm");
}

TEST_CASE("angles print in degrees") {
  CHECK(print_angle(std::numbers::pi) == "180.00 deg");
  CHECK(print_angle(std::numbers::pi / 24, 3) == "7.500 deg");
  CHECK(print_angle(-std::numbers::pi / 180, 0) == "-1 deg");
}

TEST_CASE("pressures, forces, torques and masses keep their leading figures") {
  CHECK(print_pressure(206842.71879504, LengthUnit::inch) == "30.0 psi");
  CHECK(print_pressure(206842.71879504, LengthUnit::millimetre) == "207 kPa");
  CHECK(print_pressure(5250, LengthUnit::millimetre) == "5.25 kPa");
  CHECK(print_force(72.94, LengthUnit::millimetre) == "72.9 N");
  CHECK(print_force(14390.4, LengthUnit::millimetre) == "14390 N");
  CHECK(print_force(72.94, LengthUnit::inch) == "16.4 lbf");
  CHECK(print_torque(16.2698153799768, LengthUnit::inch) == "12.0 lbf ft");
  CHECK(print_torque(16.2698153799768, LengthUnit::millimetre) == "16.3 N m");
  CHECK(print_torque(-235.619, LengthUnit::millimetre) == "-236 N m");
  CHECK(print_mass(0.1381044, LengthUnit::millimetre) == "0.138 kg");
  CHECK(print_mass(0.45359237, LengthUnit::inch) == "1.000 lb");
  CHECK(print_mass(12.3456, LengthUnit::millimetre) == "12.35 kg");
}

TEST_CASE("rounding for machines is in millimetres and degrees") {
  CHECK(rounded_mm(0.00123456) == 1.2346);
  CHECK(rounded_mm(0.00123455) == 1.2346);
  CHECK(rounded_mm(-0.00123455) == -1.2346);
  CHECK(rounded_mm(0.0012, 0) == 1);
  CHECK(rounded_deg(std::numbers::pi / 7) == 25.7143);
  CHECK(rounded_deg(std::numbers::pi / 7, 1) == 25.7);
}

TEST_CASE("each dimension has its word") {
  CHECK(word_for(Dimension::length) == "length");
  CHECK(word_for(Dimension::angle) == "angle");
  CHECK(word_for(Dimension::force) == "force");
  CHECK(word_for(Dimension::pressure) == "pressure");
  CHECK(word_for(Dimension::torque) == "torque");
  CHECK(word_for(Dimension::mass) == "mass");
  CHECK(word_for(Dimension::stiffness) == "stiffness");
  CHECK(word_for(Dimension::temperature) == "temperature");
  CHECK(word_for(Dimension::speed_of_turn) == "speed of turn");
  CHECK(word_for(Dimension::time) == "time");
  CHECK(word_for(Dimension::volume) == "volume");
  CHECK(word_for(Dimension::density) == "density");
}
