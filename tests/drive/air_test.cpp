#include "scene/drive/air.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double one_kPa = 1e3;
constexpr double millilitre = 1e-6;
const AirTest bench{250 * one_kPa, 280 * one_kPa, 150 * one_kPa};

/// An invented practice clutch: that of the demo's middle drum.
AirPiston practice_piston() {
  AirPiston piston;
  piston.id = "mc";
  piston.name = "the middle clutch";
  piston.piston = {140 * mm, 104 * mm};
  piston.springs = ReturnSprings{14, 6000, 22 * mm, 15 * mm, 10.5 * mm};
  piston.stroke_m = 1.2 * mm;
  piston.most_stroke_m = 4.5 * mm;
  piston.volume_m3 = 40 * millilitre;
  piston.good_hold_s = 5;
  return piston;
}

bool says(const std::string& words, const char* what) {
  return words.find(what) != std::string::npos;
}

bool any_says(const std::vector<std::string>& lines, const char* what) {
  for (const std::string& line : lines) {
    if (says(line, what)) {
      return true;
    }
  }
  return false;
}

} // namespace

TEST_CASE("bench air moves a piston through its stroke and clamps with what is left") {
  const AirReach is = air_reach(practice_piston(), bench, 250 * one_kPa);
  REQUIRE(is.worked);
  CHECK(is.push_N == Approx(1724.7).margin(0.05));
  CHECK(is.moves);
  CHECK(is.completes);
  CHECK(is.travel_m == Approx(1.2 * mm));
  CHECK(is.clamp_N == Approx(1724.7 - 688.8).margin(0.05));
  CHECK(is.volume_m3 == Approx(40e-6 + 6898.9375e-6 * 1.2e-3));
  // Boyle: absolute pressure times volume, less the air that was in it.
  CHECK(is.free_air_m3 == Approx((351.325e3 * is.volume_m3 - 101.325e3 * 40e-6) / 100e3));
  CHECK(is.report.verdict == ReportVerdict::good);
  CHECK(any_says(is.report.cautions, "Compressed air"));
  CHECK(any_says(is.report.notes, "1910.242(b)"));
}

TEST_CASE("too little air leaves the piston at home or part of the way") {
  const AirReach home = air_reach(practice_piston(), bench, 80 * one_kPa);
  CHECK_FALSE(home.moves);
  CHECK(home.travel_m == 0);
  CHECK(home.clamp_N == 0);
  CHECK(home.report.verdict == ReportVerdict::bad);
  CHECK(says(home.report.verdict_words, "does not move below 85.2 kPa (12.4 psi)"));

  const double half_Pa = (588 + 0.6 * mm * 84000) / 6898.9375e-6;
  const AirReach part = air_reach(practice_piston(), bench, half_Pa);
  CHECK(part.moves);
  CHECK_FALSE(part.completes);
  CHECK(part.travel_m == Approx(0.6 * mm).epsilon(1e-6));
  CHECK(says(part.report.verdict_words, "stops at 0.60 mm (0.024 in) of 1.20 mm"));
}

TEST_CASE("travel and clamp force rise with the air, and never beyond the stroke") {
  double travel_m = 0;
  double clamp_N = 0;
  for (double pressure_Pa = 10 * one_kPa; pressure_Pa <= 280 * one_kPa;
       pressure_Pa += 5 * one_kPa) {
    const AirReach is = air_reach(practice_piston(), bench, pressure_Pa);
    REQUIRE(is.worked);
    CHECK(is.travel_m >= travel_m);
    CHECK(is.travel_m <= 1.2 * mm);
    CHECK(is.clamp_N >= clamp_N);
    CHECK(is.moves == (is.travel_m > 0));
    travel_m = is.travel_m;
    clamp_N = is.clamp_N;
  }
  CHECK(clamp_N > 1000);
}

TEST_CASE("air above the unit's limit is refused with the caution, at the limit it is not") {
  const AirReach is = air_reach(practice_piston(), bench, 280.1 * one_kPa);
  CHECK_FALSE(is.worked);
  CHECK(is.report.verdict == ReportVerdict::refused);
  CHECK(says(is.report.verdict_words, "above the unit's limit for bench air, 280 kPa"));
  CHECK(any_says(is.report.cautions, "Compressed air"));
  CHECK(any_says(is.report.notes, "no limit for testing"));
  CHECK(is.push_N == 0);
  CHECK(air_reach(practice_piston(), bench, 280 * one_kPa).worked);
  CHECK_FALSE(leak_from_hold(practice_piston(), bench, {300 * one_kPa, 150 * one_kPa, 4}).worked);
  CHECK_FALSE(
      hold_with_leak(practice_piston(), bench, 300 * one_kPa, 150 * one_kPa, {1e-10, 0.5}).worked);
}

TEST_CASE("a unit that states no limit for air is asked for one first") {
  CHECK(says(air_reach(practice_piston(), {}, 100 * one_kPa).report.verdict_words,
             "states no limit for bench air"));
}

