// Parts that have a side by what is done to them: dished plates and disc springs, and
// plates lined on one side only.

#include "scene/recipe/finish.h"
#include "scene/recipe/kinds.h"
#include "scene/recipe/measures.h"

#include <cmath>
#include <numbers>

namespace lugline {

namespace {
constexpr double pi = std::numbers::pi;

/// A ring of flat stock that is a cone as long as nothing presses it.
struct Cone {
  double bore_m = 0;
  double outside_m = 0;
  double flat_m = 0;
  double free_m = 0;
  bool outer_low = true;
};

void check_cone(FigureReader& f, const Cone& cone, const std::string& flat_name) {
  f.must_be_less(flat_name, cone.flat_m, "free_height", cone.free_m);
  const double width_m = (cone.outside_m - cone.bore_m) / 2;
  if (f.ok() && cone.free_m - cone.flat_m >= width_m) {
    f.impossible("free_height", in_brackets(in_mm(cone.free_m)) +
                                    " makes a cone steeper than 45 degrees of a plate " +
                                    in_mm(width_m) + " wide");
  }
}

/// The cone ends at the ring's own edge; lugs go on level with it.
Mesh coned(const Solid& flat, const Cone& cone, const std::string& material,
           const MeshOptions& options) {
  Mesh mesh = mesh_of(flat, material, options);
  bend(mesh, [&](const Vec3& p) {
    const double along = std::clamp(
        (std::hypot(p.x, p.y) - cone.bore_m / 2) / ((cone.outside_m - cone.bore_m) / 2), 0.0, 1.0);
    return Vec3{p.x, p.y, p.z + (cone.free_m - cone.flat_m) * (cone.outer_low ? 1 - along : along)};
  });
  return smoothed(mesh, 20 * pi / 180);
}

} // namespace

void make_dished_plate(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double flat_m = f.length("flat_height");
  const double free_m = f.length("free_height");
  const bool outer_low = f.word("low_edge", {"outer", "inner"}) == "outer";
  const LugFigures lugs = read_lugs(f, "lug", 0);
  const double over_lugs_m = f.has("lugs") ? f.length("over_lugs") : outside_m;
  if (!f.ok()) {
    return;
  }
  f.must_be_less("bore", bore_m, "outside", outside_m);
  if (lugs.count > 0) {
    f.must_be_less("outside", outside_m, "over_lugs", over_lugs_m);
    check_lugs(f, lugs, "lug", outside_m, over_lugs_m);
  }
  const Cone cone{bore_m, outside_m, flat_m, free_m, outer_low};
  check_cone(f, cone, "flat_height");
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::wave_plate;
  const auto shape = [&](double high_m, Component& keyed) {
    Workpiece piece;
    piece.add(ring_between(bore_m, outside_m, 0, high_m, "plate"));
    add_lugs(piece, keyed, lugs, outside_m, over_lugs_m, 0, high_m);
    return piece;
  };
  Workpiece piece = shape(free_m, component);
  take_solid(f, piece, part);
  component.wave = WaveFigures{free_m, flat_m, 0};
  component.figures.push_back(thickness_figure(flat_m, 0, free_m));
  component.figures.push_back(thickness_figure(free_m, 0, free_m, "free height"));
  component.marks.push_back(
      outer_low ? Mark{"the outer edge faces down, the inner edge stands up", outside_m / 2, 0, 0}
                : Mark{"the inner edge faces down, the outer edge stands up", bore_m / 2, 0, 0});
  Component unkeyed;
  const Solid flat = shape(flat_m, unkeyed).take();
  component.mass_kg = mass_kg(flat, component.material);
  part.mesh = coned(flat, cone, component.material, options);
}

void make_disc_spring(FigureReader& f, const MeshOptions& options, MadePart& part) {
  Cone cone;
  cone.bore_m = f.length("bore");
  cone.outside_m = f.length("outside");
  cone.flat_m = f.length("thickness");
  cone.free_m = f.length("free_height");
  const double rate_N_per_m = f.quantity("rate", Dimension::stiffness);
  cone.outer_low = f.word("low_edge", {"outer", "inner"}) == "outer";
  if (!f.ok()) {
    return;
  }
  f.must_be_less("bore", cone.bore_m, "outside", cone.outside_m);
  check_cone(f, cone, "thickness");
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::springs;
  component.solid.rings.push_back(
      ring_between(cone.bore_m, cone.outside_m, 0, cone.free_m, "spring"));
  component.springs = SpringFigures{cone.free_m, cone.flat_m, rate_N_per_m};
  component.figures.push_back(thickness_figure(cone.free_m, 0, cone.free_m, "free height"));
  component.marks.push_back(
      cone.outer_low
          ? Mark{"the outer edge stands on the piston, the inner edge up", cone.outside_m / 2, 0, 0}
          : Mark{"the inner edge stands on the piston, the outer edge up", cone.bore_m / 2, 0, 0});
  Solid flat;
  flat.rings.push_back(ring_between(cone.bore_m, cone.outside_m, 0, cone.flat_m, "spring"));
  component.mass_kg = mass_kg(flat, component.material);
  part.mesh = coned(flat, cone, component.material, options);
}

void make_single_sided_plate(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const bool toothed = f.word("driven_by", {"inner teeth", "outer lugs"}) == "inner teeth";
  const bool lined_above = f.word("lined", {"upper face", "lower face"}) == "upper face";
  const double tip_m = toothed ? f.length("teeth_tip") : 0;
  const int teeth = toothed ? f.count("teeth", 3, 360) : 0;
  const double tooth_rad = toothed ? f.angle("tooth_width") : 0;
  const std::string teeth_fit = toothed ? f.text_or("teeth_fit", "") : "";
  const double bore_m = f.length(toothed ? "teeth_root" : "bore");
  const double outside_m = f.length("outside");
  const LugFigures lugs = toothed ? LugFigures{} : read_lugs(f, "lug", 1);
  const double over_lugs_m = toothed ? outside_m : f.length("over_lugs");
  const double thickness_m = f.length("thickness");
  const double core_m = f.length("core_thickness");
  const double lining_bore_m = f.length("lining_bore");
  const double lining_outside_m = f.length("lining_outside");
  if (!f.ok()) {
    return;
  }
  const char* bore_name = toothed ? "teeth_root" : "bore";
  f.must_be_less("core_thickness", core_m, "thickness", thickness_m);
  f.must_be_less("lining_bore", lining_bore_m, "lining_outside", lining_outside_m);
  f.must_be_less(bore_name, bore_m, "outside", outside_m);
  if (f.ok() && (lining_bore_m < bore_m || lining_outside_m > outside_m)) {
    f.impossible("lining_bore",
                 "to lining_outside is not within " + std::string(bore_name) + " to outside");
  }
  if (toothed) {
    f.must_be_less("teeth_tip", tip_m, "teeth_root", bore_m);
    if (!(tooth_rad > 0) || tooth_rad * teeth >= 2 * pi) {
      f.impossible("tooth_width", in_brackets(print_angle(tooth_rad)) +
                                      " is not between nothing and the " +
                                      print_angle(2 * pi / teeth) + " pitch");
    }
  } else {
    f.must_be_less("outside", outside_m, "over_lugs", over_lugs_m);
    check_lugs(f, lugs, "lug", outside_m, over_lugs_m);
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::friction;
  const double lining_m = thickness_m - core_m;
  const double low_m = lined_above ? 0 : lining_m;
  Workpiece piece;
  piece.add(ring_between(bore_m, outside_m, low_m, low_m + core_m, "core"));
  if (toothed) {
    piece.add(sectors_between(tip_m, bore_m, low_m, low_m + core_m, "tooth",
                              repeated(radial_sector(0, tooth_rad), teeth)));
    component.keys.push_back({"tooth", teeth_fit, 0, tip_m / 2, bore_m / 2, low_m, low_m + core_m,
                              tip_m * std::sin(tooth_rad / 2)});
  }
  add_lugs(piece, component, lugs, outside_m, over_lugs_m, low_m, low_m + core_m);
  SectorRing lining = ring_between(lining_bore_m, lining_outside_m, lined_above ? core_m : 0,
                                   lined_above ? thickness_m : lining_m, "lining");
  lining.material = "friction lining";
  piece.add(lining);
  component.figures.push_back(thickness_figure(thickness_m, low_m, low_m + core_m));
  component.marks.push_back({lined_above ? "the lined face goes up" : "the lined face goes down",
                             (lining_bore_m + lining_outside_m) / 4, 0,
                             lined_above ? thickness_m : 0});
  take_solid(f, piece, part);
  part.mesh = mesh_of(component.solid, component.material, options);
}

} // namespace lugline
