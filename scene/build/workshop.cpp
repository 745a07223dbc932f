#include "scene/build/workshop.h"

#include "scene/load/figures.h"
#include "scene/seat/ring.h"

#include <cassert>
#include <cmath>

namespace lugline {

Workshop::Workshop(const Unit& unit, Readings readings) : unit_(&unit) {
  for (auto& [id, reading] : readings) {
    const UnitComponent* component = unit.component(id);
    if (component == nullptr) {
      refused_.push_back("there is no component " + id);
      continue;
    }
    auto changed = with_figure(component->part, thickness_figure, reading.thickness_m);
    if (!changed) {
      refused_.push_back(id + ": " + changed.problem());
      continue;
    }
    changed_.emplace(id, std::move(changed).value());
    readings_.emplace(id, reading);
  }
}

const Component& Workshop::part(const std::string& id) const {
  const auto found = changed_.find(id);
  if (found != changed_.end()) {
    return found->second;
  }
  const UnitComponent* component = unit_->component(id);
  assert(component != nullptr);
  return component->part;
}

const std::string& Workshop::label(const std::string& id) const {
  const UnitComponent* component = unit_->component(id);
  assert(component != nullptr);
  return component->label.empty() ? component->id : component->label;
}

const Shape& Workshop::keep(const std::string& key, const Solid& solid) {
  auto& slot = shapes_[key];
  if (!slot) {
    slot = std::make_unique<const Shape>(solid);
  }
  return *slot;
}

namespace {
Solid placed(const Solid& solid, bool over) {
  return over ? turned_over(solid) : solid;
}
} // namespace

const Shape& Workshop::shape(const std::string& id, bool over) {
  const std::string key = id + (over ? "/over" : "/up");
  const auto found = shapes_.find(key);
  return found != shapes_.end() ? *found->second : keep(key, placed(part(id).solid, over));
}

const Shape& Workshop::squashed(const std::string& id, bool over, double height_m) {
  const Solid& solid = part(id).solid;
  const double free_m = solid.high_m() - solid.low_m();
  if (std::abs(height_m - free_m) <= 1e-9) {
    return shape(id, over);
  }
  const std::string key =
      id + (over ? "/over/" : "/up/") + std::to_string(std::llround(height_m * 1e9));
  const auto found = shapes_.find(key);
  if (found != shapes_.end()) {
    return *found->second;
  }
  return keep(key,
              placed(stretched(solid, solid.low_m(), solid.high_m(), height_m - free_m), over));
}

const Shape& Workshop::band(const std::string& id, const std::string& state) {
  for (const BandState& known : part(id).band_states) {
    if (known.id == state) {
      return keep(id + "/band/" + state, known.solid);
    }
  }
  return shape(id, false);
}

const Shape& Workshop::squeezed(const std::string& id, bool over) {
  return keep(id + (over ? "/over/squeezed" : "/up/squeezed"),
              placed(squeezed_ring(part(id)), over));
}

} // namespace lugline
