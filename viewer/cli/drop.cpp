#include "viewer/cli/commands.h"
#include "viewer/cli/print.h"

#include "scene/build/explain.h"
#include "scene/load/load.h"
#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <ostream>

namespace lugline::cli {

namespace {

/// What a hand and a depth gauge leave open in a stand-off: a tenth of a
/// millimetre. Common practice, no source.
constexpr double reading_doubt_m = 0.1e-3;

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

bool puts_in(const Step& step, const StepOutcome& outcome, const std::string& part) {
  const bool lead = outcome.hand && outcome.hand->lead == part;
  return lead && (outcome.lowered || outcome.ring) &&
         (step.part == part || step.part.empty() || step.kind == StepKind::bring);
}

/// The step that puts the part in: the first from `before` on where that is given,
/// else the one that brings it, else the first. (A sub-build's base is set down on
/// its bench first and brought in later.)
std::optional<std::size_t> step_for(const Unit& unit, const Simulation& simulation,
                                    const std::string& part, std::optional<std::size_t> before) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < unit.steps.size(); ++i) {
    if (!puts_in(unit.steps[i], simulation.outcomes[i], part)) {
      continue;
    }
    if (before && i >= *before) {
      return i;
    }
    if (!found || unit.steps[i].kind == StepKind::bring) {
      found = i;
    }
  }
  return found;
}

struct Asked {
  Workshop& workshop;
  const Simulation& simulation;
  std::size_t step = 0;   ///< whose seat and way up count
  std::size_t before = 0; ///< into what is in before this step
  LowerOptions options;
  bool flip = false;
};

struct Reply {
  InHand hand;
  Lowered asked;
  Lowered other; ///< the other way up
  bool has_other = false;
  WayUp way_up = WayUp::right;
  WayUp laid = WayUp::right; ///< the way up that the steps lay it
  double sinks_m = 0;
  std::optional<TurnedPack> pack; ///< whole, and with the part the other way up
  bool explained = false;         ///< a reading was given
  std::vector<Cause> causes;
};

const PlaceState& place_before(const Asked& asked) {
  static const PlaceState nothing;
  const Step& step = asked.workshop.unit().steps[asked.step];
  const auto& places = asked.simulation.before(asked.before).places;
  const auto found = places.find(step.place);
  return found == places.end() ? nothing : found->second;
}

Reply ask(const Asked& asked) {
  const Step& step = asked.workshop.unit().steps[asked.step];
  const StepOutcome& outcome = asked.simulation.outcomes[asked.step];
  Reply reply;
  const bool single = outcome.hand->pieces.size() == 1;
  const bool usual_over = step.way_up == WayUp::turned_over;
  const bool over = asked.flip != usual_over;
  reply.way_up = over ? WayUp::turned_over : WayUp::right;
  reply.laid = step.way_up;
  const auto hand_for = [&](bool turned) {
    if (single) {
      return one_part(asked.workshop, outcome.hand->lead, turned);
    }
    // A sub-build turned over on its way: its loose members fall the other way.
    PlaceState place;
    place.fitted = outcome.hand->pieces;
    return turned == usual_over ? *outcome.hand
                                : whole_place(asked.workshop, place, outcome.hand->lead, true);
  };
  reply.hand = hand_for(over);
  reply.asked = lower(asked.workshop, reply.hand, place_before(asked), asked.options);
  LowerOptions other = asked.options;
  if (reply.asked.expected_known) {
    other.expected_m = reply.asked.expected_m;
  }
  reply.other = lower(asked.workshop, hand_for(!over), place_before(asked), other);
  reply.has_other = true;
  reply.sinks_m = weight_sinks_m(asked.workshop, reply.asked, place_before(asked),
                                 mass_of(asked.workshop, reply.hand));
  if (single) {
    reply.pack = pack_with_turned(asked.workshop, asked.simulation, outcome.hand->lead, asked.step);
  }
  return reply;
}

