// Parts and sub-builds that go in along the axis.
#include "scene/build/feature.h"
#include "scene/build/steps.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cmath>

namespace lugline::build {

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}
std::string degrees(double angle_rad) {
  return print_angle(angle_rad, 1);
}

std::string labels_of(const Workshop& workshop, const std::vector<std::string>& ids) {
  std::string all;
  for (const std::string& id : ids) {
    all += (all.empty() ? "" : ", ") + workshop.label(id);
  }
  return all;
}

namespace {

/// A difference smaller than a micrometre is no stand-off that a bench can see.
constexpr double told_m = 1e-6;

void judge_rest(Bench bench, const Lowered& lowered, const std::string& lead) {
  Workshop& workshop = bench.workshop;
  const std::string& name = workshop.label(lead);
  const std::string& seat_id = bench.step.seat;
  const bool seat_in = std::ranges::find(lowered.below_ids, seat_id) != lowered.below_ids.end();
  if (lowered.below_ids.empty()) {
    const Place* place = workshop.unit().place(bench.step.place);
    bench.problem(name + " has nothing to go into: " + workshop.label(place->base) +
                  ", on which this place is built, does not stand there");
    return;
  }
  if (!seat_id.empty() && !seat_in) {
    bench.problem(workshop.label(seat_id) + ", the seat of " + name + ", is not in yet");
    return;
  }
  if (!lowered.rest_m) {
    const bool no_rings = workshop.part(lead).solid.rings.empty();
    bench.problem(no_rings ? name + " states no features, so there is nothing to lower"
                           : name + " falls through: nothing that is in shares a radius with it");
    return;
  }
  if (seat_id.empty()) {
    return;
  }
  const std::string& seat = workshop.label(seat_id);
  const double stand_off_m = lowered.stand_off_m;
  if (lowered.stands_on != seat_id) {
    const std::string by = mm(std::abs(stand_off_m)) + (stand_off_m > 0 ? " proud" : " too low");
    bench.problem(name + " stands on " + workshop.label(lowered.stands_on) + " and not on " + seat +
                  (std::abs(stand_off_m) > told_m ? ": " + by : ""));
  } else if (stand_off_m > told_m) {
    std::string words = "turned to " + degrees(lowered.turn_rad) + " " + name + " stands " +
                        mm(stand_off_m) + " proud on " + seat;
    if (!lowered.poses.empty()) {
      words += "; it goes in at " + degrees(nearest_turn(lowered.poses, lowered.turn_rad));
    }
    bench.problem(words);
  }
  if (lowered.level.cocked) {
    const auto& heights_m = lowered.level.heights_m;
    std::string words = name + " stands cocked, low towards " + degrees(lowered.level.low_side_rad);
    words += lowered.level.topples ? std::string(", and would topple")
                                   : ": it reads " + mm(heights_m[0]) + ", " + mm(heights_m[1]) +
                                         " and " + mm(heights_m[2]) + " at 0, 120 and 240 deg";
    bench.problem(words);
  }
}

Joint joint_for(const Step& step) {
  Joint joint = step.joint;
  if (step.kind == StepKind::grease) {
    joint.kind = JointKind::stuck;
  }
  return joint;
}

void base_stands(Bench bench, bool over) {
  Fitted base;
  base.id = bench.step.part;
  base.over = over;
  base.turn_rad = bench.step.turn_rad;
  base.joint = {JointKind::fixed, "", false, ""};
  bench.place().fitted.push_back(base);
  bench.outcome.hand = std::make_shared<InHand>(one_part(bench.workshop, base.id, over));
}

/// The groove as it stands in the place.
std::optional<Groove> groove_in(Bench bench) {
  const auto [host_id, groove_id] = halves(bench.step.groove);
  const Fitted* host = bench.place().find(host_id);
  const auto groove =
      host == nullptr ? std::nullopt : groove_there(bench.workshop, *host, groove_id);
  if (!groove) {
    bench.problem(bench.workshop.label(host_id) + ", which has the groove, is not in yet");
  }
  return groove;
}

void judge_ring(Bench bench, const RingReport& ring, const std::vector<std::string>& below_ids) {
  const std::string& name = bench.workshop.label(bench.step.part);
  const auto& figures = bench.workshop.part(bench.step.part).ring;
  const bool waved = figures && figures->waved();
  switch (ring.fate) {
  case RingFate::seated:
    return;
  case RingFate::held_up: {
    std::string words =
        name + " will not enter its groove: the stack is " + mm(ring.too_high_m) + " too high";
    if (ring.held_by) {
      words += " (" + bench.workshop.label(below_ids[ring.held_by->below]) + " stands in the way)";
    }
    bench.problem(words);
    return;
  }
  case RingFate::will_not_pass:
    bench.problem(name + " squeezed as far as it goes is still " + mm(2 * ring.too_wide_m) +
                  " too wide for the land beside its groove");
    return;
  case RingFate::too_thick:
    bench.problem(name + (waved ? ", its waves pressed flat, is " : " is ") + mm(ring.too_high_m) +
                  " thicker than its groove is high");
    return;
  case RingFate::wrong_groove:
    bench.problem(name + " is for the other kind of groove: a bore's ring springs outward, a "
                         "shaft's springs inward");
    return;
  }
}

void put_ring_in(Bench bench, bool over) {
  const auto groove = groove_in(bench);
  if (!groove) {
    return;
  }
  Component ring = bench.workshop.part(bench.step.part);
  if (ring.solid.rings.empty()) {
    bench.problem(bench.workshop.label(ring.id) +
                  " states no features, so there is nothing to lower");
    return;
  }
  if (!ring.ring) {
    // A plain one: it is taken to pass the land, and no more is known of it.
    ring.ring = RingFigures{};
    ring.ring->in_bore = groove->in_bore;
    ring.ring->squeezed_m = groove->land_m;
  }
  if (over) {
    ring.solid = turned_over(ring.solid);
  }
  const Bodies below = bodies_in(bench.workshop, bench.place());
  const std::string host_id = halves(bench.step.groove).first;
  const bool ring_over = over != bench.place().find(host_id)->over;
  const RingReport report =
      seat_ring(ring, ring_over, *groove, 0, below.bodies, bench.step.turn_rad);
  bench.outcome.ring = report;
  bench.outcome.hand = std::make_shared<InHand>(one_part(bench.workshop, ring.id, over));
  judge_ring(bench, report, below.ids);
  if (report.fate != RingFate::seated) {
    return;
  }
  if (ring.ring->bevelled && ring_over && ring.ring->reversed_play_m > 0) {
    bench.problem(bench.workshop.label(ring.id) +
                  " is the wrong way up for its groove: its bevel " + "leaves " +
                  mm(ring.ring->reversed_play_m) + " of play");
  }
  if (!bench.step.seat.empty() && report.held_by &&
      below.ids[report.held_by->below] != bench.step.seat) {
    bench.problem(bench.workshop.label(ring.id) + " lies on " +
                  bench.workshop.label(below.ids[report.held_by->below]) + " and not on " +
                  bench.workshop.label(bench.step.seat));
  }
  Fitted fitted;
  fitted.id = ring.id;
  fitted.over = over;
  fitted.turn_rad = bench.step.turn_rad;
  fitted.height_m = report.down_m - ring.solid.low_m();
  if (ring.ring->waved() && report.height_m < ring.solid.high_m() - ring.solid.low_m()) {
    fitted.squashed_to_m = report.height_m;
  }
  fitted.joint = bench.step.joint;
  fitted.groove = bench.step.groove;
  fitted.stands_on = report.held_by ? below.ids[report.held_by->below] : host_id;
  bench.place().fitted.push_back(fitted);
}

/// What goes in sideways does not drop: its height is the hole's, which the
/// step states. It may touch what is in, and be inside nothing.
void push_in_from_side(Bench bench, bool over) {
  Fitted fitted;
  fitted.id = bench.step.part;
  fitted.over = over;
  fitted.turn_rad = bench.step.turn_rad;
  fitted.height_m = *bench.step.side_to_m;
  fitted.joint = bench.step.joint;
  fitted.stands_on = bench.step.seat;
  bench.outcome.hand = std::make_shared<InHand>(one_part(bench.workshop, fitted.id, over));
  const std::string& name = bench.workshop.label(fitted.id);
  if (!bench.step.seat.empty() && bench.place().find(bench.step.seat) == nullptr) {
    bench.problem(bench.workshop.label(bench.step.seat) + ", the seat of " + name +
                  ", is not in yet");
  }
  const Body body{fitted.id, &shape_of(bench.workshop, fitted), fitted.height_m, fitted.turn_rad,
                  spin_fixed};
  for (const Body& other : bodies_in(bench.workshop, bench.place()).bodies) {
    const FitReport fit = fit_between(body, other, contact_tolerance_m);
    if (fit.fit == Fit::inside) {
      bench.problem(name + " pushed in from the side is inside " + bench.workshop.label(other.id) +
                    " by " + mm(fit.by_m));
    }
  }
  bench.place().fitted.push_back(fitted);
}

} // namespace

