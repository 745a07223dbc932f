// One thing read at the bench: at one place or at several, with what, and what is put right in it.
//
// The mean is for choosing, the least for drag, the spread for tilt (common practice, no source).
// Its uncertainty: the scatter of the places (type A, GUM 4.2) and the instrument's resolution
// (anywhere within half a step either way alike, GUM 4.3.7 and F.2.2.1), and of every correction
// its own. Lengths metres. A reading that cannot be is told in a plain sentence (Problem).
#pragma once

#include "scene/pack/uncertainty.h"
#include "scene/quantity/outcome.h"
#include "scene/quantity/report.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

enum class Instrument { unstated, feeler, micrometer, caliper, depth_gauge, dial };
/// "feeler gauge", "micrometer", "caliper", "depth gauge", "dial indicator"; "" unstated.
std::string word_for(Instrument instrument);
/// The same words, and "feeler", "dial"; empty where it is none.
std::optional<Instrument> instrument_from(const std::string& word);
/// What it can tell apart, where nothing else is stated: 0.02, 0.01, 0.02, 0.02, 0.01 mm (common
/// practice, no source); 0 unstated.
double usual_resolution_m(Instrument instrument);

/// Added to what was read, signed: "less the gauge bar" -6.00 mm.
struct Correction {
  std::string what;
  double add_m = 0;
  double plus_minus_m = 0;
  std::string how = {}; ///< where its figure comes from; may be empty
};
Correction less_bar(double thickness_m, double plus_minus_m = 0);
/// A seal that holds the piston off its seat by so much: the pack reads tight by it.
Correction seal_drag(double held_off_m, double plus_minus_m = 0);
/// A step worn into the groove's load face: the ring stands farther out by it than in a new groove.
Correction groove_wear(double step_m, double plus_minus_m = 0);

struct BenchReading {
  std::string of = {}; ///< "clearance of the case clutch"
  std::vector<double> places_m = {};
  Instrument instrument = Instrument::unstated;
  double resolution_m = 0; ///< 0: the instrument's usual
  double plus_minus_m = 0; ///< stated with the figure: taken instead of scatter and resolution
  std::string fitted = {}; ///< which selective was in: "CC-BP 5.00 mm"; may be empty
  std::vector<Correction> corrections = {};
};

struct ReadResult {
  double mean_m = 0; ///< of the places, as read
  double least_m = 0;
  double greatest_m = 0;
  [[nodiscard]] double spread_m() const { return greatest_m - least_m; }
  double corrected_m = 0;    ///< the mean with the corrections
  double scatter_m = 0;      ///< standard uncertainty of the mean from the places; 0 for one place
  double resolution_u_m = 0; ///< standard uncertainty of the resolution
  double standard_m = 0;     ///< all together, corrections too
  double plus_minus_m = 0;   ///< worst: half the spread, half a step, corrections' own, added
  double freedom = 0;        ///< effective degrees of freedom; 0: without end
};

/// Refused: no place at all, more than 24, a figure that is none, a negative one, places that
/// lie 25.4 times apart (inches among millimetres), a spread beyond half of the mean.
Outcome<ReadResult> result_of(const BenchReading& reading);

/// What enters an uncertainty: the corrected figure as one input. `result` is of result_of.
UncertainInput input_of(const BenchReading& reading, const ReadResult& result,
                        double sensitivity = 1);

/// The reading told in full, every place and correction a line.
CalculationReport reading_report(const BenchReading& reading);

/// "25.4 times off: 0.040 written as mm and meant as inches?", where a figure lies a factor of
/// 25.4 from what it should be near, within a tenth; empty otherwise.
std::string inch_slip(double read_m, double expected_m);

} // namespace lugline