Json json_of_cause(const Cause& cause) {
  return {{"words", cause.words},
          {"part", cause.part},
          {"stand_off_mm", rounded_mm(cause.stand_off_m)},
          {"under_weight_mm", rounded_mm(cause.stand_off_m - cause.sinks_m)},
          {"misses_by_mm", rounded_mm(cause.misses_by_m)},
          {"fits", cause.fits},
          {"alike", cause.alike}};
}

Json document_of(const Asked& asked, const Reply& reply) {
  Json document;
  const Lowered& lowered = reply.asked;
  document["part"] = reply.hand.lead;
  document["before"] = asked.workshop.unit().steps[asked.before].id;
  document["way_up"] = word_for(reply.way_up);
  document["turn_deg"] = rounded_deg(lowered.turn_rad);
  document["rest_mm"] = lowered.rest_m ? Json(rounded_mm(*lowered.rest_m)) : Json();
  document["stands_on"] = lowered.stands_on;
  document["stands_on_name"] =
      lowered.stands_on.empty() ? "" : asked.workshop.label(lowered.stands_on);
  document["stand_off_mm"] =
      lowered.rest_m && lowered.expected_known ? Json(rounded_mm(lowered.stand_off_m)) : Json();
  if (reply.sinks_m > 0 && lowered.stand_off_m > 0) {
    document["under_weight_mm"] = rounded_mm(std::max(lowered.stand_off_m - reply.sinks_m, 0.0));
  }
  document["seated"] = lowered.seated;
  document["engaged"] = lowered.engaged;
  document["not_engaged"] = lowered.not_engaged;
  document["cocked"] = lowered.level.cocked;
  document["exact"] = lowered.answer.exact;
  document["poses"] = Json::array();
  for (const auto& [way, poses] :
       {std::pair{reply.way_up, &lowered.poses},
        std::pair{reply.way_up == WayUp::right ? WayUp::turned_over : WayUp::right,
                  &reply.other.poses}}) {
    for (const TurnRange& range : *poses) {
      document["poses"].push_back(json_of(WayPose{way, range}));
    }
  }
  if (reply.pack) {
    document["clearance_mm"] = rounded_mm(reply.pack->as_laid.clearance_m);
    document["clearance_turned_over_mm"] = rounded_mm(reply.pack->turned.clearance_m);
  }
  if (reply.explained) {
    document["causes"] = Json::array();
    for (const Cause& cause : reply.causes) {
      document["causes"].push_back(json_of_cause(cause));
    }
  }
  return document;
}

/// What tells the two ways up apart, when both go in.
void print_other_way(std::ostream& out, const Reply& reply) {
  const bool both = !reply.asked.poses.empty() && !reply.other.poses.empty();
  const std::string other =
      word_for(reply.way_up == WayUp::right ? WayUp::turned_over : WayUp::right);
  if (!reply.has_other) {
    return;
  }
  if (!both) {
    const std::optional<double> best_m = reply.other.answer.lowest().rest_m;
    if (reply.other.poses.empty() && best_m && reply.other.expected_known) {
      const double off_m = *best_m - reply.other.expected_m;
      out << "  " << other << ": not seated, " << mm(std::abs(off_m))
          << (off_m >= 0 ? " proud at best\n" : " too low at its lowest\n");
    }
    return;
  }
  out << "  " << other << ": drops in just as well, " << pose_words(reply.other.poses) << "\n";
  if (reply.pack &&
      std::abs(reply.pack->as_laid.clearance_m - reply.pack->turned.clearance_m) > 1e-6) {
    const bool laid_over = reply.laid == WayUp::turned_over;
    const auto& [right, over] = laid_over ? std::pair(&reply.pack->turned, &reply.pack->as_laid)
                                          : std::pair(&reply.pack->as_laid, &reply.pack->turned);
    out << "  only the clearance (" << mm(right->clearance_m) << " the right way up, "
        << mm(over->clearance_m) << " turned over) or the eye tells\n";
  } else {
    out << "  no height tells the two apart: only the eye does\n";
  }
}

