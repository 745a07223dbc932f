#include "scene/build/timeline.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

/// Legs of the way in, as shares of the step: shown, turned to its key, lowered.
constexpr double shown_until = 0.12;
constexpr double turned_until = 0.34;
/// How far above what is in the part hangs, and how far off its key it comes.
constexpr double hang_m = 0.030;
constexpr double off_key_rad = 0.35;
/// How far off the axis a part begins that goes in from the side.
constexpr double from_side_m = 0.060;

double eased(double share) {
  const double s = std::clamp(share, 0.0, 1.0);
  return s * s * (3 - 2 * s);
}

double leg(double moment, double from, double to) {
  return eased((moment - from) / (to - from));
}

/// Falls, and eases into its seat: fast in the middle, slow over the last of it.
double lowered_share(double moment) {
  return 1 - std::pow(1 - leg(moment, turned_until, 1), 1.6);
}

PosedPiece posed(const Fitted& fitted) {
  PosedPiece piece;
  piece.id = fitted.id;
  piece.height_m = fitted.height_m;
  piece.turn_rad = fitted.turn_rad;
  piece.over = fitted.over;
  piece.squashed_to_m = fitted.squashed_to_m;
  piece.band_state = fitted.band_state;
  return piece;
}

double top_of(Workshop& workshop, const PlaceState& place) {
  double top_m = 0;
  for (const Fitted& fitted : place.fitted) {
    top_m = std::max(top_m, fitted.height_m + shape_of(workshop, fitted).high_m());
  }
  return top_m;
}

double low_of(Workshop& workshop, const InHand& hand) {
  double low_m = 0;
  for (const Fitted& fitted : hand.pieces) {
    low_m = std::min(low_m, fitted.height_m + shape_of(workshop, fitted).low_m());
  }
  return low_m;
}

struct Scene {
  Workshop& workshop;
  const Step& step;
  const StepOutcome& outcome;
  const PlaceState* before;
  const PlaceState* after;
};

const PlaceState* place_in(const BuildState& state, const std::string& id) {
  const auto found = state.places.find(id);
  return found == state.places.end() ? nullptr : &found->second;
}

bool moved_by(const Scene& scene, const std::string& id) {
  const auto& moved = scene.outcome.moved;
  return std::ranges::find(moved, id) != moved.end();
}

/// Outward is to +x or to -x: a part at an angle up to half a turn is on the -x side.
double side_sign(const Component& part) {
  for (const SectorRing& ring : part.solid.rings) {
    if (!ring.full()) {
      return std::sin(ring.sectors.front().from.angle_rad) > 0 ? -1 : 1;
    }
  }
  return 1;
}

/// A closed ring cannot come from the side: it is worked on from above.
bool goes_round(const Component& part) {
  return std::ranges::any_of(part.solid.rings, &SectorRing::full);
}

double own_height(Workshop& workshop, const Fitted& fitted) {
  const Shape& shape = shape_of(workshop, fitted);
  return shape.high_m() - shape.low_m();
}

/// On its way, where it is, from how it stood to how it stands.
PosedPiece between(const Scene& scene, const Fitted& was, const Fitted& is, double share) {
  PosedPiece piece = posed(is);
  piece.height_m = was.height_m + (is.height_m - was.height_m) * share;
  piece.turn_rad =
      was.turn_rad + std::remainder(is.turn_rad - was.turn_rad, 2 * std::numbers::pi) * share;
  const double old_m = own_height(scene.workshop, was);
  const double new_m = own_height(scene.workshop, is);
  if (old_m != new_m) {
    piece.squashed_to_m = old_m + (new_m - old_m) * share;
  }
  return piece;
}

/// What was in before: it stays, turns along, or moves where it is.
void what_was_in(const Scene& scene, double share, Moment& result) {
  if (scene.before == nullptr) {
    return;
  }
  for (const Fitted& was : scene.before->fitted) {
    const Fitted* is = scene.after->find(was.id);
    result.pieces.push_back(is == nullptr ? posed(was) : between(scene, was, *is, share));
  }
}

/// Parts that go in, from the hand to where they came to rest.
void way_in(const Scene& scene, double moment, Moment& result) {
  const InHand& hand = *scene.outcome.hand;
  const Fitted* lead = scene.after->find(hand.lead);
  const bool is_base = scene.before == nullptr || scene.before->fitted.empty();
  const double fall = lowered_share(moment);
  what_was_in(scene, fall, result);
  result.falls_to_m = lead->height_m;
  result.falls_from_m =
      is_base ? lead->height_m : result.mouth_m + hang_m - low_of(scene.workshop, hand);
  result.moving = !is_base;
  if (scene.step.side_to_m && !goes_round(scene.workshop.part(lead->id))) {
    PosedPiece piece = posed(*lead);
    piece.in_hand = true;
    piece.new_here = true;
    result.falls_from_m = result.falls_to_m;
    piece.aside_m = side_sign(scene.workshop.part(lead->id)) * from_side_m *
                    (1 - leg(moment, shown_until, 0.9));
    result.pieces.push_back(piece);
    return;
  }
  const double off_rad = (1 - leg(moment, shown_until, turned_until)) * off_key_rad;
  for (const Fitted& in_hand : hand.pieces) {
    const Fitted* there = scene.after->find(in_hand.id);
    if (there == nullptr) {
      continue;
    }
    PosedPiece piece = posed(*there);
    piece.in_hand = true;
    piece.new_here = true;
    if (result.moving) {
      // It hangs in the hand until it meets what it comes to rest on.
      const double lead_m = lead->height_m + (result.falls_from_m - result.falls_to_m) * (1 - fall);
      piece.height_m = std::max(piece.height_m, lead_m + in_hand.height_m);
      piece.turn_rad += off_rad;
    }
    result.pieces.push_back(piece);
  }
}

