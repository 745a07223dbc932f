// What gauges would read in a state: packs, depths, plays.
#include "scene/build/feature.h"
#include "scene/build/hang.h"
#include "scene/build/pack_reports.h"
#include "scene/build/steps.h"

#include "scene/quantity/quantity.h"
#include "scene/seat/drop.h"
#include "scene/seat/ring.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lugline {

namespace {

/// The groove that closes the pack, where it stands; nothing where the work stands
/// so that its ring would not be pushed up: the pack hangs then, and is not read.
std::optional<Groove> groove_of(const Workshop& workshop, const Pack& pack,
                                const PlaceState& place) {
  const Fitted* host = place.find(pack.ring_host);
  auto groove = host == nullptr ? std::nullopt : groove_there(workshop, *host, pack.ring_groove);
  return groove && groove->loads_up ? groove : std::nullopt;
}

} // namespace

std::optional<PackReport> pack_now(Workshop& workshop, const Pack& pack, const BuildState& state) {
  const PlaceState* place = state.place_with(pack.piston);
  const Fitted* piston = place == nullptr ? nullptr : place->find(pack.piston);
  const auto groove = place == nullptr ? std::nullopt : groove_of(workshop, pack, *place);
  if (piston == nullptr || !groove) {
    return std::nullopt;
  }
  PackStack stack;
  stack.id = pack.id;
  stack.name = pack.name;
  stack.piston = &shape_of(workshop, *piston);
  stack.piston_m = piston->height_m;
  stack.piston_turn_rad = piston->turn_rad;
  stack.plates_wanted = pack.plates.size();
  stack.low_m = pack.clearance.low_m;
  stack.high_m = pack.clearance.high_m;
  stack.limits_wave_free = pack.wave_free;
  stack.load_face_m = groove->high_m;
  for (const std::string& id : pack.plates) {
    const Fitted* plate = place->find(id);
    if (plate == nullptr) {
      continue;
    }
    const auto reading = workshop.readings().find(id);
    PackPlate line;
    line.id = id;
    line.label = workshop.label(id);
    line.part = &workshop.part(id);
    line.shape = &workshop.shape(id, plate->over);
    line.turn_rad = plate->turn_rad;
    if (reading != workshop.readings().end()) {
      line.measured = true;
      line.plus_minus_m = reading->second.plus_minus_m;
    }
    stack.plates.push_back(line);
  }
  // A ring that is chosen takes its room whether it is in yet or not.
  const Fitted* ring = place->find(pack.ring);
  stack.ring = &workshop.loaded_ring(pack.ring, ring != nullptr && ring->over);
  stack.ring_turn_rad = ring == nullptr ? 0 : ring->turn_rad;
  const auto ring_read = workshop.readings().find(pack.ring);
  if (ring_read != workshop.readings().end()) {
    stack.ring_plus_minus_m = ring_read->second.plus_minus_m;
  }
  return stack_up(stack);
}

std::vector<std::string> missing_now(const Pack& pack, const BuildState& state) {
  const PlaceState* place = state.place_with(pack.piston);
  std::vector<std::string> wanted = pack.plates;
  wanted.push_back(pack.ring);
  std::vector<std::string> missing;
  for (const std::string& id : wanted) {
    if (place == nullptr || place->find(id) == nullptr) {
      missing.push_back(id);
    }
  }
  return missing;
}

std::optional<TurnedPack> pack_with_turned(Workshop& workshop, const Simulation& simulation,
                                           const std::string& plate, std::size_t from_step) {
  for (const Pack& pack : workshop.unit().packs) {
    if (std::ranges::find(pack.plates, plate) == pack.plates.end()) {
      continue;
    }
    for (std::size_t i = from_step; i < simulation.after.size(); ++i) {
      if (!missing_now(pack, simulation.after[i]).empty()) {
        continue;
      }
      BuildState other = simulation.after[i];
      for (auto& [name, place] : other.places) {
        if (Fitted* piece = place.find(plate)) {
          piece->over = !piece->over;
        }
      }
      auto as_laid = pack_now(workshop, pack, simulation.after[i]);
      auto turned = pack_now(workshop, pack, other);
      if (as_laid && turned) {
        return TurnedPack{std::move(*as_laid), std::move(*turned)};
      }
    }
  }
  return std::nullopt;
}

