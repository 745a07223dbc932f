// The pack's calculators, asked of a build: each gets what the unit, the readings and the state
// say.
//
// No formula of its own. Lengths metres, temperatures kelvin. What cannot be worked out is a report
// that says why.
#pragma once

#include "scene/build/simulate.h"
#include "scene/pack/choose.h"
#include "scene/pack/warm.h"
#include "scene/pack/ways.h"
#include "scene/quantity/report.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// What lies on the shelf, by a component's line ("CC-BP", "CC-S") or its id.
struct ShelfRow {
  double thickness_m = 0;
  int count = 0;
  double price = 0; ///< 0: not stated
};
using Shelf = std::map<std::string, std::vector<ShelfRow>>;

struct PackAsk {
  std::optional<double> warm_K;
  std::vector<WayReading> readings; ///< of this pack's clearance
  double residual_m = 0;            ///< by which the piston is held off its seat
  double bar_m = 0;                 ///< thickness of the gauge bar on the face
  Shelf shelf;                      ///< empty: enough of every option
  std::uint64_t seed = 1;           ///< of the Monte Carlo
};

/// One pack's reports, in the order in which they are read.
struct PackReports {
  std::string pack; ///< Pack id
  CalculationReport ways;
  std::vector<CalculationReport> readings; ///< one for each reading; then how they agree
  CalculationReport uncertainty;
  CalculationReport frictions;
  std::vector<CalculationReport> springs; ///< of each wave and dished plate: load when flat
  std::optional<CalculationReport> warm;  ///< at PackAsk::warm_K
  ChoiceAnswer choice;
};

/// Of a pack as it stands in a state; empty where its piston is not in.
std::optional<PackReports> pack_reports(Workshop& workshop, const Pack& pack,
                                        const BuildState& state, const PackAsk& ask);

/// How the pack stands, for the ways of measuring; empty where its piston is not in.
std::optional<PackStand> stand_now(Workshop& workshop, const Pack& pack, const BuildState& state);

/// Every length between the piston's seat and the groove, with its material.
std::optional<WarmChain> warm_chain_now(Workshop& workshop, const Pack& pack,
                                        const BuildState& state);

/// The selectives of a pack as a question; what is on the shelf counts where the shelf is not
/// empty.
ChoiceQuestion choice_question(Workshop& workshop, const Pack& pack, const PackReport& report,
                               const Shelf& shelf, std::size_t most = 4);

} // namespace lugline
