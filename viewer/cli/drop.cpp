#include "viewer/cli/commands.h"
#include "viewer/cli/print.h"

#include "scene/build/explain.h"
#include "scene/load/load.h"
#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cmath>
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

/// The step that puts the part in: the one asked for, or the last that does.
/// (A sub-build's base is set down on its bench first and brought in later.)
std::optional<std::size_t> step_for(const Unit& unit, const Simulation& simulation,
                                    const std::string& part) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < unit.steps.size(); ++i) {
    const bool first_or_bring = !found || unit.steps[i].kind == StepKind::bring;
    if (first_or_bring && puts_in(unit.steps[i], simulation.outcomes[i], part)) {
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
  double sinks_m = 0;
  std::optional<double> other_clearance_m; ///< whole pack, the part turned over
  std::optional<double> clearance_m;
  std::vector<Cause> causes;
};

const PlaceState& place_before(const Asked& asked) {
  static const PlaceState nothing;
  const Step& step = asked.workshop.unit().steps[asked.step];
  const auto& places = asked.simulation.before(asked.before).places;
  const auto found = places.find(step.place);
  return found == places.end() ? nothing : found->second;
}

/// The clearance of the part's pack once whole, with the part as it should lie
/// and turned over.
void find_clearances(const Asked& asked, const std::string& part, Reply& reply) {
  for (const Pack& pack : asked.workshop.unit().packs) {
    if (std::ranges::find(pack.plates, part) == pack.plates.end()) {
      continue;
    }
    for (const BuildState& state : asked.simulation.after) {
      const auto now = pack_now(asked.workshop, pack, state);
      if (!now || now->verdict == PackVerdict::open) {
        continue;
      }
      BuildState turned = state;
      for (auto& [name, place] : turned.places) {
        if (Fitted* plate = place.find(part)) {
          plate->over = !plate->over;
        }
      }
      const auto over = pack_now(asked.workshop, pack, turned);
      reply.clearance_m = now->clearance_m;
      reply.other_clearance_m = over ? std::optional(over->clearance_m) : std::nullopt;
      return;
    }
  }
}

Reply ask(const Asked& asked) {
  const Step& step = asked.workshop.unit().steps[asked.step];
  const StepOutcome& outcome = asked.simulation.outcomes[asked.step];
  Reply reply;
  const bool single = outcome.hand->pieces.size() == 1;
  const bool usual_over = step.way_up == WayUp::turned_over;
  const bool over = asked.flip != usual_over;
  reply.way_up = over ? WayUp::turned_over : WayUp::right;
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
    find_clearances(asked, outcome.hand->lead, reply);
  }
  return reply;
}

Json json_of_cause(const Cause& cause) {
  return {{"words", cause.words},
          {"part", cause.part},
          {"stand_off_mm", rounded_mm(cause.stand_off_m)},
          {"under_weight_mm", rounded_mm(cause.stand_off_m - cause.sinks_m)},
          {"misses_by_mm", rounded_mm(cause.misses_by_m)},
          {"fits", cause.fits}};
}

