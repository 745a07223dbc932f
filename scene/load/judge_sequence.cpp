#include "scene/load/judge.h"

#include <algorithm>
#include <map>
#include <set>

namespace lugline {

namespace {

using StepDraft = Drafted<Step>;

bool puts_in(StepKind kind) {
  return kind == StepKind::place || kind == StepKind::spread || kind == StepKind::grease ||
         kind == StepKind::attach || kind == StepKind::refit;
}

bool takes_out(StepKind kind) {
  return kind == StepKind::take_out || kind == StepKind::detach;
}

/// The step's part and its further parts, with the key that each stands under.
std::vector<std::pair<std::string, std::string>> parts_of(const Step& step) {
  std::vector<std::pair<std::string, std::string>> all;
  if (!step.part.empty()) {
    all.emplace_back("part", step.part);
  }
  for (std::size_t i = 0; i < step.parts.size(); ++i) {
    all.emplace_back("parts[" + std::to_string(i) + "]", step.parts[i]);
  }
  return all;
}

class Judge {
public:
  Judge(const UnitDraft& unit, const SequenceDraft& sequence, const Known& known,
        Findings& findings)
      : unit_(unit), sequence_(sequence), known_(known), findings_(findings) {
    for (const Drafted<Place>& place : sequence.places) {
      bases_[place.value.id] = place.value.base;
    }
  }

  void judge() {
    judge_bases();
    judge_in_and_out();
    judge_seats();
    judge_cycles();
    for (const StepDraft& step : sequence_.steps) {
      judge_bring(step);
      judge_features(step);
      judge_pack_ring(step);
      judge_reading(step);
      ask_for_caution(step);
    }
    judge_fits();
  }

private:
  void judge_bases();
  void judge_in_and_out();
  void judge_seats();
  void judge_cycles();
  void judge_bring(const StepDraft& step);
  void judge_features(const StepDraft& step);
  void judge_pack_ring(const StepDraft& step);
  void judge_reading(const StepDraft& step);
  void judge_at_radius(const StepDraft& step, const std::string& what, const std::string& of);
  void ask_for_caution(const StepDraft& step);
  void judge_fits();

  /// The part on which the step's place is built.
  [[nodiscard]] std::string base_of(const std::string& place) const {
    const auto found = bases_.find(place);
    return found == bases_.end() ? std::string() : found->second;
  }
  /// For bring, where it may be left out: the base of what is brought.
  [[nodiscard]] std::string part_of(const Step& step) const {
    return step.part.empty() && step.kind == StepKind::bring ? base_of(step.brings) : step.part;
  }
  void complain(const StepDraft& step, const std::string& key, const std::string& message,
                std::string hint = {}) {
    findings_.complain(step.at.of(key), step.what + ": " + message, std::move(hint));
  }

