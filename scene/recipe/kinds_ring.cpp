#include "scene/recipe/finish.h"
#include "scene/recipe/kinds.h"
#include "scene/recipe/measures.h"
#include "scene/recipe/surface.h"

#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

struct SnapRing {
  bool in_bore = true;
  double bore_m = 0;    ///< seated
  double outside_m = 0; ///< seated
  double thickness_m = 0;
  double free_m = 0;     ///< working diameter left alone
  double squeezed_m = 0; ///< … squeezed, or spread
  double gap_rad = 0;
  double gap_at_rad = 0;
  double ear_depth_m = 0;
  double ear_length_m = 0;
  double bevel_rad = 0;
  double bevel_width_m = 0;
  double reversed_play_m = 0;
  double free_height_m = 0; ///< over the waves; 0: flat
  int waves = 0;
};

/// What flat and waved rings have in common.
SnapRing read_ring(FigureReader& f) {
  SnapRing r;
  r.in_bore = f.word("springs", {"outward", "inward"}) == "outward";
  r.bore_m = f.length("bore");
  r.outside_m = f.length("outside");
  r.thickness_m = f.length("thickness");
  r.free_m = f.length(r.in_bore ? "free_outside" : "free_bore");
  r.squeezed_m = f.length(r.in_bore ? "squeezed_outside" : "spread_bore");
  r.gap_rad = f.angle("gap");
  r.gap_at_rad = f.angle_or("gap_at", 0);
  r.ear_depth_m = f.length_if_given("ear_depth").value_or(0);
  r.ear_length_m = r.ear_depth_m > 0 ? f.length("ear_length") : 0;
  return r;
}

void read_bevel(FigureReader& f, SnapRing& r) {
  r.bevel_rad = f.angle_or("bevel", 0);
  if (r.bevel_rad != 0) {
    r.bevel_width_m = f.length("bevel_width");
    r.reversed_play_m = f.length("reversed_play");
  }
}

void check_ring(FigureReader& f, const SnapRing& r) {
  f.must_be_less("bore", r.bore_m, "outside", r.outside_m);
  if (r.in_bore) {
    f.must_be_less("squeezed_outside", r.squeezed_m, "outside", r.outside_m);
    f.must_be_less("outside", r.outside_m, "free_outside", r.free_m);
  } else {
    f.must_be_less("free_bore", r.free_m, "bore", r.bore_m);
    f.must_be_less("bore", r.bore_m, "spread_bore", r.squeezed_m);
  }
  if (!(r.gap_rad > 0) || r.gap_rad >= pi) {
    f.impossible("gap",
                 in_brackets(print_angle(r.gap_rad)) + " is not between nothing and half a turn");
  }
  // Squeezed, a ring's ends come together: its length is what it is.
  const double mean_m = (r.bore_m + r.outside_m) / 2;
  const double closes_m = pi * (r.outside_m - r.squeezed_m);
  if (r.in_bore && f.ok() && closes_m > r.gap_rad * mean_m / 2) {
    f.impossible("squeezed_outside", in_brackets(in_mm(r.squeezed_m)) + " needs a gap of " +
                                         in_mm(closes_m) + ", and it is " +
                                         in_mm(r.gap_rad * mean_m / 2));
  }
  if (r.ear_depth_m > 0 && r.in_bore && 2 * r.ear_depth_m >= r.bore_m) {
    f.impossible("ear_depth", in_brackets(in_mm(r.ear_depth_m)) + " does not fit inside the ring");
  }
  if (r.bevel_rad != 0) {
    const bool narrow = f.must_be_less("bevel_width", r.bevel_width_m, "the ring's width",
                                       (r.outside_m - r.bore_m) / 2);
    if (narrow && (!(r.bevel_rad > 0) || r.bevel_rad >= pi / 2 ||
                   std::tan(r.bevel_rad) * r.bevel_width_m >= r.thickness_m)) {
      f.impossible("bevel",
                   in_brackets(print_angle(r.bevel_rad) + " over " + in_mm(r.bevel_width_m)) +
                       " leaves no edge on a ring of " + in_mm(r.thickness_m));
    }
  }
}

Workpiece ring_piece(const SnapRing& r, double height_m) {
  Workpiece piece;
  const double from_rad = r.gap_at_rad + r.gap_rad / 2;
  const double to_rad = r.gap_at_rad - r.gap_rad / 2 + 2 * pi;
  piece.add(
      sectors_between(r.bore_m, r.outside_m, 0, height_m, "ring", {{{from_rad, 0}, {to_rad, 0}}}));
  if (r.ear_depth_m > 0) {
    const double bore_m = r.in_bore ? r.bore_m - 2 * r.ear_depth_m : r.outside_m;
    const double outside_m = r.in_bore ? r.bore_m : r.outside_m + 2 * r.ear_depth_m;
    const double ear_rad = 2 * r.ear_length_m / (r.in_bore ? r.bore_m : r.outside_m);
    piece.add(sectors_between(
        bore_m, outside_m, 0, height_m, "ear",
        {{{from_rad, 0}, {from_rad + ear_rad, 0}}, {{to_rad - ear_rad, 0}, {to_rad, 0}}}));
  }
  return piece;
}

