// Figures and their units as a book sets them: 10 295 mm2 with the 2 raised, +/- as one sign, the
// decimal points of a column beneath one another.
//
// Words are taken as the report prints them; nothing here changes what they say. Lengths are
// pixels at scale 1. Nothing here fails.
#pragma once

#include "scene/quantity/report.h"
#include "viewer/stage/flat.h"

#include <string>
#include <vector>

namespace lugline {

/// "pi/4 (bore^2 - stem^2), +/- 2 mm2" with the signs that print has: π, ², −, ±.
std::string well_set(const std::string& words);

/// "-10.25 mm2" in its pieces: sign and whole part, point and what follows, unit.
struct SetFigure {
  std::string whole;
  std::string part;       ///< with its point; may be empty
  std::string unit;       ///< may be empty
  std::string plus_minus; ///< "± 0.02"; may be empty
  [[nodiscard]] std::string number() const { return whole + part; }
};
SetFigure set_figure(FigureOf of, double si, double plus_minus_si, LengthUnit unit);

/// How wide the pieces of a column of figures are.
struct FigureColumn {
  double whole_px = 0;
  double part_px = 0;
  double plus_minus_px = 0; ///< with the space before it; 0: none has one
  double unit_px = 0;       ///< with the space before it
  [[nodiscard]] double width_px() const { return whole_px + part_px + plus_minus_px + unit_px; }
  /// Wide enough for that figure as well.
  void take(const SetFigure& figure, const Lettering& type, const TextRuler& ruler);
};

/// A figure on a baseline, its column ending at right_px.
void put_figure(Drawing2d& drawing, const SetFigure& figure, const FigureColumn& column,
                double right_px, double baseline_px, const Lettering& type);

/// A report's scale: the limits as a band, the value a pointer above it. Returns its foot.
double put_scale(Drawing2d& drawing, const ReportScale& scale, const Box& box, double type,
                 bool wrong, LengthUnit unit, const TextRuler& ruler);
/// How high that is.
double scale_height(double type);

/// Everything in it so much further right and down.
void move_by(Drawing2d& drawing, double x_px, double y_px);

} // namespace lugline