void put_in(Bench bench) {
  const Step& step = bench.step;
  const bool over = step.way_up == WayUp::turned_over;
  if (bench.place().find(step.part) != nullptr) {
    bench.problem(bench.workshop.label(step.part) + " is in already");
    return;
  }
  bench.outcome.moved = {step.part};
  const Place* place = bench.workshop.unit().place(step.place);
  if (place != nullptr && place->base == step.part) {
    base_stands(bench, over);
    return;
  }
  if (step.side_to_m) {
    push_in_from_side(bench, over);
    return;
  }
  const Component& part = bench.workshop.part(step.part);
  if (!step.groove.empty() && (part.ring || part.kind == ComponentKind::snap_ring)) {
    put_ring_in(bench, over);
    return;
  }
  LowerOptions options;
  options.seat = step.seat;
  options.wanted_turn_rad = step.turn_rad;
  const InHand hand = one_part(bench.workshop, step.part, over);
  const InHand wrong = one_part(bench.workshop, step.part, !over);
  bench.outcome.hand = std::make_shared<InHand>(hand);
  bench.outcome.turned_hand = std::make_shared<InHand>(wrong);
  const auto lowered =
      std::make_shared<Lowered>(lower(bench.workshop, hand, bench.place(), options));
  bench.outcome.lowered = lowered;
  options.expected_m = lowered->expected_known ? std::optional(lowered->expected_m) : std::nullopt;
  bench.outcome.turned =
      std::make_shared<Lowered>(lower(bench.workshop, wrong, bench.place(), options));
  judge_rest(bench, *lowered, step.part);
  if (lowered->rest_m) {
    let_go(*lowered, hand, joint_for(step), bench.place());
  }
}

