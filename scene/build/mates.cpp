// What a key is to enter must be there when all is done.
#include "scene/build/feature.h"
#include "scene/build/steps.h"

#include <algorithm>

namespace lugline::build {

namespace {

/// The first piece of a line; null where the unit has no such line.
const UnitComponent* of_line(const Unit& unit, const std::string& line) {
  const auto found = std::ranges::find_if(unit.components, [&](const UnitComponent& component) {
    return component.id == line || component.line == line;
  });
  return found == unit.components.end() ? nullptr : &*found;
}

bool any_in(const BuildState& state, const Unit& unit, const std::string& line) {
  return std::ranges::any_of(unit.components, [&](const UnitComponent& component) {
    return (component.id == line || component.line == line) &&
           state.place_with(component.id) != nullptr;
  });
}

/// The first key of the part that has nothing to enter; empty where each has.
std::string missed(const Unit& unit, const Component& part, const BuildState& state) {
  for (const Key& key : part.keys) {
    const std::string line = halves(key.fits).first;
    const UnitComponent* mate = of_line(unit, line);
    if (mate != nullptr && !any_in(state, unit, line)) {
      return "its " + key.id + " has nothing to enter: " + mate->label +
             " is not in after the last step";
    }
  }
  return {};
}

} // namespace

void judge_mates(const Workshop& workshop, Simulation& simulation) {
  const Unit& unit = workshop.unit();
  if (simulation.after.empty()) {
    return;
  }
  const BuildState& end = simulation.after.back();
  for (std::size_t i = simulation.outcomes.size(); i-- > 0;) {
    const std::string& part = unit.steps[i].part;
    if (part.empty() || simulation.outcomes[i].hand == nullptr || end.place_with(part) == nullptr) {
      continue;
    }
    const std::string words = missed(unit, workshop.part(part), end);
    if (!words.empty()) {
      simulation.outcomes[i].problems.push_back(workshop.label(part) + ": " + words);
    }
  }
}

} // namespace lugline::build
