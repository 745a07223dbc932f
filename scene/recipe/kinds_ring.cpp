#include "scene/recipe/finish.h"
#include "scene/recipe/kinds.h"
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
};

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
  r.bevel_rad = f.angle_or("bevel", 0);
  if (r.bevel_rad != 0) {
    r.bevel_width_m = f.length("bevel_width");
    r.reversed_play_m = f.length("reversed_play");
  }
  return r;
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

Workpiece ring_piece(const SnapRing& r) {
  Workpiece piece;
  const double from_rad = r.gap_at_rad + r.gap_rad / 2;
  const double to_rad = r.gap_at_rad - r.gap_rad / 2 + 2 * pi;
  piece.add(sectors_between(r.bore_m, r.outside_m, 0, r.thickness_m, "ring",
                            {{{from_rad, 0}, {to_rad, 0}}}));
  if (r.ear_depth_m > 0) {
    const double bore_m = r.in_bore ? r.bore_m - 2 * r.ear_depth_m : r.outside_m;
    const double outside_m = r.in_bore ? r.bore_m : r.outside_m + 2 * r.ear_depth_m;
    const double ear_rad = 2 * r.ear_length_m / (r.in_bore ? r.bore_m : r.outside_m);
    piece.add(sectors_between(
        bore_m, outside_m, 0, r.thickness_m, "ear",
        {{{from_rad, 0}, {from_rad + ear_rad, 0}}, {{to_rad - ear_rad, 0}, {to_rad, 0}}}));
  }
  return piece;
}

} // namespace

void make_snap_ring(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const SnapRing r = read_ring(f);
  if (!f.ok()) {
    return;
  }
  check_ring(f, r);
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::snap_ring;
  Workpiece piece = ring_piece(r);
  take_solid(f, piece, part);
  component.ring = RingFigures{
      r.in_bore, r.free_m / 2,     r.squeezed_m / 2, r.thickness_m, (r.outside_m - r.bore_m) / 2,
      r.gap_rad, r.bevel_rad != 0, r.reversed_play_m};
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

} // namespace lugline
