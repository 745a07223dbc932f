// Parts that roll: the roller clutch, the needle thrust bearing, the check ball.
// Their rollers are drawn one by one; for the drop they are the ring that holds them.

#include "scene/recipe/finish.h"
#include "scene/recipe/kinds.h"
#include "scene/recipe/measures.h"
#include "scene/recipe/round_hole.h"

#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double clear_m = 0.05e-3; ///< between bodies that are drawn side by side

struct RollerClutch {
  double bore_m = 0;
  double outside_m = 0;
  double height_m = 0;
  int rollers = 0;
  double roller_m = 0;
  double roller_length_m = 0;
  double cage_m = 0; ///< height of a rim
  bool clockwise = true;

  [[nodiscard]] double circle_m() const { return (bore_m + outside_m) / 4; } ///< radius
  [[nodiscard]] double pitch_rad() const { return 2 * pi / rollers; }
  /// Half of what a roller takes up of the circle.
  [[nodiscard]] double half_roller_rad() const { return std::asin(roller_m / 2 / circle_m()); }
};

/// A leaf spring in three folds, from a cage bar to its roller, both radial lines.
Mesh leaf_spring(const RollerClutch& c, double bar_rad, double roller_rad, double low_m,
                 double high_m, const std::string& material) {
  constexpr int folds = 4;
  const double swing_m = c.roller_m * 0.2;
  const double leaf_m = c.roller_m * 0.06;
  std::vector<Vec3> there;
  std::vector<Vec3> back;
  for (int k = 0; k <= folds; ++k) {
    const double angle = bar_rad + (roller_rad - bar_rad) * k / folds;
    const double r_m = c.circle_m() + (k % 2 == 0 ? -swing_m : swing_m);
    there.push_back(point_at(r_m - leaf_m, angle, 0));
    back.push_back(point_at(r_m + leaf_m, angle, 0));
  }
  std::vector<Vec3> outline = there;
  outline.insert(outline.end(), back.rbegin(), back.rend());
  double twice_area = 0;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const Vec3& p = outline[k];
    const Vec3& q = outline[(k + 1) % outline.size()];
    twice_area += p.x * q.y - q.x * p.y;
  }
  if (twice_area < 0) {
    std::vector<Vec3> other = back;
    other.insert(other.end(), there.rbegin(), there.rend());
    outline = other;
  }
  return block_over(outline, low_m, high_m, material);
}

/// Two rims, and a bar between each two rollers.
Solid roller_cage(const RollerClutch& c) {
  const double wall_m = (c.outside_m - c.bore_m) / 2;
  const double bore_m = c.bore_m + wall_m * 0.3;
  const double outside_m = c.outside_m - wall_m * 0.3;
  const double bar_rad = std::min(0.25 * (c.pitch_rad() - 2 * c.half_roller_rad()), 0.12);
  // A roller touches the bar that it is pushed from only through its spring.
  Solid cage;
  for (const double low_m : {0.0, c.height_m - c.cage_m}) {
    cage.rings.push_back(ring_between(bore_m, outside_m, low_m, low_m + c.cage_m, "cage"));
  }
  cage.rings.push_back(
      sectors_between(bore_m, outside_m, c.cage_m, c.height_m - c.cage_m, "bar",
                      repeated(radial_sector(c.pitch_rad() / 2, bar_rad), c.rollers)));
  return cage;
}

} // namespace

