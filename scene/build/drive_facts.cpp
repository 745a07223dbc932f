#include "scene/build/drive_facts.h"

#include <algorithm>

namespace lugline {

DriveFacts drive_facts(const Unit& unit, const std::vector<JudgedPack>& packs) {
  DriveFacts facts;
  if (!unit.drive) {
    return facts;
  }
  for (const DriveElement& element : unit.drive->elements) {
    if (element.kind == ElementKind::band) {
      facts.packs[element.id] = {0, element.stroke_m};
    }
    if (element.pack.empty()) {
      continue;
    }
    const auto pack = std::ranges::find_if(
        packs, [&](const JudgedPack& each) { return each.report.id == element.pack; });
    if (pack == packs.end() || pack->report.verdict == PackVerdict::open) {
      facts.notes.push_back(element.name +
                            ": its pack is never whole, so its stroke is not known and counted as "
                            "nothing.");
      continue;
    }
    facts.packs[element.id] = {static_cast<int>(pack->report.frictions),
                               std::max(0.0, pack->report.clearance_flat_m)};
  }
  return facts;
}

std::string cylinder_of(const Unit& unit, const DriveElement& element) {
  const Pack* pack = element.pack.empty() ? nullptr : unit.pack(element.pack);
  if (pack == nullptr || !unit.drive) {
    return case_member;
  }
  for (const DriveMember& member : unit.drive->members) {
    if (std::ranges::find(member.parts, pack->piston) != member.parts.end()) {
      return member.id;
    }
  }
  return case_member;
}

} // namespace lugline
