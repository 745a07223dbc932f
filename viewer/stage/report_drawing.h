// A calculation set as a page of a technical book: its answer, the limits as a scale with the
// value on it, what was given, the working line by line, what was assumed and where it comes from.
//
// One drawing for the window and for files. Lengths are pixels at scale 1, as in sheet2d.h;
// figures are SI in the report and printed in the units that are shown. Nothing here fails: where
// room is short the type grows smaller and the lines go on in further columns, then the least
// needed is left out (who the sources are, what was assumed, how a figure was come by), and a last
// line says so.
#pragma once

#include "scene/quantity/report.h"
#include "viewer/stage/flat.h"

#include <string>
#include <vector>

namespace lugline {

struct ReportLook {
  std::string eyebrow;     ///< above the title: which view this is, and of what
  double most_type = 1.15; ///< of the usual sizes
  double widest_px = 470;  ///< of a column, at the usual size
  int most_columns = 4;
  bool head = true;   ///< eyebrow, title and the large figure
  bool answer = true; ///< the large figure and the scale that it stands on
};

struct DrawnReport {
  Drawing2d drawing;
  Box used;        ///< what of the box the words take up
  double type = 1; ///< of the usual sizes
  int columns = 1;
  int left_out = 0; ///< 0: nothing
  bool fits = true; ///< false: not even so; then what is drawn ends within the box all the same
};

DrawnReport draw_report(const CalculationReport& report, const Box& box, LengthUnit unit,
                        const TextRuler& ruler, const ReportLook& look = {});

/// The same as plain strings in the order in which they are read, for tests.
std::vector<std::string> words_of(const Drawing2d& drawing);

} // namespace lugline
