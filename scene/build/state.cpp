#include "scene/build/state.h"

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

namespace {

/// What a joint holds does not fall, whichever way is down.
bool held(const Fitted& fitted, const std::string& base) {
  switch (fitted.joint.kind) {
  case JointKind::fixed:
  case JointKind::stuck:
  case JointKind::sprung:
  case JointKind::retained:
    return true;
  case JointKind::loose:
  case JointKind::turns:
  case JointKind::turns_one_way:
  case JointKind::slides:
    return fitted.id == base || fitted.pressed;
  }
  return false;
}

} // namespace

namespace {

/// One fall of each loose piece, lowest first. Gives what nothing stops.
std::vector<std::string> fall(Workshop& workshop, PlaceState& place, const std::string& base) {
  std::vector<std::string> nothing_stops;
  std::vector<Fitted*> by_height;
  for (Fitted& fitted : place.fitted) {
    by_height.push_back(&fitted);
  }
  std::ranges::stable_sort(by_height, [&](const Fitted* a, const Fitted* b) {
    return a->height_m + shape_of(workshop, *a).low_m() <
           b->height_m + shape_of(workshop, *b).low_m();
  });
  for (Fitted* fitted : by_height) {
    if (held(*fitted, base)) {
      continue;
    }
    DropQuestion question;
    Bodies others = bodies_in(workshop, place, {fitted->id});
    for (Body& body : others.bodies) {
      body.spin = spin_fixed; // it falls between them as they stand
    }
    question.below = others.bodies;
    question.moving.push_back(
        {fitted->id, &shape_of(workshop, *fitted), 0, fitted->turn_rad, spin_hand});
    question.from_m = fitted->height_m;
    const RestSpan rest = drop(question).at(0);
    if (!rest.rest_m) {
      nothing_stops.push_back(fitted->id);
    } else if (std::abs(*rest.rest_m - fitted->height_m) > contact_tolerance_m) {
      fitted->height_m = *rest.rest_m;
      fitted->stands_on = others.ids[rest.contact.below];
    }
  }
  return nothing_stops;
}

} // namespace

std::vector<std::string> settle(Workshop& workshop, PlaceState& place, const std::string& base) {
  std::vector<std::string> all;
  for (std::vector<std::string> out = fall(workshop, place, base); !out.empty();
       out = fall(workshop, place, base)) {
    // What stood on these falls in its turn.
    std::erase_if(place.fitted, [&](const Fitted& fitted) {
      return std::ranges::find(out, fitted.id) != out.end();
    });
    all.insert(all.end(), out.begin(), out.end());
  }
  return all;
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
