// The whole sequence, done once in the mind: what every step does.
//
// A step is judged on its own evidence: where its part comes to rest and on
// what, whether it can be put in that way, what its readings would be. Pure
// but for the workshop's cache. Metres, radians.
#pragma once

#include "scene/build/lower.h"
#include "scene/drive/air.h"
#include "scene/pack/chain.h"
#include "scene/pack/choose.h"
#include "scene/pack/stack.h"
#include "scene/seat/ring.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// What a gauge would show, and what it should.
struct ReadingReport {
  std::string of; ///< as written: "clearance:CC"
  double value_m = 0;
  double expect_m = 0;
  double low_m = 0;
  double high_m = 0;
  bool inside = false;
};

/// What the unit's test pressure does to a piston, as the build stands.
struct AirFinding {
  std::string element;
  std::string name;
  bool stopped = false; ///< by its whole pack, or its band; else only by its own stop
  AirReach reach;
};

struct StepOutcome {
  std::string id;
  std::vector<std::string>
      problems; ///< why it does not hold, in the words of the trade; empty: it holds
  std::shared_ptr<const InHand> hand; ///< place, bring, grease, refit, attach, spread: what goes in
  std::shared_ptr<const Lowered> lowered;    ///< … and how it came to rest
  std::shared_ptr<const InHand> turned_hand; ///< the same the wrong way up …
  std::shared_ptr<const Lowered> turned;     ///< … and what it would do
  std::optional<RingReport> ring;            ///< snap rings
  std::optional<ReadingReport> reading;
  std::vector<AirFinding> air;    ///< checks by air, in the order in which the step names them
  std::vector<std::string> moved; ///< pieces that this step moved, put in or took out
};

struct Simulation {
  std::vector<StepOutcome> outcomes; ///< one for each step
  std::vector<BuildState> after;     ///< the state after each step
  [[nodiscard]] const BuildState& before(std::size_t step) const;
};

Simulation simulate(Workshop& workshop);

/// One pack as it stands in a state; empty where its piston is not in.
std::optional<PackReport> pack_now(Workshop& workshop, const Pack& pack, const BuildState& state);
/// The plates, and the ring, that are not where the pack's piston is.
std::vector<std::string> missing_now(const Pack& pack, const BuildState& state);
/// A plate's pack, whole, as the steps lay the plate and with it the other way up.
struct TurnedPack {
  PackReport as_laid;
  PackReport turned;
};
/// From the state after that step on; empty where the part is in no pack, or its
/// pack is never whole.
std::optional<TurnedPack> pack_with_turned(Workshop& workshop, const Simulation& simulation,
                                           const std::string& plate, std::size_t from_step);
/// The selective choices for a closed pack.
std::vector<SelectiveChoice> choices_for(Workshop& workshop, const Pack& pack,
                                         const PackReport& report, std::size_t most = 4);

/// A play, found by moving: how far the moving parts rise from where they lie, with
/// what is joined fast to them, everything loose above them pushed up, rings to the
/// other faces of their grooves, and springs giving way.
std::optional<double> play_now(Workshop& workshop, const Play& play, const BuildState& state);

/// What is left of a chain's gap, at the figures that are known; readings replace the nominal ones.
ChainReport chain_now(const Workshop& workshop, const Chain& chain);
/// Its parts that are in no place.
std::vector<std::string> missing_now(const Chain& chain, const BuildState& state);
std::vector<SelectiveChoice> choices_for(const Workshop& workshop, const Chain& chain,
                                         const ChainReport& report, std::size_t most = 4);

/// Clearance found by lifting the last plate of a pack against its ring, ring
/// loaded: the least travel over all paths, against the chain in pack_now.
std::optional<double> lifted_clearance(Workshop& workshop, const Pack& pack,
                                       const BuildState& state);

} // namespace lugline
