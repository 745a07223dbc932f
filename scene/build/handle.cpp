// Steps that do not simply drop: bands, tools, taking out.
#include "scene/build/feature.h"
#include "scene/build/steps.h"

#include "scene/seat/drop.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline::build {

namespace {

/// How far a hole may be off its pin, on the arc: half of the wider of the two.
bool hangs_on(const Key& ear, const Key& pin) {
  const double radius_m = (pin.inner_m + pin.outer_m) / 2;
  const double off_rad = std::remainder(ear.angle_rad - pin.angle_rad, 2 * std::numbers::pi);
  return std::abs(off_rad) * radius_m <=
         std::max(std::max(ear.width_m, pin.width_m) / 2, contact_tolerance_m);
}

double middle(const Key& key) {
  return (key.low_m + key.high_m) / 2;
}

} // namespace

/// A band hangs on its pins: the height is the pin's, not a drop's. Its key,
/// the ear, comes to the middle of what it fits.
void spread_band(Bench bench) {
  const Step& step = bench.step;
  const std::string& name = bench.workshop.label(step.part);
  if (bench.place().find(step.part) != nullptr) {
    bench.problem(name + " is in already");
    return;
  }
  Fitted fitted;
  fitted.id = step.part;
  fitted.over = step.way_up == WayUp::turned_over;
  fitted.band_state = step.band_state;
  fitted.turn_rad = step.turn_rad;
  fitted.joint = step.joint;
  fitted.joint.kind = JointKind::retained;
  const auto ear = key_there(bench.workshop, fitted, halves(step.key).second);
  const auto [pin_id, pin_key_id] = halves(ear ? ear->fits : std::string());
  const Fitted* pin_piece = bench.place().find(pin_id);
  const auto pin =
      pin_piece == nullptr ? std::nullopt : key_there(bench.workshop, *pin_piece, pin_key_id);
  if (!ear || !pin) {
    bench.problem("the pin that " + name + " hangs on is not in yet");
    return;
  }
  if (!hangs_on(*ear, *pin)) {
    bench.problem(
        name + " does not hang on " + bench.workshop.label(pin_id) + ": its " + ear->id +
        " stands " +
        degrees(std::abs(std::remainder(ear->angle_rad - pin->angle_rad, 2 * std::numbers::pi))) +
        " away from it");
  }
  fitted.stands_on = pin_id;
  fitted.height_m = middle(*pin) - middle(*ear);
  bench.outcome.moved = {step.part};
  bench.outcome.hand = std::make_shared<InHand>(one_part(bench.workshop, step.part, fitted.over));

  const Body body{fitted.id, &shape_of(bench.workshop, fitted), fitted.height_m, fitted.turn_rad,
                  spin_fixed};
  const Bodies others = bodies_in(bench.workshop, bench.place());
  for (const Body& other : others.bodies) {
    const FitReport fit = fit_between(body, other, contact_tolerance_m);
    if (fit.fit == Fit::inside && other.id != pin_id) {
      bench.problem(name + " on its pins is inside " + bench.workshop.label(other.id) + " by " +
                    mm(fit.by_m));
    }
  }
  bench.place().fitted.push_back(fitted);
}

namespace {

/// The part of a tool that goes into a groove: what reaches farthest outward
/// into a bore's, or farthest inward into a shaft's.
const SectorRing* finger_of(const Shape& tool, const Groove& groove) {
  const SectorRing* finger = nullptr;
  for (const SectorRing& ring : tool.rings()) {
    const bool farther = finger == nullptr || (groove.in_bore ? ring.outer_m > finger->outer_m
                                                              : ring.inner_m < finger->inner_m);
    finger = farther ? &ring : finger;
  }
  return finger;
}

/// Why the fingers do not hold in the groove; empty where they do.
std::string why_no_hold(const SectorRing& finger, const Groove& groove) {
  const double room_m = (groove.high_m - groove.low_m) - (finger.high_m - finger.low_m);
  const double past_land_m =
      groove.in_bore ? finger.outer_m - groove.land_m : groove.land_m - finger.inner_m;
  const double past_bottom_m =
      groove.in_bore ? finger.outer_m - groove.bottom_m : groove.bottom_m - finger.inner_m;
  if (room_m < -contact_tolerance_m || past_bottom_m > contact_tolerance_m) {
    return "do not go into the groove";
  }
  return past_land_m <= contact_tolerance_m ? "do not reach into the groove" : "";
}

} // namespace

/// A tool's fingers open into a groove and lift against its upper face.
void attach_tool(Bench bench) {
  const Step& step = bench.step;
  const std::string& name = bench.workshop.label(step.part);
  const auto [host_id, groove_id] = halves(step.groove);
  const Fitted* host = bench.place().find(host_id);
  if (host == nullptr) {
    bench.problem(bench.workshop.label(host_id) + " is not in, so the tool has nothing to hold");
    return;
  }
  const bool over = step.way_up == WayUp::turned_over;
  const Shape& tool = bench.workshop.shape(step.part, over);
  const auto groove = groove_there(bench.workshop, *host, groove_id);
  const SectorRing* finger = groove ? finger_of(tool, *groove) : nullptr;
  if (finger == nullptr) {
    bench.problem("the groove for " + name + " is not there");
    return;
  }
  if (const std::string why = why_no_hold(*finger, *groove); !why.empty()) {
    bench.problem("the fingers of " + name + " " + why);
  }
  Fitted fitted;
  fitted.id = step.part;
  fitted.over = over;
  fitted.turn_rad = step.turn_rad;
  fitted.joint = {JointKind::fixed, host_id, false, ""};
  fitted.stands_on = host_id;
  fitted.height_m = groove->high_m - finger->high_m;
  bench.outcome.moved = {step.part};
  bench.outcome.hand = std::make_shared<InHand>(one_part(bench.workshop, step.part, over));

  // The ring and what it keeps are out while the tool is in.
  const Body body{fitted.id, &tool, fitted.height_m, fitted.turn_rad, spin_fixed};
  for (const Body& other : bodies_in(bench.workshop, bench.place()).bodies) {
    const FitReport fit = fit_between(body, other, contact_tolerance_m);
    if (fit.fit == Fit::inside) {
      bench.problem(bench.workshop.label(other.id) + " is in the way of " + name);
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
    if (!part.ring && fitted->groove.empty() && part.kind != ComponentKind::tool) {
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
  let_fall(bench);
}

} // namespace lugline::build
