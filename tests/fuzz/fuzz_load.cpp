// Any bytes as a unit: the loader answers with a sound Unit or with complaints,
// and with nothing else.
//
// The bytes hold files, each after a line "%%NAME": unit.toml, sequence.toml
// and models. load_seeds.sh packs a unit's folder that way.
#include "scene/load/load_from.h"
#include "scene/load/memory_source.h"

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <tuple>

namespace {

using namespace lugline;

/// Not assert: it must hold in every build.
void must(bool holds) {
  if (!holds) {
    std::abort();
  }
}

void unpack(const std::string& bytes, MemorySource& files) {
  std::size_t at = bytes.find("%%");
  while (at != std::string::npos) {
    const std::size_t name_end = bytes.find('\n', at);
    if (name_end == std::string::npos) {
      return;
    }
    const std::size_t next = bytes.find("\n%%", name_end);
    const std::size_t end = next == std::string::npos ? bytes.size() : next;
    files.put(bytes.substr(at + 2, name_end - at - 2),
              bytes.substr(name_end + 1, end - std::min(end, name_end + 1)));
    at = next == std::string::npos ? next : next + 1;
  }
}

bool has_component(const Unit& unit, const std::string& id) {
  return id.empty() || unit.component(id) != nullptr;
}

bool has_groove(const Unit& unit, const std::string& path) {
  const std::size_t slash = path.find('/');
  const UnitComponent* host = unit.component(path.substr(0, slash));
  return path.empty() || (slash != std::string::npos && host != nullptr &&
                          host->part.groove(path.substr(slash + 1)) != nullptr);
}

bool has_member(const Drive& drive, const std::string& id) {
  return id == case_member || drive.member(id) != nullptr;
}

/// The same of a gear train.
void must_be_sound(const Unit& unit, const Drive& drive) {
  must(has_member(drive, drive.input) && has_member(drive, drive.output));
  for (const DriveMember& member : drive.members) {
    must(member.id != case_member);
    must(std::ranges::all_of(member.parts,
                             [&](const std::string& id) { return unit.component(id) != nullptr; }));
  }
  for (const PlanetarySet& set : drive.sets) {
    must(has_member(drive, set.carrier) && (!set.sun.empty() || !set.ring.empty()));
    must(set.sun.empty() || (has_member(drive, set.sun) && set.sun_teeth > 0));
    must(set.ring.empty() || (has_member(drive, set.ring) && set.ring_teeth > set.sun_teeth));
  }
  for (const DriveElement& element : drive.elements) {
    must(has_member(drive, element.of) && has_member(drive, element.to));
    must(element.of != element.to && element.of != case_member);
    must(element.pack.empty() || unit.pack(element.pack) != nullptr);
  }
  for (const DriveRange& range : drive.ranges) {
    for (const std::string& id : range.on) {
      const DriveElement* element = drive.element(id);
      must(element != nullptr && element->kind != ElementKind::one_way_clutch);
    }
  }
  must(!drive.air || drive.air->test_Pa <= drive.air->limit_Pa);
}

/// What unit.h promises: an id in a loaded Unit names something in it.
void must_be_sound(const Unit& unit) {
  const auto all_there = [&](const std::vector<std::string>& ids) {
    must(std::ranges::all_of(
        ids, [&](const std::string& id) { return !id.empty() && has_component(unit, id); }));
  };
  for (const Pack& pack : unit.packs) {
    all_there({pack.piston, pack.ring});
    all_there(pack.plates);
    all_there(pack.selective);
    must(has_groove(unit, pack.ring_host + "/" + pack.ring_groove));
    must(pack.clearance.low_m <= pack.clearance.high_m);
  }
  for (const Play& play : unit.plays) {
    all_there(play.moving);
    must(unit.step(play.after_step) != nullptr);
  }
  for (const Place& place : unit.places) {
    all_there({place.base});
  }
  must(!unit.steps.empty());
  for (const Step& step : unit.steps) {
    must(unit.place(step.place) != nullptr);
    must(has_component(unit, step.part) && has_component(unit, step.seat));
    must(has_component(unit, step.joint.to) && has_groove(unit, step.groove));
    must(step.brings.empty() || unit.place(step.brings) != nullptr);
    all_there(step.parts);
    all_there(step.lets_go);
  }
  if (unit.drive) {
    must_be_sound(unit, *unit.drive);
  }
  for (const UnitComponent& component : unit.components) {
    must(component.mesh != nullptr);
    must(unit.component(component.id) == &component);
  }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  MemorySource files;
  unpack(std::string(reinterpret_cast<const char*>(data), size), files);
  const LoadReport report = load_unit_from(files, "fuzzed");
  must((report.unit != nullptr) == report.complaints.empty());
  must(std::ranges::is_sorted(report.complaints, {}, [](const Complaint& complaint) {
    return std::tuple(complaint.file == "sequence.toml", complaint.file, complaint.line,
                      complaint.column);
  }));
  if (report.unit != nullptr) {
    must_be_sound(*report.unit);
  }
  return 0;
}
