// A unit's gear train as bodies, tooth meshes and couplings.
//
// A Ravigneaux train is two sets that share ring and carrier; its long pinion, which meshes in
// both, is then a body in each of them. Both turn alike and the sums of torques on the members are
// the same; only how the long pinion's own teeth share is not told. Build it of trains that have
// no troubles (train_troubles).
#pragma once

#include "scene/drive/network.h"
#include "scene/load/drive.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

struct SetBodies {
  std::optional<std::size_t> sun; ///< bodies
  std::optional<std::size_t> ring;
  std::size_t carrier = 0;
  std::vector<std::size_t> pinions; ///< the one at the sun first
  std::vector<std::size_t> meshes;  ///< of TrainNetwork::meshes
};

struct DriveNetwork {
  TrainNetwork network;
  std::vector<std::string> ids; ///< of bodies 0 to the number of members: "case", then members
  std::vector<SetBodies> sets;  ///< in the order of Drive::sets

  [[nodiscard]] std::size_t body(const std::string& id) const;
};

DriveNetwork network_of(const Drive& drive);

} // namespace lugline