TEST_CASE("a limit above the published ceiling is warned of") {
  const AirTest bold{250 * one_kPa, 400 * one_kPa, 150 * one_kPa};
  CHECK(any_says(air_reach(practice_piston(), bold, 250 * one_kPa).report.cautions,
                 "TM 9-2320-280-34"));
  CHECK_FALSE(any_says(air_reach(practice_piston(), bench, 250 * one_kPa).report.cautions,
                       "TM 9-2320-280-34"));
}

TEST_CASE("psi read as kPa moves nothing, and the report asks whether it was psi") {
  const AirReach slip = air_reach(practice_piston(), bench, 36 * one_kPa);
  CHECK_FALSE(slip.moves);
  CHECK(any_says(slip.report.notes, "Was the gauge in psi? 36.00 psi is 248 kPa"));
  // Where it would not help, it is not asked.
  CHECK_FALSE(any_says(air_reach(practice_piston(), bench, 5 * one_kPa).report.notes, "psi?"));
  CHECK_FALSE(any_says(air_reach(practice_piston(), bench, 80 * one_kPa).report.notes, "psi?"));
  // The other way round, kPa typed as psi, is far above the limit.
  const double wrong_Pa = parse_quantity("250 psi", Dimension::pressure).value().si;
  CHECK(air_reach(practice_piston(), bench, wrong_Pa).report.verdict == ReportVerdict::refused);
  CHECK_FALSE(parse_quantity("250", Dimension::pressure).ok());
}

TEST_CASE("a servo with a stated spring force has no stroke to tell") {
  AirPiston servo;
  servo.name = "the lower servo";
  servo.piston = {72 * mm, 0};
  servo.spring_force_N = 300;
  const AirReach is = air_reach(servo, bench, 250 * one_kPa);
  CHECK(is.completes);
  CHECK(is.clamp_N == Approx(250e3 * 4071.504e-6 - 300));
  CHECK(says(is.report.verdict_words, "stroke is not stated"));
  CHECK_FALSE(air_reach(servo, bench, 70 * one_kPa).moves);
}

TEST_CASE("a piston that cannot close its pack, or cannot with the air allowed, says so") {
  AirPiston worn = practice_piston();
  worn.most_stroke_m = 1 * mm;
  const AirReach is = air_reach(worn, bench, 250 * one_kPa);
  CHECK(is.moves);
  CHECK_FALSE(is.completes);
  CHECK(is.travel_m == 1 * mm);
  CHECK(says(is.report.verdict_words, "ends on its stop"));
  AirPiston stiff = practice_piston();
  stiff.springs->count = 60;
  CHECK(
      any_says(air_reach(stiff, bench, 250 * one_kPa).report.notes, "cannot be checked with air"));
}

TEST_CASE("figures that cannot be are plain sentences") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double inf = std::numeric_limits<double>::infinity();
  for (const double pressure_Pa : {0.0, -1.0, nan, inf}) {
    const AirReach is = air_reach(practice_piston(), bench, pressure_Pa);
    CHECK_FALSE(is.worked);
    CHECK_FALSE(is.report.verdict_words.empty());
  }
  AirPiston piston = practice_piston();
  piston.volume_m3 = 1;
  CHECK(says(air_reach(piston, bench, 1e5).report.verdict_words, "ten litres"));
  piston = practice_piston();
  piston.piston = {100 * mm, 100 * mm};
  CHECK(says(air_reach(piston, bench, 1e5).report.verdict_words, "no area is left"));

  const auto hold = [](double from_Pa, double to_Pa, double seconds) {
    const HoldResult is = leak_from_hold(practice_piston(), bench, {from_Pa, to_Pa, seconds});
    CHECK_FALSE(is.worked);
    CHECK(is.report.verdict == ReportVerdict::refused);
    return is.report.verdict_words;
  };
  CHECK(says(hold(250e3, 150e3, 0), "no time tells nothing"));
  CHECK(says(hold(250e3, 150e3, -3), "no time tells nothing"));
  CHECK(says(hold(250e3, 150e3, nan), "no time tells nothing"));
  CHECK(says(hold(250e3, 150e3, 1e6), "more than a day"));
  CHECK(says(hold(150e3, 250e3, 3), "ends higher than it began"));
  CHECK(says(hold(250e3, 0, 3), "still reads something"));
  CHECK(says(hold(250e3, nan, 3), "still reads something"));

  const auto forecast = [](const Leak& leak) {
    const HoldForecast is = hold_with_leak(practice_piston(), bench, 250e3, 150e3, leak);
    CHECK_FALSE(is.worked);
    return is.report.verdict_words;
  };
  CHECK(says(forecast({-1e-10, 0.5}), "leak below nothing"));
  CHECK(says(forecast({nan, 0.5}), "leak below nothing"));
  CHECK(says(forecast({1e-3, 0.5}), "open port"));
  CHECK(says(forecast({1e-10, 1}), "between 0 and 1"));
  CHECK(says(
      leak_from_hold(practice_piston(), bench, {250e3, 150e3, 3}, {1.2, 0.65}).report.verdict_words,
      "between 0 and 1"));
  CHECK(says(
      leak_from_hold(practice_piston(), bench, {250e3, 150e3, 3}, {0.5, 0}).report.verdict_words,
      "discharge coefficient"));
}

