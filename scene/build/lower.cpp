#include "scene/build/lower.h"

#include "scene/build/hang.h"
#include "scene/pack/wave.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace lugline {

namespace {

constexpr double gravity_m_per_s2 = 9.80665;

bool holds(const std::vector<std::string>& list, const std::string& id) {
  return std::ranges::find(list, id) != list.end();
}

bool teeth_between(const Body& moving, double rest_m, const Body& below) {
  for (const SectorRing& ring_m : moving.shape->rings()) {
    const double low_m = rest_m + moving.height_m + ring_m.low_m;
    const double high_m = rest_m + moving.height_m + ring_m.high_m;
    for (const SectorRing& ring_b : below.shape->rings()) {
      const bool radii = std::min(ring_m.outer_m, ring_b.outer_m) >
                         std::max(ring_m.inner_m, ring_b.inner_m) + contact_tolerance_m;
      const bool heights = std::min(high_m, below.height_m + ring_b.high_m) >
                           std::max(low_m, below.height_m + ring_b.low_m) + contact_tolerance_m;
      if (radii && heights && !ring_m.full() && !ring_b.full()) {
        return true;
      }
    }
  }
  return false;
}

/// A free piece whose teeth stand between another's turns with it.
void turn_in_mesh(std::vector<Body>& bodies) {
  for (std::size_t i = 0; i < bodies.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const Spin one = bodies[i].spin;
      const Spin other = bodies[j].spin;
      if (one == other || !teeth_between(bodies[i], 0, bodies[j])) {
        continue;
      }
      for (Body& body : bodies) {
        body.spin = body.spin == std::max(one, other) ? std::min(one, other) : body.spin;
      }
    }
  }
}

/// Bodies in hand: what is joined fast turns with the hand, what turns freely
/// has a spin of its own.
void take_up(Workshop& workshop, const InHand& hand, Lowered& lowered, Spin& next_spin) {
  const std::vector<Spin> spins = spins_of(hand.pieces, next_spin, spin_hand);
  for (std::size_t i = 0; i < hand.pieces.size(); ++i) {
    const Fitted& piece = hand.pieces[i];
    lowered.question.moving.push_back(
        {piece.id, &shape_of(workshop, piece), piece.height_m, piece.turn_rad, spins[i]});
    lowered.moving_ids.push_back(piece.id);
    next_spin = std::max(next_spin, spins[i] + 1);
  }
  turn_in_mesh(lowered.question.moving);
}

/// How far what is loose in hand can be pushed up, by group.
struct Slack {
  Groups groups;
  std::vector<LooseTravel> rises;

  [[nodiscard]] double up_m(std::size_t piece) const { return rises[groups.of[piece]].by_m; }
};

Slack slack_of(const Workshop& workshop, const InHand& hand, const std::vector<Body>& bodies) {
  Slack slack;
  slack.groups = groups_of(workshop, hand.pieces, hand.lead);
  if (slack.groups.count == 1) {
    slack.rises = {{}};
    return slack;
  }
  const auto gaps = gaps_of(workshop, hand.pieces, bodies, slack.groups.of);
  slack.rises = rises_of(gaps, slack.groups.of, slack.groups.count);
  return slack;
}

/// What is loose in hand stops the lead only when it is solid with it. Each piece
/// pushed up as far as it goes is the shortest chain of gaps above it closed, and
/// all of them so stand together: a drop of what is rigid.
void push_up(const Slack& slack, std::vector<Body>& bodies) {
  static const Shape nothing;
  for (std::size_t i = 0; i < bodies.size(); ++i) {
    if (std::isinf(slack.up_m(i))) {
      bodies[i].shape = &nothing; // it is lifted, and stops nothing
    } else {
      bodies[i].height_m += slack.up_m(i);
    }
  }
}

/// A drum that could turn is still what the hand keys a plate to: it is left
/// as it stands. Plates, races and shafts are turned to let a part down.
bool stays_put(const Component& part) {
  return part.kind == ComponentKind::drum || part.kind == ComponentKind::case_ ||
         part.kind == ComponentKind::support;
}

void set_rules(Workshop& workshop, const LowerOptions& options, DropQuestion& question) {
  for (const auto* bodies : {&question.moving, &question.below}) {
    for (const Body& body : *bodies) {
      if (body.spin <= spin_hand) {
        continue;
      }
      if (holds(options.off, body.id)) {
        question.spins.push_back({body.spin, FreeTurn::off});
      } else if (holds(options.jammed, body.id) || stays_put(workshop.part(body.id))) {
        question.spins.push_back({body.spin, FreeTurn::as_it_is});
      }
    }
  }
}

