// [[part.hole]]: round holes on a circle, one of which may stand off its pitch.
//
//   diameter, circle, [count, at, offset_one, name, fits]
//
// `at` is where the first stands; offset_one turns that one away from its
// pitch, positive counter-clockwise. Lengths metres, angles radians.
#pragma once

#include "scene/part/component.h"
#include "scene/recipe/figure_reader.h"
#include "scene/recipe/round_hole.h"

#include <string>
#include <vector>

namespace lugline {

struct HoleFigures {
  double diameter_m = 0;
  double circle_m = 0; ///< diameter
  int count = 1;
  double at_rad = 0;
  double offset_rad = 0; ///< of the first
  std::string name;      ///< "hole"
  std::string fits;

  [[nodiscard]] std::vector<double> angles_rad() const;
};

/// Reads the figures; whoever owns the table finishes it.
HoleFigures read_holes(FigureReader& t);
/// Complains where they reach the axis or one another.
void check_holes(FigureReader& t, const HoleFigures& holes);
std::vector<SectorRing> hole_bands(const HoleFigures& holes, double low_m, double high_m,
                                   const MeshOptions& options);
/// One for all, and one more for the hole that stands off its pitch.
void add_hole_keys(Component& component, const HoleFigures& holes, double low_m, double high_m);

} // namespace lugline