TEST_CASE("a timed hold gives the leak that would hold just as long") {
  for (const double seconds : {0.5, 5.0, 60.0}) {
    const HoldResult is =
        leak_from_hold(practice_piston(), bench, {250 * one_kPa, 90 * one_kPa, seconds});
    REQUIRE(is.worked);
    CHECK(is.leak.conductance > 0);
    const HoldForecast back =
        hold_with_leak(practice_piston(), bench, 250 * one_kPa, 90 * one_kPa, is.leak);
    CHECK(back.seconds == Approx(seconds));
    CHECK(leak_of_hole(is.hole_m).conductance == Approx(is.leak.conductance));
  }
}

TEST_CASE("a hold is held to the unit's good one, from whatever pressures it was read") {
  const HoldResult good =
      leak_from_hold(practice_piston(), bench, {250 * one_kPa, 150 * one_kPa, 5});
  CHECK(good.report.verdict == ReportVerdict::good);
  CHECK(good.full_hold_s == Approx(5));
  CHECK(good.times_good_leak == Approx(1));
  CHECK(good.hole_m == Approx(good.good_hole_m));

  const HoldResult bad =
      leak_from_hold(practice_piston(), bench, {250 * one_kPa, 150 * one_kPa, 1});
  CHECK(bad.report.verdict == ReportVerdict::bad);
  CHECK(bad.times_good_leak == Approx(5));
  CHECK(says(bad.report.verdict_words, "5.000 times as much"));
  CHECK(bad.hole_m > good.hole_m);

  // The same leak read over less of the fall is judged the same.
  const double part_s =
      hold_with_leak(practice_piston(), bench, 240 * one_kPa, 200 * one_kPa, bad.leak).seconds;
  const HoldResult part =
      leak_from_hold(practice_piston(), bench, {240 * one_kPa, 200 * one_kPa, part_s});
  CHECK(part.times_good_leak == Approx(5));
  REQUIRE(part.report.scale);
  CHECK(part.report.scale->low == 5);
  CHECK(part.report.scale->value_si == Approx(1));
}

TEST_CASE("without a volume the hold is still held to the good one; without either only sized") {
  AirPiston piston = practice_piston();
  piston.volume_m3 = 0;
  const HoldResult is = leak_from_hold(piston, bench, {250 * one_kPa, 150 * one_kPa, 2.5});
  REQUIRE(is.worked);
  CHECK(is.hole_m == 0);
  CHECK(is.times_good_leak == Approx(2));
  CHECK(any_says(is.report.notes, "size does not follow"));
  CHECK(says(hold_with_leak(piston, bench, 250e3, 150e3, {1e-10, 0.5}).report.verdict_words,
             "volume of passage and cylinder is not stated"));
  piston.good_hold_s = 0;
  CHECK(says(leak_from_hold(piston, bench, {250e3, 150e3, 2.5}).report.verdict_words,
             "neither a good hold nor the volume"));
  piston = practice_piston();
  piston.good_hold_s = 0;
  const HoldResult sized = leak_from_hold(piston, bench, {250 * one_kPa, 150 * one_kPa, 2.5});
  CHECK(sized.report.verdict == ReportVerdict::none);
  CHECK(sized.hole_m > 0);
  CHECK(sized.times_good_leak == 0);
}

TEST_CASE("a gauge that does not fall shows no leak, and no leak holds without end") {
  const HoldResult is =
      leak_from_hold(practice_piston(), bench, {250 * one_kPa, 250 * one_kPa, 60});
  CHECK(is.worked);
  CHECK(is.leak.conductance == 0);
  CHECK(is.report.verdict == ReportVerdict::good);
  const HoldForecast never = hold_with_leak(practice_piston(), bench, 250e3, 150e3, {0, 0.5});
  CHECK(std::isinf(never.seconds));
  CHECK(says(never.report.verdict_words, "without end"));
  CHECK(never.report.results.empty());
}

TEST_CASE("longer holds are smaller leaks, and a bigger volume makes the same time a bigger one") {
  double before = 1;
  for (double seconds = 0.25; seconds < 100; seconds *= 2) {
    const double now =
        leak_from_hold(practice_piston(), bench, {250e3, 150e3, seconds}).leak.conductance;
    CHECK(now < before);
    before = now;
  }
  AirPiston big = practice_piston();
  big.volume_m3 *= 3;
  CHECK(leak_from_hold(big, bench, {250e3, 150e3, 5}).leak.conductance >
        leak_from_hold(practice_piston(), bench, {250e3, 150e3, 5}).leak.conductance);
}
