#include "scene/build/workshop.h"

#include "scene/load/figures.h"
#include "scene/load/thickness.h"
#include "scene/quantity/quantity.h"
#include "scene/seat/ring.h"

#include <cassert>
#include <cmath>

namespace lugline {

namespace {

/// The part at the thickness that was read, or why it cannot be.
Outcome<Component> at_reading(const UnitComponent* component, const Measured& reading) {
  if (component == nullptr) {
    return Problem{"there is no such component"};
  }
  const Figure* figure = component->part.figure(thickness_figure);
  if (figure == nullptr) {
    return Problem{"it has no thickness that could be measured"};
  }
  if (const auto slip =
          slip_in_thickness(reading.thickness_m, component->part.kind, figure->value_m)) {
    return Problem{slip->words + (slip->hint.empty() ? "" : "; " + slip->hint)};
  }
  const auto mm = [](double length_m) { return print_length(length_m, LengthUnit::millimetre); };
  if (is_far_off(reading.thickness_m, figure->value_m)) {
    return Problem{mm(reading.thickness_m) + ", and it should be about " + mm(figure->value_m) +
                   ": is it another part's?"};
  }
  if (reading.plus_minus_m > reading.thickness_m / 2) {
    return Problem{"a doubt of " + mm(reading.plus_minus_m) + " in " + mm(reading.thickness_m) +
                   " is no reading"};
  }
  return with_figure(component->part, thickness_figure, reading.thickness_m);
}

} // namespace

Workshop::Workshop(const Unit& unit, Readings readings) : unit_(&unit) {
  for (auto& [id, reading] : readings) {
    auto changed = at_reading(unit.component(id), reading);
    if (!changed) {
      refused_.push_back({id, changed.problem()});
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

const Shape& Workshop::band(const std::string& id, bool over, const std::string& state) {
  for (const BandState& known : part(id).band_states) {
    if (known.id == state) {
      return keep(id + (over ? "/over/band/" : "/up/band/") + state, placed(known.solid, over));
    }
  }
  return shape(id, over);
}

const Shape& Workshop::loaded_ring(const std::string& id, bool over) {
  return squashed(id, over, flat_height_m(part(id)));
}

const Shape& Workshop::squeezed(const std::string& id, bool over) {
  return keep(id + (over ? "/over/squeezed" : "/up/squeezed"),
              placed(squeezed_ring(part(id)), over));
}

} // namespace lugline
