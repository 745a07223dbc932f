// A calculation told in full: what went in, every line of the working, what came out, and where
// its formula comes from.
//
// One shape for every calculator, so that the command line, the sheets and the window print
// alike. Values are SI; they are turned into a person's units where they are printed, here.
// Plain values; nothing here fails.
#pragma once

#include "scene/quantity/quantity.h"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace lugline {

/// What a figure is of. SI: m, m2, m3, rad, N, Pa, N m, N/m, kg, K, K, rad/s, s, kg/s, W, and
/// plain numbers: a ratio as it is, a share as 0 to 1, a count.
enum class FigureOf {
  length,
  area,
  volume,
  angle,
  force,
  pressure, ///< stress too
  torque,
  stiffness,
  mass,
  temperature,
  temperature_step, ///< a difference of temperatures
  turning_speed,
  time,
  mass_flow,
  power,
  ratio,
  share, ///< 0 to 1, printed as percent
  count
};

/// "10295 mm2", "854 N", "2.44", "12.5 %", "98.3 %": metric, or the shop's inch units.
/// Lengths keep the two (inch: three) places that a bench reads; the others their leading figures.
std::string print_figure(FigureOf of, double si, LengthUnit style);
/// "280 kPa (40.6 psi)": for sentences, which are worded once for both; alike figures stand once.
std::string print_figure_both(FigureOf of, double si);

/// SI of one of the unit that print_figure prints in, for ticks at round figures: 0.001 for
/// lengths in millimetres. Of temperatures a step of one degree.
double printed_unit_si(FigureOf of, LengthUnit style);

/// For JSON: the figure in the unit that the field's name ends in, which `suffix` is: "_mm",
/// "_mm2", "_N", "_kPa", "_Nm", "" for a plain number.
struct JsonFigure {
  std::string_view suffix;
  double value = 0; ///< rounded to ten significant figures, so that the same answer prints alike
};
JsonFigure json_figure(FigureOf of, double si);

struct ReportLine {
  std::string what; ///< "piston area"
  FigureOf of = FigureOf::count;
  double si = 0;
  std::string how; ///< where it comes from: "pi/4 (bore^2 - stem^2)", "stated"; may be empty
  double plus_minus_si = 0; ///< half width, where one is known; else 0
};

/// What a result is held to, and where it stands: drawn as a scale with the value on it. It says
/// nothing that the inputs and results do not say, so it is not printed a second time.
struct ReportScale {
  std::string what; ///< "clearance"
  FigureOf of = FigureOf::length;
  double value_si = 0;
  double plus_minus_si = 0;   ///< half width; 0: none is known
  std::optional<double> low;  ///< SI; none: no limit on that side
  std::optional<double> high; ///< SI
};

enum class ReportVerdict {
  none,   ///< a figure with nothing to hold it to
  good,   ///< inside its limits, or it does what it should
  bad,    ///< outside, or it does not
  refused ///< it was not worked out; the sentence says why
};
/// "none", "good", "bad", "refused".
std::string_view word_for(ReportVerdict verdict);

struct CalculationReport {
  std::string id;    ///< of what it is about: a pack's, an element's; may be empty
  std::string title; ///< "Capacity of the upper clutch, first at stall"
  std::vector<ReportLine> inputs;
  std::vector<ReportLine> working;
  std::vector<ReportLine> results;
  ReportVerdict verdict = ReportVerdict::none;
  std::string verdict_words;      ///< one plain sentence
  std::vector<std::string> notes; ///< what was assumed
  std::vector<std::string>
      sources; ///< of the formula: a standard, a book, 'common practice, no source'
  std::vector<std::string> cautions; ///< where somebody can be hurt
  std::optional<ReportScale> scale;  ///< of its main result, where that has limits
};

/// A report that says why there is none.
CalculationReport refused_report(std::string title, std::string why);

/// As lines of plain text, figures in a column: what the command line prints, and the sheet.
std::vector<std::string> lines_of(const CalculationReport& report, LengthUnit style);

} // namespace lugline
