// Readings and their uncertainty: places, instruments, corrections, and what cannot be.

#include "scene/pack/bench_reading.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace lugline;

namespace {
constexpr double mm = 1e-3;

BenchReading reading(std::vector<double> places_mm) {
  BenchReading read{"clearance", {}, Instrument::feeler};
  for (const double place_mm : places_mm) {
    read.places_m.push_back(place_mm * mm);
  }
  return read;
}
} // namespace

TEST_CASE("four places: mean for choosing, least for drag, spread for tilt") {
  const auto result = result_of(reading({1.18, 1.20, 1.22, 1.20}));
  REQUIRE(result);
  CHECK(result.value().mean_m / mm == Approx(1.20));
  CHECK(result.value().least_m / mm == Approx(1.18));
  CHECK(result.value().spread_m() / mm == Approx(0.04));
  // By hand: s^2 = (0.02^2 + 0.02^2) / 3, u = s / 2; the feeler's 0.02 gives 0.01 / sqrt(3).
  CHECK(result.value().scatter_m / mm == Approx(std::sqrt(0.0008 / 3) / 2));
  CHECK(result.value().resolution_u_m / mm == Approx(0.01 / std::sqrt(3.0)));
  CHECK(result.value().standard_m / mm == Approx(std::sqrt(0.0008 / 12 + 0.0001 / 3)));
  CHECK(result.value().plus_minus_m / mm == Approx(0.03));
}

TEST_CASE("corrections are lines of the working, with their own doubt") {
  BenchReading read = reading({45.00});
  read.instrument = Instrument::depth_gauge;
  read.corrections = {less_bar(6.00 * mm, 0.01 * mm), seal_drag(0.10 * mm), groove_wear(0.25 * mm)};
  const auto result = result_of(read);
  REQUIRE(result);
  CHECK(result.value().corrected_m / mm == Approx(39.00 + 0.10 - 0.25));
  CHECK(result.value().plus_minus_m / mm == Approx(0.01 + 0.01));
  const CalculationReport report = reading_report(read);
  CHECK(report.results.front().si / mm == Approx(38.85));
  const auto lines = lines_of(report, LengthUnit::millimetre);
  const auto told = [&](const std::string& words) {
    return std::ranges::any_of(
        lines, [&](const std::string& line) { return line.find(words) != std::string::npos; });
  };
  CHECK(told("less the gauge bar"));
  CHECK(told("-6.00 mm"));
  CHECK(told("Which selective was fitted is not stated"));
}

TEST_CASE("readings that cannot be are refused in a plain sentence") {
  CHECK_FALSE(result_of(reading({})));
  CHECK_FALSE(result_of(reading({std::nan("")})));
  CHECK_FALSE(result_of(reading({INFINITY})));
  CHECK_FALSE(result_of(reading({-0.1})));
  CHECK_FALSE(result_of(reading(std::vector<double>(25, 1.0))));
  const auto inches = result_of(reading({1.016, 0.040}));
  REQUIRE_FALSE(inches);
  CHECK(inches.problem().find("inches among millimetres") != std::string::npos);
  const auto apart = result_of(reading({0.60, 1.60, 1.10}));
  REQUIRE_FALSE(apart);
  CHECK(apart.problem().find("contradict") != std::string::npos);
  CHECK(reading_report(reading({})).verdict == ReportVerdict::refused);
  CHECK(result_of(reading({0, 0.05})).ok()); // nothing at all, and a blade that just enters
}

TEST_CASE("a reading that is 25.4 times off is asked about") {
  CHECK(inch_slip(0.040 * mm, 1.0 * mm) ==
        "0.040 mm is 25.4 times less than expected: was it inches?");
  CHECK(inch_slip(1.0 * 25.4 * mm, 1.0 * mm) ==
        "1.000 in is 25.4 times more than expected: was it millimetres?");
  CHECK(inch_slip(0.9 * mm, 1.0 * mm).empty());
  CHECK(inch_slip(0, 1.0 * mm).empty());
}

TEST_CASE("an uncertainty told in full: three ways, and the probability of being inside") {
  std::vector<UncertainInput> inputs;
  for (int i = 0; i < 9; ++i) { // nine parts +/- 0.04 and a case +/- 0.05
    inputs.push_back(within("part", 0, 0.04 * mm, -1));
  }
  inputs.push_back(within("case", 0, 0.05 * mm));
  const CombinedUncertainty sum = combine(inputs);
  CHECK(sum.worst_case / mm == Approx(0.41));
  CHECK(sum.half_width_rss / mm == Approx(0.13));
  MonteCarloOptions options;
  options.low = 0.225 * mm;
  options.high = 0.575 * mm;
  const CalculationReport report = uncertainty_report("Play", 0.40 * mm, inputs, options);
  CHECK(report.verdict == ReportVerdict::good);
  CHECK(report.results[0].si / mm == Approx(0.41));
  // The same seed gives the same figures, another seed others.
  const MonteCarlo once = monte_carlo(0.4 * mm, inputs, options);
  CHECK(once.mean == monte_carlo(0.4 * mm, inputs, options).mean);
  options.seed = 2;
  CHECK(once.mean != monte_carlo(0.4 * mm, inputs, options).mean);
  CHECK(once.standard == Approx(sum.standard).epsilon(0.01));
}

TEST_CASE("with nothing uncertain stated, the uncertainty is not known, and not nothing") {
  CHECK(uncertainty_report("Clearance", 1 * mm, {}, {}).verdict == ReportVerdict::refused);
  const std::vector<UncertainInput> nan{normal_of("x", 0, std::nan(""))};
  CHECK(uncertainty_report("Clearance", 1 * mm, nan, {}).verdict == ReportVerdict::refused);
}

TEST_CASE("half of a figure at its limit is inside") {
  MonteCarloOptions options;
  options.low = 1 * mm;
  const std::vector<UncertainInput> inputs{normal_of("x", 1 * mm, 0.1 * mm)};
  CHECK(monte_carlo(1 * mm, inputs, options).inside == Approx(0.5).margin(0.006));
}
