#include "scene/part/component.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

namespace lugline {

namespace {

constexpr std::array<std::pair<ComponentKind, const char*>, 32> words{{
    {ComponentKind::case_, "case"},
    {ComponentKind::support, "support"},
    {ComponentKind::shaft, "shaft"},
    {ComponentKind::drum, "drum"},
    {ComponentKind::hub, "hub"},
    {ComponentKind::carrier, "planetary carrier"},
    {ComponentKind::ring_gear, "ring gear"},
    {ComponentKind::piston, "piston"},
    {ComponentKind::springs, "springs"},
    {ComponentKind::retainer, "retainer"},
    {ComponentKind::steel, "steel"},
    {ComponentKind::friction, "friction"},
    {ComponentKind::wave_plate, "wave plate"},
    {ComponentKind::apply_plate, "apply plate"},
    {ComponentKind::backing_plate, "backing plate"},
    {ComponentKind::snap_ring, "snap ring"},
    {ComponentKind::thrust_washer, "thrust washer"},
    {ComponentKind::one_way_inner, "one-way inner race"},
    {ComponentKind::one_way_element, "one-way element"},
    {ComponentKind::one_way_outer, "one-way outer race"},
    {ComponentKind::band, "band"},
    {ComponentKind::bushing, "bushing"},
    {ComponentKind::thrust_bearing, "thrust bearing"},
    {ComponentKind::check_ball, "check ball"},
    {ComponentKind::seal, "seal"},
    {ComponentKind::gasket, "gasket"},
    {ComponentKind::bolt, "bolt"},
    {ComponentKind::pin, "pin"},
    {ComponentKind::servo, "servo"},
    {ComponentKind::pump, "pump"},
    {ComponentKind::tool, "tool"},
    {ComponentKind::other, "other"},
}};

} // namespace

std::string word_for(ComponentKind kind) {
  for (const auto& [known, word] : words) {
    if (known == kind) {
      return word;
    }
  }
  assert(false && "a kind without a word");
  return "other";
}

std::optional<ComponentKind> kind_from(const std::string& word) {
  for (const auto& [kind, known] : words) {
    if (word == known) {
      return kind;
    }
  }
  return std::nullopt;
}

std::vector<std::string> kind_words() {
  std::vector<std::string> all;
  all.reserve(words.size());
  for (const auto& [kind, word] : words) {
    all.emplace_back(word);
  }
  return all;
}

const Figure* Component::figure(const std::string& wanted) const {
  const auto found = std::ranges::find(figures, wanted, &Figure::name);
  return found == figures.end() ? nullptr : &*found;
}

const Groove* Component::groove(const std::string& wanted) const {
  const auto found = std::ranges::find(grooves, wanted, &Groove::id);
  return found == grooves.end() ? nullptr : &*found;
}

} // namespace lugline
