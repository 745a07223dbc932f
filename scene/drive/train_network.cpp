#include "scene/drive/train_network.h"

#include "scene/drive/train.h"

#include <algorithm>
#include <cassert>

namespace lugline {

namespace {

// Every combination of so many is tried.
constexpr std::size_t most_one_way_clutches = 8;

std::string quoted(const std::string& id) {
  return id.empty() ? "nothing" : "'" + id + "'";
}

SetBodies add_set(DriveNetwork& built, const PlanetarySet& set) {
  TrainNetwork& network = built.network;
  SetBodies bodies;
  bodies.carrier = built.body(set.carrier);
  const bool two = set.kind == PlanetaryKind::double_pinion;
  const bool stepped = set.kind == PlanetaryKind::stepped_pinion;
  bodies.pinions.push_back(network.add_body("pinion of " + set.id));
  if (two) {
    bodies.pinions.push_back(network.add_body("outer pinion of " + set.id));
  }
  const auto mesh = [&](const ToothMesh& one) {
    bodies.meshes.push_back(network.meshes.size());
    network.meshes.push_back(one);
  };
  if (!set.sun.empty()) {
    bodies.sun = built.body(set.sun);
    mesh({*bodies.sun, set.sun_teeth, bodies.pinions.front(), set.pinion_teeth, false,
          bodies.carrier});
  }
  if (two) {
    mesh({bodies.pinions.front(), set.pinion_teeth, bodies.pinions.back(), set.outer_pinion_teeth,
          false, bodies.carrier});
  }
  if (!set.ring.empty()) {
    bodies.ring = built.body(set.ring);
    mesh({bodies.pinions.back(), two || stepped ? set.outer_pinion_teeth : set.pinion_teeth,
          *bodies.ring, set.ring_teeth, true, bodies.carrier});
  }
  return bodies;
}

void judge_set(const Drive& drive, const PlanetarySet& set, std::vector<std::string>& troubles) {
  const std::string name = "The set '" + set.id + "'";
  const auto known = [&](const std::string& id) {
    return id == case_member || drive.member(id) != nullptr;
  };
  if (set.sun.empty() && set.ring.empty()) {
    troubles.push_back(name + " has neither sun nor ring.");
  }
  if (!known(set.carrier)) {
    troubles.push_back(name + " has " + quoted(set.carrier) + " for its carrier: no such member.");
  }
  for (const std::string& id : {set.sun, set.ring}) {
    if (!id.empty() && !known(id)) {
      troubles.push_back(name + " has the gear of " + quoted(id) + ": no such member.");
    }
  }
  if (!set.carrier.empty() && (set.carrier == set.sun || set.carrier == set.ring)) {
    troubles.push_back(name +
                       " has its carrier and a gear on one member: it cannot but turn as one.");
  }
  if (!set.sun.empty() && set.sun == set.ring) {
    troubles.push_back(name + " has sun and ring on one member: it cannot but turn as one.");
  }
  const bool outer = set.kind != PlanetaryKind::single_pinion;
  if ((!set.sun.empty() && set.sun_teeth <= 0) || (!set.ring.empty() && set.ring_teeth <= 0) ||
      set.pinion_teeth <= 0 || (outer && set.outer_pinion_teeth <= 0)) {
    troubles.push_back(name + " has a gear without teeth: every tooth count must be stated.");
  }
}

} // namespace

std::size_t DriveNetwork::body(const std::string& id) const {
  const auto found = std::ranges::find(ids, id);
  assert(found != ids.end());
  return static_cast<std::size_t>(found - ids.begin());
}

DriveNetwork network_of(const Drive& drive) {
  DriveNetwork built;
  built.ids.emplace_back(case_member);
  for (const DriveMember& member : drive.members) {
    built.ids.push_back(member.id);
    built.network.add_body(member.id);
  }
  for (const PlanetarySet& set : drive.sets) {
    built.sets.push_back(add_set(built, set));
  }
  return built;
}

std::vector<std::string> train_troubles(const Drive& drive) {
  std::vector<std::string> troubles;
  for (const auto& [what, id] : {std::pair("input", drive.input), {"output", drive.output}}) {
    if (drive.member(id) == nullptr) {
      troubles.push_back(std::string("The ") + what + " is " + quoted(id) + ": no such member.");
    }
  }
  if (drive.input == drive.output) {
    troubles.push_back("Input and output are one member: there is no train between them.");
  }
  for (const PlanetarySet& set : drive.sets) {
    judge_set(drive, set, troubles);
  }
  std::size_t one_ways = 0;
  for (const DriveElement& element : drive.elements) {
    one_ways += element.kind == ElementKind::one_way_clutch ? 1 : 0;
    for (const std::string& id : {element.of, element.to}) {
      if (id != case_member && drive.member(id) == nullptr) {
        troubles.push_back("The element '" + element.id + "' takes hold of " + quoted(id) +
                           ": no such member.");
      }
    }
    if (element.of == element.to) {
      troubles.push_back("The element '" + element.id + "' has one member on both sides.");
    }
  }
  if (one_ways > most_one_way_clutches) {
    troubles.push_back("There are " + std::to_string(one_ways) +
                       " one-way clutches: every way that they can hold is tried, and that is done "
                       "for at most " +
                       std::to_string(most_one_way_clutches) + ".");
  }
  return troubles;
}

} // namespace lugline
