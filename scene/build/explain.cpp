#include "scene/build/explain.h"

#include "scene/build/hang.h"

#include <algorithm>
#include <cmath>

namespace lugline {

namespace {

struct Asked {
  Workshop& workshop;
  const StepOutcome& outcome;
  const Step& step;
  double expected_m;

  /// What the step's place is built on.
  [[nodiscard]] std::string base() const {
    const Place* place = workshop.unit().place(step.place);
    return place == nullptr ? std::string() : place->base;
  }
};

/// What would be read if the place and what is in hand were as given.
void add_cause(const Asked& asked, const PlaceState& place, const InHand& hand,
               const std::vector<std::string>& off, const std::string& part, std::string words,
               std::vector<Cause>& causes) {
  LowerOptions options;
  options.seat = asked.step.seat;
  options.expected_m = asked.expected_m;
  options.wanted_turn_rad = asked.step.turn_rad;
  options.off = off;
  const Lowered lowered = lower(asked.workshop, hand, place, options);
  if (!lowered.rest_m) {
    return;
  }
  Cause cause;
  cause.words = std::move(words);
  cause.part = part;
  cause.stands_on = lowered.stands_on;
  cause.stand_off_m = lowered.stand_off_m;
  cause.sinks_m =
      std::min(weight_sinks_m(asked.workshop, lowered, place, mass_of(asked.workshop, hand)),
               std::max(lowered.stand_off_m, 0.0));
  if (std::abs(cause.stand_off_m) > 1e-6) {
    causes.push_back(cause);
  }
}

/// What takes thrust between two faces.
bool is_washer(const Component& part) {
  return part.kind == ComponentKind::thrust_washer || part.kind == ComponentKind::thrust_bearing;
}

void free_piece_off(const Asked& asked, const PlaceState& place, const Fitted& piece,
                    std::vector<Cause>& causes) {
  const std::size_t before = causes.size();
  add_cause(asked, place, *asked.outcome.hand, {piece.id}, piece.id, "", causes);
  if (causes.size() == before) {
    return;
  }
  // A shaft that turns with what was turned is what the part stands on, and is named.
  Cause& cause = causes.back();
  const Component& on = asked.workshop.part(cause.stands_on);
  const bool shaft = on.kind == ComponentKind::shaft;
  cause.part = shaft ? on.id : piece.id;
  const std::string& label = asked.workshop.label(cause.part);
  cause.words = shaft ? "the spline of " + label + " is not entered" : label + " is not picked up";
}

/// A washer and everything that stands on it, and on what stands on it, with all
/// that is joined fast to any of it.
std::vector<std::string> standing_on(const Workshop& workshop, const PlaceState& place,
                                     const std::string& base, const std::string& washer) {
  const Groups groups = groups_of(workshop, place.fitted, base);
  std::vector<std::string> standing;
  std::vector<bool> up(groups.count, false);
  for (bool found = true; found;) {
    found = false;
    for (std::size_t i = 0; i < place.fitted.size(); ++i) {
      const Fitted& piece = place.fitted[i];
      const bool on = piece.stands_on == washer || up[groups.of[i]] ||
                      std::ranges::find(standing, piece.stands_on) != standing.end();
      if (on && groups.of[i] != held_group && piece.id != washer &&
          std::ranges::find(standing, piece.id) == standing.end()) {
        standing.push_back(piece.id);
        up[groups.of[i]] = true;
        found = true;
      }
    }
  }
  return standing;
}

Body body_of(Workshop& workshop, const Fitted& piece) {
  return {piece.id, &shape_of(workshop, piece), piece.height_m, piece.turn_rad, spin_fixed};
}

/// Whether a piece would be inside one of the others, but for those named.
bool no_room(Workshop& workshop, const Fitted& piece, const std::vector<Fitted>& others,
             const std::vector<std::string>& but) {
  const Body body = body_of(workshop, piece);
  return std::ranges::any_of(others, [&](const Fitted& other) {
    return std::ranges::find(but, other.id) == but.end() &&
           fit_between(body, body_of(workshop, other), contact_tolerance_m).fit == Fit::inside;
  });
}

/// How a second washer lies on the first, above what reaches beneath the first.
std::optional<RestSpan> second_on(Workshop& workshop, const PlaceState& place, const Fitted& washer,
                                  const std::vector<std::string>& standing) {
  const double top_m = washer.height_m + shape_of(workshop, washer).high_m();
  PlaceState beneath = place;
  std::erase_if(beneath.fitted, [&](const Fitted& other) {
    return std::ranges::find(standing, other.id) != standing.end() ||
           other.height_m + shape_of(workshop, other).low_m() >= top_m - contact_tolerance_m;
  });
  const RestSpan lowest =
      lower(workshop, one_part(workshop, washer.id, washer.over), beneath, {}).answer.lowest();
  return lowest.rest_m ? std::optional(lowest) : std::nullopt;
}

/// A washer laid in twice: what stood on the first stands on the second. Where there
/// is no room for that, another step tells before this one.
void washer_twice(const Asked& asked, const PlaceState& place, const Fitted& piece,
                  std::vector<Cause>& causes) {
  Workshop& workshop = asked.workshop;
  const std::string base = asked.base();
  std::vector<std::string> standing = standing_on(workshop, place, base, piece.id);
  const auto second = second_on(workshop, place, piece, standing);
  if (!second) {
    return;
  }
  PlaceState doubled = place;
  Fitted extra = piece;
  extra.height_m = *second->rest_m;
  extra.turn_rad = (second->from_rad + second->to_rad) / 2;
  extra.stands_on = piece.id;
  bool crowded = no_room(workshop, extra, place.fitted, standing);
  for (Fitted& other : doubled.fitted) {
    if (std::ranges::find(standing, other.id) != standing.end()) {
      other.height_m += *second->rest_m - piece.height_m;
      crowded = crowded || no_room(workshop, other, place.fitted, standing);
    }
  }
  if (crowded) {
    return;
  }
  doubled.fitted.push_back(extra);
  settle(workshop, doubled, base);
  add_cause(asked, doubled, *asked.outcome.hand, {}, piece.id,
            workshop.label(piece.id) + " is laid in twice", causes);
}

/// Left out: what stood on it stands on what is beneath.
void washer_out(const Asked& asked, const PlaceState& place, const Fitted& piece,
                std::vector<Cause>& causes) {
  PlaceState without = place;
  std::erase_if(without.fitted, [&](const Fitted& other) { return other.id == piece.id; });
  settle(asked.workshop, without, asked.base());
  add_cause(asked, without, *asked.outcome.hand, {}, piece.id,
            asked.workshop.label(piece.id) + " is left out", causes);
}

/// In hand, left out: what hung on it hangs lower.
void hand_without(const Asked& asked, const PlaceState& place, const Fitted& piece,
                  std::vector<Cause>& causes) {
  InHand hand = *asked.outcome.hand;
  std::erase_if(hand.pieces, [&](const Fitted& other) { return other.id == piece.id; });
  hang(asked.workshop, hand);
  add_cause(asked, place, hand, {}, piece.id, asked.workshop.label(piece.id) + " is left out",
            causes);
}

/// In hand, twice: the second one is stuck beneath the first, if there is room.
void hand_twice(const Asked& asked, const PlaceState& place, const Fitted& piece,
                std::vector<Cause>& causes) {
  // As far beneath it as it would lie above the second one.
  PlaceState first;
  first.fitted = {piece};
  const auto second = second_on(asked.workshop, first, piece, {});
  if (!second) {
    return;
  }
  InHand hand = *asked.outcome.hand;
  Fitted extra = piece;
  extra.height_m = 2 * piece.height_m - *second->rest_m;
  extra.turn_rad = 2 * piece.turn_rad - (second->from_rad + second->to_rad) / 2;
  if (no_room(asked.workshop, extra, hand.pieces, {piece.id})) {
    return;
  }
  hand.pieces.push_back(extra);
  add_cause(asked, place, hand, {}, piece.id, asked.workshop.label(piece.id) + " is laid in twice",
            causes);
}

/// Stand-offs nearer than this are one to a gauge.
constexpr double alike_m = 5e-6;

void tell_alike(std::vector<Cause>& causes) {
  for (Cause& cause : causes) {
    for (const Cause& other : causes) {
      if (other.part != cause.part && std::abs(other.stand_off_m - cause.stand_off_m) <= alike_m) {
        cause.alike.push_back(other.part);
      }
    }
  }
}

} // namespace

std::vector<Cause> likely_causes(Workshop& workshop, const Simulation& simulation,
                                 std::size_t step) {
  const StepOutcome& outcome = simulation.outcomes[step];
  std::vector<Cause> causes;
  if (!outcome.lowered || !outcome.hand || !outcome.lowered->expected_known) {
    return causes;
  }
  const Step& asked_step = workshop.unit().steps[step];
  const Asked asked{workshop, outcome, asked_step, outcome.lowered->expected_m};
  const auto& places = simulation.before(step).places;
  const auto found = places.find(asked_step.place);
  if (found == places.end()) {
    return causes;
  }
  const PlaceState& place = found->second;
  for (const Fitted& piece : place.fitted) {
    if (turns_freely(piece.joint)) {
      free_piece_off(asked, place, piece, causes);
    }
    if (is_washer(workshop.part(piece.id))) {
      washer_twice(asked, place, piece, causes);
      washer_out(asked, place, piece, causes);
    }
  }
  for (const Fitted& piece : outcome.hand->pieces) {
    if (is_washer(workshop.part(piece.id)) && piece.id != outcome.hand->lead) {
      hand_twice(asked, place, piece, causes);
      hand_without(asked, place, piece, causes);
    }
  }
  std::ranges::stable_sort(causes, {}, &Cause::stand_off_m);
  tell_alike(causes);
  return causes;
}

std::vector<Cause> explain(Workshop& workshop, const Simulation& simulation, std::size_t step,
                           double stand_off_m, double doubt_m) {
  std::vector<Cause> causes = likely_causes(workshop, simulation, step);
  for (Cause& cause : causes) {
    const double sunk_m = cause.stand_off_m - cause.sinks_m;
    const double low_m = std::min(sunk_m, cause.stand_off_m);
    const double high_m = std::max(sunk_m, cause.stand_off_m);
    cause.misses_by_m = std::max({low_m - stand_off_m, stand_off_m - high_m, 0.0});
    // Inside the range that free and weighted leave open, the nearer end still ranks.
    if (cause.misses_by_m == 0) {
      cause.fits = true;
      cause.misses_by_m = std::min(stand_off_m - low_m, high_m - stand_off_m);
    } else {
      cause.fits = cause.misses_by_m <= doubt_m;
    }
  }
  std::ranges::stable_sort(causes, [](const Cause& a, const Cause& b) {
    return a.fits != b.fits ? a.fits : a.misses_by_m < b.misses_by_m;
  });
  return causes;
}

} // namespace lugline
