#include "scene/load/judge.h"

#include <algorithm>
#include <map>
#include <set>

namespace lugline {

namespace {

std::string nth(const char* key, std::size_t i) {
  return std::string(key) + "[" + std::to_string(i) + "]";
}

template <class T>
std::vector<std::string> ids_of(const std::vector<Drafted<T>>& all) {
  std::vector<std::string> ids;
  std::ranges::transform(all, std::back_inserter(ids),
                         [](const Drafted<T>& one) { return one.value.id; });
  return ids;
}

template <class T>
void judge_doubles(const std::vector<Drafted<T>>& all, Findings& findings) {
  std::map<std::string, int> first;
  for (const Drafted<T>& one : all) {
    const SourcePlace& at = one.at.of("id");
    const auto [there, is_new] = first.try_emplace(one.value.id, at.line);
    if (!is_new && !one.value.id.empty()) {
      findings.complain(at, one.what + ": the id " + in_quotes(one.value.id) +
                                " is there already, on line " + std::to_string(there->second));
    }
  }
}

class DriveJudge {
public:
  DriveJudge(const UnitDraft& unit, const Known& known, Findings& findings)
      : unit_(unit), drive_(*unit.drive), known_(known), findings_(findings),
        members_(ids_of(drive_.members)), elements_(ids_of(drive_.elements)) {
    members_.emplace_back(case_member);
  }

  void judge() {
    judge_doubles(drive_.members, findings_);
    judge_doubles(drive_.sets, findings_);
    judge_doubles(drive_.elements, findings_);
    judge_doubles(drive_.ranges, findings_);
    ends();
    for (const Drafted<PlanetarySet>& set : drive_.sets) {
      gears_of(set);
      teeth_of(set);
    }
    for (const Drafted<DriveElement>& element : drive_.elements) {
      joins(element);
      pack_of(element);
    }
    for (const Drafted<DriveRange>& range : drive_.ranges) {
      applied_in(range);
    }
    members();
    air();
  }

private:
  /// Whether the id is a member; where it is none that is told, and where it is empty too.
  bool is_member(const std::string& id, const std::string& what, const SourcePlace& at,
                 const std::string& key) {
    if (id.empty()) {
      findings_.complain(at, what + ": " + key + " is missing: which member is it?",
                         listed(members_));
      return false;
    }
    touched_.insert(id);
    if (std::ranges::find(members_, id) != members_.end()) {
      return true;
    }
    std::string hint = findings_.nearest(id, members_);
    findings_.complain(at,
                       what + ": " + key + " is " + in_quotes(id) + ", and there is no such member",
                       hint.empty() ? "the members are " + listed(members_) : hint);
    return false;
  }

  void ends() {
    const KeyPlaces& at = drive_.train_at;
    if (drive_.train.source.line == 0) {
      return; // no [train], which is told
    }
    for (const auto& [key, id] :
         {std::pair("input", drive_.train.input), std::pair("output", drive_.train.output)}) {
      if (id == case_member) {
        findings_.complain(at.of(key),
                           std::string("train: its ") + key + " is the case, which stands still");
      } else if (!id.empty()) {
        is_member(id, "train", at.of(key), key);
      }
    }
    if (!drive_.train.input.empty() && drive_.train.input == drive_.train.output) {
      findings_.complain(at.of("output"), "train: input and output are one member");
    }
  }

  void gears_of(const Drafted<PlanetarySet>& drafted) {
    const PlanetarySet& set = drafted.value;
    std::map<std::string, std::string> role_of;
    for (const auto& [key, id] : {std::pair("carrier", set.carrier), std::pair("sun", set.sun),
                                  std::pair("ring", set.ring)}) {
      if (id.empty() && std::string(key) != "carrier") {
        continue;
      }
      const SourcePlace& at = drafted.at.of(key);
      if (!is_member(id, drafted.what, at, key)) {
        continue;
      }
      const auto [other, is_new] = role_of.try_emplace(id, key);
      if (!is_new) {
        findings_.complain(at, drafted.what + ": its " + other->second + " and its " + key +
                                   " are one member, so it can only turn as a block");
      }
    }
    if (set.sun.empty() && set.ring.empty()) {
      findings_.complain(drafted.at.table(), drafted.what +
                                                 ": there is neither a sun nor a ring: what do its "
                                                 "pinions mesh with?");
    }
  }

