// Springs, friction plates, warmth and end play: worked by hand, at their limits, and refused.

#include "scene/pack/disc_spring.h"
#include "scene/pack/end_play.h"
#include "scene/pack/frictions.h"
#include "scene/pack/warm.h"
#include "scene/pack/wave.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;

bool tells(const CalculationReport& report, const std::string& words) {
  const auto lines = lines_of(report, LengthUnit::millimetre);
  return std::ranges::any_of(
      lines, [&](const std::string& line) { return line.find(words) != std::string::npos; });
}

double result(const CalculationReport& report, const std::string& what) {
  const auto found = std::ranges::find(report.results, what, &ReportLine::what);
  INFO(report.title << ": " << what);
  REQUIRE(found != report.results.end());
  return found->si;
}

const DiscSpring dished{142 * mm, 118 * mm, 1.6 * mm, 1.0 * mm};
const WavePlate wave{190 * mm, 146 * mm, 1.8 * mm, 2.8 * mm, 3};

BenchReading reading(std::vector<double> places_mm, Instrument instrument = Instrument::unstated) {
  for (double& place : places_mm) {
    place *= mm;
  }
  return {"", places_mm, instrument};
}

} // namespace

TEST_CASE("a disc spring's load and height both ways") {
  for (const double s_mm : {0.0, 0.1, 0.5, 0.9, 1.0}) {
    const double load_N = disc_load_N(dished, s_mm * mm);
    const auto back_m = disc_deflection_m(dished, load_N);
    REQUIRE(back_m);
    CHECK(*back_m / mm == Approx(s_mm).margin(1e-9));
  }
  const CalculationReport at = disc_report("d", dished, {1, 1}, 0.5 * mm);
  CHECK(result(at, "height") / mm == Approx(2.1));
  const CalculationReport back = disc_report_at_load("d", dished, {1, 1}, result(at, "load"));
  CHECK(result(back, "height") / mm == Approx(2.1));
}

TEST_CASE("in series the deflections add, in parallel the loads") {
  const double load_N = disc_load_N(dished, 0.5 * mm);
  CHECK(result(disc_report("d", dished, {2, 1}, 0.5 * mm), "load") == Approx(2 * load_N));
  CHECK(result(disc_report("d", dished, {1, 3}, 1.5 * mm), "load") == Approx(load_N));
  CHECK(stack_free_m(dished, {2, 3}) / mm == Approx(3 * (2.6 + 1.6)));
}

TEST_CASE("a disc whose load falls before it is flat gives the least deflection") {
  const DiscSpring steep{100 * mm, 51 * mm, 2.7 * mm, 5.4 * mm}; // h0 / t = 2
  const double crest_N = disc_load_N(steep, 2.5 * mm);
  const auto at_m = disc_deflection_m(steep, crest_N);
  REQUIRE(at_m);
  CHECK(disc_load_N(steep, *at_m) == Approx(crest_N));
  CHECK(disc_rate_N_per_m(steep, *at_m) > 0);
}

TEST_CASE("discs that are none, and loads that they never carry, are refused in words") {
  CHECK(disc_report("d", {}, {}, 0).verdict == ReportVerdict::refused);
  CHECK(disc_report("d", {50 * mm, 60 * mm, 1 * mm, 1 * mm}, {}, 0).verdict ==
        ReportVerdict::refused);
  CHECK(disc_report("d", {50 * mm, 25 * mm, 1 * mm, -1 * mm}, {}, 0).verdict ==
        ReportVerdict::refused);
  CHECK(disc_report("d", {50 * mm, 25 * mm, std::nan(""), 1 * mm}, {}, 0).verdict ==
        ReportVerdict::refused);
  CHECK(disc_report("d", dished, {0, 1}, 0).verdict == ReportVerdict::refused);
  CHECK(disc_report("d", dished, {1, 1}, 1.5 * mm).verdict == ReportVerdict::refused);
  CHECK(tells(disc_report_at_load("d", dished, {1, 1}, 1e6), "more than it carries"));
  CHECK(disc_report_at_load("d", dished, {1, 1}, -5).verdict == ReportVerdict::refused);
  // An inch figure for the thickness: a plate 25.4 times as thick has no cone left.
  CHECK_FALSE(why_no_disc({142 * mm, 118 * mm, 1.6 * mm, 25.4 * mm}).empty());
}