/// Where the seat alone would stop it, whatever else is in the way.
std::optional<double> rest_on_seat(const DropQuestion& question, std::size_t seat,
                                   double turn_rad) {
  DropQuestion alone = question;
  alone.below = {question.below[seat]};
  const DropAnswer answer = drop(alone);
  const RestSpan wanted = answer.at(turn_rad);
  return wanted.rest_m ? wanted.rest_m : answer.lowest().rest_m;
}

/// The lowest rest at which the seat is among what carries it.
std::optional<double> lowest_on_seat(const DropQuestion& question, const DropAnswer& answer,
                                     std::size_t seat) {
  std::optional<double> lowest_m;
  for (const RestSpan& span : answer.spans) {
    if (!span.rest_m || (lowest_m && *span.rest_m >= *lowest_m)) {
      continue;
    }
    bool carries = span.contact.below == seat;
    if (!carries) {
      const double middle_rad = (span.from_rad + span.to_rad) / 2;
      for (const Contact& contact : contacts_at(question, middle_rad, *span.rest_m)) {
        carries = carries || contact.below == seat;
      }
    }
    if (carries) {
      lowest_m = span.rest_m;
    }
  }
  return lowest_m;
}

void find_expected(const LowerOptions& options, std::optional<std::size_t> seat, Lowered& lowered) {
  std::optional<double> expected_m = options.expected_m;
  if (!expected_m && seat) {
    expected_m = lowest_on_seat(lowered.question, lowered.answer, *seat);
    if (!expected_m) {
      expected_m = rest_on_seat(lowered.question, *seat, options.wanted_turn_rad);
    }
  }
  if (!expected_m && options.seat.empty()) {
    expected_m = lowered.answer.lowest().rest_m;
  }
  lowered.expected_known = expected_m.has_value();
  lowered.expected_m = expected_m.value_or(0);
}

void tell_contacts(const LowerOptions& options, Lowered& lowered) {
  const auto contacts = contacts_at(lowered.question, lowered.turn_rad, *lowered.rest_m);
  const RestSpan span = lowered.answer.at(lowered.turn_rad);
  Contact told = span.contact;
  for (const Contact& contact : contacts) {
    if (lowered.below_ids[contact.below] == options.seat) {
      told = contact;
    }
  }
  lowered.stands_on = lowered.below_ids[told.below];
  lowered.by = lowered.moving_ids[told.moving];
  lowered.stands_on_feature =
      lowered.question.below[told.below].shape->rings()[told.below_ring].feature;
  for (const Contact& contact : contacts) {
    const std::string& id = lowered.below_ids[contact.below];
    if (id != lowered.stands_on && !holds(lowered.also_on, id)) {
      lowered.also_on.push_back(id);
    }
  }
}

/// Which free pieces below have their teeth between those of what moves, as it
/// rests and as it would rest seated.
void tell_engaged(Workshop& workshop, const PlaceState& into, Lowered& lowered) {
  for (std::size_t b = 0; b < lowered.question.below.size(); ++b) {
    const Body& below = lowered.question.below[b];
    const Fitted* fitted = into.find(below.id);
    if (fitted == nullptr || !turns_freely(fitted->joint) || stays_put(workshop.part(below.id))) {
      continue;
    }
    bool now = false;
    bool seated = false;
    for (const Body& moving : lowered.question.moving) {
      // As it is pushed up: what hangs again is as near to its teeth as it was.
      now = now || teeth_between(moving, *lowered.rest_m, below);
      seated =
          seated || (lowered.expected_known && teeth_between(moving, lowered.expected_m, below));
    }
    if (now) {
      lowered.engaged.push_back(lowered.below_ids[b]);
    } else if (seated) {
      lowered.not_engaged.push_back(lowered.below_ids[b]);
    }
  }
}

double turn_of(const Lowered& lowered, Spin spin) {
  if (spin == spin_hand) {
    return lowered.turn_rad;
  }
  const auto found = std::ranges::find(lowered.spins, spin, &SpinTurn::spin);
  return found == lowered.spins.end() ? 0 : found->turn_rad;
}