  void teeth_of(const Drafted<PlanetarySet>& drafted) {
    const PlanetarySet& set = drafted.value;
    const bool two_pinions = set.kind != PlanetaryKind::single_pinion;
    const auto needs = [&](const char* key, int teeth, bool needed, const char* why) {
      if (needed && teeth == 0 && !drafted.at.has(key)) {
        findings_.complain(drafted.at.of(key),
                           drafted.what + ": " + key + " is missing, and " + why);
      }
    };
    const auto useless = [&](const char* key, int teeth, bool needless, const char* why) {
      if (needless && teeth != 0) {
        findings_.complain(drafted.at.of(key),
                           drafted.what + ": " + key + " is of no use, since " + why);
      }
    };
    needs("sun_teeth", set.sun_teeth, !set.sun.empty(), "there is a sun");
    needs("ring_teeth", set.ring_teeth, !set.ring.empty(), "there is a ring");
    useless("sun_teeth", set.sun_teeth, set.sun.empty(), "there is no sun");
    useless("ring_teeth", set.ring_teeth, set.ring.empty(), "there is no ring");
    useless("outer_pinion_teeth", set.outer_pinion_teeth, !two_pinions,
            "a set of single pinions has none");
    const bool stepped = set.kind == PlanetaryKind::stepped_pinion;
    needs("pinion_teeth", set.pinion_teeth, stepped, "stepped pinions change the ratio");
    needs("outer_pinion_teeth", set.outer_pinion_teeth, stepped,
          "stepped pinions change the ratio");
    if (set.sun_teeth > 0 && set.ring_teeth > 0) {
      mesh_of(drafted);
    }
  }

  void mesh_of(const Drafted<PlanetarySet>& drafted) {
    const PlanetarySet& set = drafted.value;
    const int sun = set.sun_teeth;
    const int ring = set.ring_teeth;
    if (ring <= sun) {
      findings_.complain(drafted.at.of("ring_teeth"),
                         drafted.what + ": its ring has " + std::to_string(ring) +
                             " teeth, and its sun " + std::to_string(sun) +
                             ": the sun would not go into it");
      return;
    }
    const bool single = set.kind == PlanetaryKind::single_pinion;
    if (single && set.pinion_teeth > 0 && ring != sun + 2 * set.pinion_teeth) {
      findings_.ask(drafted.at.of("ring_teeth"),
                    drafted.what + ": sun + 2 x pinion is " +
                        std::to_string(sun + 2 * set.pinion_teeth) + " teeth, and the ring has " +
                        std::to_string(ring) + ": are all counted right?",
                    "only gears cut with shifted profiles mesh so");
    }
    if (set.pinions > 1 && set.kind != PlanetaryKind::stepped_pinion) {
      const int total = single ? ring + sun : ring - sun;
      if (total % set.pinions != 0) {
        findings_.ask(drafted.at.of("pinions"),
                      drafted.what + ": " + (single ? "sun + ring" : "ring - sun") + ", " +
                          std::to_string(total) + ", is no multiple of its " +
                          std::to_string(set.pinions) +
                          " pinions, so they cannot stand at equal angles: is that so?");
      }
    }
  }

