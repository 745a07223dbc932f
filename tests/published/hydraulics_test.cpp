// Pistons, the head of a turning fluid, and air through holes, against printed figures; the source
// stands beside each check. "By the companion": the digits are those that an open companion of the
// named book prints for the example of that number (read there), not read in the book itself.

#include "scene/drive/air.h"
#include "scene/drive/capacity.h"
#include "scene/drive/gas.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <numbers>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double inch = 25.4 * mm;
constexpr double foot = 12 * inch;
constexpr double rpm = std::numbers::pi / 30;
constexpr double psi = 6894.757293168;
constexpr double lbf = 4.4482216152605;
constexpr double cubic_foot = foot * foot * foot;

} // namespace

TEST_CASE("centrifugal head: Dighe, Hydraulics Made Easy, example 3.12") {
  // By the companion: radii 2 and 1 ft, 200 rpm, g 32.2 ft/s2: 20.4 ft.
  const double head_Pa = centrifugal_head_Pa(1000, 200 * rpm, 2 * foot, 1 * foot);
  CHECK(head_Pa / (1000 * 32.2 * foot) / foot == Approx(20.4).margin(0.05));
}

TEST_CASE("pressures of a cylinder: Esposito, Fluid Power with Applications, example 6-1") {
  // By the companion: bore 2, rod 1 in, 1000 lb: 318 psi to extend, 425 psi to retract (which
  // works out as 424.4; the companion rounds up).
  CHECK(moves_at_Pa({2 * inch, 0}, {1000 * lbf, 1000 * lbf, 0, true}) / psi ==
        Approx(318).margin(0.5));
  CHECK(moves_at_Pa({2 * inch, 1 * inch}, {1000 * lbf, 1000 * lbf, 0, true}) / psi ==
        Approx(425).margin(1));
}

TEST_CASE("speeds of the same cylinder at 20 gal/min") {
  // By the companion: 2.05 ft/s out (works out as 2.042), 2.73 ft/s back (2.722; rounded up).
  const double flow_m3_per_s = 20 * 6.30901964e-5;
  CHECK(flow_m3_per_s / area_m2({2 * inch, 0}) / foot == Approx(2.05).margin(0.01));
  CHECK(flow_m3_per_s / area_m2({2 * inch, 1 * inch}) / foot == Approx(2.73).margin(0.01));
}

TEST_CASE("an intensifier: Wentzell, example 10.2") {
  // By the companion: 100 psi on 4 in against 1 in: 1600 psi; on a 3 in piston 11309.73 lb; 4 in
  // of travel give 0.44 in.
  const double pressure_Pa = 100 * psi * area_m2({4 * inch, 0}) / area_m2({1 * inch, 0});
  CHECK(pressure_Pa / psi == Approx(1600));
  CHECK(pressure_Pa * area_m2({3 * inch, 0}) / lbf == Approx(11309.73).margin(5e-3));
  CHECK(4 * area_m2({1 * inch, 0}) / area_m2({3 * inch, 0}) == Approx(0.44).margin(5e-3));
}

TEST_CASE("Boyle's law: Esposito, example 13-1") {
  // By the companion: 20 psig in 20 in3; a 2 in bore comes in by 4 in: 78.7 psig (14.7 outside).
  const double left_in3 = 20 - 4 * area_m2({2 * inch, 0}) / (inch * inch);
  CHECK((20 + 14.7) * 20 / left_in3 - 14.7 == Approx(78.7).margin(0.05));
  // The free air that the air check counts is the same law.
  const AirPiston cylinder{"", "", {2 * inch, 0}, std::nullopt, 0, 0, 0, 1e-4, 0};
  BenchAir air;
  air.outside_Pa = 14.7 * psi;
  const AirReach is = air_reach(cylinder, {20 * psi, 30 * psi, 10 * psi}, 20 * psi, air);
  CHECK((is.free_air_m3 * reference_Pa + air.outside_Pa * 1e-4) / 1e-4 ==
        Approx((20 + 14.7) * psi));
}

TEST_CASE("air lost from a flat tyre: Cengel and Cimbala, Fluid Mechanics, example 12-5") {
  // By the companion: 220 kPa gauge, 94 kPa outside, 25 degC, a 4 mm leak, R 0.287: choked,
  // 0.00924 kg/s.
  const BenchAir air{94e3, 298, 287};
  CHECK(air.outside_Pa / 314e3 < nozzle_critical_ratio(1.4));
  CHECK(hole_flow_kg_per_s(4 * mm, 1, 314e3, air) == Approx(0.00924).margin(5e-6));
  // By the leak that the air check works with: the same.
  const Leak leak{hole_conductance(4 * mm, 1, air), nozzle_critical_ratio(1.4)};
  CHECK(leak_flow_kg_per_s(leak, 314e3, air) == Approx(0.00924).margin(5e-6));
}

