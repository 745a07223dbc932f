// [[part.cam]]: the ramped pockets of a roller clutch's cam, cut into a bore.
//
//   bore, depth, pockets, width (an angle), shallow (clockwise, counter-clockwise),
//   [first_pocket_at, name, fits]
//
// Each pocket begins at nothing in its shallow end and is `depth` deep at its
// other end, which is a radial wall. `first_pocket_at` is a pocket's middle.
// Which end is the shallow one is seen from above. Lengths metres, angles radians.
#pragma once

#include "scene/part/solid.h"
#include "scene/recipe/figure_reader.h"

#include <string>
#include <vector>

namespace lugline {

struct CamFigures {
  double bore_m = 0; ///< diameter
  double depth_m = 0;
  int pockets = 0;
  double width_rad = 0;
  bool shallow_clockwise = true;
  double first_rad = 0;
  std::string name;
  std::string fits;
};

CamFigures read_cam(FigureReader& t);
void check_cam(FigureReader& t, const CamFigures& cam);
/// What is to be cut away, as bands in which every ramp is one straight flank.
std::vector<SectorRing> cam_bands(const CamFigures& cam, double low_m, double high_m);

} // namespace lugline