/// Everything as it stands when the lead has come to rest, pushed up, and clear of
/// all where nothing stops it: the hand's bodies first.
std::vector<Body> bodies_at_rest(Workshop& workshop, const InHand& hand, const Slack& slack,
                                 const Lowered& lowered) {
  std::vector<Body> below = lowered.question.below;
  double top_m = 0;
  for (Body& body : below) {
    body.turn_rad += turn_of(lowered, body.spin);
    top_m = std::max(top_m, body.height_m + body.shape->high_m());
  }
  double low_m = 0;
  for (const Fitted& piece : hand.pieces) {
    low_m = std::min(low_m, *lowered.rest_m + piece.height_m + shape_of(workshop, piece).low_m());
  }
  const double clear_m = top_m - low_m + 1;
  std::vector<Body> bodies;
  for (std::size_t i = 0; i < hand.pieces.size(); ++i) {
    Body body = lowered.question.moving[i];
    body.shape = &shape_of(workshop, hand.pieces[i]);
    body.height_m = *lowered.rest_m + hand.pieces[i].height_m + std::min(slack.up_m(i), clear_m);
    body.turn_rad += turn_of(lowered, body.spin);
    bodies.push_back(body);
  }
  bodies.insert(bodies.end(), below.begin(), below.end());
  return bodies;
}

/// Whether following what each stands on leads from one piece to another.
bool stands_over(const std::vector<Fitted>& pieces, std::string id, const std::string& on) {
  for (std::size_t steps = 0; steps < pieces.size() && id != on; ++steps) {
    const auto piece = std::ranges::find(pieces, id, &Fitted::id);
    id = piece == pieces.end() ? std::string() : piece->stands_on;
  }
  return id == on;
}

/// From what stopped the lead upward: each piece of the solid chain stands on the
/// one beneath it.
void stand_in_chain(const InHand& hand, const Slack& slack, Lowered& lowered) {
  std::vector<Fitted>& landed = lowered.landed;
  const auto index = [&](const std::string& id) {
    return static_cast<std::size_t>(std::ranges::find(lowered.moving_ids, id) -
                                    lowered.moving_ids.begin());
  };
  const std::size_t lead = index(hand.lead);
  std::size_t at = index(lowered.by);
  landed[at].stands_on = lowered.stands_on;
  bool through_loose = false;
  while (slack.groups.of[at] != held_group) {
    const LooseTravel& travel = slack.rises[slack.groups.of[at]];
    Fitted& carries = landed[*travel.by];
    if (!stands_over(landed, carries.id, landed[at].id)) {
      carries.stands_on = landed[at].id; // joined fast beside it
    }
    at = *travel.stop;
    landed[at].stands_on = carries.id;
    through_loose = true;
  }
  if (at != lead) {
    landed[lead].stands_on = through_loose ? landed[at].id : lowered.stands_on;
  }
}

/// The pieces where they come to rest: what is loose falls from where it was
/// pushed up to, onto what is beneath it.
void land(Workshop& workshop, const InHand& hand, const Slack& slack, Lowered& lowered) {
  std::vector<Body> bodies = bodies_at_rest(workshop, hand, slack, lowered);
  for (std::size_t i = 0; i < hand.pieces.size(); ++i) {
    lowered.landed[i].height_m = bodies[i].height_m;
    lowered.landed[i].turn_rad = bodies[i].turn_rad;
  }
  if (slack.groups.count > 1) {
    std::vector<LooseGroup> groups = slack.groups.of;
    groups.resize(bodies.size(), held_group);
    const auto gaps = gaps_of(workshop, hand.pieces, bodies, groups);
    const auto falls = falls_of(gaps, groups, slack.groups.count);
    for (std::size_t i = 0; i < hand.pieces.size(); ++i) {
      const double by_m = falls[groups[i]].by_m;
      bodies[i].height_m -= std::isinf(by_m) ? 0 : by_m;
      lowered.landed[i].height_m = bodies[i].height_m;
    }
    stand_again(lowered.landed, bodies, groups, std::vector<bool>(slack.groups.count, true));
  }
  stand_in_chain(hand, slack, lowered);
}

} // namespace

InHand one_part(Workshop&, const std::string& id, bool over) {
  InHand hand;
  hand.lead = id;
  Fitted piece;
  piece.id = id;
  piece.over = over;
  hand.pieces.push_back(piece);
  return hand;
}

InHand whole_place(Workshop& workshop, PlaceState place, const std::string& base, bool over) {
  InHand hand;
  if (over) {
    hand.fell_out = turn_over(workshop, place, base);
  }
  hand.lead = base;
  const Fitted* lead = place.find(base);
  assert(lead != nullptr);
  const double height_m = lead->height_m;
  const double turn_rad = lead->turn_rad;
  for (Fitted piece : place.fitted) {
    piece.height_m -= height_m;
    piece.turn_rad -= turn_rad;
    hand.pieces.push_back(piece);
  }
  return hand;
}

std::vector<std::string> hang(Workshop& workshop, InHand& hand) {
  PlaceState place;
  place.fitted = hand.pieces;
  std::vector<std::string> out = settle(workshop, place, hand.lead);
  hand.pieces = place.fitted;
  return out;
}