RingFigures ring_figures(const SnapRing& r) {
  RingFigures figures;
  figures.in_bore = r.in_bore;
  figures.free_m = r.free_m / 2;
  figures.squeezed_m = r.squeezed_m / 2;
  figures.thickness_m = r.thickness_m;
  figures.width_m = (r.outside_m - r.bore_m) / 2;
  figures.gap_rad = r.gap_rad;
  figures.bevelled = r.bevel_rad != 0;
  figures.reversed_play_m = r.reversed_play_m;
  figures.free_height_m = r.free_height_m;
  return figures;
}

} // namespace

void make_snap_ring(FigureReader& f, const MeshOptions& options, MadePart& part) {
  SnapRing r = read_ring(f);
  read_bevel(f, r);
  if (!f.ok()) {
    return;
  }
  check_ring(f, r);
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::snap_ring;
  Workpiece piece = ring_piece(r, r.thickness_m);
  take_solid(f, piece, part);
  component.ring = ring_figures(r);
  component.figures.push_back(thickness_figure(r.thickness_m, 0, r.thickness_m));
  if (r.bevel_rad == 0) {
    part.mesh = mesh_of(component.solid, component.material, options);
    return;
  }
  // The bevel runs along the working edge of the upper face.
  const double edge_m = r.in_bore ? r.outside_m / 2 : r.bore_m / 2;
  const double begins_m = r.in_bore ? edge_m - r.bevel_width_m : edge_m + r.bevel_width_m;
  part.mesh = surface_of(component.solid, component.material, options, {{begins_m}, {}});
  bend(part.mesh, [&](const Vec3& p) {
    const double past_m = (std::hypot(p.x, p.y) - begins_m) * (r.in_bore ? 1 : -1);
    const bool on_top = p.z > r.thickness_m / 2;
    return Vec3{p.x, p.y, on_top && past_m > 0 ? p.z - past_m * std::tan(r.bevel_rad) : p.z};
  });
  part.mesh = smoothed(part.mesh, 8 * pi / 180);
  component.marks.push_back({"the bevel faces up, its flat face to the part",
                             (edge_m + begins_m) / 2, r.gap_at_rad + pi, r.thickness_m});
}

void make_waved_snap_ring(FigureReader& f, const MeshOptions& options, MadePart& part) {
  SnapRing r = read_ring(f);
  r.free_height_m = f.length("free_height");
  r.waves = f.count("waves", 2, 24);
  if (!f.ok()) {
    return;
  }
  check_ring(f, r);
  f.must_be_less("thickness", r.thickness_m, "free_height", r.free_height_m);
  // Steeper than that it is a crumpled strip; a spring is far flatter.
  const double wave_m = pi * (r.bore_m + r.outside_m) / 2 / r.waves;
  if (f.ok() && r.free_height_m - r.thickness_m > wave_m / 4) {
    f.impossible("free_height", in_brackets(in_mm(r.free_height_m)) + " is too high for waves of " +
                                    in_mm(wave_m) + " each: they rise by over a quarter of that");
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::snap_ring;
  Workpiece piece = ring_piece(r, r.free_height_m);
  take_solid(f, piece, part);
  component.ring = ring_figures(r);
  // Thicker stock raises both heights; what a gauge finds free is another figure.
  component.figures.push_back(thickness_figure(r.thickness_m, 0, r.free_height_m));
  component.figures.push_back(thickness_figure(r.free_height_m, 0, r.free_height_m, "free height"));
  component.marks.push_back({"the waves show from the side", (r.bore_m + r.outside_m) / 4,
                             r.gap_at_rad + pi, r.free_height_m});
  // Drawn as it is: flat stock in waves, a crest across from the gap.
  const Solid flat = ring_piece(r, r.thickness_m).take();
  component.mass_kg = mass_kg(flat, component.material);
  part.mesh = mesh_of(flat, component.material, options);
  bend(part.mesh, [&](const Vec3& p) {
    const double from_crest_rad = std::atan2(-p.x, p.y) - r.gap_at_rad - pi;
    const double rise_m = r.free_height_m - r.thickness_m;
    return Vec3{p.x, p.y, p.z + rise_m * (1 + std::cos(r.waves * from_crest_rad)) / 2};
  });
  part.mesh = smoothed(part.mesh, 20 * pi / 180);
}

} // namespace lugline