void make_roller_clutch(FigureReader& f, const MeshOptions& options, MadePart& part) {
  RollerClutch c;
  c.bore_m = f.length("bore");
  c.outside_m = f.length("outside");
  c.height_m = f.length("height");
  c.rollers = f.count("rollers", 3, 60);
  c.roller_m = f.length("roller");
  c.roller_length_m = f.length("roller_length");
  c.cage_m = f.length("cage_thickness");
  c.clockwise = f.word("rollers_pushed", {"clockwise", "counter-clockwise"}) == "clockwise";
  if (!f.ok()) {
    return;
  }
  f.must_be_less("bore", c.bore_m, "outside", c.outside_m);
  if (f.ok() && c.roller_m > (c.outside_m - c.bore_m) / 2 + 1e-9) {
    f.impossible("roller", in_brackets(in_mm(c.roller_m)) + " is thicker than the " +
                               in_mm((c.outside_m - c.bore_m) / 2) + " between bore and outside");
  }
  if (f.ok() && c.roller_length_m > c.height_m - 2 * c.cage_m) {
    f.impossible("roller_length", in_brackets(in_mm(c.roller_length_m)) + " leaves no rims of " +
                                      in_mm(c.cage_m) + " in a height of " + in_mm(c.height_m));
  }
  if (f.ok() && 2 * c.half_roller_rad() > 0.7 * c.pitch_rad()) {
    f.impossible("rollers", std::to_string(c.rollers) + " of " + in_mm(c.roller_m) +
                                " leave no room for cage and springs round " +
                                in_mm(2 * c.circle_m()));
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::one_way_element;
  component.solid.rings.push_back(ring_between(c.bore_m, c.outside_m, 0, c.height_m, "rollers"));
  component.figures.push_back(thickness_figure(c.height_m, 0, c.height_m));
  component.marks.push_back(
      {c.clockwise ? "seen from above, the springs push the rollers clockwise"
                   : "seen from above, the springs push the rollers counter-clockwise",
       c.circle_m(), 0, c.height_m});
  part.mesh = mesh_of(roller_cage(c), component.material, options);
  const double gap_rad = c.pitch_rad() / 2 - c.half_roller_rad();
  const double shift_rad = (c.clockwise ? -1 : 1) * 0.4 * gap_rad;
  const double low_m = (c.height_m - c.roller_length_m) / 2;
  const Mesh roller = round_bar(c.roller_m - 2 * clear_m, low_m + clear_m,
                                c.height_m - low_m - clear_m, component.material);
  const double bar_half_rad = std::min(0.125 * (c.pitch_rad() - 2 * c.half_roller_rad()), 0.06);
  for (int k = 0; k < c.rollers; ++k) {
    const double at_rad = k * c.pitch_rad() + shift_rad;
    append(part.mesh, placed(roller, Placement::moved(point_at(c.circle_m(), at_rad, 0))));
    const double behind = c.clockwise ? 1 : -1;
    const double bar_rad = k * c.pitch_rad() + behind * (c.pitch_rad() / 2 - bar_half_rad - 0.01);
    const double touch_rad = at_rad + behind * (c.half_roller_rad() + 0.01);
    append(part.mesh, leaf_spring(c, bar_rad, touch_rad, low_m + c.roller_length_m * 0.2,
                                  low_m + c.roller_length_m * 0.8, component.material));
  }
  component.mass_kg = mesh_mass_kg(part.mesh);
}

namespace {

struct ThrustBearing {
  double bore_m = 0;
  double outside_m = 0;
  double thickness_m = 0;
  int needles = 0;
  double needle_m = 0;
  bool race_above = false;
  bool lip_inside = true;
  double lip_m = 0;
  double lip_reach_m = 0;

  [[nodiscard]] double race_m() const { return thickness_m - needle_m; }
  [[nodiscard]] double track_bore_m() const { return bore_m + (lip_inside ? 2 * lip_m : 0); }
  [[nodiscard]] double track_outside_m() const { return outside_m - (lip_inside ? 0 : 2 * lip_m); }
  /// How wide a rim of the cage is.
  [[nodiscard]] double rim_m() const { return (track_outside_m() - track_bore_m()) / 2 * 0.14; }
  /// Worked out with the race below; this is where it is.
  [[nodiscard]] double up(double z_m) const { return race_above ? thickness_m - z_m : z_m; }
  [[nodiscard]] SectorRing level(double a_m, double b_m, double from_m, double to_m,
                                 const char* name) const {
    return ring_between(a_m, b_m, std::min(up(from_m), up(to_m)), std::max(up(from_m), up(to_m)),
                        name);
  }
};

ThrustBearing read_bearing(FigureReader& f) {
  ThrustBearing b;
  b.bore_m = f.length("bore");
  b.outside_m = f.length("outside");
  b.thickness_m = f.length("thickness");
  b.needles = f.count("needles", 6, 120);
  b.needle_m = f.length("needle");
  b.race_above = f.word("race_side", {"lower", "upper"}) == "upper";
  b.lip_inside = f.word("lip", {"inner", "outer"}) == "inner";
  b.lip_m = f.length("lip_width");
  b.lip_reach_m = f.length("lip_reach");
  return b;
}

void check_bearing(FigureReader& f, const ThrustBearing& b) {
  f.must_be_less("bore", b.bore_m, "outside", b.outside_m);
  f.must_be_less("needle", b.needle_m, "thickness", b.thickness_m);
  if (f.ok() && (b.track_outside_m() - b.track_bore_m()) / 2 < 2 * b.needle_m) {
    f.impossible("lip_width", in_brackets(in_mm(b.lip_m)) + " leaves no track for needles of " +
                                  in_mm(b.needle_m));
  }
  if (f.ok() && b.needles * b.needle_m * 1.15 > pi * (b.track_bore_m() + 2 * b.rim_m())) {
    f.impossible("needles", std::to_string(b.needles) + " of " + in_mm(b.needle_m) +
                                " do not fit side by side round " + in_mm(b.track_bore_m()));
  }
}

Mesh bearing_mesh(const ThrustBearing& b, const SectorRing& race, const SectorRing& lip,
                  const std::string& material, const MeshOptions& options) {
  constexpr double off_m = 0.2e-3; // the cage touches neither lip nor edge
  const double cage_low_m = b.race_m() + b.needle_m * 0.3;
  const double cage_high_m = b.race_m() + b.needle_m * 0.7;
  const double bore_m = b.track_bore_m();
  const double outside_m = b.track_outside_m();
  Solid drawn{{race, lip}};
  drawn.rings.push_back(
      b.level(bore_m + off_m, bore_m + 2 * b.rim_m(), cage_low_m, cage_high_m, "cage"));
  drawn.rings.push_back(
      b.level(outside_m - 2 * b.rim_m(), outside_m - off_m, cage_low_m, cage_high_m, "cage"));
  Mesh mesh = mesh_of(drawn, material, options);
  const double z_m = b.up(b.race_m() + b.needle_m / 2);
  for (int k = 0; k < b.needles; ++k) {
    const double a = 2 * pi * k / b.needles;
    append(mesh, wire_along({point_at(bore_m / 2 + b.rim_m() + clear_m, a, z_m),
                             point_at(outside_m / 2 - b.rim_m() - clear_m, a, z_m)},
                            b.needle_m, 8, material));
  }
  return mesh;
}

} // namespace

void make_thrust_bearing(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const ThrustBearing b = read_bearing(f);
  if (f.ok()) {
    check_bearing(f, b);
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::thrust_bearing;
  const double lip_bore_m = b.lip_inside ? b.bore_m : b.outside_m - 2 * b.lip_m;
  const double lip_outside_m = b.lip_inside ? b.bore_m + 2 * b.lip_m : b.outside_m;
  component.solid.rings = {
      b.level(b.track_bore_m(), b.track_outside_m(), 0, b.race_m(), "race"),
      b.level(b.track_bore_m(), b.track_outside_m(), b.race_m(), b.thickness_m, "needles"),
      b.level(lip_bore_m, lip_outside_m, -b.lip_reach_m, b.thickness_m - b.needle_m / 4, "lip")};
  component.figures.push_back(thickness_figure(b.thickness_m, std::min(b.up(0), b.up(b.race_m())),
                                               std::max(b.up(0), b.up(b.race_m()))));
  component.marks.push_back(
      {std::string("the locating lip of the race faces ") + (b.race_above ? "up" : "down"),
       (lip_bore_m + lip_outside_m) / 4, 0, b.up(-b.lip_reach_m)});
  part.mesh = bearing_mesh(b, component.solid.rings[0], component.solid.rings[2],
                           component.material, options);
  component.mass_kg = mesh_mass_kg(part.mesh);
}

void make_check_ball(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double ball_m = f.length("ball");
  const double outside_m = f.length("capsule_outside");
  const double height_m = f.length("capsule_height");
  const double seat_m = f.length("seat_bore");
  const double circle_m = f.length("circle");
  const double at_rad = f.angle_or("at", 0);
  if (!f.ok()) {
    return;
  }
  const double inside_m = ball_m + 0.4e-3;
  const double floor_m = height_m - ball_m * 1.1 - 0.4e-3;
  f.must_be_less("seat_bore", seat_m, "ball", ball_m);
  if (outside_m < inside_m + 0.6e-3) {
    f.impossible("capsule_outside", in_brackets(in_mm(outside_m)) +
                                        " leaves no wall round a ball of " + in_mm(ball_m) +
                                        " that must rattle");
  }
  if (floor_m < 0.5e-3) {
    f.impossible("capsule_height",
                 in_brackets(in_mm(height_m)) + " leaves no seat under a ball of " + in_mm(ball_m));
  }
  f.must_be_less("capsule_outside", outside_m, "circle", circle_m);
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::check_ball;
  component.solid.rings = round_sectors({circle_m / 2, {at_rad}, outside_m / 2, RoundFit::within},
                                        0, height_m, "capsule", options);
  component.marks.push_back({"the ball is free in its capsule and the open end faces up",
                             circle_m / 2, at_rad, height_m});
  // The ball lies on the edge of its seat; three dimples keep it in, drawn as a rolled edge.
  const double ball_r_m = ball_m / 2;
  const double sits_m = floor_m + std::sqrt(ball_r_m * ball_r_m - seat_m * seat_m / 4);
  const double wall_m = outside_m / 2;
  const int sides = round_corners(wall_m, RoundFit::within, options.chord_tolerance_m);
  const double edge_m = std::min(0.3e-3, (outside_m - inside_m) / 4);
  Mesh body = turned_outline({{seat_m / 2, 0},
                              {wall_m, 0},
                              {wall_m, height_m},
                              {inside_m / 2 - edge_m, height_m},
                              {inside_m / 2, height_m - edge_m},
                              {inside_m / 2, floor_m},
                              {seat_m / 2, floor_m}},
                             sides, component.material);
  body = smoothed(body, 40 * pi / 180);
  const int steps = chords_round(ball_r_m, options.chord_tolerance_m) / 2;
  std::vector<ProfileCorner> half;
  for (int k = 0; k <= steps; ++k) {
    const double a = -pi / 2 + pi * k / steps;
    const bool pole = k == 0 || k == steps;
    half.push_back({pole ? 0 : ball_r_m * std::cos(a), sits_m + clear_m + ball_r_m * std::sin(a)});
  }
  append(body, smoothed(turned_outline(half, 2 * steps, component.material), 50 * pi / 180));
  // Turned so that the facets of the capsule lie as the sides of its solid do.
  part.mesh = placed(body, Placement::turned(at_rad + pi / sides)
                               .then(Placement::moved(point_at(circle_m / 2, at_rad, 0))));
  component.mass_kg = mesh_mass_kg(part.mesh);
}

} // namespace lugline
