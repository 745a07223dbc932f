// Bench practice as printed in technical manuals and textbooks; the source stands beside each.

#include "scene/pack/choose.h"
#include "scene/pack/end_play.h"
#include "scene/pack/frictions.h"
#include "scene/quantity/quantity.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double in = 25.4e-3;

double result(const CalculationReport& report, const std::string& what) {
  const auto found = std::ranges::find(report.results, what, &ReportLine::what);
  REQUIRE(found != report.results.end());
  return found->si;
}

double read_in(const char* text) {
  return parse_quantity(text, Dimension::length).value().si;
}

CalculationReport frictions_of(int count, double clearance_m) {
  Frictions frictions{"", "pack", {}, 2.29 * mm};
  for (int i = 0; i < count; ++i) {
    frictions.plates.push_back({"friction " + std::to_string(i + 1), 2.29 * mm, false});
  }
  frictions.clearance_m = clearance_m;
  return frictions_report(frictions);
}

} // namespace

TEST_CASE("clearances of two packs, and what they come to for each friction") {
  // US Army TM 10-3930-664-24, p. 4-57: ten inner and ten outer discs, piston to disc 0.080 to
  // 0.135 in (2.03 to 3.43 mm). Read.
  CHECK(read_in("0.080 in") / mm == Approx(2.03).margin(0.005));
  CHECK(read_in("0.135 in") / mm == Approx(3.43).margin(0.005));
  CHECK(result(frictions_of(10, 0.080 * in), "clearance for each friction") / in == Approx(0.0080));
  CHECK(result(frictions_of(10, 0.135 * in), "clearance for each friction") / in == Approx(0.0135));
  // P. 4-62: six and six, 0.048 (1.22 mm) to 0.102 in; its "0.102 in (2.74 mm)" is a misprint: a
  // unit's cross-check finds it. Read.
  CHECK(read_in("0.048 in") / mm == Approx(1.22).margin(0.005));
  CHECK_FALSE(read_in("0.102 in") / mm == Approx(2.74).margin(0.005));
  CHECK(result(frictions_of(6, 0.048 * in), "clearance for each friction") / in == Approx(0.008));
  CHECK(result(frictions_of(6, 0.102 * in), "clearance for each friction") / in == Approx(0.017));
}

TEST_CASE("too large a clearance takes one more outer disc, where it lands inside") {
  // The same, p. 4-57: where it is too large, one outer disc is added under the end plate. Derived:
  // with discs of 0.0993 in (TM 5-3805-254-34, p. 6-142) that helps from 0.1793 to 0.2343 in.
  const auto with_one_more = [](double found_in) {
    return choose_parts({{{"disc", 0, {0.0993 * in}}}, found_in * in, 0.080 * in, 0.135 * in});
  };
  CHECK(with_one_more(0.200).any_inside);
  CHECK(with_one_more(0.200).choices.front().changed == 1);
  CHECK_FALSE(with_one_more(0.170).any_inside);
  CHECK_FALSE(with_one_more(0.240).any_inside);
  CHECK(with_one_more(0.100).choices.front().changed == 0);
}

TEST_CASE("least thicknesses of a manual, in both units") {
  // TM 5-3805-254-34, p. 6-142: five discs of 0.090 in (2.286 mm) at least, five plates of 0.0993
  // in (2.5222 mm) at least. Read.
  CHECK(read_in("0.090 in") / mm == Approx(2.286));
  CHECK(read_in("0.0993 in") / mm == Approx(2.5222).margin(5e-5));
  Frictions frictions{"", "pack", {{"disc 1", 0.0899 * in, true}}, 0.100 * in, 0.090 * in};
  CHECK(frictions_report(frictions).verdict == ReportVerdict::bad);
  frictions.plates[0].thickness_m = 0.090 * in;
  CHECK(frictions_report(frictions).verdict == ReportVerdict::good);
}

TEST_CASE("end play that is 0.030 in too large takes a washer 0.030 in thicker") {
  // C. Duffy, Automatic Transmissions and Transaxles (2010), pp. 415 and 417: 0.030 in (0.762 mm)
  // too large: a washer 0.030 in thicker. Read.
  CHECK(read_in("0.030 in") / mm == Approx(0.762));
  EndPlayDial dial;
  dial.name = "End play";
  dial.pushed = {"", {0.0}, Instrument::dial};
  dial.pulled = {"", {0.050 * in}, Instrument::dial};
  dial.washer = {"washer", "washer", 0.070 * in, {0.070 * in, 0.085 * in, 0.100 * in}};
  dial.washer.low_m = 0.010 * in;
  dial.washer.high_m = 0.030 * in; // the middle is 0.020: 0.050 is 0.030 too large
  CHECK(result(end_play_report(dial), "washer for the middle") / in == Approx(0.100));
  const ChoiceAnswer answer = choose_washer(dial.washer, 0.050 * in);
  CHECK(answer.choices.front().thickness_m.front() / in == Approx(0.100));
  CHECK(answer.choices.front().clearance_m / in == Approx(0.020));
}

TEST_CASE("planet pinion end play of a manual, in both units") {
  // TM 10-3950-203-34: 0.010 to 0.020 in. Read; public ranges in mm say 0.25 to 0.51.
  CHECK(read_in("0.010 in") / mm == Approx(0.25).margin(0.005));
  CHECK(read_in("0.020 in") / mm == Approx(0.51).margin(0.005));
}
