#include "scene/recipe/finish.h"
#include "scene/recipe/kinds.h"
#include "scene/recipe/measures.h"
#include "scene/recipe/surface.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double dot_depth_m = 0.2e-3;

/// Lugs stand outward where over_lugs is beyond the outside, inward (round a
/// hub) where it is inside the bore.
bool lugs_inward(double bore_m, double over_lugs_m) {
  return over_lugs_m < bore_m;
}

void check_outline(FigureReader& f, double bore_m, double outside_m, const LugFigures& lugs,
                   double over_lugs_m) {
  f.must_be_less("bore", bore_m, "outside", outside_m);
  if (lugs.count == 0 || !f.ok()) {
    return;
  }
  if (over_lugs_m >= bore_m && over_lugs_m <= outside_m) {
    f.impossible("over_lugs", in_brackets(in_mm(over_lugs_m)) + " is neither beyond the outside (" +
                                  in_mm(outside_m) + ") nor inside the bore (" + in_mm(bore_m) +
                                  "): no lugs");
    return;
  }
  if (lugs_inward(bore_m, over_lugs_m)) {
    check_lugs(f, lugs, "lug", over_lugs_m, bore_m);
  } else {
    check_lugs(f, lugs, "lug", outside_m, over_lugs_m);
  }
}

void add_plate_lugs(Workpiece& piece, Component& component, const LugFigures& lugs, double bore_m,
                    double outside_m, double over_lugs_m, double low_m, double high_m) {
  if (lugs_inward(bore_m, over_lugs_m)) {
    add_lugs(piece, component, lugs, over_lugs_m, bore_m, low_m, high_m);
  } else {
    add_lugs(piece, component, lugs, outside_m, over_lugs_m, low_m, high_m);
  }
}

/// The upper face falls towards the outside, in a straight cone.
struct Taper {
  double from_m = 0; ///< diameter at which it begins
  double depth_m = 0;
  double to_m = 0; ///< diameter at which it has fallen by depth_m

  [[nodiscard]] double falls_m(double diameter_m) const {
    const double share = (diameter_m - from_m) / (to_m - from_m);
    return depth_m * std::min(std::max(share, 0.0), 1.0);
  }
};

/// Rings under the cone, each as high as the cone is at its inner edge: never
/// below it, nowhere more than the tolerance above, and on it at bears_at.
void add_tapered(Workpiece& piece, const Taper& taper, double thickness_m, double bears_at_m,
                 double tolerance_m) {
  std::vector<double> edges_m;
  const int steps = static_cast<int>(std::ceil(taper.depth_m / tolerance_m));
  for (int k = 0; k <= steps; ++k) {
    edges_m.push_back(taper.from_m + (taper.to_m - taper.from_m) * k / steps);
  }
  if (bears_at_m > taper.from_m && bears_at_m < taper.to_m) {
    edges_m.push_back(bears_at_m);
    std::sort(edges_m.begin(), edges_m.end());
  }
  for (std::size_t k = 0; k + 1 < edges_m.size(); ++k) {
    if (edges_m[k + 1] - edges_m[k] > 1e-9) {
      piece.add(ring_between(edges_m[k], edges_m[k + 1], 0, thickness_m - taper.falls_m(edges_m[k]),
                             "tapered face"));
    }
  }
}

/// Drawn as the true cone: a flat plate whose upper face is bent down.
Mesh tapered_mesh(const Solid& flat, const Taper& taper, double thickness_m,
                  const std::string& material, const MeshOptions& options) {
  Mesh mesh = surface_of(flat, material, options, {{taper.from_m / 2}, {}});
  bend(mesh, [&](const Vec3& p) {
    const bool on_top = p.z > thickness_m / 2;
    return Vec3{p.x, p.y, on_top ? p.z - taper.falls_m(2 * std::hypot(p.x, p.y)) : p.z};
  });
  return smoothed(mesh, 20 * std::numbers::pi / 180);
}

ComponentKind plate_kind(const std::string& role) {
  if (role == "apply plate") {
    return ComponentKind::apply_plate;
  }
  return role == "backing plate" ? ComponentKind::backing_plate : ComponentKind::steel;
}

} // namespace

