// What a simulated build tells the drive: friction counts and strokes of its clutches' packs, and
// where their cylinders turn.
//
// Glue between the packs as they were found (judge.h) and the calculators of scene/drive; it holds
// no formula. Metres. An element whose pack was never whole has no facts, and a sentence says so.
#pragma once

#include "scene/build/judge.h"
#include "scene/drive/element_capacity.h"

#include <map>
#include <string>
#include <vector>

namespace lugline {

struct DriveFacts {
  std::map<std::string, PackFacts> packs; ///< by element id
  std::vector<std::string> notes;         ///< "Case clutch: its pack is never whole, …"
};

/// A clutch's stroke is the clearance with its wave plate flat: the piston's travel to full clamp.
/// A servo's is the unit's own.
DriveFacts drive_facts(const Unit& unit, const std::vector<JudgedPack>& packs);

/// The id of the member whose parts hold the element's piston, so that its fluid is flung outward
/// when that member turns; "case" where the piston turns with none.
std::string cylinder_of(const Unit& unit, const DriveElement& element);

} // namespace lugline