TEST_CASE("a wave plate's load and height both ways, by both models") {
  const CalculationReport at = wave_report_at_load("w", wave, 100);
  const double height_m = result(at, "height, beams");
  CHECK(height_m < 2.8 * mm);
  CHECK(result(wave_report_at_height("w", wave, height_m), "load, beams") == Approx(100));
  const double other_m = result(at, "height, published practice");
  CHECK(result(wave_report_at_height("w", wave, other_m), "load, published practice") ==
        Approx(100));
  CHECK(tells(wave_report_at_load("w", wave, 1e6), "flat"));
  CHECK(result(wave_report_at_load("w", wave, 1e6), "height, beams") / mm == Approx(1.8));
  CHECK(wave_report_at_height("w", wave, 3.0 * mm).verdict == ReportVerdict::refused);
  CHECK(wave_report_at_height("w", wave, 0.070 * mm).verdict == ReportVerdict::refused);
  CHECK(wave_report_at_load("w", {}, 10).verdict == ReportVerdict::refused);
  CHECK(wave_report_at_load("w", wave, std::nan("")).verdict == ReportVerdict::refused);
  WavePlate flat = wave;
  flat.waves = 0;
  CHECK(wave_report_at_load("w", flat, 10).verdict == ReportVerdict::refused);
}

TEST_CASE("friction plates: wear in percent, soaked clearance, the unit's limits for each") {
  Frictions frictions{"CC", "Case clutch", {}, 1.60 * mm, 1.40 * mm, 0.02 * mm, 0.90 * mm};
  CHECK(frictions_report(frictions).verdict == ReportVerdict::refused); // none at all
  frictions.plates = {{"friction 1", 1.55 * mm, true},
                      {"friction 2", 1.50 * mm, true},
                      {"friction 3", 1.60 * mm, false},
                      {"friction 4", 1.60 * mm, false}};
  CHECK(worn_share(1.6, 1.4, 1.55) == Approx(0.25));
  const CalculationReport report = frictions_report(frictions);
  CHECK(report.verdict == ReportVerdict::good);
  CHECK(result(report, "lost by all together") / mm == Approx(0.15));
  CHECK(result(report, "clearance with all soaked") / mm == Approx(0.82));
  CHECK(result(report, "clearance for each friction") / mm == Approx(0.225));
  CHECK(tells(report, "50.0 %"));
  frictions.plates[1].thickness_m = 1.39 * mm;
  CHECK(tells(frictions_report(frictions), "friction 2 is worn out"));
  frictions.plates[1].thickness_m = 1.50 * mm;
  frictions.each_low_m = 0.25 * mm;
  frictions.each_high_m = 0.40 * mm;
  CHECK(frictions_report(frictions).verdict == ReportVerdict::bad);
  CHECK(tells(frictions_report(frictions), "outside the unit's"));
  // The rule of thumb alone is a hint and judges nothing.
  frictions.each_low_m.reset();
  frictions.clearance_m = 4 * mm;
  CHECK(frictions_report(frictions).verdict == ReportVerdict::good);
  CHECK(tells(frictions_report(frictions), "Only a hint"));
}

TEST_CASE("frictions that cannot be are asked about") {
  Frictions frictions{"CC", "Case clutch", {{"friction 1", 1.6 * 25.4 * mm, true}}, 1.60 * mm};
  CHECK(tells(frictions_report(frictions), "is it another pack's?"));
  frictions.plates[0].thickness_m = 1.6 * mm;
  frictions.least_m = 1.7 * mm;
  CHECK(frictions_report(frictions).verdict == ReportVerdict::refused);
  frictions.new_m = 0;
  CHECK(frictions_report(frictions).verdict == ReportVerdict::refused);
}

TEST_CASE("an aluminium case opens a steel pack as it warms") {
  // Derived: 100 mm each, 80 K: (23 - 12)e-6 x 100 x 80 = 0.088 mm.
  WarmChain chain{
      "CC",   "Case clutch", {{"case", 100 * mm, 1, "aluminium"}, {"plates", 99 * mm, -1, "steel"}},
      1 * mm, 0.8 * mm,      1.2 * mm};
  CHECK(warm_change_m(chain, 80) / mm == Approx(23e-6 * 100 * 80 - 12e-6 * 99 * 80));
  const CalculationReport report = warm_report(chain, 273.15 + 100);
  CHECK(result(report, "change") / mm == Approx(0.08896));
  CHECK(result(report, "clearance at 100 degC") / mm == Approx(1.08896));
  // At 20 degC nothing changes; below it the pack closes.
  CHECK(result(warm_report(chain, bench_K), "change") == 0);
  CHECK(result(warm_report(chain, 253.15), "change") < 0);
}

TEST_CASE("temperatures that are none, and chains that are not whole, are told") {
  WarmChain chain{"CC", "Case clutch", {{"case", 100 * mm, 1, "aluminium"}}, 1 * mm, 0, 0};
  CHECK(warm_report(chain, 1000).verdict == ReportVerdict::refused);
  CHECK(warm_report(chain, std::nan("")).verdict == ReportVerdict::refused);
  CHECK(tells(warm_report(chain, 350), "a part of it is not in the chain"));
  chain.links.clear();
  CHECK(warm_report(chain, 350).verdict == ReportVerdict::refused);
  CHECK(tells(warm_report({"", "x", {{"plate", 1 * mm, 1, "slate"}}, 1 * mm, 0, 0}, 300),
              "taken as steel"));
}