Lowered lower(Workshop& workshop, const InHand& hand, const PlaceState& into,
              const LowerOptions& options) {
  Lowered lowered;
  Spin next_spin = 2;
  take_up(workshop, hand, lowered, next_spin);
  const Slack slack = slack_of(workshop, hand, lowered.question.moving);
  push_up(slack, lowered.question.moving);
  lowered.landed = hand.pieces;
  Bodies below = bodies_in(workshop, into, {}, next_spin);
  lowered.question.below = std::move(below.bodies);
  lowered.below_ids = std::move(below.ids);
  set_rules(workshop, options, lowered.question);
  lowered.answer = drop(lowered.question);

  const auto seat_at = std::ranges::find(lowered.below_ids, options.seat);
  std::optional<std::size_t> seat;
  if (seat_at != lowered.below_ids.end()) {
    seat = static_cast<std::size_t>(seat_at - lowered.below_ids.begin());
  }
  find_expected(options, seat, lowered);
  if (lowered.expected_known) {
    lowered.poses = seat
                        ? poses(lowered.question, lowered.answer, lowered.expected_m, {*seat},
                                contact_tolerance_m)
                        : turns_resting_at(lowered.answer, lowered.expected_m, contact_tolerance_m);
  }
  lowered.turn_rad = options.wanted_turn_rad;
  lowered.rest_m = lowered.answer.at(lowered.turn_rad).rest_m;
  if (!lowered.rest_m) {
    return lowered;
  }
  tell_contacts(options, lowered);
  lowered.stand_off_m = lowered.expected_known ? *lowered.rest_m - lowered.expected_m : 0;
  lowered.seated = lowered.expected_known && std::abs(lowered.stand_off_m) <= contact_tolerance_m &&
                   (options.seat.empty() || lowered.stands_on == options.seat);
  tell_engaged(workshop, into, lowered);
  lowered.level = level_on(lowered.question, lowered.turn_rad, *lowered.rest_m);
  lowered.spins = turns_after(lowered.question, lowered.turn_rad);
  land(workshop, hand, slack, lowered);
  return lowered;
}

void let_go(const Lowered& lowered, const InHand& hand, const Joint& lead_joint, PlaceState& into) {
  for (std::size_t i = 0; i < lowered.question.below.size(); ++i) {
    into.find(lowered.below_ids[i])->turn_rad += turn_of(lowered, lowered.question.below[i].spin);
  }
  for (Fitted piece : lowered.landed) {
    piece.joint = piece.id == hand.lead ? lead_joint : piece.joint;
    into.fitted.push_back(piece);
  }
}

double mass_of(Workshop& workshop, const InHand& hand) {
  double mass_kg = 0;
  for (const Fitted& piece : hand.pieces) {
    const double piece_kg = workshop.part(piece.id).mass_kg;
    if (piece_kg <= 0) {
      return 0;
    }
    mass_kg += piece_kg;
  }
  return mass_kg;
}

namespace {

/// How far the wave plate under a piece gives under a force; nothing where the
/// piece stands on the solid all the way down.
double gives_under_m(Workshop& workshop, const PlaceState& into, std::string carries,
                     double force_N) {
  for (std::size_t steps = 0; steps < into.fitted.size() && !carries.empty(); ++steps) {
    const Component& part = workshop.part(carries);
    if (part.wave && part.wave->waves > 0) {
      const SectorRing* strip = nullptr;
      for (const SectorRing& ring : part.solid.rings) {
        strip = ring.full() && (strip == nullptr ||
                                ring.outer_m - ring.inner_m > strip->outer_m - strip->inner_m)
                    ? &ring
                    : strip;
      }
      if (strip == nullptr) {
        return 0;
      }
      const double stiffness =
          wave_stiffness_N_per_m(strip->inner_m + strip->outer_m, strip->outer_m - strip->inner_m,
                                 part.wave->flat_m, part.wave->waves);
      return std::min(force_N / stiffness, part.wave->free_m - part.wave->flat_m);
    }
    const Fitted* fitted = into.find(carries);
    carries = fitted == nullptr ? "" : fitted->stands_on;
  }
  return 0;
}

} // namespace

double weight_sinks_m(Workshop& workshop, const Lowered& lowered, const PlaceState& into,
                      double mass_kg) {
  const double force_N = mass_kg * gravity_m_per_s2;
  double sinks_m = gives_under_m(workshop, into, lowered.stands_on, force_N);
  for (const std::string& id : lowered.also_on) {
    sinks_m = std::min(sinks_m, gives_under_m(workshop, into, id, force_N));
  }
  return sinks_m;
}

} // namespace lugline