void bring(Bench bench) {
  const Step& step = bench.step;
  const Place* from = bench.workshop.unit().place(step.brings);
  if (from == nullptr || bench.state.places[step.brings].find(from->base) == nullptr) {
    bench.problem("there is nothing on the " + step.brings + " to bring");
    return;
  }
  judge_held_down(bench, bench.state.places[step.brings]);
  LowerOptions options;
  options.seat = step.seat;
  options.wanted_turn_rad = step.turn_rad;
  const InHand hand = whole_place(bench.workshop, bench.state.places[step.brings], from->base,
                                  step.way_up == WayUp::turned_over);
  bench.outcome.hand = std::make_shared<InHand>(hand);
  for (const std::string& id : hand.fell_out) {
    bench.problem(fell_out(bench.workshop, id, " when the work is turned over"));
  }
  for (const Fitted& piece : hand.pieces) {
    bench.outcome.moved.push_back(piece.id);
  }
  const auto lowered =
      std::make_shared<Lowered>(lower(bench.workshop, hand, bench.place(), options));
  bench.outcome.lowered = lowered;
  judge_rest(bench, *lowered, hand.lead);
  if (lowered->rest_m) {
    let_go(*lowered, hand, joint_for(step), bench.place());
    bench.state.places[step.brings] = {};
  }
}

} // namespace lugline::build
