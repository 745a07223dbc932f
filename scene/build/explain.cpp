#include "scene/build/explain.h"

#include <algorithm>
#include <cmath>

namespace lugline {

namespace {

struct Asked {
  Workshop& workshop;
  const StepOutcome& outcome;
  const Step& step;
  double expected_m;
};

/// What would be read if the place were as given.
void add_cause(const Asked& asked, const PlaceState& place, const std::vector<std::string>& off,
               const std::string& part, std::string words, std::vector<Cause>& causes) {
  LowerOptions options;
  options.seat = asked.step.seat;
  options.expected_m = asked.expected_m;
  options.wanted_turn_rad = asked.step.turn_rad;
  options.off = off;
  const InHand& hand = *asked.outcome.hand;
  const Lowered lowered = lower(asked.workshop, hand, place, options);
  if (!lowered.rest_m) {
    return;
  }
  Cause cause;
  cause.words = std::move(words);
  cause.part = part;
  cause.stand_off_m = lowered.stand_off_m;
  cause.sinks_m =
      std::min(weight_sinks_m(asked.workshop, lowered, place, mass_of(asked.workshop, hand)),
               std::max(lowered.stand_off_m, 0.0));
  if (std::abs(cause.stand_off_m) > 1e-6) {
    causes.push_back(cause);
  }
}

bool is_washer(const Component& part) {
  return part.kind == ComponentKind::thrust_washer;
}

void free_piece_off(const Asked& asked, const PlaceState& place, const Fitted& piece,
                    std::vector<Cause>& causes) {
  const Component& part = asked.workshop.part(piece.id);
  const std::string& label = asked.workshop.label(piece.id);
  const std::string words = part.kind == ComponentKind::shaft
                                ? "the spline of " + label + " is not entered"
                                : label + " is not picked up";
  add_cause(asked, place, {piece.id}, piece.id, words, causes);
}

/// What stands on a piece, and on what stands on it, in the order in which it went in.
std::vector<Fitted> standing_on(const PlaceState& place, const std::string& id) {
  std::vector<std::string> under{id};
  std::vector<Fitted> standing;
  for (const Fitted& piece : place.fitted) {
    if (piece.id != id && std::ranges::find(under, piece.stands_on) != under.end()) {
      under.push_back(piece.id);
      standing.push_back(piece);
    }
  }
  return standing;
}

/// The pieces go back in, each as it was turned, onto what is there now.
void put_back(Workshop& workshop, const std::vector<Fitted>& pieces, PlaceState& place) {
  for (const Fitted& piece : pieces) {
    if (!piece.groove.empty()) {
      place.fitted.push_back(piece); // its groove keeps it where it is
      continue;
    }
    InHand hand = one_part(workshop, piece.id, piece.over);
    hand.pieces.front().squashed_to_m = piece.squashed_to_m;
    hand.pieces.front().band_state = piece.band_state;
    LowerOptions options;
    options.wanted_turn_rad = piece.turn_rad;
    const Lowered lowered = lower(workshop, hand, place, options);
    if (lowered.rest_m) {
      let_go(lowered, hand, piece.joint, place);
    } else {
      place.fitted.push_back(piece);
    }
  }
}

/// Everything that stands on the washer, out.
PlaceState without_what_stands_on(const PlaceState& place, const std::vector<Fitted>& standing) {
  PlaceState bare = place;
  std::erase_if(bare.fitted, [&](const Fitted& piece) {
    return std::ranges::find(standing, piece.id, &Fitted::id) != standing.end();
  });
  return bare;
}

/// A washer beneath, laid in twice: the second lies on the first as low as it can,
/// and what stood on the first stands on the second.
void washer_twice(const Asked& asked, const PlaceState& place, const Fitted& piece,
                  std::vector<Cause>& causes) {
  const std::vector<Fitted> standing = standing_on(place, piece.id);
  PlaceState doubled = without_what_stands_on(place, standing);
  const InHand second = one_part(asked.workshop, piece.id, piece.over);
  const RestSpan lowest = lower(asked.workshop, second, doubled, {}).answer.lowest();
  if (!lowest.rest_m) {
    return;
  }
  Fitted extra = piece;
  extra.height_m = *lowest.rest_m;
  extra.turn_rad = (lowest.from_rad + lowest.to_rad) / 2;
  extra.stands_on = piece.id;
  doubled.fitted.push_back(extra);
  put_back(asked.workshop, standing, doubled);
  add_cause(asked, doubled, {}, piece.id, asked.workshop.label(piece.id) + " is laid in twice",
            causes);
}

/// Left out: what stood on it stands on what is beneath.
void washer_out(const Asked& asked, const PlaceState& place, const Fitted& piece,
                std::vector<Cause>& causes) {
  const std::vector<Fitted> standing = standing_on(place, piece.id);
  PlaceState without = without_what_stands_on(place, standing);
  std::erase_if(without.fitted, [&](const Fitted& other) { return other.id == piece.id; });
  put_back(asked.workshop, standing, without);
  add_cause(asked, without, {}, piece.id, asked.workshop.label(piece.id) + " is left out", causes);
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
  std::ranges::stable_sort(causes, {}, &Cause::stand_off_m);
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
