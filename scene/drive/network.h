// A gear train as bodies and tooth meshes, of any arrangement, and its speeds and torques in exact
// fractions.
//
// Body 0 is the case, which stands still. Pinions are bodies too. Speeds are those that a person
// standing beside it sees; torques are on the body, and a mesh's carrier takes what its pins
// bring it. Plain values; a body that is not there is our own slip.
#pragma once

#include "scene/drive/linear.h"

#include <string>
#include <utility>
#include <vector>

namespace lugline {

struct ToothMesh {
  std::size_t a = 0;
  int teeth_a = 0;
  std::size_t b = 0; ///< the ring, where internal
  int teeth_b = 0;
  bool internal = false;
  std::size_t carrier = 0; ///< what carries their axes; 0: the case
};

/// Two bodies that turn alike; with body 0: held by the case.
struct Coupling {
  std::size_t of = 0;
  std::size_t to = 0;
};

struct TrainNetwork {
  std::vector<std::string> bodies{"case"};
  std::vector<ToothMesh> meshes;

  std::size_t add_body(std::string name); ///< its number
  [[nodiscard]] std::size_t unknowns() const { return bodies.size() - 1; }
};

/// The equation row . w = 0 over the speeds of bodies 1, 2, … (the case's is left out).
RationalRow row_of(const TrainNetwork& network, const ToothMesh& mesh);
RationalRow row_of(const TrainNetwork& network, const Coupling& coupling);
RationalRow row_of_body(const TrainNetwork& network, std::size_t body);
/// All meshes, then all couplings.
std::vector<RationalRow> rows_of(const TrainNetwork& network,
                                 const std::vector<Coupling>& couplings);

/// Body and its speed.
using GivenSpeed = std::pair<std::size_t, Rational>;
/// The speeds of bodies 1, 2, … (unknown 0 is body 1).
SolutionSpace speeds_of(const TrainNetwork& network, const std::vector<Coupling>& couplings,
                        const std::vector<GivenSpeed>& given);

/// Body and the torque put on it from outside.
using GivenTorque = std::pair<std::size_t, Rational>;
/// The multipliers that balance every body: first one a mesh, then one a coupling, then the torque
/// on each of `reacting` from outside. A mesh's multiplier times its row is its torques; a
/// coupling's is the torque on `of`.
SolutionSpace torques_of(const TrainNetwork& network, const std::vector<Coupling>& couplings,
                         const std::vector<GivenTorque>& given,
                         const std::vector<std::size_t>& reacting);

} // namespace lugline
