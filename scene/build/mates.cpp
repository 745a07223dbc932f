// What a key is to enter must be there when all is done.
#include "scene/build/feature.h"
#include "scene/build/steps.h"

#include <algorithm>

namespace lugline::build {

namespace {

bool is_in(const BuildState& state, const Unit& unit, const std::string& line) {
  return std::ranges::any_of(unit.components, [&](const UnitComponent& component) {
    return (component.id == line || component.line == line) &&
           state.place_with(component.id) != nullptr;
  });
}

/// A line's label, without the number of the piece.
std::string line_label(const Unit& unit, const std::string& line) {
  const auto found = std::ranges::find_if(unit.components, [&](const UnitComponent& component) {
    return component.id == line || component.line == line;
  });
  return found == unit.components.end() ? line : found->label;
}

bool known(const Unit& unit, const std::string& line) {
  return std::ranges::any_of(unit.components, [&](const UnitComponent& component) {
    return component.id == line || component.line == line;
  });
}

/// The first key of the part that has nothing to enter; empty where each has.
std::string missed(const Unit& unit, const Component& part, const BuildState& state) {
  for (const Key& key : part.keys) {
    const std::string mate = halves(key.fits).first;
    if (!mate.empty() && known(unit, mate) && !is_in(state, unit, mate)) {
      return "its " + key.id + " has nothing to enter: " + line_label(unit, mate) +
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