TEST_CASE("critical pressure and temperature: Cengel and Cimbala, example 12-3") {
  // By the companion: carbon dioxide, k 1.289, 1400 kPa, 473 K: 413 K, 767 kPa.
  CHECK(473 * nozzle_critical_temperature_ratio(1.289) == Approx(413).margin(0.5));
  CHECK(1400 * nozzle_critical_ratio(1.289) == Approx(767).margin(0.5));
}

TEST_CASE("critical ratio of air: Cengel and Cimbala, table 12-2") {
  // By the companion of example 12-4: 0.5283.
  CHECK(nozzle_critical_ratio(1.4) == Approx(0.5283).margin(5e-5));
}

TEST_CASE("flow by ISO 6358") {
  // Read in an open example file of an implementation of the standard: C 1e-8 m3/(s Pa), b 0.35,
  // 700 to 100 kPa, 293.15 K: 0.008295 kg/s.
  const BenchAir air{100e3, 293.15, 287};
  CHECK(leak_flow_kg_per_s({1e-8, 0.35}, 700e3, air) == Approx(0.008295).margin(5e-7));
}

TEST_CASE("discharge of air through an orifice: S. A. Moss's table") {
  // American Machinist, September 20, 1906, and the adiabatic formula below 15 psi, read in a
  // reprint of the table: cubic feet of free air a minute (14.7 psia, 70 degF, 0.07494 lb/ft3)
  // through a perfect hole. The table says of itself that it is approximate; held to 0.7 %, the
  // two-figure entries to their last digit.
  struct Row {
    double psig;
    double hole_in;
    double printed;
    double margin;
  };
  constexpr std::array rows{
      Row{1, 1.0 / 4, 7.18, 0.05},    Row{2, 1.0 / 32, 0.158, 5e-4},
      Row{5, 1.0 / 64, 0.062, 5e-4},  Row{5, 1.0 / 8, 3.97, 5e-3},
      Row{9, 1.0 / 16, 1.32, 5e-3},   Row{12, 1.0 / 32, 0.379, 2.6e-3},
      Row{15, 1.0 / 64, 0.105, 5e-4}, Row{20, 1.0 / 64, 0.123, 5e-4},
      Row{30, 1.0 / 16, 2.53, 0.018}, Row{50, 1.0 / 32, 0.916, 6e-3},
      Row{100, 1.0 / 8, 26.0, 0.05},
  };
  const BenchAir air{14.7 * psi, 530 / 1.8, 287};
  const double free_air = 0.07494 * 0.45359237 / cubic_foot;
  for (const Row& row : rows) {
    const double inside_Pa = (row.psig + 14.7) * psi;
    const double hole_m = row.hole_in * inch;
    const double flow = hole_flow_kg_per_s(hole_m, 1, inside_Pa, air);
    CHECK(flow / free_air / cubic_foot * 60 == Approx(row.printed).margin(row.margin));
    const Leak leak{hole_conductance(hole_m, 1, air), nozzle_critical_ratio(1.4)};
    CHECK(leak_flow_kg_per_s(leak, inside_Pa, air) / free_air / cubic_foot * 60 ==
          Approx(row.printed).margin(row.margin));
  }
}

TEST_CASE("a pack's return springs: US Army TM 9-2320-272-24-4, page 5-380") {
  // Read there: 26 springs, free 1.28 in, at 0.95 in 13.6 to 16.4 lb (60.5 to 72.9 N). The manual
  // prints no rate, so this holds the units and the sum of a pack, not the springs.
  for (const auto& [load_lbf, printed_N] : {std::pair{13.6, 60.5}, std::pair{16.4, 72.9}}) {
    ReturnSprings springs{1, load_lbf * lbf / (0.33 * inch), 1.28 * inch, 0.95 * inch, 0};
    CHECK(spring_back(springs, 0, 0).home_N == Approx(printed_N).margin(0.06));
    springs.count = 26;
    CHECK(spring_back(springs, 0, 0).home_N == Approx(26 * load_lbf * lbf));
  }
}

TEST_CASE("the ceiling for air at a clutch piston: US Army TM 9-2320-280-34") {
  // Read there: must not exceed 50 psi (345 kPa).
  CHECK(published_air_ceiling_Pa / 1e3 == Approx(345).margin(0.5));
}