void print_causes(std::ostream& out, const Asked& asked, const std::vector<Cause>& causes) {
  if (causes.empty()) {
    out << "  nothing likely gives a stand-off here: no free plate and no washer is beneath\n";
    return;
  }
  out << "  what would give the reading, nearest first:\n";
  for (const Cause& cause : causes) {
    out << (cause.fits ? "    * " : "      ") << mm(cause.stand_off_m);
    if (cause.sinks_m > 0) {
      out << " (" << mm(cause.stand_off_m - cause.sinks_m) << " under its weight)";
    }
    out << ": " << cause.words << "\n";
  }
  out << "    * fits the reading within " << mm(reading_doubt_m) << "\n";
  std::vector<std::string> told;
  for (const Cause& cause : causes) {
    if (!cause.fits || cause.alike.empty() || std::ranges::find(told, cause.part) != told.end()) {
      continue;
    }
    told.insert(told.end(), cause.alike.begin(), cause.alike.end());
    out << "    no height here tells " << asked.workshop.label(cause.part);
    for (const std::string& id : cause.alike) {
      out << (id == cause.alike.back() ? " and " : ", ") << asked.workshop.label(id);
    }
    out << " apart: only the eye or another check does\n";
  }
}

void print_reply(std::ostream& out, const Asked& asked, const Reply& reply) {
  const Lowered& lowered = reply.asked;
  out << asked.workshop.label(reply.hand.lead) << ", " << word_for(reply.way_up) << ", at "
      << print_angle(lowered.turn_rad, 2) << ", before step "
      << asked.workshop.unit().steps[asked.before].id << "\n";
  if (!lowered.rest_m) {
    out << "  falls through: nothing that is in stops it\n";
    return;
  }
  out << "  rests at " << mm(*lowered.rest_m) << " on " << asked.workshop.label(lowered.stands_on)
      << " (" << lowered.stands_on << ")\n";
  if (lowered.seated) {
    out << "  seated, " << pose_words(lowered.poses) << "\n";
  } else if (lowered.expected_known) {
    out << "  stands " << mm(std::abs(lowered.stand_off_m))
        << (lowered.stand_off_m >= 0 ? " proud of" : " below") << " its seated height\n";
    if (reply.sinks_m > 0 && lowered.stand_off_m > 0) {
      out << "  under its own weight the wave plate gives, and a gauge reads about "
          << mm(std::max(lowered.stand_off_m - reply.sinks_m, 0.0)) << " (estimate)\n";
    }
    if (!lowered.poses.empty()) {
      out << "  it would be seated in " << pose_words(lowered.poses) << "\n";
    }
  }
  if (!lowered.not_engaged.empty()) {
    out << "  picked up: " << lowered.engaged.size() << " of "
        << lowered.engaged.size() + lowered.not_engaged.size() << "; not yet:";
    for (const std::string& id : lowered.not_engaged) {
      out << " " << asked.workshop.label(id) << " (" << id << ")";
    }
    out << "\n";
  }
  if (lowered.level.cocked) {
    out << "  cocked: low towards " << print_angle(lowered.level.low_side_rad, 0);
    if (lowered.level.topples) {
      out << ", and would topple\n";
    } else {
      out << ", " << mm(lowered.level.heights_m[0]) << ", " << mm(lowered.level.heights_m[1])
          << " and " << mm(lowered.level.heights_m[2]) << " at 0, 120 and 240 deg\n";
    }
  }
  print_other_way(out, reply);
  if (reply.explained) {
    print_causes(out, asked, reply.causes);
  }
}

/// Turned by more than a whole turn is turned by what is over.
double within_a_turn(double turn_rad) {
  constexpr double whole_rad = 2 * std::numbers::pi;
  return std::abs(turn_rad) > whole_rad ? std::remainder(turn_rad, whole_rad) : turn_rad;
}