  const UnitDraft& unit_;
  const SequenceDraft& sequence_;
  const Known& known_;
  Findings& findings_;
  std::map<std::string, std::string> bases_; ///< by place
};

void Judge::judge_bases() {
  std::map<std::string, std::string> place_of;
  for (const Drafted<Place>& place : sequence_.places) {
    const auto [first, is_new] = place_of.try_emplace(place.value.base, place.value.id);
    if (!is_new && !place.value.base.empty()) {
      findings_.complain(place.at.of("base"),
                         place.what + ": its base, " + in_quotes(place.value.base) +
                             ", is the base of " + in_quotes(first->second) + " as well");
    }
  }
}

void Judge::judge_in_and_out() {
  std::map<std::string, const StepDraft*> in; // since which step
  std::set<std::string> brought;
  for (const StepDraft& step : sequence_.steps) {
    const StepKind kind = step.value.kind;
    if (kind == StepKind::bring && !brought.insert(step.value.brings).second) {
      complain(step, "brings", in_quotes(step.value.brings) + " was brought before");
    }
    if (!puts_in(kind) && !takes_out(kind)) {
      continue;
    }
    for (const auto& [key, id] : parts_of(step.value)) {
      if (!known_.has(id)) {
        continue;
      }
      if (takes_out(kind)) {
        if (in.erase(id) == 0) {
          complain(step, key, in_quotes(id) + " comes out, and no earlier step put it in");
        }
        continue;
      }
      const auto [since, is_new] = in.try_emplace(id, &step);
      if (!is_new) {
        complain(step, key,
                 in_quotes(id) + " is in already, since step " +
                     in_quotes(since->second->value.id) + " on line " +
                     std::to_string(since->second->at.table().line),
                 "take it out first, or leave one of the steps out");
      }
    }
  }
}

void Judge::judge_seats() {
  std::set<std::string> placed;
  for (const auto& [place, base] : bases_) {
    placed.insert(base);
  }
  for (const StepDraft& step : sequence_.steps) {
    if (puts_in(step.value.kind)) {
      for (const auto& [key, id] : parts_of(step.value)) {
        placed.insert(id);
      }
    }
  }
  for (const StepDraft& step : sequence_.steps) {
    const Step& value = step.value;
    const bool comes_to_rest =
        (puts_in(value.kind) && value.kind != StepKind::attach) || value.kind == StepKind::bring;
    const std::string part = part_of(value);
    if (comes_to_rest && value.seat.empty() && value.groove.empty() &&
        part != base_of(value.place)) {
      complain(step, "seat", in_quotes(part) + " goes in, and there is no seat",
               "name the part on which it comes to rest");
    }
    const std::string host = value.groove.substr(0, value.groove.find('/'));
    for (const auto& [key, id] : {std::pair("seat", value.seat), std::pair("groove", host)}) {
      if (known_.has(id) && !placed.contains(id)) {
        complain(step, key,
                 "its " + std::string(key) + ", " + in_quotes(id) +
                     ", is never put in by any step");
      }
    }
  }
}

void Judge::judge_cycles() {
  // Where each part first comes to rest; a refit later may well be elsewhere.
  std::map<std::string, std::pair<std::string, const StepDraft*>> rests_on;
  for (const StepDraft& step : sequence_.steps) {
    if ((puts_in(step.value.kind) || step.value.kind == StepKind::bring) &&
        !step.value.seat.empty() && !part_of(step.value).empty()) {
      rests_on.try_emplace(part_of(step.value), step.value.seat, &step);
    }
  }
  std::set<std::string> done;
  for (const auto& [start, first] : rests_on) {
    std::vector<std::string> chain;
    std::string at = start;
    while (rests_on.contains(at) && !done.contains(at)) {
      done.insert(at);
      chain.push_back(at);
      at = rests_on.at(at).first;
    }
    const auto loop = std::ranges::find(chain, at);
    if (loop == chain.end()) {
      continue;
    }
    std::string words;
    for (auto it = loop; it != chain.end(); ++it) {
      words += *it + " rests on ";
    }
    complain(*rests_on.at(chain.back()).second, "seat",
             "the seats go round in a circle: " + words + at);
  }
}

void Judge::judge_bring(const StepDraft& step) {
  const Step& value = step.value;
  if (value.kind != StepKind::bring || value.brings.empty()) {
    return;
  }
  if (value.brings == value.place) {
    complain(step, "brings", in_quotes(value.brings) + " cannot be brought to itself");
  }
  const std::string base = base_of(value.brings);
  if (!value.part.empty() && !base.empty() && value.part != base) {
    complain(step, "part",
             "its part is " + in_quotes(value.part) + ", and the base of " +
                 in_quotes(value.brings) + " is " + in_quotes(base));
  }
}

void Judge::judge_features(const StepDraft& step) {
  const Step& value = step.value;
  const std::string part = part_of(value);
  if (!value.key.empty() && value.key.substr(0, value.key.find('/')) != part) {
    complain(step, "key", "key " + in_quotes(value.key) + " is not on its part, " + in_quotes(part),
             "the key on the part; what it enters stands in the model");
  }
  const UnitComponent* made = known_.made(part);
  if (made == nullptr || value.band_state.empty()) {
    return;
  }
  std::vector<std::string> states;
  std::ranges::transform(made->part.band_states, std::back_inserter(states), &BandState::id);
  if (std::ranges::find(states, value.band_state) == states.end()) {
    complain(step, "band_state", in_quotes(part) + " has no state " + in_quotes(value.band_state),
             states.empty() ? part + " has none" : part + " has " + listed(states));
  }
}

/// The ring goes where its pack says that it sits: the sum is made to that groove.
void Judge::judge_pack_ring(const StepDraft& step) {
  const Step& value = step.value;
  for (const Drafted<Pack>& pack : unit_.packs) {
    const std::string groove = pack.value.ring_host + "/" + pack.value.ring_groove;
    if (puts_in(value.kind) && !value.groove.empty() && value.part == pack.value.ring &&
        value.groove != groove) {
      complain(step, "groove",
               "it puts " + in_quotes(value.part) + " into " + in_quotes(value.groove) +
                   ", and pack " + in_quotes(pack.value.id) + " is closed in " + in_quotes(groove));
    }
  }
}

/// "COMPONENT@RADIUS": where the rod of a depth gauge comes down.
void Judge::judge_at_radius(const StepDraft& step, const std::string& what, const std::string& of) {
  const std::size_t at = of.find('@');
  const std::string id = of.substr(0, at);
  if (!known_.has(id)) {
    complain(step, "reading",
             "the reading names " + in_quotes(id) + ", and there is no such component",
             findings_.nearest(id, known_.ids()));
  }
  if (at == std::string::npos) {
    complain(step, "reading", "a " + what + " is read at a radius",
             in_quotes(what + ":COMPONENT@80 mm"));
    return;
  }
  const Outcome<Quantity> radius = parse_bench_quantity(of.substr(at + 1), Dimension::length);
  if (!radius) {
    complain(step, "reading", "the radius of the " + what + ": " + radius.problem());
    return;
  }
  const UnitComponent* made = known_.made(id);
  const double radius_m = radius.value().si;
  if (made != nullptr && std::ranges::none_of(made->part.solid.rings, [&](const SectorRing& ring) {
        return radius_m >= ring.inner_m && radius_m <= ring.outer_m;
      })) {
    complain(step, "reading",
             "nothing of " + in_quotes(id) + " stands at a radius of " +
                 print_length(radius_m, LengthUnit::millimetre));
  }
}

void Judge::judge_reading(const StepDraft& step) {
  if (!step.value.reading || step.value.reading->of.empty()) {
    return;
  }
  const std::string& of = step.value.reading->of;
  const std::size_t colon = of.find(':');
  const std::string what = of.substr(0, colon);
  const std::string id = colon == std::string::npos ? "" : of.substr(colon + 1);
  std::vector<std::string> ids;
  if (what == "clearance" && colon != std::string::npos) {
    for (const Drafted<Pack>& pack : unit_.packs) {
      ids.push_back(pack.value.id);
    }
  } else if (what == "play" && colon != std::string::npos) {
    for (const Drafted<Play>& play : unit_.plays) {
      ids.push_back(play.value.id);
    }
  } else if (what == "chain" && colon != std::string::npos) {
    for (const ChainDraft& chain : unit_.chains) {
      ids.push_back(chain.value.id);
    }
  } else if (what == "rest" && colon != std::string::npos) {
    ids = known_.ids();
  } else if ((what == "depth" || what == "height") && colon != std::string::npos) {
    judge_at_radius(step, what, id);
    return;
  } else {
    complain(step, "reading", "a reading of " + in_quotes(of) + " is not known",
             "clearance:PACK, play:PLAY, chain:CHAIN, rest:COMPONENT, depth:COMPONENT@RADIUS or "
             "height:COMPONENT@RADIUS");
    return;
  }
  if (std::ranges::find(ids, id) == ids.end()) {
    complain(step, "reading",
             "the reading is of " + in_quotes(of) + ", and there is no such " +
                 (what == "clearance" ? "pack"
                  : what == "rest"    ? "component"
                                      : what),
             findings_.nearest(id, ids));
  }
}

void Judge::ask_for_caution(const StepDraft& step) {
  const Step& value = step.value;
  if (!value.caution_text.empty()) {
    return;
  }
  std::string hazard;
  if (value.kind == StepKind::press) {
    hazard = "it presses springs together";
  } else if (value.kind == StepKind::torque && value.press_to_m) {
    hazard = "it draws a part down by its bolts";
  } else if (value.by == CheckBy::air) {
    hazard = "it uses compressed air";
  } else if (puts_in(value.kind) || takes_out(value.kind)) {
    for (const auto& [key, id] : parts_of(value)) {
      const UnitComponent* made = known_.made(id);
      if (made != nullptr && made->part.kind == ComponentKind::snap_ring) {
        hazard = in_quotes(id) + " is a snap ring, and those fly";
      } else if (made != nullptr && made->part.kind == ComponentKind::springs) {
        hazard = in_quotes(id) + " is a set of springs";
      }
    }
  }
  if (!hazard.empty()) {
    findings_.ask(step.at.table(), step.what + ": " + hazard + ", and there is no caution",
                  "caution = \"…\": say it before the hand moves");
  }
}

/// What a model says its keys enter, beside what is in this unit.
void Judge::judge_fits() {
  std::set<std::string> used;
  for (const StepDraft& step : sequence_.steps) {
    used.insert(step.value.key);
  }
  for (const ComponentLine& line : unit_.lines) {
    const std::string piece = line.piece_ids().front();
    const UnitComponent* made = known_.made(piece);
    if (made == nullptr) {
      continue;
    }
    for (const Key& key : made->part.keys) {
      const std::size_t slash = key.fits.find('/');
      if (key.fits.empty()) {
        continue;
      }
      const std::string host = key.fits.substr(0, slash);
      const UnitComponent* mate = known_.made(host);
      if (slash != std::string::npos && known_.has(host) && mate == nullptr) {
        continue; // the mate's line was refused
      }
      const bool found = slash != std::string::npos && mate != nullptr &&
                         std::ranges::find(mate->part.keys, key.fits.substr(slash + 1), &Key::id) !=
                             mate->part.keys.end();
      if (!found) {
        findings_.ask(line.at.of("file"), line.what() + ": its key " + in_quotes(key.id) +
                                              " fits " + in_quotes(key.fits) +
                                              ", which is not in this unit");
      }
    }
  }
}

} // namespace

void judge_sequence(const UnitDraft& unit, const SequenceDraft& sequence, const Known& known,
                    Findings& findings) {
  Judge(unit, sequence, known, findings).judge();
}

} // namespace lugline
