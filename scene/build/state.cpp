#include "scene/build/state.h"

#include "scene/build/hang.h"
#include "scene/seat/drop.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace lugline {

const Fitted* PlaceState::find(const std::string& id) const {
  const auto found = std::ranges::find(fitted, id, &Fitted::id);
  return found == fitted.end() ? nullptr : &*found;
}

Fitted* PlaceState::find(const std::string& id) {
  const auto found = std::ranges::find(fitted, id, &Fitted::id);
  return found == fitted.end() ? nullptr : &*found;
}

const PlaceState* BuildState::place_with(const std::string& id) const {
  const auto found = std::ranges::find_if(
      places, [&](const auto& place) { return place.second.find(id) != nullptr; });
  return found == places.end() ? nullptr : &found->second;
}

const Shape& shape_of(Workshop& workshop, const Fitted& fitted) {
  if (!fitted.band_state.empty()) {
    return workshop.band(fitted.id, fitted.over, fitted.band_state);
  }
  if (fitted.squashed_to_m > 0) {
    return workshop.squashed(fitted.id, fitted.over, fitted.squashed_to_m);
  }
  return workshop.shape(fitted.id, fitted.over);
}

bool turns_freely(const Joint& joint) {
  return joint.kind == JointKind::turns || joint.kind == JointKind::turns_one_way;
}

std::optional<std::size_t> Bodies::index(const std::string& id) const {
  const auto found = std::ranges::find(ids, id);
  if (found == ids.end()) {
    return std::nullopt;
  }
  return static_cast<std::size_t>(found - ids.begin());
}

Bodies bodies_in(Workshop& workshop, const PlaceState& place,
                 const std::vector<std::string>& without, Spin first_spin) {
  Bodies result;
  const std::vector<Spin> spins = spins_of(place.fitted, first_spin, spin_fixed);
  for (std::size_t i = 0; i < place.fitted.size(); ++i) {
    const Fitted& fitted = place.fitted[i];
    if (std::ranges::find(without, fitted.id) != without.end()) {
      continue;
    }
    result.bodies.push_back(
        {fitted.id, &shape_of(workshop, fitted), fitted.height_m, fitted.turn_rad, spins[i]});
    result.ids.push_back(fitted.id);
  }
  return result;
}

std::vector<Spin> spins_of(const std::vector<Fitted>& pieces, Spin first_spin, Spin fast) {
  std::vector<Spin> own(pieces.size(), fast);
  Spin next = first_spin;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (turns_freely(pieces[i].joint)) {
      own[i] = next++;
    }
  }
  std::vector<Spin> spins = own;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    // Up the joints to the first piece that turns; no further than there are pieces.
    std::size_t at = i;
    for (std::size_t steps = 0; steps < pieces.size() && own[at] == fast; ++steps) {
      if (pieces[at].joint.kind == JointKind::loose) {
        break;
      }
      const auto to = std::ranges::find(pieces, pieces[at].joint.to, &Fitted::id);
      if (to == pieces.end()) {
        break;
      }
      at = static_cast<std::size_t>(to - pieces.begin());
    }
    spins[i] = own[at];
  }
  return spins;
}

std::vector<std::string> settle(Workshop& workshop, PlaceState& place, const std::string& base) {
  const Groups groups = groups_of(workshop, place.fitted, base);
  std::vector<Body> bodies = bodies_in(workshop, place).bodies;
  const auto falls =
      falls_of(gaps_of(workshop, place.fitted, bodies, groups.of), groups.of, groups.count);
  std::vector<bool> moved(groups.count, false);
  std::vector<std::string> out;
  for (std::size_t i = 0; i < place.fitted.size(); ++i) {
    const double by_m = falls[groups.of[i]].by_m;
    if (std::isinf(by_m)) {
      out.push_back(place.fitted[i].id);
    } else if (by_m > contact_tolerance_m) {
      moved[groups.of[i]] = true;
      place.fitted[i].height_m -= by_m;
      bodies[i].height_m -= by_m;
    }
  }
  stand_again(place.fitted, bodies, groups.of, moved);
  std::erase_if(place.fitted, [&](const Fitted& fitted) {
    return std::ranges::find(out, fitted.id) != out.end();
  });
  return out;
}

std::vector<std::string> turn_over(Workshop& workshop, PlaceState& place, const std::string& base) {
  const Fitted* base_piece = place.find(base);
  assert(base_piece != nullptr);
  const Shape& base_shape = shape_of(workshop, *base_piece);
  const double sum_m = 2 * base_piece->height_m + base_shape.low_m() + base_shape.high_m();
  for (Fitted& fitted : place.fitted) {
    const Shape& shape = shape_of(workshop, fitted);
    fitted.height_m = sum_m - fitted.height_m - shape.low_m() - shape.high_m();
    fitted.turn_rad = -fitted.turn_rad;
    fitted.over = !fitted.over;
  }
  place.over = !place.over;
  return settle(workshop, place, base);
}

} // namespace lugline