std::vector<SelectiveChoice> choices_for(Workshop& workshop, const Pack& pack,
                                         const PackReport& report, std::size_t most) {
  return choose_parts(choice_question(workshop, pack, report, {}, most)).choices;
}

std::optional<double> play_now(Workshop& workshop, const Play& play, const BuildState& state) {
  if (play.moving.empty()) {
    return std::nullopt;
  }
  const PlaceState* place = state.place_with(play.moving.front());
  if (place == nullptr) {
    return std::nullopt;
  }
  // What is asked about moves, however it is joined, and all of it as one.
  std::vector<Fitted> pieces = place->fitted;
  const auto moves = [&](const Fitted& piece) {
    return std::ranges::find(play.moving, piece.id) != play.moving.end();
  };
  for (Fitted& piece : pieces) {
    piece.joint.kind = moves(piece) ? JointKind::loose : piece.joint.kind;
    piece.pressed = piece.pressed && !moves(piece);
  }
  Groups groups = groups_of(workshop, pieces, "");
  std::vector<LooseGroup> moving;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (moves(pieces[i])) {
      moving.push_back(groups.of[i]);
    }
  }
  for (LooseGroup& group : groups.of) {
    group = std::ranges::find(moving, group) == moving.end() ? group : moving.front();
  }
  std::vector<LooseGap> gaps =
      gaps_of(workshop, pieces, bodies_in(workshop, *place).bodies, groups.of);
  std::erase_if(gaps, [&](const LooseGap& gap) { // springs give way
    return workshop.part(pieces[gap.upper].id).springs ||
           workshop.part(pieces[gap.lower].id).springs;
  });
  const double up_m = rises_of(gaps, groups.of, groups.count)[moving.front()].by_m;
  return std::isinf(up_m) ? std::nullopt : std::optional(up_m);
}

std::optional<double> lifted_clearance(Workshop& workshop, const Pack& pack,
                                       const BuildState& state) {
  const PlaceState* place = state.place_with(pack.piston);
  if (place == nullptr || pack.plates.empty()) {
    return std::nullopt;
  }
  const Fitted* ring = place->find(pack.ring);
  const Fitted* last = place->find(pack.plates.back());
  const auto groove = groove_of(workshop, pack, *place);
  if (ring == nullptr || last == nullptr || !groove) {
    return std::nullopt;
  }
  PlaceState lifted = *place;
  Fitted* loaded = lifted.find(pack.ring);
  if (const Component& part = workshop.part(ring->id); part.ring && part.ring->waved()) {
    loaded->squashed_to_m = flat_height_m(part);
  }
  loaded->height_m = groove->high_m - shape_of(workshop, *loaded).high_m();
  const Body plate{last->id, &shape_of(workshop, *last), last->height_m, last->turn_rad, spin_hand};
  const Travel travel = rise({plate}, bodies_in(workshop, lifted, {last->id}).bodies);
  return travel.contact ? std::optional(travel.up_m) : std::nullopt;
}

