// Expansion by warmth against printed figures; the source stands beside each.

#include "scene/pack/warm.h"

#include <catch2/catch.hpp>

using namespace lugline;

namespace {
constexpr double mm = 1e-3;
}

TEST_CASE("a steel bolt through an aluminium sleeve, warmed") {
  // R. C. Hibbeler, Mechanics of Materials, 8th edition, example 4.12, p. 154: sleeve 600 mm2, 73.1
  // GPa, 23e-6; bolt 400 mm2, 200 GPa, 12e-6; 150 mm, from 15 to 80 degC: 20.3 kN. Read as the
  // output of an open companion that works the book's example.
  // Free, the sleeve would outgrow the bolt: the clearance's change of a chain of the two.
  const WarmChain chain{
      "", "", {{"sleeve", 150 * mm, 1, "aluminium"}, {"bolt", 150 * mm, -1, "steel"}}, 0, 0, 0};
  const double misfit_m = warm_change_m(chain, 80 - 15);
  const double give_m_per_N = 0.150 / (600e-6 * 73.1e9) + 0.150 / (400e-6 * 200e9);
  CHECK(misfit_m / give_m_per_N / 1000 == Approx(20.3).margin(0.05));
  CHECK(expansion_of("aluminium").per_K == 23e-6);
  CHECK(expansion_of("steel").per_K == 12e-6);
}

TEST_CASE("a bar held between walls, warmed") {
  // The same, example 4.10: 6.6e-6 per degF, 29e3 ksi, from 60 to 120 degF: 11.484 ksi. Read as the
  // output of an open companion.
  WarmLink bar{"bar", 1.0, 1, "steel"};
  bar.per_K = 6.6e-6 * 1.8;
  const double strain = warm_change_m({"", "", {bar}, 0, 0, 0}, (120 - 60) / 1.8);
  CHECK(strain * 29e3 == Approx(11.484).margin(5e-4));
}

TEST_CASE("a coefficient that was measured gives the length that was measured") {
  // NIST Technical Note 1900, example E13: 1.4999 m at 288.15 K and 1.5021 m at 373.10 K:
  // 1.7266e-5 per K. Read.
  WarmLink bar{"bar", 1.4999, 1, "copper"};
  bar.per_K = 1.7266e-5;
  CHECK(1.4999 + warm_change_m({"", "", {bar}, 0, 0, 0}, 373.10 - 288.15) ==
        Approx(1.5021).margin(5e-7));
}

TEST_CASE("grey iron and case aluminium in a table of materials") {
  // SDP/SI, Elements of Metric Gear Technology, table 18-10 (read; the columns of the extract are
  // slightly uncertain), per degF: grey iron 6.0e-6, wrought aluminium 12.6e-6, AISI 4140 6.2e-6.
  CHECK(expansion_of("iron").per_K / 1.8 == Approx(6.0e-6));
  CHECK(expansion_of("aluminium").per_K / 1.8 == Approx(12.6e-6).epsilon(0.02));
  CHECK(expansion_of("steel").per_K / 1.8 == Approx(6.2e-6).epsilon(0.08)); // steels differ
}

TEST_CASE("derived: an aluminium case over 100 mm of steel, 80 K") {
  const WarmChain chain{
      "", "", {{"case", 100 * mm, 1, "aluminium"}, {"pack", 100 * mm, -1, "steel"}}, 0, 0, 0};
  CHECK(warm_change_m(chain, 80) / mm == Approx(0.088));
  CHECK(warm_change_m(chain, 80) / 25.4e-3 == Approx(0.00346).margin(5e-6));
}