/// Parts that come out: up and away.
void way_out(const Scene& scene, double moment, Moment& result) {
  for (const Fitted& fitted : scene.before->fitted) {
    const Fitted* stays = scene.after->find(fitted.id);
    PosedPiece piece =
        stays == nullptr ? posed(fitted) : between(scene, fitted, *stays, leg(moment, 0.15, 0.95));
    if (stays == nullptr) {
      piece.in_hand = true;
      piece.new_here = true;
      result.falls_to_m = piece.height_m;
      result.falls_from_m = result.mouth_m + hang_m;
      piece.height_m += (result.falls_from_m + hang_m) * leg(moment, 0.05, 0.75);
      piece.aside_m = 0.28 * leg(moment, 0.55, 1.0);
    }
    result.pieces.push_back(piece);
  }
  result.moving = true;
}

/// Bodily over first, about the middle of the base, and then what is loose falls.
void turning_over(const Scene& scene, double moment, Moment& result) {
  const Place* place = scene.workshop.unit().place(scene.step.place);
  const Fitted* base = place == nullptr ? nullptr : scene.before->find(place->base);
  if (base == nullptr) {
    return;
  }
  const Shape& shape = shape_of(scene.workshop, *base);
  const double about_m = base->height_m + (shape.low_m() + shape.high_m()) / 2;
  const double turn_share = leg(moment, 0.1, 0.75);
  const double settle_share = leg(moment, 0.78, 1.0);
  for (const Fitted& was : scene.before->fitted) {
    const Fitted* is = scene.after->find(was.id);
    PosedPiece piece = posed(was);
    if (turn_share < 1) {
      piece.over_more_rad = std::numbers::pi * turn_share;
      piece.over_about_m = about_m;
    } else if (is != nullptr) {
      const Shape& own = shape_of(scene.workshop, was);
      piece = posed(*is);
      const double over_m = 2 * about_m - was.height_m - own.low_m() - own.high_m();
      piece.height_m = over_m + (is->height_m - over_m) * settle_share;
    } else {
      continue; // it fell out
    }
    piece.in_hand = true;
    piece.new_here = true;
    result.pieces.push_back(piece);
  }
  result.moving = true;
}

/// What only moves where it is: pressed, let go.
void in_place(const Scene& scene, double moment, Moment& result) {
  if (scene.after == nullptr) {
    return;
  }
  const double share = leg(moment, 0.15, 0.95);
  for (const Fitted& fitted : scene.after->fitted) {
    PosedPiece piece = posed(fitted);
    const Fitted* was = scene.before == nullptr ? nullptr : scene.before->find(fitted.id);
    if (was != nullptr && moved_by(scene, fitted.id)) {
      piece = between(scene, *was, fitted, share);
      piece.in_hand = true;
      piece.new_here = true;
      result.moving = true;
    }
    result.pieces.push_back(piece);
  }
}

/// What is measured or looked at before it goes in is held above the work.
void looked_at(const Scene& scene, Moment& result) {
  const Shape& shape = scene.workshop.shape(scene.step.part, false);
  PosedPiece piece;
  piece.id = scene.step.part;
  piece.height_m = result.mouth_m + hang_m - shape.low_m();
  piece.in_hand = true;
  piece.new_here = true;
  result.pieces.push_back(piece);
}

bool goes_in(StepKind kind) {
  return kind == StepKind::place || kind == StepKind::grease || kind == StepKind::refit ||
         kind == StepKind::bring || kind == StepKind::spread || kind == StepKind::attach;
}

} // namespace

Moment moment_of(Workshop& workshop, const Simulation& simulation, std::size_t step,
                 double moment) {
  const Step& what = workshop.unit().steps[step];
  const Scene scene{workshop, what, simulation.outcomes[step],
                    place_in(simulation.before(step), what.place),
                    place_in(simulation.after[step], what.place)};
  Moment result;
  result.place = what.place;
  result.mouth_m = scene.before == nullptr ? 0 : top_of(workshop, *scene.before);
  const bool in_hand = scene.outcome.hand != nullptr && scene.after != nullptr;
  if (goes_in(what.kind) && in_hand && scene.after->find(scene.outcome.hand->lead) != nullptr) {
    way_in(scene, moment, result);
  } else if ((what.kind == StepKind::take_out || what.kind == StepKind::detach) &&
             scene.before != nullptr && scene.after != nullptr && !scene.outcome.moved.empty()) {
    way_out(scene, moment, result);
  } else if (what.kind == StepKind::turn_over && scene.before != nullptr &&
             scene.after != nullptr) {
    turning_over(scene, moment, result);
  } else {
    in_place(scene, moment, result);
    const bool looks = what.kind == StepKind::measure || what.kind == StepKind::check;
    if (looks && !what.part.empty() && simulation.after[step].place_with(what.part) == nullptr) {
      looked_at(scene, result);
    }
  }
  return result;
}

double natural_seconds(const Simulation& simulation, const Unit& unit, std::size_t step) {
  const StepKind kind = unit.steps[step].kind;
  if (kind == StepKind::turn_over) {
    return 1.8;
  }
  if (simulation.outcomes[step].moved.empty()) {
    return 0;
  }
  return kind == StepKind::bring ? 1.8 : 1.3;
}

} // namespace lugline
