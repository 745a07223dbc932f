// Steps that do not simply drop: bands, tools, presses, taking out.
#include "scene/build/steps.h"

#include "scene/seat/drop.h"

#include <algorithm>
#include <cmath>

namespace lugline::build {

namespace {

const Key* key_named(const Component& part, const std::string& id) {
  const auto found = std::ranges::find(part.keys, id, &Key::id);
  return found == part.keys.end() ? nullptr : &*found;
}

double middle(const Key& key) {
  return (key.low_m + key.high_m) / 2;
}

/// Splits "COMPONENT/KEY".
std::pair<std::string, std::string> split(const std::string& path) {
  const auto slash = path.find('/');
  return slash == std::string::npos ? std::pair{path, std::string()}
                                    : std::pair{path.substr(0, slash), path.substr(slash + 1)};
}

} // namespace

/// A band hangs on its pins: the height is the pin's, not a drop's. Its key,
/// the ear, comes to the middle of what it fits.
void spread_band(Bench bench) {
  const Step& step = bench.step;
  const Component& band = bench.workshop.part(step.part);
  const auto [band_id, key_id] = split(step.key);
  const Key* ear = key_named(band, key_id);
  const auto [pin_id, pin_key_id] = split(ear == nullptr ? std::string() : ear->fits);
  const Fitted* pin_piece = bench.place().find(pin_id);
  const Key* pin =
      pin_piece == nullptr ? nullptr : key_named(bench.workshop.part(pin_id), pin_key_id);
  if (ear == nullptr || pin == nullptr) {
    bench.problem("the pin that " + bench.workshop.label(step.part) + " hangs on is not in yet");
    return;
  }
  Fitted fitted;
  fitted.id = step.part;
  fitted.over = step.way_up == WayUp::turned_over;
  fitted.band_state = step.band_state;
  fitted.turn_rad = step.turn_rad;
  fitted.joint = step.joint;
  fitted.joint.kind = JointKind::retained;
  fitted.stands_on = pin_id;
  fitted.height_m = pin_piece->height_m + middle(*pin) - middle(*ear);
  bench.outcome.moved = {step.part};
  bench.outcome.hand = std::make_shared<InHand>(one_part(bench.workshop, step.part, fitted.over));

  const Body body{fitted.id, &shape_of(bench.workshop, fitted), fitted.height_m, fitted.turn_rad,
                  spin_fixed};
  const Bodies others = bodies_in(bench.workshop, bench.place());
  for (const Body& other : others.bodies) {
    const FitReport fit = fit_between(body, other, contact_tolerance_m);
    if (fit.fit == Fit::inside && other.id != pin_id) {
      bench.problem(bench.workshop.label(step.part) + " on its pins is inside " +
                    bench.workshop.label(other.id) + " by " + mm(fit.by_m));
    }
  }
  bench.place().fitted.push_back(fitted);
}

/// A tool's fingers open into a groove and lift against its upper face.
void attach_tool(Bench bench) {
  const Step& step = bench.step;
  const auto [host_id, groove_id] = split(step.groove);
  const Fitted* host = bench.place().find(host_id);
  if (host == nullptr) {
    bench.problem(bench.workshop.label(host_id) + " is not in, so the tool has nothing to hold");
    return;
  }
  const Groove* groove = bench.workshop.part(host_id).groove(groove_id);
  const Shape& tool = bench.workshop.shape(step.part, false);
  const SectorRing* finger = nullptr;
  for (const SectorRing& ring : tool.rings()) {
    finger = finger == nullptr || ring.outer_m > finger->outer_m ? &ring : finger;
  }
  if (groove == nullptr || finger == nullptr) {
    bench.problem("the groove for " + bench.workshop.label(step.part) + " is not there");
    return;
  }
  const double room_m = (groove->high_m - groove->low_m) - (finger->high_m - finger->low_m);
  if (room_m < -contact_tolerance_m || finger->outer_m > groove->bottom_m + contact_tolerance_m) {
    bench.problem("the fingers of " + bench.workshop.label(step.part) +
                  " do not go into the groove");
  }
  Fitted fitted;
  fitted.id = step.part;
  fitted.turn_rad = step.turn_rad;
  fitted.joint = {JointKind::fixed, host_id, false, ""};
  fitted.stands_on = host_id;
  fitted.height_m = host->height_m + groove->high_m - finger->high_m;
  bench.outcome.moved = {step.part};
  bench.outcome.hand = std::make_shared<InHand>(one_part(bench.workshop, step.part, false));

  // The ring and what it keeps are out while the tool is in.
  const Body body{fitted.id, &tool, fitted.height_m, fitted.turn_rad, spin_fixed};
  for (const Body& other : bodies_in(bench.workshop, bench.place()).bodies) {
    const FitReport fit = fit_between(body, other, contact_tolerance_m);
    if (fit.fit == Fit::inside) {
      bench.problem(bench.workshop.label(other.id) + " is in the way of " +
                    bench.workshop.label(step.part));
    }
  }
  bench.place().fitted.push_back(fitted);
}

void take_out(Bench bench, const std::vector<std::string>& ids) {
  for (const std::string& id : ids) {
    PlaceState& place = bench.place();
    const Fitted* fitted = place.find(id);
    if (fitted == nullptr) {
      bench.problem(bench.workshop.label(id) + " is not in, so it cannot come out");
      continue;
    }
    // Rings come out squeezed and a tool with its fingers drawn in; all else
    // must have a free way up.
    const Component& part = bench.workshop.part(id);
    if (!part.ring && part.kind != ComponentKind::tool) {
      const Bodies others = bodies_in(bench.workshop, place, {id});
      const Body body{id, &shape_of(bench.workshop, *fitted), fitted->height_m, fitted->turn_rad,
                      spin_hand};
      const Travel way = rise({body}, others.bodies);
      if (way.contact) {
        bench.problem(bench.workshop.label(others.ids[way.contact->below]) + " is in the way of " +
                      bench.workshop.label(id) + " coming out");
      }
    }
    bench.outcome.moved.push_back(id);
    std::erase_if(place.fitted, [&](const Fitted& piece) { return piece.id == id; });
  }
}

namespace {

/// The spring beneath a pressed or released part takes the height that is left.
void squash_springs(Bench bench, const Fitted& on_top) {
  PlaceState& place = bench.place();
  for (Fitted& spring : place.fitted) {
    const Component& part = bench.workshop.part(spring.id);
    if (!part.springs || on_top.stands_on != spring.id) {
      continue;
    }
    const double bottom_m = spring.height_m + part.solid.low_m();
    const double height_m = on_top.height_m - bottom_m;
    if (height_m < part.springs->solid_m - contact_tolerance_m) {
      bench.problem(bench.workshop.label(spring.id) + " would be pressed to " + mm(height_m) +
                    ", and goes solid at " + mm(part.springs->solid_m));
    }
    spring.squashed_to_m = std::clamp(height_m, part.springs->solid_m, part.springs->free_m);
    bench.outcome.moved.push_back(spring.id);
  }
}

} // namespace

void press(Bench bench) {
  const Step& step = bench.step;
  Fitted* part = bench.place().find(step.part);
  if (part == nullptr || !step.press_to_m) {
    bench.problem(bench.workshop.label(step.part) + " is not in, so it cannot be pressed");
    return;
  }
  if (*step.press_to_m > part->height_m + contact_tolerance_m) {
    bench.problem(bench.workshop.label(step.part) + " rests at " + mm(part->height_m) +
                  " already, below the " + mm(*step.press_to_m) + " to press it to");
    return;
  }
  part->height_m = *step.press_to_m;
  part->pressed = true;
  bench.outcome.moved = {step.part};
  squash_springs(bench, *part);
}

namespace {

/// A ring that something pushes goes to the load face of its groove. False
/// where it is no ring, or its groove loads the other way.
bool lift_to_load(Bench bench, const std::string& id) {
  Fitted* ring = bench.place().find(id);
  if (ring == nullptr || ring->groove.empty()) {
    return false;
  }
  const auto [host_id, groove_id] = split(ring->groove);
  const Fitted* host = bench.place().find(host_id);
  const Groove* groove = host == nullptr ? nullptr : bench.workshop.part(host_id).groove(groove_id);
  if (groove == nullptr || !groove->loads_up || host->over) {
    return false;
  }
  ring->height_m = host->height_m + groove->high_m - shape_of(bench.workshop, *ring).high_m();
  bench.outcome.moved.push_back(id);
  return true;
}

} // namespace

/// What was held is let go: springs raise it to the ring that keeps it, and
/// the ring goes to the load face of its groove.
void let_joints_go(Bench bench) {
  PlaceState& place = bench.place();
  for (const std::string& id : bench.step.lets_go) {
    Fitted* part = place.find(id);
    if (part == nullptr) {
      bench.problem(bench.workshop.label(id) + " is not in, so it cannot be let go");
      continue;
    }
    if (!part->pressed) {
      part->joint = {};
      continue;
    }
    part->pressed = false;
    const Bodies others = bodies_in(bench.workshop, place, {id});
    const Body body{id, &shape_of(bench.workshop, *part), part->height_m, part->turn_rad,
                    spin_hand};
    Travel way = rise({body}, others.bodies);
    if (way.contact && lift_to_load(bench, others.ids[way.contact->below])) {
      way = rise({body}, bodies_in(bench.workshop, place, {id}).bodies);
    }
    if (!way.contact) {
      bench.problem("nothing keeps " + bench.workshop.label(id) +
                    " down when it is let go: its springs would throw it out");
      continue;
    }
    part->height_m += way.up_m;
    part->joint.kind = JointKind::retained;
    bench.outcome.moved.push_back(id);
    squash_springs(bench, *part);
  }
}

} // namespace lugline::build
