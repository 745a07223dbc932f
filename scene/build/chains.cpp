// What is left of the unit's chains at the figures that are known.
#include "scene/build/simulate.h"

#include "scene/load/figures.h"

#include <algorithm>

namespace lugline {

namespace {

ChainPiece piece_of(const Workshop& workshop, const ChainLink& link) {
  ChainPiece piece;
  piece.part = link.part;
  piece.label = !link.name.empty()                ? link.name
                : link.figure == thickness_figure ? workshop.label(link.part)
                                                  : link.figure;
  if (link.length_m) {
    piece.length_m = *link.length_m;
    return piece;
  }
  const Figure* figure = workshop.part(link.part).figure(link.figure);
  piece.length_m = figure == nullptr ? 0 : figure->value_m; // the loader has seen that it is there
  const auto reading = workshop.readings().find(link.part);
  if (link.figure == thickness_figure && reading != workshop.readings().end()) {
    piece.measured = true;
    piece.plus_minus_m = reading->second.plus_minus_m;
  }
  return piece;
}

} // namespace

ChainReport chain_now(const Workshop& workshop, const Chain& chain) {
  ChainStack stack;
  stack.id = chain.id;
  stack.name = chain.name;
  stack.gap = piece_of(workshop, chain.gap);
  for (const ChainLink& member : chain.members) {
    stack.members.push_back(piece_of(workshop, member));
  }
  stack.low_m = chain.limits.low_m;
  stack.high_m = chain.limits.high_m;
  return add_up(stack);
}

std::vector<std::string> missing_now(const Chain& chain, const BuildState& state) {
  std::vector<std::string> missing;
  const auto look = [&](const std::string& part) {
    if (!part.empty() && state.place_with(part) == nullptr &&
        std::ranges::find(missing, part) == missing.end()) {
      missing.push_back(part);
    }
  };
  look(chain.gap.part);
  for (const ChainLink& member : chain.members) {
    look(member.part);
  }
  std::ranges::for_each(chain.needs, look);
  return missing;
}

std::vector<SelectiveChoice> choices_for(const Workshop& workshop, const Chain& chain,
                                         const ChainReport& report, std::size_t most) {
  std::vector<SelectivePart> parts;
  for (const std::string& id : chain.selective) {
    const UnitComponent* component = workshop.unit().component(id);
    const Figure* thickness = workshop.part(id).figure(thickness_figure);
    if (component != nullptr && thickness != nullptr) {
      parts.push_back({id, thickness->value_m, component->thickness_options_m});
    }
  }
  return choose(parts, report.value_m, report.low_m, report.high_m, most);
}

} // namespace lugline
