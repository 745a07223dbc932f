#include "scene/drive/band.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <numbers>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double deg = std::numbers::pi / 180;

/// An invented practice band: the demo's lower one, wrapped nearly twice.
BandDesign practice_band() {
  BandDesign band;
  band.id = "lb";
  band.name = "lower band";
  band.servo = {72 * mm, 0};
  band.spring_force_N = 300;
  band.lever = 1.25;
  band.drum_m = 164 * mm;
  band.wrap_rad = 660 * deg;
  band.friction = 0.12;
  band.tightens_clockwise = true;
  return band;
}

bool says(const std::string& words, const char* what) {
  return words.find(what) != std::string::npos;
}

} // namespace

TEST_CASE("a band holds far more the way that tightens it") {
  const BandCapacity tight = band_capacity(practice_band(), {"reverse", 1.5e6, 1178.2});
  REQUIRE(tight.worked);
  CHECK(tight.tightens);
  CHECK(tight.band_N == Approx(7259.1).margin(0.05));
  CHECK(tight.capacity_Nm == Approx(1776.2).margin(0.05));
  CHECK(tight.margin == Approx(1.51).margin(0.005));
  CHECK(tight.report.verdict == ReportVerdict::good);
  CHECK(says(tight.report.verdict_words, "direction that tightens"));
  const BandCapacity loose = band_capacity(practice_band(), {"", 1.5e6, -1178.2});
  CHECK_FALSE(loose.tightens);
  CHECK(loose.capacity_Nm == tight.loosening_Nm);
  CHECK(loose.report.verdict == ReportVerdict::bad);
  CHECK(says(loose.report.verdict_words, "does not tighten"));
  // The two differ by exactly the grip.
  CHECK(tight.tightening_Nm / tight.loosening_Nm == Approx(tight.grip));
}

TEST_CASE("which way tightens follows the unit's word") {
  BandDesign band = practice_band();
  band.tightens_clockwise = false;
  CHECK_FALSE(band_capacity(band, {"", 1.5e6, 100}).tightens);
  CHECK(band_capacity(band, {"", 1.5e6, -100}).tightens);
}

TEST_CASE("pulls and lining pressure of either direction") {
  BandDesign band = practice_band();
  band.width_m = 40 * mm;
  const BandCapacity tight = band_capacity(band, {"", 1.5e6, 100});
  CHECK(tight.anchor_N == Approx(tight.band_N * tight.grip));
  CHECK(tight.lining_Pa == Approx(tight.anchor_N / (0.04 * 0.082)));
  // Torque is the difference of the pulls times the radius, whichever end is tight.
  CHECK((tight.anchor_N - tight.band_N) * 0.082 == Approx(tight.tightening_Nm));
  const BandCapacity loose = band_capacity(band, {"", 1.5e6, -100});
  CHECK(loose.lining_Pa == Approx(loose.band_N / (0.04 * 0.082)));
  CHECK((loose.band_N - loose.anchor_N) * 0.082 == Approx(loose.loosening_Nm));
  CHECK(band_capacity(band, {"", 1.5e6, {}}).lining_Pa == tight.lining_Pa);
  CHECK(band_capacity(practice_band(), {"", 1.5e6, 100}).lining_Pa == 0);
}

TEST_CASE("Euler's equation agrees with adding up the band's small pieces") {
  // dP = mu P dtheta, marched round by the midpoint rule.
  double pull_N = 1;
  const int pieces = 200000;
  const double step_rad = 660 * deg / pieces;
  for (int piece = 0; piece < pieces; ++piece) {
    const double middle_N = pull_N * (1 + 0.12 * step_rad / 2);
    pull_N += 0.12 * middle_N * step_rad;
  }
  CHECK(band_grip(0.12, 660 * deg) == Approx(pull_N).epsilon(1e-9));
}

TEST_CASE("pressure below the servo's spring holds nothing, and says what it takes") {
  for (const double pressure_Pa : {0.0, 73e3}) {
    const BandCapacity is = band_capacity(practice_band(), {"", pressure_Pa, 10});
    REQUIRE(is.worked);
    CHECK(is.capacity_Nm == 0);
    CHECK(is.report.verdict == ReportVerdict::bad);
    CHECK(says(is.report.verdict_words, "that takes 73.7 kPa"));
  }
  CHECK(band_capacity(practice_band(), {"", 74e3, 10}).capacity_Nm > 0);
}

