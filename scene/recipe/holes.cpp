#include "scene/recipe/holes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {
constexpr double turn_rad = 2 * std::numbers::pi;
} // namespace

std::vector<double> HoleFigures::angles_rad() const {
  std::vector<double> angles;
  for (int k = 0; k < count; ++k) {
    angles.push_back(at_rad + turn_rad * k / count + (k == 0 ? offset_rad : 0));
  }
  return angles;
}

HoleFigures read_holes(FigureReader& t) {
  HoleFigures holes;
  holes.diameter_m = t.length("diameter");
  holes.circle_m = t.length("circle");
  holes.count = t.count_or("count", 1, 1, 72);
  holes.at_rad = t.angle_or("at", 0);
  holes.offset_rad = t.angle_or("offset_one", 0);
  holes.name = t.text_or("name", "hole");
  holes.fits = t.text_or("fits", "");
  return holes;
}

void check_holes(FigureReader& t, const HoleFigures& holes) {
  if (!t.must_be_less("diameter", holes.diameter_m, "circle", holes.circle_m)) {
    return;
  }
  std::vector<double> angles = holes.angles_rad();
  std::ranges::sort(angles);
  for (std::size_t k = 0; k < angles.size() && angles.size() > 1; ++k) {
    const double next = k + 1 < angles.size() ? angles[k + 1] : angles[0] + turn_rad;
    const double apart_m =
        holes.circle_m * std::sin(std::min((next - angles[k]) / 2, turn_rad / 4));
    if (apart_m <= holes.diameter_m * 1.02) {
      t.impossible(holes.offset_rad != 0 ? "offset_one" : "diameter",
                   "leaves no wall: " + std::to_string(holes.count) + " holes of " +
                       in_mm(holes.diameter_m) + " on a circle of " + in_mm(holes.circle_m) +
                       " stand as near as " + in_mm(apart_m));
      return;
    }
  }
}

std::vector<SectorRing> hole_bands(const HoleFigures& holes, double low_m, double high_m,
                                   const MeshOptions& options) {
  return round_sectors({holes.circle_m / 2, holes.angles_rad(), holes.diameter_m / 2}, low_m,
                       high_m, holes.name, options);
}

void add_hole_keys(Component& component, const HoleFigures& holes, double low_m, double high_m) {
  const double inner_m = (holes.circle_m - holes.diameter_m) / 2;
  const double outer_m = (holes.circle_m + holes.diameter_m) / 2;
  const std::vector<double> angles = holes.angles_rad();
  const bool offset = holes.offset_rad != 0;
  if (offset) {
    component.keys.push_back({"offset " + holes.name, holes.fits.empty() ? "" : holes.fits,
                              angles[0], inner_m, outer_m, low_m, high_m, holes.diameter_m});
  }
  if (!offset || angles.size() > 1) {
    component.keys.push_back({holes.name, offset ? "" : holes.fits, angles[offset ? 1 : 0], inner_m,
                              outer_m, low_m, high_m, holes.diameter_m});
  }
}

} // namespace lugline