namespace build {

namespace {

/// The highest face of a piece at a radius, in the place's frame: where a
/// gauge's rod comes down.
std::optional<double> face_at(Workshop& workshop, const Fitted& piece, double radius_m) {
  std::optional<double> top_m;
  for (const SectorRing& ring : shape_of(workshop, piece).rings()) {
    if (radius_m >= ring.inner_m && radius_m <= ring.outer_m) {
      const double high_m = piece.height_m + ring.high_m;
      top_m = std::max(top_m.value_or(high_m), high_m);
    }
  }
  return top_m;
}

/// "depth:PART@80 mm": from the top face of the place's base down to the part
/// at that radius.
std::optional<double> depth(Bench bench, const std::string& what) {
  const auto at = what.find('@');
  const std::string id = what.substr(0, at);
  const Place* place = bench.workshop.unit().place(bench.step.place);
  const Fitted* base = place == nullptr ? nullptr : bench.place().find(place->base);
  const Fitted* piece = bench.place().find(id);
  if (base == nullptr || piece == nullptr || at == std::string::npos) {
    return std::nullopt;
  }
  const auto radius = parse_quantity(what.substr(at + 1), Dimension::length);
  if (!radius) {
    return std::nullopt;
  }
  const auto face_m = face_at(bench.workshop, *piece, radius.value().si);
  if (!face_m) {
    return std::nullopt;
  }
  return base->height_m + shape_of(bench.workshop, *base).high_m() - *face_m;
}

/// The parts of a chain that are neither in nor what the step itself has in hand.
std::vector<std::string> missing_here(Bench bench, const Chain& chain) {
  std::vector<std::string> missing = missing_now(chain, bench.state);
  std::erase_if(missing, [&](const std::string& id) {
    return id == bench.step.part ||
           std::ranges::find(bench.step.parts, id) != bench.step.parts.end();
  });
  return missing;
}

std::optional<double> value_of(Bench bench, const std::string& kind, const std::string& what) {
  const Unit& unit = bench.workshop.unit();
  if (kind == "clearance") {
    const Pack* pack = unit.pack(what);
    if (pack == nullptr || !missing_now(*pack, bench.state).empty()) {
      return std::nullopt;
    }
    const auto report = pack_now(bench.workshop, *pack, bench.state);
    return report ? std::optional(report->clearance_m) : std::nullopt;
  }
  if (kind == "rest") {
    const Fitted* piece = bench.place().find(what);
    return piece == nullptr ? std::nullopt : std::optional(piece->height_m);
  }
  if (kind == "depth") {
    return depth(bench, what);
  }
  if (kind == "height") {
    const auto below_m = depth(bench, what);
    return below_m ? std::optional(-*below_m) : std::nullopt;
  }
  if (kind == "chain") {
    const Chain* chain = unit.chain(what);
    return chain == nullptr || !missing_here(bench, *chain).empty()
               ? std::nullopt
               : std::optional(chain_now(bench.workshop, *chain).value_m);
  }
  if (kind == "play") {
    for (const Play& play : unit.plays) {
      if (play.id == what) {
        return play_now(bench.workshop, play, bench.state);
      }
    }
  }
  return std::nullopt;
}

/// ": wave plate is not in", or what can be read at all.
std::string why_unread(Bench bench, const std::string& of) {
  const auto colon = of.find(':');
  const std::string what = colon == std::string::npos ? "" : of.substr(colon + 1);
  const std::string kind = of.substr(0, colon);
  const Pack* pack = kind == "clearance" ? bench.workshop.unit().pack(what) : nullptr;
  if (pack != nullptr) {
    const auto missing = missing_now(*pack, bench.state);
    return missing.empty() ? ": " + pack->name + " is not the right way up"
                           : ": " + labels_of(bench.workshop, missing) + " is not in";
  }
  const Chain* chain = kind == "chain" ? bench.workshop.unit().chain(what) : nullptr;
  if (chain != nullptr) {
    return ": " + labels_of(bench.workshop, missing_here(bench, *chain)) + " is not in";
  }
  return ": it is read of something that is in, with something to stop it";
}

} // namespace

std::optional<ReadingReport> read_gauge(Bench bench) {
  const Reading& wanted = *bench.step.reading;
  const auto colon = wanted.of.find(':');
  const auto value_m = colon == std::string::npos ? std::nullopt
                                                  : value_of(bench, wanted.of.substr(0, colon),
                                                             wanted.of.substr(colon + 1));
  if (!value_m) {
    bench.problem("\"" + wanted.of + "\" cannot be read here" + why_unread(bench, wanted.of));
    return std::nullopt;
  }
  ReadingReport report{wanted.of, *value_m, wanted.expect_m, wanted.low_m, wanted.high_m, true};
  report.inside = *value_m >= wanted.low_m - contact_tolerance_m &&
                  *value_m <= wanted.high_m + contact_tolerance_m;
  if (!report.inside) {
    bench.problem("it reads " + mm(*value_m) + ", outside " + mm(wanted.low_m) + " to " +
                  mm(wanted.high_m));
  }
  return report;
}

} // namespace build

} // namespace lugline