TEST_CASE("without a torque both directions are told, and the lesser is the capacity") {
  const BandCapacity is = band_capacity(practice_band(), {"", 1e6, {}});
  CHECK(is.report.verdict == ReportVerdict::none);
  CHECK(is.capacity_Nm == is.loosening_Nm);
  CHECK(band_capacity(practice_band(), {"", 1e6, 0}).report.verdict == ReportVerdict::good);
}

TEST_CASE("a band's capacity rises with pressure, wrap and friction") {
  double before_Nm = 0;
  for (int step = 1; step < 20; ++step) {
    const double now_Nm = band_capacity(practice_band(), {"", 100e3 * step, {}}).tightening_Nm;
    CHECK(now_Nm > before_Nm);
    before_Nm = now_Nm;
  }
  before_Nm = 0;
  for (int step = 1; step < 36; ++step) {
    BandDesign band = practice_band();
    band.wrap_rad = 20 * step * deg;
    const BandCapacity is = band_capacity(band, {"", 1e6, {}});
    CHECK(is.tightening_Nm > before_Nm);
    CHECK(is.tightening_Nm > is.loosening_Nm);
    // However long it is, a band against its servo never holds more than its free end's pull.
    CHECK(is.loosening_Nm < is.band_N * 0.082);
    before_Nm = is.tightening_Nm;
  }
}

TEST_CASE("what a band cannot be is refused with a sentence") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refusal = [](const BandDesign& band, const BandDuty& duty) {
    const BandCapacity is = band_capacity(band, duty);
    CHECK_FALSE(is.worked);
    CHECK(is.report.verdict == ReportVerdict::refused);
    return is.report.verdict_words;
  };
  const BandDuty duty{"", 1e6, 10};
  BandDesign band = practice_band();
  band.wrap_rad = 0;
  CHECK(says(refusal(band, duty), "no wrap"));
  band.wrap_rad = 660; // degrees taken for radians
  CHECK(says(refusal(band, duty), "in degrees or in radians"));
  band = practice_band();
  band.friction = 0;
  CHECK(says(refusal(band, duty), "coefficient of friction"));
  band = practice_band();
  band.drum_m = 0;
  CHECK(says(refusal(band, duty), "no diameter that"));
  band = practice_band();
  band.lever = 0;
  CHECK(says(refusal(band, duty), "lever"));
  band = practice_band();
  band.servo = {};
  CHECK(says(refusal(band, duty), "no outer diameter"));
  band = practice_band();
  CHECK(says(refusal(band, {"", -1, 10}), "pressure below nothing"));
  CHECK(says(refusal(band, {"", 1e6, nan}), "torque"));
}

TEST_CASE("a differential band pulls with its slack arm and locks where the grip wins") {
  DifferentialBand band;
  band.drum_m = 0.6;
  band.wrap_rad = 240 * deg;
  band.friction = 0.25;
  band.slack_arm_m = 0.2;
  band.tight_arm_m = 0.05;
  band.pull_arm_m = 0.95;
  const DifferentialCapacity is = differential_capacity(band, 300);
  REQUIRE(is.worked);
  CHECK_FALSE(is.self_locking);
  // Moments about the pivot.
  CHECK(is.slack_N * 0.2 == Approx(is.tight_N * 0.05 + 300 * 0.95));
  CHECK(differential_pull_N(band, is.torque_Nm) == Approx(300));

  band.tight_arm_m = 0.2 / is.grip * 1.0001;
  const DifferentialCapacity locked = differential_capacity(band, 300);
  CHECK(locked.self_locking);
  CHECK(says(locked.report.verdict_words, "locks by itself"));
  CHECK(locked.torque_Nm == 0);
  CHECK(differential_pull_N(band, 100) < 0);
}

TEST_CASE("with its tight end on the pivot a differential band is a simple one") {
  DifferentialBand band;
  band.drum_m = 164 * mm;
  band.wrap_rad = 300 * deg;
  band.friction = 0.12;
  band.slack_arm_m = 0.1;
  band.pull_arm_m = 0.125;
  CHECK(differential_capacity(band, 1000).torque_Nm ==
        Approx(tightening_torque_Nm(1250, 164 * mm, band_grip(0.12, 300 * deg))));
  band.slack_arm_m = 0;
  CHECK(says(differential_capacity(band, 1000).report.verdict_words, "arms"));
  CHECK(says(differential_capacity(band, -1).report.verdict_words, "arms"));
  band.slack_arm_m = 0.1;
  CHECK(says(differential_capacity(band, -1).report.verdict_words, "pull below nothing"));
}
