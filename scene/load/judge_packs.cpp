#include "scene/load/judge.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <map>
#include <set>

namespace lugline {

namespace {

bool is_pack_plate(ComponentKind kind) {
  switch (kind) {
  case ComponentKind::steel:
  case ComponentKind::friction:
  case ComponentKind::wave_plate:
  case ComponentKind::apply_plate:
  case ComponentKind::backing_plate:
    return true;
  default:
    return false;
  }
}

std::string nth(const char* key, std::size_t i) {
  return std::string(key) + "[" + std::to_string(i) + "]";
}

void judge_plates(const Drafted<Pack>& drafted, const Known& known, Findings& findings) {
  const Pack& pack = drafted.value;
  std::set<std::string> seen;
  for (std::size_t i = 0; i < pack.plates.size(); ++i) {
    const std::string& plate = pack.plates[i];
    const SourcePlace& at = drafted.at.of(nth("plates", i));
    if (!seen.insert(plate).second) {
      findings.complain(at, drafted.what + ": plate " + in_quotes(plate) + " is listed twice",
                        "each piece has an id of its own");
    }
    const UnitComponent* made = known.made(plate);
    if (made != nullptr && !is_pack_plate(made->part.kind)) {
      findings.ask(at, drafted.what + ": " + in_quotes(plate) + " is a " +
                           word_for(made->part.kind) + " among its plates: is that meant?");
    }
  }
  for (const auto& [key, id] : {std::pair("piston", pack.piston), std::pair("ring", pack.ring)}) {
    if (seen.contains(id)) {
      findings.complain(drafted.at.of(key), drafted.what + ": its " + key + ", " + in_quotes(id) +
                                                ", is among its plates as well");
    }
  }
}

void judge_ends(const Drafted<Pack>& drafted, const Known& known, Findings& findings) {
  const Pack& pack = drafted.value;
  const UnitComponent* ring = known.made(pack.ring);
  if (ring != nullptr && ring->part.kind != ComponentKind::snap_ring) {
    findings.complain(drafted.at.of("ring"), drafted.what + ": its ring, " + in_quotes(pack.ring) +
                                                 ", is a " + word_for(ring->part.kind) +
                                                 ", and a snap ring was expected");
  }
  const UnitComponent* piston = known.made(pack.piston);
  if (piston != nullptr && piston->part.kind != ComponentKind::piston) {
    findings.ask(drafted.at.of("piston"),
                 drafted.what + ": it stands on " + in_quotes(pack.piston) + ", a " +
                     word_for(piston->part.kind) + ": is that its piston?");
  }
}

void judge_selectives(const Drafted<Pack>& drafted, const Known& known, Findings& findings) {
  const Pack& pack = drafted.value;
  for (std::size_t i = 0; i < pack.selective.size(); ++i) {
    const std::string& id = pack.selective[i];
    const SourcePlace& at = drafted.at.of(nth("selective", i));
    if (known.has(id) && id != pack.ring &&
        std::ranges::find(pack.plates, id) == pack.plates.end()) {
      findings.complain(at, drafted.what + ": selective " + in_quotes(id) +
                                " is neither one of its plates nor its ring");
    }
    const UnitComponent* made = known.made(id);
    if (made != nullptr && made->thickness_options_m.empty()) {
      findings.complain(at,
                        drafted.what + ": " + in_quotes(id) +
                            " is selective, and its component states no options",
                        "options = [\"…\", …] beside its thickness");
    }
  }
}

/// What is stated of the frictions, beside the frictions themselves.
void judge_frictions(const Drafted<Pack>& drafted, const Known& known, Findings& findings) {
  const Pack& pack = drafted.value;
  const auto mm = [](double length_m) { return print_length(length_m, LengthUnit::millimetre); };
  constexpr double most_wet = 0.1; // of a plate's thickness
  for (const std::string& id : pack.plates) {
    const UnitComponent* made = known.made(id);
    if (made == nullptr || made->part.kind != ComponentKind::friction) {
      continue;
    }
    const Figure* thickness = made->part.figure("thickness");
    if (thickness == nullptr) {
      continue;
    }
    if (pack.friction_least_m >= thickness->value_m) {
      findings.complain(drafted.at.of("friction_least"),
                        drafted.what + ": friction_least " + mm(pack.friction_least_m) +
                            " is not below the " + mm(thickness->value_m) + " of " + in_quotes(id));
      return;
    }
    if (pack.friction_wet_m > most_wet * thickness->value_m) {
      findings.complain(drafted.at.of("friction_wet"),
                        drafted.what + ": friction_wet " + mm(pack.friction_wet_m) +
                            " is more than a friction of " + mm(thickness->value_m) +
                            " can swell by",
                        "by how much one soaked friction is thicker than a dry one");
      return;
    }
  }
}

/// A plate is in one pack, and so is a ring.
void judge_shared(const UnitDraft& unit, Findings& findings) {
  std::map<std::string, std::string> pack_of;
  const auto take = [&](const Drafted<Pack>& drafted, const std::string& key,
                        const std::string& id) {
    const auto [first, is_new] = pack_of.try_emplace(id, drafted.value.id);
    if (!is_new && first->second != drafted.value.id && !id.empty()) {
      findings.complain(drafted.at.of(key),
                        drafted.what + ": " + in_quotes(id) + " is in pack " +
                            in_quotes(first->second) + " as well",
                        "each piece has an id of its own");
    }
  };
  for (const Drafted<Pack>& drafted : unit.packs) {
    for (std::size_t i = 0; i < drafted.value.plates.size(); ++i) {
      take(drafted, nth("plates", i), drafted.value.plates[i]);
    }
    take(drafted, "ring", drafted.value.ring);
  }
}

} // namespace

void judge_packs(const UnitDraft& unit, const Known& known, Findings& findings) {
  for (const Drafted<Pack>& drafted : unit.packs) {
    judge_plates(drafted, known, findings);
    judge_ends(drafted, known, findings);
    judge_selectives(drafted, known, findings);
    judge_frictions(drafted, known, findings);
  }
  judge_shared(unit, findings);
}

} // namespace lugline
