// Plays and travels off the axis: figures of the parts, readings, what is not in.
// All of the data is invented.

#include "scene/build/timeline.h"

#include "tests/build/demo.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline;
using namespace lugline::test;

namespace {

ChainReport of(const std::string& id, const Readings& readings = {}) {
  Workshop workshop(*demo().unit, readings);
  REQUIRE(workshop.refused().empty());
  REQUIRE(demo().unit->chain(id) != nullptr);
  return chain_now(workshop, *demo().unit->chain(id));
}

const JudgedChain& judged(const CheckReport& report, const std::string& id) {
  const auto found = std::ranges::find(report.chains, id,
                                       [](const JudgedChain& chain) { return chain.report.id; });
  REQUIRE(found != report.chains.end());
  return *found;
}

/// The highest and the lowest of the part's rings of that feature.
std::pair<double, double> heights_mm(const Component& part, const std::string& feature) {
  double low_m = 1e9;
  double high_m = -1e9;
  for (const SectorRing& ring : part.solid.rings) {
    if (ring.feature == feature) {
      low_m = std::min(low_m, ring.low_m);
      high_m = std::max(high_m, ring.high_m);
    }
  }
  REQUIRE(low_m < high_m);
  return {low_m / mm, high_m / mm};
}

} // namespace

TEST_CASE("the demo's pinions and servos have the plays that their figures give by hand") {
  // 22.0 - 0.6 - 20.4 - 0.6; 61.0 - 58.5; 74.8 - 71.0
  CHECK(of("output pinions").value_m / mm == Approx(0.40).margin(1e-6));
  CHECK(of("reaction pinions").value_m / mm == Approx(0.40).margin(1e-6));
  CHECK(of("upper servo travel").value_m / mm == Approx(2.50).margin(1e-6));
  CHECK(of("lower servo travel").value_m / mm == Approx(3.80).margin(1e-6));
  CHECK(of("output pinions").gap.label == "pinion slot");
  CHECK(of("upper servo travel").lines.front().label == "upper servo pin");
}

TEST_CASE("the figures of a carrier's pinions are its solid's") {
  for (const char* id : {"RT-C1", "RT-C2"}) {
    CAPTURE(id);
    const Component& part = demo().unit->component(id)->part;
    const double slot_mm =
        heights_mm(part, "front plate").first - heights_mm(part, "rear plate").second;
    const auto [low_mm, high_mm] = heights_mm(part, "pinion washer");
    CHECK(part.figure("pinion slot")->value_m / mm == Approx(slot_mm).margin(1e-4));
    const ChainReport chain =
        of(id == std::string("RT-C1") ? "output pinions" : "reaction pinions");
    CHECK(chain.value_m / mm == Approx(slot_mm - (high_mm - low_mm)).margin(1e-4));
  }
}

TEST_CASE("the strokes that the demo's bands are reckoned with are their servos' travels") {
  REQUIRE(demo().unit->drive);
  for (const auto& [element, chain] :
       {std::pair("UB", "upper servo travel"), std::pair("LB", "lower servo travel")}) {
    CAPTURE(element);
    const auto& all = demo().unit->drive->elements;
    const auto found = std::ranges::find(all, std::string(element), &DriveElement::id);
    REQUIRE(found != all.end());
    CHECK(found->stroke_m / mm == Approx(of(chain).value_m / mm).margin(1e-6));
  }
}

TEST_CASE("each servo pin gives the travel that its length leaves, and the limits judge it") {
  const auto upper = [](double length_mm) {
    return of("upper servo travel", {{"US-PIN", {length_mm * mm, 0}}});
  };
  CHECK(upper(57.5).value_m / mm == Approx(3.5).margin(1e-6));
  CHECK(upper(57.5).verdict == ChainVerdict::too_much);
  CHECK(upper(57.5).outside_by_m / mm == Approx(0.5).margin(1e-6));
  CHECK(upper(58.0).verdict == ChainVerdict::inside); // 3.00: the limit itself
  CHECK(upper(57.99).verdict == ChainVerdict::too_much);
  CHECK(upper(59.0).verdict == ChainVerdict::inside); // 2.00: the limit itself
  CHECK(upper(59.01).verdict == ChainVerdict::too_little);
  CHECK(upper(58.5).lines.front().measured);
  CHECK_FALSE(of("upper servo travel").lines.front().measured);
  const ChainReport doubted = of("lower servo travel", {{"LS-PIN", {70.98 * mm, 0.02 * mm}}});
  CHECK(doubted.value_m / mm == Approx(3.82).margin(1e-6));
  CHECK(doubted.worst_case_m / mm == Approx(0.02).margin(1e-6));
}

