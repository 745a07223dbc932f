// Planetary carriers: a turned body with pinions on pins.

#include "scene/recipe/kinds.h"
#include "scene/recipe/measures.h"
#include "scene/recipe/pinions.h"
#include "scene/recipe/teeth.h"
#include "scene/recipe/turned.h"

#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

struct PinionTable {
  Pinions pinions;
  std::string name;
  std::string fits;
  std::string ring_fits;
};

PinionTable read_pinions(FigureReader& t) {
  PinionTable table;
  Pinions& p = table.pinions;
  p.planets.count = t.count("pinions", 2, 12);
  p.planets.pinion = t.count("teeth", 8, 200);
  p.planets.sun = t.count("sun_teeth", 8, 300);
  p.planets.ring = t.count("ring_teeth", 16, 400);
  const double module_m = read_module(t);
  const double pressure_rad = t.angle_or("pressure_angle", 20 * pi / 180);
  const double thinning_m = t.length_if_given("thinning").value_or(0);
  p.gear = rack_gear(false, p.planets.pinion, module_m, pressure_rad, 0, thinning_m);
  p.sun = rack_gear(false, p.planets.sun, module_m, pressure_rad);
  p.ring = rack_gear(true, p.planets.ring, module_m, pressure_rad);
  p.circle_m = t.length("circle");
  p.first_rad = t.angle_or("first_pinion_at", 0);
  p.low_m = t.height("from");
  p.high_m = t.height("to");
  p.space_low_m = t.height("space_from");
  p.space_high_m = t.height("space_to");
  p.washer_m = t.length_if_given("washers").value_or(0);
  p.washer_outside_m = p.washer_m > 0 ? t.length("washers_outside") : 0;
  p.pin_m = t.length("pin");
  p.pin_low_m = t.height("pin_from");
  p.pin_high_m = t.height("pin_to");
  table.name = t.text_or("name", "pinion");
  p.feature = table.name;
  table.fits = t.text_or("fits", "");
  table.ring_fits = t.text_or("ring_fits", "");
  t.finish("a set of pinions");
  return table;
}

void check_teeth(FigureReader& t, const Pinions& p) {
  const std::string apart = planet_problem(p.planets);
  if (!apart.empty()) {
    const bool counts = p.planets.sun + 2 * p.planets.pinion != p.planets.ring;
    t.impossible(counts ? "teeth" : "pinions", "cannot be assembled: " + apart);
    return;
  }
  if (!check_gear(t, p.gear)) {
    return;
  }
  const double wanted_m = p.gear.module_m * (p.planets.sun + p.planets.pinion);
  if (std::abs(p.circle_m - wanted_m) > 1e-6) {
    t.impossible("circle", in_brackets(in_mm(p.circle_m)) +
                               " is not where pinions mesh with sun and ring, " + in_mm(wanted_m));
    return;
  }
  for (const auto& [mate, name] : {std::pair{&p.sun, "sun"}, std::pair{&p.ring, "ring"}}) {
    const std::string problem = mesh_problem(p.gear, *mate, p.circle_m / 2);
    if (!problem.empty()) {
      t.impossible("teeth", "do not run with the " + std::string(name) + ": " + problem);
      return;
    }
  }
  if (p.circle_m * std::sin(pi / p.planets.count) <= p.gear.tip_diameter_m) {
    t.impossible("pinions", "run into one another: " + std::to_string(p.planets.count) + " of " +
                                in_mm(p.gear.tip_diameter_m) + " do not fit on " +
                                in_mm(p.circle_m));
  }
}

void check_heights(FigureReader& t, const Pinions& p) {
  t.must_be_less("from", p.low_m, "to", p.high_m);
  t.must_be_less("pin", p.pin_m + 0.4e-3, "washers_outside",
                 p.washer_m > 0 ? p.washer_outside_m : p.gear.root_diameter_m);
  if (t.ok() && p.washer_m > 0) {
    t.must_be_less("washers_outside", p.washer_outside_m, "tip", p.gear.tip_diameter_m);
  }
  if (t.ok() && (p.low_m - p.washer_m < p.space_low_m - 1e-9 ||
                 p.high_m + p.washer_m > p.space_high_m + 1e-9)) {
    t.impossible("to", "and from, with the washers, do not lie in the space of " +
                           in_mm(p.space_high_m - p.space_low_m) + " that they have");
  }
  if (t.ok()) {
    t.must_be_less("pin_from", p.pin_low_m, "space_from", p.space_low_m);
    t.must_be_less("space_to", p.space_high_m, "pin_to", p.pin_high_m);
  }
}

