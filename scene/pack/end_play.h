// End play with selective washers, from depth readings over a gauge bar, or from a dial.
//
// play = (case's face down to the drum's face) + gasket - (pump's face up to its boss) - washer,
// each depth less the bar's own thickness where it was read over one. Which gasket (compressed, as
// it will be, or free) is stated: unit manuals differ, and the method of the manual is followed. A
// thicker washer takes the play one for one. Pushed towards the rear, the drum stands on its rear
// stop and the whole play shows; pulled to the front, what lies behind it shows too, so that the
// two depths tell how much of it is its own. Common practice, no source. Metres. Pure.
#pragma once

#include "scene/pack/bench_reading.h"
#include "scene/pack/choose.h"
#include "scene/quantity/report.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// A selective washer and how the play is held by it.
struct WasherToChoose {
  std::string id;
  std::string label; ///< "end-play washer"
  double fitted_m = 0;
  std::vector<double> options_m = {};
  std::vector<int> on_shelf = {};
  double low_m = 0; ///< limits of the play
  double high_m = 0;
};

struct EndPlayDepths {
  std::string name; ///< "Front end play"
  /// From the case's face down to the face that the washer lies on, pushed to the rear.
  BenchReading case_depth;
  std::optional<BenchReading> case_depth_pulled; ///< the same, pulled to the front
  BenchReading boss_height; ///< from the pump's gasket face up to the face of its boss
  double case_bar_m = 0;    ///< bar under the gauge at the case; 0: none, or taken off already
  double boss_bar_m = 0;
  double gasket_compressed_m = 0;
  double gasket_free_m = 0;
  bool with_compressed = true; ///< which of the two the unit's method takes
  WasherToChoose washer;
};

/// The play that the depths give, and which washer to fit.
CalculationReport end_play_report(const EndPlayDepths& depths);

struct EndPlayDial {
  std::string name;
  BenchReading pushed; ///< towards the rear
  BenchReading pulled; ///< towards the front
  WasherToChoose washer;
  /// Other new washers beside it that are thicker than those that were in while reading: each takes
  /// from the play by as much.
  std::vector<Correction> others = {};
};

/// The play that a dial gives between its two stops, and which washer to fit.
CalculationReport end_play_report(const EndPlayDial& dial);

/// Several ways to the same play beside each other, in the words of a verdict: empty where they
/// agree within their doubts.
std::string plays_disagree(double first_m, double first_doubt_m, double second_m,
                           double second_doubt_m);

/// The washer that the depths or the dial ask for: choices as for any selective.
ChoiceAnswer choose_washer(const WasherToChoose& washer, double play_m, std::size_t most = 4);

} // namespace lugline
