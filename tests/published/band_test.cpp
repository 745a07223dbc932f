// Band brakes against worked examples of textbooks; the source stands beside each check.
// "By the companion": the digits are those that an open companion of the named book prints for the
// example of that number (read there), not read in the book itself.

#include "scene/drive/band.h"

#include <catch2/catch.hpp>

#include <numbers>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double inch = 25.4 * mm;
constexpr double deg = std::numbers::pi / 180;
constexpr double psi = 6894.757293168;
constexpr double lbf = 4.4482216152605;
/// Sarkar's companion takes pi as 3.14; to meet its digits so do the checks of it.
constexpr double companion_pi = 3.14;

} // namespace

TEST_CASE("a differential band brake: Bhandari, Design of Machine Elements, example 12.10") {
  // By the companion: band 100 x 3 mm at 50 N/mm2, mu 0.25, R 300 mm, 240 deg, slack end at 200,
  // tight end at 50 mm, the pull 750 mm beyond the slack end: P1 = 15000, P2 = 5263.797108,
  // P = 318.694128 N, Mt = 2920.860868 N m, not self-locking.
  DifferentialBand band;
  band.drum_m = 600 * mm;
  band.width_m = 100 * mm;
  band.wrap_rad = 240 * deg;
  band.friction = 0.25;
  band.slack_arm_m = 200 * mm;
  band.tight_arm_m = 50 * mm;
  band.pull_arm_m = 950 * mm;
  const double tight_N = 50e6 * 100 * mm * 3 * mm;
  const double torque_Nm = (tight_N - tight_N / band_grip(0.25, 240 * deg)) * 300 * mm;
  const double pull_N = differential_pull_N(band, torque_Nm);
  CHECK(pull_N == Approx(318.694128).margin(5e-7));
  const DifferentialCapacity is = differential_capacity(band, 318.694128);
  CHECK_FALSE(is.self_locking);
  CHECK(is.tight_N == Approx(15000).margin(5e-4));
  CHECK(is.slack_N == Approx(5263.797108).margin(5e-4));
  CHECK(is.torque_Nm == Approx(2920.860868).margin(5e-5));
  // Derived, no publication.
  CHECK(is.lining_Pa == Approx(0.5e6));
}

TEST_CASE("a band brake with a lever: Sarkar, Theory of Machines, illustration 10.4") {
  // By the companion: 2000 N at 0.5 m, pin 0.1 m from the fulcrum, drum 0.5 m, five eighths of the
  // circle, mu 0.25: 4.17 kN m.
  const double free_end_N = 2000 * 0.5 / 0.1;
  const double grip = band_grip(0.25, 5.0 / 8 * 2 * companion_pi);
  CHECK(tightening_torque_Nm(free_end_N, 0.5, grip) / 1e3 == Approx(4.17).margin(5e-3));
  // With the lever's ratio as the band's own, by the whole calculation.
  BandDesign band;
  band.servo = {0.1, 0};
  band.lever = 5;
  band.drum_m = 0.5;
  band.wrap_rad = 225 * deg;
  band.friction = 0.25;
  band.tightens_clockwise = true;
  const double pressure_Pa = 2000 / area_m2(band.servo);
  CHECK(band_capacity(band, {"", pressure_Pa, 1000}).capacity_Nm / 1e3 ==
        Approx(4.17).margin(5e-3));
}

TEST_CASE("when a band brake locks by itself: Sarkar, illustration 10.5") {
  // By the companion: 340 N m, drum 0.32 m, 220 deg, mu 0.3: tensions 3107.70 and 982.70 N; with
  // the tight end at 4 cm it locks once the slack end is at 12.65 cm.
  const double wrap_rad = 220 * companion_pi / 180;
  DifferentialBand band;
  band.drum_m = 0.32;
  band.wrap_rad = wrap_rad;
  band.friction = 0.3;
  band.slack_arm_m = 0.16;
  band.tight_arm_m = 0.04;
  band.pull_arm_m = 0.5;
  const DifferentialCapacity is = differential_capacity(band, differential_pull_N(band, 340));
  CHECK(is.tight_N == Approx(3107.70).margin(5e-3));
  CHECK(is.slack_N == Approx(982.70).margin(5e-3));
  CHECK(band_grip(0.3, wrap_rad) * 4 == Approx(12.65).margin(5e-3));
  band.slack_arm_m = 0.1264;
  CHECK(differential_capacity(band, 10).self_locking);
  band.slack_arm_m = 0.1266;
  CHECK_FALSE(differential_capacity(band, 10).self_locking);
}

TEST_CASE("where to pull a differential band brake: Sarkar, illustration 10.7") {
  // By the companion: 30 kW at 1250 rpm, drum 0.8 m, 310 deg, mu 0.2, arms 0.12 and 0.03 m, pulled
  // with 60 N at 0.155 m.
  DifferentialBand band;
  band.drum_m = 0.8;
  band.wrap_rad = 310 * companion_pi / 180;
  band.friction = 0.2;
  band.slack_arm_m = 0.12;
  band.tight_arm_m = 0.03;
  band.pull_arm_m = 1;
  const double torque_Nm = 30e3 * 60 / (2 * companion_pi * 1250);
  CHECK(differential_pull_N(band, torque_Nm) / 60 == Approx(0.155).margin(5.1e-4));
}

TEST_CASE("band tensions from the lining's pressure: Mott, Machine Elements, example 22-10") {
  // Read in a page of the fourth edition: 25 psi, radius 6 in, width 2 in, 225 deg, f 0.25:
  // P1 = 300 lb, P2 = 112 lb; the printed torque, 1128 lb in, is of the rounded tensions.
  const double tight_N = 300 * lbf;
  CHECK(band_lining_Pa(tight_N, 12 * inch, 2 * inch) / psi == Approx(25).epsilon(1e-9));
  const double slack_N = tight_N / band_grip(0.25, 225 * deg);
  CHECK(slack_N / lbf == Approx(112).margin(0.5));
  CHECK(tightening_torque_Nm(slack_N, 12 * inch, band_grip(0.25, 225 * deg)) / (lbf * inch) ==
        Approx(1128).margin(6 * 0.5));
}

TEST_CASE("five turns at a friction of 0.6 multiply a pull 153552935 times") {
  // Read in a public encyclopaedia page on the capstan equation: no textbook, so it does not count.
  CHECK(band_grip(0.6, 5 * 360 * deg) == Approx(153552935).margin(0.5));
}