namespace {
/// 33.80 + 0.40 - 31.40 - 2.40 = 0.40.
EndPlayDepths front() {
  EndPlayDepths depths;
  depths.name = "Front end play";
  depths.case_depth = reading({33.80}, Instrument::depth_gauge);
  depths.boss_height = reading({31.40}, Instrument::depth_gauge);
  depths.gasket_compressed_m = 0.40 * mm;
  depths.gasket_free_m = 0.55 * mm;
  depths.washer = {"PU-T8",   "end-play washer",
                   2.40 * mm, {1.8 * mm, 2.0 * mm, 2.2 * mm, 2.4 * mm, 2.6 * mm, 2.8 * mm},
                   {},        0.2 * mm,
                   0.6 * mm};
  return depths;
}
} // namespace

TEST_CASE("end play from depths, worked by hand") {
  EndPlayDepths depths = front();
  CHECK(result(end_play_report(depths), "end play") / mm == Approx(0.40));
  CHECK(end_play_report(depths).verdict == ReportVerdict::good);
  // Over a bar of 6.00 each depth reads 6.00 more.
  depths.case_depth = reading({39.80, 39.82, 39.78}, Instrument::depth_gauge);
  depths.boss_height = reading({37.40}, Instrument::depth_gauge);
  depths.case_bar_m = depths.boss_bar_m = 6.00 * mm;
  CHECK(result(end_play_report(depths), "end play") / mm == Approx(0.40));
  // The gasket free gives 0.15 more; the other method's figure is told and not mixed in.
  CHECK(tells(end_play_report(depths), "it would come to 0.55 mm"));
  depths.with_compressed = false;
  CHECK(result(end_play_report(depths), "end play") / mm == Approx(0.55));
}

TEST_CASE("end play in both directions of pushing") {
  EndPlayDepths depths = front();
  depths.case_depth_pulled = reading({33.50}, Instrument::depth_gauge);
  const CalculationReport report = end_play_report(depths);
  CHECK(result(report, "end play") / mm == Approx(0.40));
  CHECK(result(report, "left when pulled to the front") / mm == Approx(0.10));
  CHECK(result(report, "taken by what lies behind the drum") / mm == Approx(0.30));
  depths.case_depth_pulled = reading({34.50}, Instrument::depth_gauge);
  CHECK(tells(end_play_report(depths), "were the two swapped?"));
  EndPlayDial dial{"Front end play", reading({0.00}, Instrument::dial),
                   reading({0.74}, Instrument::dial), front().washer};
  dial.washer.fitted_m = 2.06 * mm;
  CHECK(result(end_play_report(dial), "end play") / mm == Approx(0.74));
  // Found 0.84 with 2.06; two other new washers take 0.08 and 0.02; wanted 0.40: 2.40.
  dial.pulled = reading({0.84}, Instrument::dial);
  dial.others = {{"a new washer's", 0.08 * mm}, {"another's", 0.02 * mm}};
  const CalculationReport found = end_play_report(dial);
  CHECK(result(found, "end play") / mm == Approx(0.74));
  CHECK(result(found, "washer for the middle") / mm == Approx(2.40));
  CHECK(tells(found, "Fit end-play washer 2.40 mm"));
  std::swap(dial.pulled, dial.pushed);
  CHECK(tells(end_play_report(dial), "were the two swapped?"));
}

TEST_CASE("end play that cannot be is refused in a plain sentence") {
  EndPlayDepths depths = front();
  depths.washer.fitted_m = 4.80 * mm; // two washers in
  CHECK(tells(end_play_report(depths), "more lies in it than fits"));
  depths = front();
  depths.case_depth = reading({51.80}, Instrument::depth_gauge); // a bar of 18 not taken off
  CHECK(tells(end_play_report(depths), "a bar's thickness was not taken off"));
  depths.case_depth = reading({});
  CHECK(end_play_report(depths).verdict == ReportVerdict::refused);
  depths = front();
  depths.case_depth = reading({33.80, 1.331}, Instrument::depth_gauge); // one in inches
  CHECK(tells(end_play_report(depths), "inches among millimetres"));
  CHECK(plays_disagree(0.40 * mm, 0.02 * mm, 0.41 * mm, 0.01 * mm).empty());
  CHECK_FALSE(plays_disagree(0.40 * mm, 0.02 * mm, 0.55 * mm, 0.01 * mm).empty());
}