TEST_CASE("what is chosen brings a servo's travel nearest the middle of its limits") {
  Workshop workshop(*demo().unit, {{"LS-PIN", {69.9 * mm, 0}}});
  const Chain& chain = *demo().unit->chain("lower servo travel");
  const ChainReport report = chain_now(workshop, chain);
  CHECK(report.verdict == ChainVerdict::too_much); // 74.8 - 69.9 = 4.90
  const auto choices = choices_for(workshop, chain, report);
  REQUIRE_FALSE(choices.empty());
  CHECK(choices.front().thickness_m.front() / mm == Approx(71.0).margin(1e-6)); // 3.80, middle 3.75
  CHECK(choices.front().inside);
  CHECK(choices_for(workshop, *demo().unit->chain("output pinions"), of("output pinions")).empty());
}

TEST_CASE("a step reads a chain, and its reading is judged with what was measured") {
  Workshop workshop(*demo().unit, {{"US-PIN", {57.8 * mm, 0}}});
  const Simulation simulation = simulate(workshop);
  const StepOutcome& outcome = simulation.outcomes[demo().step("upper servo travel")];
  REQUIRE(outcome.reading);
  CHECK(outcome.reading->value_m / mm == Approx(3.2).margin(1e-6));
  CHECK_FALSE(outcome.reading->inside);
  REQUIRE(outcome.problems.size() == 1);
  CHECK(outcome.problems.front() == "it reads 3.20 mm, outside 2.00 mm to 3.00 mm");
  const CheckReport report = judge(workshop, simulation);
  CHECK_FALSE(report.sound);
  CHECK(judged(report, "upper servo travel").whole);
  CHECK(judged(report, "upper servo travel").report.verdict == ChainVerdict::too_much);
  const auto told = std::ranges::find_if(report.complaints, [](const Complaint& complaint) {
    return complaint.message ==
           "Upper servo travel is 3.20 mm, too much by 0.20 mm (limits 2.00 mm to 3.00 mm)";
  });
  REQUIRE(told != report.complaints.end());
  CHECK(told->file == "unit.toml");
  CHECK(told->line == demo().unit->chain("upper servo travel")->source.line);
}

TEST_CASE("a chain is not read before all that it needs is in") {
  Unit unit = *demo().unit;
  std::erase_if(unit.steps, [](const Step& step) { return step.part == "US-PIST"; });
  Workshop workshop(unit, {});
  const Simulation simulation = simulate(workshop);
  const StepOutcome& outcome = simulation.outcomes[unit.step_index("upper servo travel")];
  CHECK_FALSE(outcome.reading);
  REQUIRE(outcome.problems.size() == 1);
  CHECK(outcome.problems.front() ==
        "\"chain:upper servo travel\" cannot be read here: upper servo piston is not in");
  const CheckReport report = judge(workshop, simulation);
  CHECK_FALSE(judged(report, "upper servo travel").whole);
  CHECK(std::ranges::any_of(report.complaints, [](const Complaint& complaint) {
    return complaint.message ==
           "Upper servo travel cannot be measured: upper servo piston is not in";
  }));
}

TEST_CASE("what a step measures in the hand need not be in, and is held above the work") {
  Demo& shown = demo();
  const std::size_t step = shown.step("output pinions");
  CHECK(shown.simulation.after[step].place_with("RT-C1") == nullptr);
  REQUIRE(shown.simulation.outcomes[step].reading);
  CHECK(shown.simulation.outcomes[step].reading->inside);
  const Moment moment = moment_of(*shown.workshop, shown.simulation, step, 0.5);
  const auto held = std::ranges::find(moment.pieces, "RT-C1", &PosedPiece::id);
  REQUIRE(held != moment.pieces.end());
  CHECK(held->in_hand);
  CHECK(held->height_m > moment.mouth_m);
  // Once it is in, nothing is held twice.
  const Moment later =
      moment_of(*shown.workshop, shown.simulation, shown.step("carrier play"), 0.5);
  CHECK(std::ranges::count(later.pieces, "RT-C1", &PosedPiece::id) == 1);
}