  void joins(const Drafted<DriveElement>& drafted) {
    const DriveElement& element = drafted.value;
    const bool of = is_member(element.of, drafted.what, drafted.at.of("of"), "of");
    const bool to = is_member(element.to, drafted.what, drafted.at.of("to"), "to");
    if (of && to && element.of == element.to) {
      findings_.complain(drafted.at.of("to"),
                         drafted.what + " joins " + in_quotes(element.of) + " to itself");
    } else if (of && element.of == case_member) {
      findings_.complain(drafted.at.of("of"),
                         drafted.what + ": of is the case: name the member that turns here",
                         "of = " + in_quotes(element.to) + " and to = \"case\"" +
                             (element.kind == ElementKind::one_way_clutch
                                  ? ", and the direction is then that member's"
                                  : ""));
    } else if (to && element.kind == ElementKind::band && element.to != case_member) {
      findings_.complain(drafted.at.of("to"),
                         drafted.what + ": a band holds to the case, not to " +
                             in_quotes(element.to),
                         "to = \"case\", or leave it out");
    }
  }

  void pack_of(const Drafted<DriveElement>& drafted) {
    const DriveElement& element = drafted.value;
    if (element.pack.empty()) {
      return;
    }
    const SourcePlace& at = drafted.at.of("pack");
    const auto [other, is_new] = element_of_pack_.try_emplace(element.pack, drafted.what);
    if (!is_new) {
      findings_.complain(at, drafted.what + ": its pack, " + in_quotes(element.pack) +
                                 ", is that of " + other->second + " as well");
    }
    const auto pack = std::ranges::find_if(
        unit_.packs, [&](const auto& p) { return p.value.id == element.pack; });
    if (pack == unit_.packs.end()) {
      const std::vector<std::string> packs = ids_of(unit_.packs);
      std::string hint = findings_.nearest(element.pack, packs);
      if (hint.empty() && !packs.empty()) {
        hint = "the packs are " + listed(packs);
      }
      findings_.complain(at,
                         drafted.what + " names pack " + in_quotes(element.pack) +
                             ", and there is no such pack",
                         hint);
      return;
    }
    int frictions = 0;
    for (const std::string& plate : pack->value.plates) {
      const UnitComponent* made = known_.made(plate);
      if (made == nullptr && !known_.has(plate)) {
        return; // told elsewhere
      }
      frictions += made != nullptr && made->part.kind == ComponentKind::friction ? 1 : 0;
    }
    if (element.surfaces > 0 && frictions > 0 && element.surfaces != 2 * frictions) {
      findings_.ask(drafted.at.of("surfaces"),
                    drafted.what + ": surfaces is " + std::to_string(element.surfaces) +
                        ", and the " + std::to_string(frictions) + " frictions of its pack have " +
                        std::to_string(2 * frictions) + " faces: are some lined on one side only?");
    }
  }

  void applied_in(const Drafted<DriveRange>& drafted) {
    const DriveRange& range = drafted.value;
    std::set<std::string> seen;
    for (std::size_t i = 0; i < range.on.size(); ++i) {
      const std::string& id = range.on[i];
      const SourcePlace& at = drafted.at.of(nth("on", i));
      const auto element = std::ranges::find_if(
          drive_.elements, [&](const auto& one) { return one.value.id == id; });
      if (element == drive_.elements.end()) {
        std::string hint = findings_.nearest(id, elements_);
        findings_.complain(
            at, drafted.what + ": on names " + in_quotes(id) + ", and there is no such element",
            hint.empty() ? "the elements are " + listed(elements_) : hint);
      } else if (element->value.kind == ElementKind::one_way_clutch) {
        findings_.complain(at,
                           drafted.what + ": on names " + in_quotes(id) +
                               ", a one-way clutch, which nobody applies",
                           "leave it out: one-way clutches hold by themselves in every range");
      }
      if (!seen.insert(id).second) {
        findings_.complain(at, drafted.what + ": on names " + in_quotes(id) + " twice");
      }
    }
    if (range.ratio && *range.ratio == 0) {
      findings_.complain(drafted.at.of("ratio"), drafted.what + ": a ratio of nothing",
                         "turns of the input for one of the output; neutral = true where nothing "
                         "is driven");
    }
    if (range.ratio && range.neutral) {
      findings_.complain(drafted.at.of("neutral"),
                         drafted.what + ": it states a ratio, and that it is neutral");
    }
  }