/// Why a piece cannot be turned off its teeth; empty where it can.
std::string why_not_off(const Asked& asked, const std::string& id) {
  for (const std::vector<Fitted>* pieces :
       {&place_before(asked).fitted, &asked.simulation.outcomes[asked.step].hand->pieces}) {
    const auto piece = std::ranges::find(*pieces, id, &Fitted::id);
    if (piece != pieces->end()) {
      // By itself, or with what it is joined to.
      const auto index = static_cast<std::size_t>(piece - pieces->begin());
      return spins_of(*pieces, spin_hand + 1, spin_fixed)[index] > spin_hand
                 ? ""
                 : "it is not free to turn";
    }
  }
  return "it is not among what the part meets";
}

/// What stands before a step, or words that say why the part is not lowered into it.
std::string why_not_into(const Asked& asked, const std::string& part) {
  const PlaceState& into = place_before(asked);
  const std::string before = " before step " + asked.workshop.unit().steps[asked.before].id;
  if (into.find(part) != nullptr) {
    return part + " is in already" + before;
  }
  return into.fitted.empty() ? "nothing is in for " + part + " to go into" + before : "";
}

/// The step's part and the state it goes into, or words that say why not.
Outcome<Asked> prepare(const DropOptions& options, Workshop& workshop,
                       const Simulation& simulation) {
  const Unit& unit = workshop.unit();
  if (unit.component(options.part) == nullptr) {
    return Problem{no_such("part", options.part, component_ids(unit))};
  }
  std::optional<std::size_t> before;
  if (!options.before.empty()) {
    before = unit.step_index(options.before);
    if (*before == unit.steps.size()) {
      return Problem{no_such("step", options.before, step_ids(unit))};
    }
  }
  Asked asked{workshop, simulation, 0, 0, {}, options.flip};
  const auto step = step_for(unit, simulation, options.part, before);
  if (!step || !simulation.outcomes[*step].lowered) {
    return Problem{"no step lowers " + options.part +
                   " along the axis: it is a base, a ring or goes in another way"};
  }
  asked.step = *step;
  asked.before = before.value_or(*step);
  if (const std::string why = why_not_into(asked, options.part); !why.empty()) {
    return Problem{why};
  }
  asked.options.seat = unit.steps[*step].seat;
  asked.options.wanted_turn_rad = unit.steps[*step].turn_rad;
  const Lowered& sound = *simulation.outcomes[*step].lowered;
  if (sound.expected_known) {
    asked.options.expected_m = sound.expected_m;
  }
  if (!options.turn.empty()) {
    const auto turn = parse_bench_quantity(options.turn, Dimension::angle);
    if (!turn) {
      return Problem{"--turn: " + turn.problem()};
    }
    asked.options.wanted_turn_rad = within_a_turn(turn.value().si);
  }
  for (const std::string& off : options.off) {
    if (const std::string why = why_not_off(asked, off); !why.empty()) {
      return Problem{"--off " + off + ": " + why};
    }
    asked.options.off.push_back(off);
  }
  return asked;
}

} // namespace

int drop(const DropOptions& options, Streams streams) {
  const LoadReport loaded = load_unit(options.unit);
  if (!loaded.unit) {
    return not_loaded(loaded, options.json, streams);
  }
  Workshop workshop(*loaded.unit, {});
  const Simulation simulation = simulate(workshop);
  auto asked = prepare(options, workshop, simulation);
  if (!asked) {
    return refuse("drop", asked.problem(), streams);
  }
  Reply reply = ask(asked.value());
  if (!options.reading.empty()) {
    const auto reading = parse_bench_quantity(options.reading, Dimension::length);
    if (!reading) {
      return refuse("drop", "--reading: " + reading.problem(), streams);
    }
    reply.explained = true;
    const double doubt_m = std::max(reading.value().plus_minus_si, reading_doubt_m);
    reply.causes = explain(workshop, simulation, asked.value().step, reading.value().si, doubt_m);
  }
  if (options.json) {
    print(streams.out, document_of(asked.value(), reply));
  } else {
    print_reply(streams.out, asked.value(), reply);
  }
  return sound;
}

} // namespace lugline::cli
