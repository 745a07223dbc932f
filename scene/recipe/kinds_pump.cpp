// The pump's gears: a drive gear about the axis and a driven gear beside it, both
// external, lying in one pocket. For the drop they are their outline; the driven
// gear's teeth reach into the drive gear's circle.

#include "scene/recipe/finish.h"
#include "scene/recipe/involute.h"
#include "scene/recipe/kinds.h"
#include "scene/recipe/measures.h"
#include "scene/recipe/round_hole.h"
#include "scene/recipe/teeth.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

struct PumpGears {
  Gear drive;
  Gear driven;
  double bore_m = 0;
  double driven_bore_m = 0;
  double thickness_m = 0;
  double lug_width_m = 0;
  double lug_deep_m = 0;   ///< along the axis
  double lug_circle_m = 0; ///< over the bottoms of the recesses
  double driven_at_rad = 0;
  double dot_m = 0;

  [[nodiscard]] double centres_m() const {
    return (drive.reference_diameter_m() + driven.reference_diameter_m()) / 2;
  }
};

PumpGears read_pump_gears(FigureReader& f) {
  PumpGears g;
  const double module_m = read_module(f);
  const double pressure_rad = f.angle_or("pressure_angle", 20 * pi / 180);
  const double thinning_m = f.length("thinning");
  const int drive_teeth = f.count("drive_teeth", 6, 60);
  const int driven_teeth = f.count("driven_teeth", 6, 60);
  g.bore_m = f.length("bore");
  g.driven_bore_m = f.length("driven_bore");
  g.thickness_m = f.length("thickness");
  g.lug_width_m = f.length("lug_recess_width");
  g.lug_deep_m = f.length("lug_recess_depth");
  g.lug_circle_m = f.length("over_lug_recesses");
  g.driven_at_rad = f.angle_or("driven_at", 0);
  g.dot_m = f.length_or("dot_diameter", 3e-3);
  if (f.ok()) {
    g.drive = rack_gear(false, drive_teeth, module_m, pressure_rad, 0, thinning_m);
    g.driven = rack_gear(false, driven_teeth, module_m, pressure_rad, 0, thinning_m);
  }
  return g;
}

void check_pump_gears(FigureReader& f, const PumpGears& g) {
  if (!check_gear(f, g.drive) || !check_gear(f, g.driven)) {
    return;
  }
  const std::string problem = mesh_problem(g.drive, g.driven, g.centres_m());
  if (!problem.empty()) {
    f.impossible("driven_teeth", "do not run with the drive gear's: " + problem);
  }
  f.must_be_less("bore", g.bore_m, "over_lug_recesses", g.lug_circle_m);
  f.must_be_less("over_lug_recesses", g.lug_circle_m, "the root of the drive gear",
                 g.drive.root_diameter_m);
  f.must_be_less("driven_bore", g.driven_bore_m, "the root of the driven gear",
                 g.driven.root_diameter_m);
  f.must_be_less("lug_recess_depth", g.lug_deep_m, "thickness", g.thickness_m);
  f.must_be_less("lug_recess_width", g.lug_width_m, "bore", g.bore_m);
}

/// A gear about its own axis.
Mesh gear_mesh(const Gear& gear, double first_rad, const std::vector<SectorRing>& recesses,
               double bore_m, double thickness_m, double dot_m, double dot_at_rad,
               const std::string& material, const MeshOptions& options) {
  Workpiece piece;
  piece.add(ring_between(bore_m, gear.root_diameter_m, 0, thickness_m, "gear"));
  for (SectorRing& ring :
       involute_rings(gear, first_rad, 0, thickness_m, "gear tooth", options.chord_tolerance_m)) {
    piece.add(std::move(ring));
  }
  for (const SectorRing& recess : recesses) {
    piece.cut(recess);
  }
  const double circle_m = (gear.root_diameter_m + bore_m) / 2;
  sink_dot(piece, circle_m, dot_at_rad, dot_m, 0, 0.3e-3);
  return mesh_of(piece.solid(), material, options);
}

} // namespace

void make_pump_gears(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const PumpGears g = read_pump_gears(f);
  if (!f.ok()) {
    return;
  }
  check_pump_gears(f, g);
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::pump;
  const double tip_m = g.drive.tip_diameter_m;
  const double driven_r_m = g.driven.tip_diameter_m / 2;
  const double across_rad = g.driven_at_rad + pi / 2;
  std::vector<SectorRing> recesses{
      sectors_between(g.bore_m, g.lug_circle_m, g.thickness_m - g.lug_deep_m, g.thickness_m,
                      "lug recess", repeated(parallel_sector(across_rad, g.lug_width_m), 2))};
  // The drop's outline: the drive gear to its tips, and of the driven one what lies outside.
  Workpiece outline;
  for (SectorRing& band :
       round_sectors({g.centres_m(), {g.driven_at_rad}, driven_r_m, RoundFit::around}, 0,
                     g.thickness_m, "driven gear", options)) {
    outline.add(std::move(band));
  }
  outline.cut(ring_between(0, tip_m, 0, g.thickness_m, "drive gear"));
  outline.add(ring_between(g.bore_m, tip_m, 0, g.thickness_m, "drive gear"));
  for (const SectorRing& recess : recesses) {
    outline.cut(recess);
  }
  component.keys.push_back({"lug recess", f.text_or("lugs_fit", ""), across_rad, g.bore_m / 2,
                            g.lug_circle_m / 2, g.thickness_m - g.lug_deep_m, g.thickness_m,
                            g.lug_width_m});
  component.figures.push_back(thickness_figure(g.thickness_m, 0, g.thickness_m - g.lug_deep_m));
  component.marks.push_back({"the lug recesses face up, both dots down", g.lug_circle_m / 2,
                             across_rad, g.thickness_m - g.lug_deep_m});
  take_solid(f, outline, part);
  // A tooth of the drive gear points at the driven one, which has a space there.
  part.mesh = gear_mesh(g.drive, g.driven_at_rad, recesses, g.bore_m, g.thickness_m, g.dot_m,
                        g.driven_at_rad, component.material, options);
  const double space_rad = g.driven_at_rad + pi + pi / g.driven.teeth;
  const Mesh driven = gear_mesh(g.driven, space_rad, {}, g.driven_bore_m, g.thickness_m, g.dot_m,
                                g.driven_at_rad + pi, component.material, options);
  append(part.mesh, placed(driven, Placement::moved(point_at(g.centres_m(), g.driven_at_rad, 0))));
  component.mass_kg = mesh_mass_kg(part.mesh);
}

} // namespace lugline