  void members() {
    std::map<std::string, std::string> member_of;
    for (const Drafted<DriveMember>& drafted : drive_.members) {
      const DriveMember& member = drafted.value;
      if (member.id == case_member) {
        findings_.complain(drafted.at.of("id"),
                           "member 'case': the case is there of itself, and stands still",
                           "leave this [[member]] out");
        continue;
      }
      if (!member.id.empty() && !touched_.contains(member.id)) {
        findings_.ask(drafted.at.of("id"),
                      drafted.what +
                          ": no planetary set and no element touches it: is one missing?");
      }
      for (const std::string& part : member.parts) {
        const auto [other, is_new] = member_of.try_emplace(part, drafted.what);
        if (!is_new) {
          findings_.complain(drafted.at.of("parts"), drafted.what + ": " + in_quotes(part) +
                                                         " turns with " + other->second +
                                                         " as well");
        }
      }
    }
  }

  void air() {
    if (!drive_.train.air) {
      return;
    }
    const AirTest& air = *drive_.train.air;
    const auto printed = [](double pressure_Pa) {
      return print_pressure(pressure_Pa, LengthUnit::millimetre);
    };
    if (air.test_Pa > air.limit_Pa && air.limit_Pa > 0) {
      findings_.complain(drive_.air_at.of("test"),
                         "air: the test pressure, " + printed(air.test_Pa) +
                             ", is above the limit, " + printed(air.limit_Pa));
    }
    if (air.floor_Pa >= air.test_Pa && air.test_Pa > 0) {
      findings_.complain(drive_.air_at.of("floor"),
                         "air: the floor, " + printed(air.floor_Pa) +
                             ", is not below the test pressure, " + printed(air.test_Pa),
                         "a timed hold runs from the test pressure down to the floor");
    }
  }

  const UnitDraft& unit_;
  const DriveDraft& drive_;
  const Known& known_;
  Findings& findings_;
  std::vector<std::string> members_;
  std::vector<std::string> elements_;
  std::set<std::string> touched_;
  std::map<std::string, std::string> element_of_pack_;
};

} // namespace

void judge_drive(const UnitDraft& unit, const Known& known, Findings& findings) {
  if (unit.drive) {
    DriveJudge(unit, known, findings).judge();
  }
}

void judge_air_steps(const UnitDraft& unit, const SequenceDraft& sequence, Findings& findings) {
  static const std::vector<Drafted<DriveElement>> none;
  const auto& elements = unit.drive ? unit.drive->elements : none;
  for (const Drafted<Step>& step : sequence.steps) {
    const std::vector<std::string>& named = step.value.elements;
    for (std::size_t i = 0; i < named.size(); ++i) {
      const SourcePlace& at = step.at.of(nth("elements", i));
      const auto found = std::ranges::find_if(
          elements, [&](const auto& element) { return element.value.id == named[i]; });
      const std::string names = step.what + ": elements names " + in_quotes(named[i]);
      if (found == elements.end()) {
        std::string hint = findings.nearest(named[i], ids_of(elements));
        if (hint.empty() && !elements.empty()) {
          hint = "the elements are " + listed(ids_of(elements));
        }
        findings.complain(at, names + ", and unit.toml has no such element", hint);
      } else if (!found->value.piston) {
        findings.complain(at, names + ", and no piston is stated for it",
                          "piston = { outer = \"…\", inner = \"…\" } in its [[element]]");
      }
    }
    if (!named.empty() && unit.drive && !unit.drive->train.air) {
      findings.complain(step.at.of("elements"),
                        step.what + ": it checks by air, and unit.toml states none",
                        "[air] with test, limit and floor");
    }
  }
}

} // namespace lugline
