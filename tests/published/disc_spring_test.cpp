// Disc springs against printed figures; the source stands beside each. Figures from memory and
// figures that follow from the formulas alone say so.

#include "scene/pack/disc_spring.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <numbers>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double MPa = 1e6;

DiscSpring disc(double outer_mm, double inner_mm, double thickness_mm, double cone_mm) {
  return {outer_mm * mm, inner_mm * mm, thickness_mm * mm, cone_mm * mm};
}

} // namespace

TEST_CASE("a disc spring worked in Machinery's Handbook") {
  // Machinery's Handbook, 31st edition, p. 362: De 80, Di 41, t 4, h0 2.2 mm, E 206 000 MPa, mu
  // 0.3; loaded at the contact circles, effective De 77.778 mm. The text was read.
  const double ratio = 80.0 / 41.0;
  CHECK(ratio == Approx(1.95122).margin(5e-6));
  CHECK(disc_factors(ratio).k1 == Approx(0.6841).margin(5e-5));
  // The handbook puts the effective diameter in the place of De and keeps K1 of De / Di.
  const auto load_N = [&](double s_mm) {
    const double wide_N = disc_load_N(disc(80, 41, 4, 2.2), s_mm * mm);
    return wide_N * std::pow(80 / 77.778, 2);
  };
  CHECK(load_N(0.9) == Approx(14390).epsilon(5e-4)); // the handbook rounds on the way
  CHECK(load_N(1.32) == Approx(20050).epsilon(5e-4));
  CHECK(load_N(0.9) / 4.4482216152605 == Approx(3235).epsilon(5e-4));
  CHECK(load_N(1.32) / 4.4482216152605 == Approx(4510).margin(5)); // printed to three figures
  CHECK(stack_free_m(disc(80, 41, 4, 2.2), {1, 6}) / mm == Approx(37.2));
}

TEST_CASE("the stress of a spring that a standard corrected") {
  // DIN 2093:2013-12, foreword: table 1, De 25 (25 x 12.2 x 1.5, h0 0.55), stress at 0.75 h0
  // corrected from 1419 to 1091 MPa: the outer edge's, where the inner edge's had stood. The text
  // was read.
  const DiscSpring spring = disc(25, 12.2, 1.5, 0.55);
  const DiscStress stress = disc_stress(spring, 0.75 * spring.cone_m);
  CHECK(stress.iii_Pa / MPa == Approx(1091).margin(1));
  CHECK(stress.ii_Pa / MPa == Approx(1419).margin(1));
}

TEST_CASE("the factor K1 in a table of a data handbook") {
  // J. Carvill, Mechanical Engineer's Data Handbook, p. 36, K1 against De / Di, two places that
  // are cut or rounded: within 0.009. The table was read.
  const std::array<std::pair<double, double>, 8> rows{{{1.4, 0.46},
                                                       {1.8, 0.64},
                                                       {2.2, 0.73},
                                                       {2.6, 0.76},
                                                       {3.0, 0.78},
                                                       {3.4, 0.80},
                                                       {3.8, 0.80},
                                                       {5.0, 0.79}}};
  for (const auto& [ratio, k1] : rows) {
    INFO(ratio);
    CHECK(disc_factors(ratio).k1 == Approx(k1).margin(0.009));
  }
}

TEST_CASE("loads of the standard's series, from memory") {
  // DIN 2093 (1992), load at 0.75 h0, three figures: from memory; later issues worked it again,
  // hence half a percent.
  struct Row {
    double outer_mm, inner_mm, thickness_mm, cone_mm, load_N;
  };
  const std::array<Row, 8> rows{{{8, 4.2, 0.4, 0.2, 210},
                                 {35.5, 18.3, 2, 0.8, 5190},
                                 {50, 25.4, 3, 1.1, 12000},
                                 {100, 51, 6, 2.2, 48000},
                                 {20, 10.2, 0.8, 0.55, 745},
                                 {50, 25.4, 2, 1.4, 4760},
                                 {20, 10.2, 0.5, 0.65, 254},
                                 {100, 51, 2.7, 3.5, 8610}}};
  for (const Row& row : rows) {
    INFO(row.outer_mm << " x " << row.thickness_mm);
    const DiscSpring spring = disc(row.outer_mm, row.inner_mm, row.thickness_mm, row.cone_mm);
    CHECK(disc_load_N(spring, 0.75 * spring.cone_m) == Approx(row.load_N).epsilon(5e-3));
  }
}

TEST_CASE("derived: at h0 / t of root two a disc has no rate when flat; below it never falls") {
  DiscSpring spring = disc(50, 25.4, 1, std::numbers::sqrt2);
  const double stiff = disc_rate_N_per_m(spring, 0);
  CHECK(disc_rate_N_per_m(spring, spring.cone_m) / stiff == Approx(0).margin(1e-12));
  // The rate is the load's slope.
  const double step_m = 1e-7;
  CHECK(disc_rate_N_per_m(spring, 0.4 * mm) ==
        Approx((disc_load_N(spring, 0.4 * mm + step_m) - disc_load_N(spring, 0.4 * mm - step_m)) /
               (2 * step_m))
            .epsilon(1e-6));
}