void make_lugged_plate(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const std::string role = f.word("role", {"steel", "apply plate", "backing plate"});
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double thickness_m = f.length("thickness");
  const LugFigures lugs = read_lugs(f, "lug", 0);
  const double over_lugs_m = f.has("lugs") ? f.length("over_lugs") : outside_m;
  const std::optional<double> step_from_m = f.length_if_given("step_from");
  const double step_m = step_from_m ? f.length("step_depth") : 0;
  const std::optional<double> taper_from_m = f.length_if_given("taper_from");
  const double taper_m = taper_from_m ? f.length("taper_depth") : 0;
  const double bears_at_m = taper_from_m ? f.length_or("bears_at", 0) : 0;
  const std::string dot = f.word_or("dot", "none", {"none", "lower face", "upper face"});
  const double dot_m = dot == "none" ? 0 : f.length_or("dot_diameter", 3e-3);
  const double dot_at_rad = dot == "none" ? 0 : f.angle_or("dot_at", 0);
  if (!f.ok()) {
    return;
  }
  check_outline(f, bore_m, outside_m, lugs, over_lugs_m);
  if (step_from_m) {
    f.must_be_less("bore", bore_m, "step_from", *step_from_m);
    f.must_be_less("step_from", *step_from_m, "outside", outside_m);
    f.must_be_less("step_depth", step_m, "thickness", thickness_m);
  }
  if (taper_from_m) {
    f.must_be_less("bore", bore_m, "taper_from", *taper_from_m);
    f.must_be_less("taper_from", *taper_from_m, "outside", outside_m);
    f.must_be_less("taper_depth", taper_m, "thickness", thickness_m);
    if (step_from_m) {
      f.impossible("taper_from", "and step_from are both given: a plate has one or the other");
    }
    if (dot != "none") {
      f.impossible("dot", "cannot be on a tapered plate");
    }
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = plate_kind(role);
  const double shoulder_m = thickness_m - step_m - taper_m;
  Workpiece piece;
  const double face_m = step_from_m.value_or(taper_from_m.value_or(outside_m));
  piece.add(ring_between(bore_m, face_m, 0, thickness_m, "plate"));
  const Taper taper{face_m, taper_m, outside_m};
  if (taper_from_m) {
    add_tapered(piece, taper, thickness_m, bears_at_m, options.chord_tolerance_m);
    component.marks.push_back(
        {"the tapered face is up", (*taper_from_m + outside_m) / 4, 0, shoulder_m});
  }
  if (step_from_m) {
    piece.add(ring_between(*step_from_m, outside_m, 0, shoulder_m, "shoulder"));
    component.marks.push_back({"the step faces up", (*step_from_m + outside_m) / 4, 0, shoulder_m});
  }
  add_plate_lugs(piece, component, lugs, bore_m, outside_m, over_lugs_m, 0,
                 lugs_inward(bore_m, over_lugs_m) ? thickness_m : shoulder_m);
  if (dot != "none") {
    const bool below = dot == "lower face";
    const double circle_m = (bore_m + step_from_m.value_or(outside_m)) / 2;
    const std::string problem =
        sink_dot(piece, circle_m, dot_at_rad, dot_m, below ? 0 : thickness_m - dot_depth_m,
                 below ? dot_depth_m : thickness_m);
    if (!problem.empty() || circle_m - dot_m < bore_m) {
      f.impossible("dot", "does not fit on the face");
      return;
    }
    component.marks.push_back({below ? "the dot mark faces down" : "the dot mark faces up",
                               circle_m / 2, dot_at_rad, below ? 0 : thickness_m});
  }
  component.figures.push_back(thickness_figure(thickness_m, 0, shoulder_m));
  take_solid(f, piece, part);
  if (taper_from_m) {
    Component unkeyed;
    Workpiece flat;
    flat.add(ring_between(bore_m, outside_m, 0, thickness_m, "plate"));
    add_plate_lugs(flat, unkeyed, lugs, bore_m, outside_m, over_lugs_m, 0, thickness_m);
    part.mesh = tapered_mesh(flat.solid(), taper, thickness_m, component.material, options);
  } else {
    part.mesh = mesh_of(component.solid, component.material, options);
  }
}

void make_wave_plate(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double flat_m = f.length("flat_height");
  const double free_m = f.length("free_height");
  const int waves = f.count("waves", 2, 24);
  const LugFigures lugs = read_lugs(f, "lug", 0);
  const double over_lugs_m = f.has("lugs") ? f.length("over_lugs") : outside_m;
  if (!f.ok()) {
    return;
  }
  check_outline(f, bore_m, outside_m, lugs, over_lugs_m);
  f.must_be_less("flat_height", flat_m, "free_height", free_m);
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::wave_plate;
  const auto shape = [&](double high_m, Component& keyed) {
    Workpiece piece;
    piece.add(ring_between(bore_m, outside_m, 0, high_m, "plate"));
    add_plate_lugs(piece, keyed, lugs, bore_m, outside_m, over_lugs_m, 0, high_m);
    return piece;
  };
  Workpiece piece = shape(free_m, component);
  take_solid(f, piece, part);
  component.wave = WaveFigures{free_m, flat_m, waves};
  // Thicker stock raises both heights; what a gauge finds free is another figure.
  component.figures.push_back(thickness_figure(flat_m, 0, free_m));
  component.figures.push_back(thickness_figure(free_m, 0, free_m, "free height"));
  component.marks.push_back({"the waves show from the side", outside_m / 2, 0, free_m});
  // Drawn as it is: flat stock in waves, a crest at 12 o'clock.
  Component unkeyed;
  const Solid flat = shape(flat_m, unkeyed).take();
  component.mass_kg = mass_kg(flat, component.material);
  part.mesh = mesh_of(flat, component.material, options);
  bend(part.mesh, [&](const Vec3& p) {
    const double angle = std::atan2(-p.x, p.y);
    return Vec3{p.x, p.y, p.z + (free_m - flat_m) * (1 + std::cos(waves * angle)) / 2};
  });
  part.mesh = smoothed(part.mesh, 20 * std::numbers::pi / 180);
}

namespace {

struct Linings {
  double bore_m = 0;
  double outside_m = 0;
  int grooves = 0;
  double groove_m = 0;
  double offset_m = 0;
};

Linings read_linings(FigureReader& f, double outside_m) {
  Linings linings;
  linings.bore_m = f.length("lining_bore");
  linings.outside_m = f.length_or("lining_outside", outside_m);
  linings.grooves = f.count_or("grooves", 0, 1, 180);
  if (f.has("grooves")) {
    linings.groove_m = f.length("groove_width");
    linings.offset_m = f.height_or("groove_offset", 0);
  }
  return linings;
}

void check_linings(FigureReader& f, const Linings& linings, double inner_m,
                   const std::string& inner_name, double outside_m) {
  f.must_be_less("lining_bore", linings.bore_m, "lining_outside", linings.outside_m);
  if (linings.bore_m < inner_m) {
    f.impossible("lining_bore", in_brackets(in_mm(linings.bore_m)) + " is inside " + inner_name +
                                    " (" + in_mm(inner_m) + ")");
  }
  if (linings.outside_m > outside_m) {
    f.impossible("lining_outside", in_brackets(in_mm(linings.outside_m)) +
                                       " is beyond the plate's outside (" + in_mm(outside_m) + ")");
  }
  if (2 * std::abs(linings.offset_m) + linings.groove_m >= linings.bore_m) {
    f.impossible("groove_offset", in_brackets(in_mm(linings.offset_m)) +
                                      " takes the grooves past the lining's bore (" +
                                      in_mm(linings.bore_m) + ")");
  }
}

/// Straight grooves whose middle line passes the axis at offset_m: radial
/// where that is nothing, else leaning.
std::vector<Sector> groove_sectors(const Linings& linings) {
  const Sector first{{0, linings.offset_m - linings.groove_m / 2},
                     {0, linings.offset_m + linings.groove_m / 2}};
  return repeated(first, linings.grooves);
}

/// An arrow-head in the upper face, pointing clockwise seen from above.
void sink_arrow(Workpiece& piece, double circle_m, double height_m, double low_m, double high_m) {
  constexpr int strips = 4;
  const double step_rad = 2 * height_m / strips / (circle_m / 2);
  for (int k = 0; k < strips; ++k) {
    const double half_m = height_m / 2 * (k + 1) / strips;
    const double from_rad = step_rad * (k - strips / 2);
    SectorRing strip =
        sectors_between(0, 0, low_m, high_m, "arrow", {{{from_rad, 0}, {from_rad + step_rad, 0}}});
    strip.inner_m = circle_m / 2 - half_m;
    strip.outer_m = circle_m / 2 + half_m;
    piece.cut(strip);
  }
}

} // namespace

void make_friction_plate(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double tip_m = f.length("teeth_tip");
  const double root_m = f.length("teeth_root");
  const int teeth = f.count("teeth", 3, 360);
  const double tooth_rad = f.angle("tooth_width");
  const std::string fits = f.text_or("teeth_fit", "");
  // Teeth point inward in a plate with an outside, outward in one with a bore.
  const bool outward = f.has("bore") && !f.has("outside");
  const double outside_m = outward ? root_m : f.length("outside");
  const double bore_m = outward ? f.length("bore") : root_m;
  const double thickness_m = f.length("thickness");
  const double core_m = f.length("core_thickness");
  const Linings linings = read_linings(f, outside_m);
  const std::string arrow = f.word_or("arrow_mark", "none", {"none", "up"});
  if (!f.ok()) {
    return;
  }
  if (outward) {
    f.must_be_less("teeth_root", root_m, "teeth_tip", tip_m);
  } else {
    f.must_be_less("teeth_tip", tip_m, "teeth_root", root_m);
  }
  f.must_be_less(outward ? "bore" : "teeth_root", bore_m, outward ? "teeth_root" : "outside",
                 outside_m);
  f.must_be_less("core_thickness", core_m, "thickness", thickness_m);
  check_linings(f, linings, bore_m, outward ? "the core's bore" : "the root of the teeth",
                outside_m);
  if (!(tooth_rad > 0) || tooth_rad * teeth >= 2 * std::numbers::pi) {
    f.impossible("tooth_width", in_brackets(print_angle(tooth_rad)) +
                                    " is not between nothing and the " +
                                    print_angle(2 * std::numbers::pi / teeth) + " pitch");
  }
  if (linings.grooves > 0 && f.ok() &&
      first_meeting(groove_sectors(linings), linings.bore_m / 2, linings.outside_m / 2) >= 0) {
    f.impossible("groove_width", "leaves no lining between the grooves");
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::friction;
  const double lining_m = (thickness_m - core_m) / 2;
  Workpiece piece;
  piece.add(sectors_between(std::min(tip_m, root_m), std::max(tip_m, root_m), 0, thickness_m,
                            "tooth", repeated(radial_sector(0, tooth_rad), teeth)));
  piece.add(ring_between(bore_m, outside_m, lining_m, thickness_m - lining_m, "core"));
  for (const bool upper : {false, true}) {
    SectorRing lining =
        ring_between(linings.bore_m, linings.outside_m, upper ? thickness_m - lining_m : 0,
                     upper ? thickness_m : lining_m, "lining");
    lining.material = "friction lining";
    if (linings.grooves > 0) {
      lining.sectors = between(groove_sectors(linings));
    }
    piece.add(lining);
  }
  const double tooth_chord_m = tip_m * std::sin(tooth_rad / 2);
  component.keys.push_back({"tooth", fits, 0, std::min(tip_m, root_m) / 2,
                            std::max(tip_m, root_m) / 2, 0, thickness_m, tooth_chord_m});
  component.figures.push_back(thickness_figure(thickness_m, 0, thickness_m));
  if (arrow == "up") {
    const double circle_m = (bore_m + linings.bore_m) / 2;
    const double top_m = thickness_m - lining_m;
    sink_arrow(piece, circle_m, (linings.bore_m - bore_m) / 2 * 0.7, top_m - core_m / 4, top_m);
    component.marks.push_back({"the arrow mark faces up", circle_m / 2, 0, top_m});
  }
  take_solid(f, piece, part);
  part.mesh = mesh_of(component.solid, component.material, options);
}

} // namespace lugline
