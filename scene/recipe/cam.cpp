#include "scene/recipe/cam.h"

#include "scene/recipe/involute.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double turn_rad = 2 * std::numbers::pi;

/// Into how many straight pieces a ramp must go for each to rise all the way.
int pieces_of(const CamFigures& cam) {
  const double r_m = cam.bore_m / 2 + cam.depth_m;
  const double least = cam.width_rad * cam.width_rad * r_m / (2 * cam.depth_m);
  return static_cast<int>(std::ceil(1.25 * least)) + 1;
}

} // namespace

CamFigures read_cam(FigureReader& t) {
  CamFigures cam;
  cam.bore_m = t.length("bore");
  cam.depth_m = t.length("depth");
  cam.pockets = t.count("pockets", 3, 60);
  cam.width_rad = t.angle("width");
  cam.shallow_clockwise = t.word("shallow", {"clockwise", "counter-clockwise"}) == "clockwise";
  cam.first_rad = t.angle_or("first_pocket_at", 0);
  cam.name = t.text_or("name", "cam pocket");
  cam.fits = t.text_or("fits", "");
  return cam;
}

void check_cam(FigureReader& t, const CamFigures& cam) {
  if (!(cam.width_rad > 0) || cam.width_rad * cam.pockets >= turn_rad * 0.98) {
    t.impossible("width", in_brackets(print_angle(cam.width_rad)) +
                              " is not between nothing and the " +
                              print_angle(turn_rad / cam.pockets) + " pitch");
  } else if (cam.depth_m >= cam.bore_m / 4) {
    t.impossible("depth", in_brackets(in_mm(cam.depth_m)) + " is no pocket in a bore of " +
                              in_mm(cam.bore_m));
  } else if (pieces_of(cam) > 12) {
    t.impossible("depth", in_brackets(in_mm(cam.depth_m)) + " over " + print_angle(cam.width_rad) +
                              " hardly rises at all");
  }
}

std::vector<SectorRing> cam_bands(const CamFigures& cam, double low_m, double high_m) {
  const int pieces = pieces_of(cam);
  // The ramp rises evenly from its shallow end to its deep one.
  const double side = cam.shallow_clockwise ? 1 : -1;
  const auto ramp_rad = [&](int k) { return side * cam.width_rad * (1.0 * k / pieces - 0.5); };
  const auto ramp_m = [&](int k) { return cam.bore_m / 2 + cam.depth_m * k / pieces; };
  std::vector<SectorRing> bands;
  for (int k = 0; k < pieces; ++k) {
    const Flank ramp = flank_through(ramp_m(k), ramp_rad(k), ramp_m(k + 1), ramp_rad(k + 1));
    const Flank wall{ramp_rad(pieces), 0};
    const Sector pocket = cam.shallow_clockwise ? Sector{ramp, wall} : Sector{wall, ramp};
    SectorRing band;
    band.inner_m = ramp_m(k);
    band.outer_m = ramp_m(k + 1);
    band.low_m = low_m;
    band.high_m = high_m;
    band.feature = cam.name;
    for (int p = 0; p < cam.pockets; ++p) {
      const double at = cam.first_rad + turn_rad * p / cam.pockets;
      band.sectors.push_back({{pocket.from.angle_rad + at, pocket.from.offset_m},
                              {pocket.to.angle_rad + at, pocket.to.offset_m}});
    }
    bands.push_back(std::move(band));
  }
  return bands;
}

} // namespace lugline