Json document_of(const Asked& asked, const Reply& reply) {
  Json document;
  const Lowered& lowered = reply.asked;
  document["part"] = reply.hand.lead;
  document["before"] = asked.workshop.unit().steps[asked.before].id;
  document["way_up"] = reply.way_up == WayUp::right ? "right way up" : "turned over";
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
  if (reply.clearance_m && reply.other_clearance_m) {
    document["clearance_mm"] = rounded_mm(*reply.clearance_m);
    document["clearance_turned_over_mm"] = rounded_mm(*reply.other_clearance_m);
  }
  if (!reply.causes.empty()) {
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
  const std::string other = reply.way_up == WayUp::right ? "turned over" : "right way up";
  if (!reply.has_other) {
    return;
  }
  if (!both) {
    if (reply.other.poses.empty() && reply.other.rest_m) {
      out << "  " << other << ": not seated, " << mm(reply.other.stand_off_m) << " proud at best\n";
    }
    return;
  }
  out << "  " << other << ": drops in just as well, " << pose_words(reply.other.poses) << "\n";
  if (reply.clearance_m && reply.other_clearance_m &&
      std::abs(*reply.clearance_m - *reply.other_clearance_m) > 1e-6) {
    out << "  only the clearance (" << mm(*reply.clearance_m) << " the right way up, "
        << mm(*reply.other_clearance_m) << " turned over) or the eye tells\n";
  } else {
    out << "  no height tells the two apart: only the eye does\n";
  }
}

void print_reply(std::ostream& out, const Asked& asked, const Reply& reply) {
  const Lowered& lowered = reply.asked;
  out << asked.workshop.label(reply.hand.lead) << ", "
      << (reply.way_up == WayUp::right ? "right way up" : "turned over") << ", at "
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
  if (!reply.causes.empty()) {
    out << "  what would give the reading, nearest first:\n";
    for (const Cause& cause : reply.causes) {
      out << (cause.fits ? "    * " : "      ") << mm(cause.stand_off_m);
      if (cause.sinks_m > 0) {
        out << " (" << mm(cause.stand_off_m - cause.sinks_m) << " under its weight)";
      }
      out << ": " << cause.words << "\n";
    }
    out << "    * fits the reading within " << mm(reading_doubt_m) << "\n";
  }
}

/// The step's part and the state it goes into, or words that say why not.
Outcome<Asked> prepare(const DropOptions& options, Workshop& workshop,
                       const Simulation& simulation) {
  const Unit& unit = workshop.unit();
  if (unit.component(options.part) == nullptr) {
    std::vector<std::string> known;
    for (const UnitComponent& component : unit.components) {
      known.push_back(component.id);
    }
    const std::string near = nearest_name(options.part, known);
    return Problem{"there is no part " + options.part +
                   (near.empty() ? "" : "; did you mean " + near + "?")};
  }
  Asked asked{workshop, simulation, 0, 0, {}, options.flip};
  const auto step = step_for(unit, simulation, options.part);
  if (!step || !simulation.outcomes[*step].lowered) {
    return Problem{"no step lowers " + options.part +
                   " along the axis: it is a base, a ring or goes in another way"};
  }
  asked.step = *step;
  asked.before = *step;
  if (!options.before.empty()) {
    asked.before = unit.step_index(options.before);
    if (asked.before == unit.steps.size()) {
      return Problem{"there is no step " + options.before};
    }
  }
  asked.options.seat = unit.steps[*step].seat;
  asked.options.wanted_turn_rad = unit.steps[*step].turn_rad;
  const Lowered& sound = *simulation.outcomes[*step].lowered;
  if (sound.expected_known) {
    asked.options.expected_m = sound.expected_m;
  }
  if (!options.turn.empty()) {
    const auto turn = parse_quantity(options.turn, Dimension::angle);
    if (!turn) {
      return Problem{"--turn: " + turn.problem()};
    }
    asked.options.wanted_turn_rad = turn.value().si;
  }
  for (const std::string& off : options.off) {
    const auto& below = sound.below_ids;
    const auto& moving = sound.moving_ids;
    if (std::ranges::find(below, off) == below.end() &&
        std::ranges::find(moving, off) == moving.end()) {
      return Problem{"--off " + off + ": it is not among what " + options.part + " meets"};
    }
    asked.options.off.push_back(off);
  }
  return asked;
}

} // namespace

int drop(const DropOptions& options, Streams streams) {
  const LoadReport loaded = load_unit(options.unit);
  if (!loaded.unit) {
    print_complaints(streams.err, loaded.complaints);
    return not_sound;
  }
  Workshop workshop(*loaded.unit, {});
  const Simulation simulation = simulate(workshop);
  auto asked = prepare(options, workshop, simulation);
  if (!asked) {
    streams.err << "lugline drop: " << asked.problem() << "\n";
    return bad_command;
  }
  Reply reply = ask(asked.value());
  if (!options.reading.empty()) {
    const auto reading = parse_quantity(options.reading, Dimension::length);
    if (!reading) {
      streams.err << "lugline drop: --reading: " << reading.problem() << "\n";
      return bad_command;
    }
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
