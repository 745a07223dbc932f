// Each component of the demo units forgotten in turn: a step must say so, or the component
// is on the list of those whose absence no step of the sequence notices, with the reason.

#include "scene/build/judge.h"
#include "scene/load/load.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <set>
#include <string>

using namespace lugline;

namespace {

std::shared_ptr<const Unit> unit_at(const std::string& name) {
  const LoadReport report = load_unit(std::string(LUGLINE_ROOT) + "/assets-demo/" + name);
  REQUIRE(report.unit != nullptr);
  return report.unit;
}

bool puts_in(const Step& step) {
  return step.kind == StepKind::place || step.kind == StepKind::grease ||
         step.kind == StepKind::refit || step.kind == StepKind::spread;
}

/// The unit without the steps that put a part in.
Unit forgetting(const Unit& unit, const std::string& part) {
  Unit less = unit;
  std::erase_if(less.steps, [&](const Step& step) { return puts_in(step) && step.part == part; });
  return less;
}

/// What the steps put in, but for the parts that places stand on.
std::set<std::string> parts_put_in(const Unit& unit) {
  std::set<std::string> ids;
  for (const Step& step : unit.steps) {
    const bool base = std::ranges::find(unit.places, step.part, &Place::base) != unit.places.end();
    if (puts_in(step) && !base) {
      ids.insert(step.part);
    }
  }
  return ids;
}

/// Parts whose absence no step notices.
std::set<std::string> unnoticed(const Unit& unit) {
  std::set<std::string> silent;
  for (const std::string& part : parts_put_in(unit)) {
    const Unit less = forgetting(unit, part);
    Workshop workshop(less, {});
    const Simulation simulation = simulate(workshop);
    const bool said = std::ranges::any_of(
        simulation.outcomes, [](const StepOutcome& outcome) { return !outcome.problems.empty(); });
    if (!said) {
      silent.insert(part);
    }
  }
  return silent;
}

std::set<std::string> names(const std::map<std::string, std::string>& reasons) {
  std::set<std::string> ids;
  for (const auto& [id, reason] : reasons) {
    ids.insert(id);
  }
  return ids;
}

} // namespace

TEST_CASE("a component of the second unit that is forgotten is noticed, but for two") {
  const std::map<std::string, std::string> silent{
      {"QW-C", "the play is the cover's skirt's, whichever washer is in: only the tray tells"},
      {"QH-CRNG", "it goes in last, and what it holds is told by rattling: a hand's check"}};
  CHECK(unnoticed(*unit_at("quernside-two")) == names(silent));
}

TEST_CASE("a component of the demo that is forgotten is noticed, but for a stated few") {
  const std::map<std::string, std::string> silent{
      {"CS-RING", "no gauge reads it: pushing and rocking the support does, a hand's check"},
      {"OW-ELEM", "turning the drum both ways by hand tells: it runs free both ways"},
      {"OW-RETR", "it keeps what has no load on the bench: only looking tells"},
      {"UC-BALL", "the clutch drags or slips on the road: only the tray tells"},
      {"UC-SO", "the piston moves by hand all the same: air tells"},
      {"UC-SI", "the piston moves by hand all the same: air tells"},
      {"RT-LRC", "turning the reaction carrier both ways by hand tells: it runs free both ways"},
      {"RT-T3",
       "the sun's washers take the load, and the end play is inside its limits: looking tells"},
      {"CS-BOLT", "the support's ring holds it down as well: the air check in the case tells"},
      {"LS-COV", "air on the port tells"},
      {"PU-BOLT", "what draws the pump down is not asked: counting the tray tells"},
      {"PU-OR", "nothing stands on it: a leak tells, or the tray"},
      {"BUSH-CASE", "pressed in beforehand: the bore gauge tells"},
      {"BUSH-CS", "pressed in beforehand: the bore gauge tells"},
      {"BUSH-MD", "pressed in beforehand: the bore gauge tells"},
      {"CC-SI", "the air check hisses"},
      {"CC-SO", "the air check hisses"},
      {"MC-SI", "the air check hisses"},
      {"MC-SO", "the air check hisses"},
      {"MC-BALL", "the air check hisses through its hole"},
      {"CS-SR", "flush with the hub: the air check in the case tells"},
      {"PU-SR", "flush with the boss: only looking tells, before the pump goes in"},
      {"PU-FS", "nothing stands on it: only looking tells"}};
  CHECK(unnoticed(*unit_at("hobspindle-three")) == names(silent));
}