void add_keys(const PinionTable& table, Component& component) {
  const Pinions& p = table.pinions;
  const double thick_m = p.gear.tooth_thickness_m(p.gear.reference_diameter_m());
  const double in_m = (p.circle_m - p.gear.tip_diameter_m) / 2;
  const double out_m = (p.circle_m + p.gear.tip_diameter_m) / 2;
  component.keys.push_back({table.name, table.fits, p.first_rad, in_m, p.sun.tip_diameter_m / 2,
                            p.low_m, p.high_m, thick_m});
  component.keys.push_back({table.name + " at the ring", table.ring_fits, p.first_rad,
                            p.ring.tip_diameter_m / 2, out_m, p.low_m, p.high_m, thick_m});
}

/// What a pinion's end play is made of. They lie inside the carrier, so that another figure
/// of one moves nothing of its solid.
void add_figures(const Pinions& p, Component& component) {
  const double above_m = component.solid.high_m() + 1e-3;
  const auto add = [&](const char* name, double value_m) {
    component.figures.push_back({name, value_m, above_m, above_m});
  };
  add("pinion slot", p.space_high_m - p.space_low_m);
  add("pinion length", p.high_m - p.low_m);
  if (p.washer_m > 0) {
    add("pinion washer", p.washer_m);
  }
}

/// The body with holes for the pins, and the pinions in it.
void draw(FigureReader& t, const Pinions& p, const MeshOptions& options, MadePart& part) {
  Workpiece body;
  for (const SectorRing& ring : part.component.solid.rings) {
    body.add(ring);
  }
  Workpiece whole = body;
  for (const SectorRing& hole : pin_holes(p)) {
    const std::string problem = body.cut(hole);
    if (!problem.empty()) {
      t.impossible("pin", problem);
      return;
    }
  }
  for (SectorRing& ring : pinion_rings(p)) {
    whole.add(std::move(ring));
  }
  const std::string overlap = whole.overlap();
  if (!overlap.empty()) {
    t.impossible("pinions", "have no room: " + overlap);
    return;
  }
  part.component.solid = whole.take();
  const std::string& material = part.component.material;
  part.mesh = mesh_of(body.solid(), material, options);
  append(part.mesh, pinion_mesh(p, material, options));
}

} // namespace

void make_carrier(FigureReader& f, const MeshOptions& options, MadePart& part) {
  make_turned(f, options, part, ComponentKind::carrier, {});
  std::vector<FigureReader> tables = f.tables("pinions");
  if (f.ok() && tables.size() != 1) {
    f.impossible("pinions", "is one table, [[part.pinions]], and " + std::to_string(tables.size()) +
                                " were read");
    return;
  }
  for (FigureReader& t : tables) {
    const PinionTable table = read_pinions(t);
    if (!t.ok()) {
      continue;
    }
    check_teeth(t, table.pinions);
    if (t.ok()) {
      check_heights(t, table.pinions);
    }
    if (!t.ok() || !f.ok()) {
      continue;
    }
    draw(t, table.pinions, options, part);
    add_keys(table, part.component);
    add_figures(table.pinions, part.component);
    part.component.mass_kg = 0;
    for (const MaterialRange& range : part.mesh.ranges) {
      Mesh piece = part.mesh;
      piece.triangles.assign(part.mesh.triangles.begin() + range.first_triangle,
                             part.mesh.triangles.begin() + range.first_triangle +
                                 range.triangle_count);
      piece.ranges = {{range.material, 0, range.triangle_count}};
      part.component.mass_kg += body_figures(piece).volume_m3 * density_kg_per_m3(range.material);
    }
  }
}

} // namespace lugline
