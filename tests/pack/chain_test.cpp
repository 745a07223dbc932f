// Plays and travels off the axis: figures by hand.
#include "scene/pack/chain.h"

#include <catch2/catch.hpp>

using namespace lugline;
using Catch::Detail::Approx;

namespace {

constexpr double mm = 1e-3;

/// A pinion between a carrier's plates, with a washer at each end. Invented figures.
ChainStack pinion() {
  ChainStack stack;
  stack.id = "PIN";
  stack.name = "Pinion end play";
  stack.gap = {"", "carrier slot", 22.0 * mm};
  stack.members = {{"", "washer", 0.6 * mm}, {"", "pinion", 20.4 * mm}, {"", "washer", 0.6 * mm}};
  stack.low_m = 0.25 * mm;
  stack.high_m = 0.60 * mm;
  return stack;
}

} // namespace

TEST_CASE("what is left of a gap is the gap less all that fills it") {
  const ChainReport report = add_up(pinion());
  CHECK(report.filled_m == Approx(21.6 * mm));
  CHECK(report.value_m == Approx(0.4 * mm));
  CHECK(report.verdict == ChainVerdict::inside);
  CHECK(report.outside_by_m == 0);
  CHECK(report.lines.size() == 3);
  CHECK(report.worst_case_m == 0);
}

TEST_CASE("a limit itself is inside, and a micrometre beyond it is not") {
  ChainStack stack = pinion();
  stack.low_m = 0.4 * mm;
  CHECK(add_up(stack).verdict == ChainVerdict::inside);
  stack.low_m = 0.401 * mm;
  CHECK(add_up(stack).verdict == ChainVerdict::too_little);
  CHECK(add_up(stack).outside_by_m == Approx(0.001 * mm).epsilon(1e-6));
  stack.low_m = 0;
  stack.high_m = 0.4 * mm;
  CHECK(add_up(stack).verdict == ChainVerdict::inside);
  stack.high_m = 0.399 * mm;
  CHECK(add_up(stack).verdict == ChainVerdict::too_much);
  CHECK(add_up(stack).outside_by_m == Approx(0.001 * mm).epsilon(1e-6));
}

TEST_CASE("what does not go into its gap leaves less than nothing") {
  ChainStack stack = pinion();
  stack.members[1].length_m = 21.0 * mm;
  const ChainReport report = add_up(stack);
  CHECK(report.value_m == Approx(-0.2 * mm));
  CHECK(report.verdict == ChainVerdict::too_little);
  CHECK(report.outside_by_m == Approx(0.45 * mm));
}

TEST_CASE("a gap with nothing in it is all left") {
  ChainStack stack = pinion();
  stack.members.clear();
  CHECK(add_up(stack).value_m == Approx(22.0 * mm));
  CHECK(add_up(stack).verdict == ChainVerdict::too_much);
}

TEST_CASE("doubts of readings add up at worst, and by their squares") {
  ChainStack stack = pinion();
  stack.gap.plus_minus_m = 0.03 * mm;
  stack.members[1].plus_minus_m = 0.04 * mm;
  const ChainReport report = add_up(stack);
  CHECK(report.worst_case_m == Approx(0.07 * mm));
  CHECK(report.root_sum_square_m == Approx(0.05 * mm));
}

TEST_CASE("a chain tells its working in the shape of every calculation") {
  ChainStack stack = pinion();
  stack.members[1].measured = true;
  const CalculationReport report = report_of(add_up(stack));
  CHECK(report.title == "Pinion end play");
  CHECK(report.inputs.size() == 4);
  CHECK(report.inputs[2].how == "measured");
  CHECK(report.verdict == ReportVerdict::good);
  CHECK(report.verdict_words ==
        "Pinion end play is 0.40 mm, inside limits: limits 0.25 mm to 0.60 mm.");
  stack.members[1].length_m = 20.7 * mm;
  const CalculationReport tight = report_of(add_up(stack));
  CHECK(tight.verdict == ReportVerdict::bad);
  CHECK(tight.verdict_words ==
        "Pinion end play is 0.10 mm, too little by 0.15 mm: limits 0.25 mm to 0.60 mm.");
  REQUIRE(tight.scale);
  CHECK(tight.scale->value_si == Approx(0.1 * mm));
}
