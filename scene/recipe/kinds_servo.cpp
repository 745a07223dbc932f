// What applies a band: servo piston, pin, cover and lever. They lie crosswise to
// the unit's axis, so the drop sees only what holds them (aside.h).

#include "scene/recipe/aside.h"
#include "scene/recipe/finish.h"
#include "scene/recipe/holes.h"
#include "scene/recipe/kinds.h"
#include "scene/recipe/measures.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;
constexpr int coil_steps = 36; ///< a turn

/// Lays an upright part down where it is to lie crosswise: its mesh, and what holds
/// its bodies in place of its solid.
void lay_down(FigureReader& f, const std::optional<Aside>& aside,
              const std::vector<AsideBody>& bodies, MadePart& part) {
  if (!aside) {
    return;
  }
  Component& component = part.component;
  component.solid.rings.clear();
  for (const AsideBody& body : bodies) {
    const std::string problem = aside_problem(*aside, body);
    if (!problem.empty()) {
      f.impossible("from_axis", problem);
      return;
    }
    for (SectorRing& ring : held_aside(*aside, body)) {
      component.solid.rings.push_back(std::move(ring));
    }
  }
  const Placement placement = aside->placement();
  part.mesh = placed(part.mesh, placement);
  for (Mark& mark : component.marks) {
    const Vec3 at = placement.point({0, mark.radius_m, mark.height_m});
    mark.radius_m = std::min(std::hypot(at.x, at.y), component.solid.outer_m());
    mark.angle_rad = std::atan2(-at.x, at.y);
    mark.height_m = at.z;
  }
  component.keys.clear();
  // Its length lies across the axis: another figure is another part to fit, and moves nothing.
  for (Figure& figure : component.figures) {
    figure.zone_low_m = component.solid.high_m() + 1e-3;
    figure.zone_high_m = figure.zone_low_m;
  }
}

struct Spring {
  double outside_m = 0;
  double wire_m = 0;
  double turns = 0;
  double height_m = 0;
};

Mesh coil_below(const Spring& spring, const std::string& material) {
  const int steps = static_cast<int>(std::lround(spring.turns * coil_steps));
  const double r_m = (spring.outside_m - spring.wire_m) / 2;
  const double rise_m = spring.height_m - spring.wire_m;
  std::vector<Vec3> line;
  for (int k = 0; k <= steps; ++k) {
    const double share = 1.0 * k / steps;
    line.push_back(point_at(r_m, 2 * pi * spring.turns * share,
                            spring.wire_m / 2 + rise_m * share - spring.height_m));
  }
  return wire_along(line, spring.wire_m, 8, material);
}

} // namespace

/// Its own zero is the face towards the band, which the spring pushes against.
void make_servo_piston(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double outside_m = f.length("outside");
  const double height_m = f.length("piston_height");
  const double bore_m = f.length("pin_bore");
  const int rings = f.count("rings", 1, 4);
  const double ring_m = f.length("ring_width");
  const double deep_m = f.length("ring_depth");
  Spring spring;
  spring.outside_m = f.length("spring_outside");
  spring.wire_m = f.length("spring_wire");
  spring.turns = f.turns("spring_turns", 2, 30);
  spring.height_m = f.length("spring_height");
  const std::optional<Aside> aside = read_aside(f);
  if (!f.ok()) {
    return;
  }
  f.must_be_less("pin_bore", bore_m, "outside", outside_m);
  f.must_be_less("spring_outside", spring.outside_m, "outside", outside_m);
  f.must_be_less("pin_bore", bore_m, "the spring's inside", spring.outside_m - 2 * spring.wire_m);
  if (2 * rings * ring_m >= height_m) {
    f.impossible("ring_width", std::to_string(rings) + " rings of " + in_mm(ring_m) +
                                   " leave no lands on a piston of " + in_mm(height_m));
  }
  f.must_be_less("ring_depth", deep_m, "the wall", (outside_m - bore_m) / 2);
  if (f.ok() && spring.turns * spring.wire_m >= spring.height_m) {
    f.impossible("spring_turns", "times the wire is " + in_mm(spring.turns * spring.wire_m) +
                                     ", and the spring_height " + in_mm(spring.height_m));
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::servo;
  Workpiece piece;
  piece.add(ring_between(bore_m, outside_m, 0, height_m, "piston"));
  std::vector<SectorRing> seals;
  for (int k = 0; k < rings; ++k) {
    const double middle_m = height_m * (k + 1) / (rings + 1);
    SectorRing seal = ring_between(outside_m - 2 * deep_m, outside_m, middle_m - ring_m / 2,
                                   middle_m + ring_m / 2, "lip ring");
    piece.cut(seal);
    seal.material = "rubber";
    seals.push_back(seal);
  }
  Solid body = piece.take();
  body.rings.insert(body.rings.end(), seals.begin(), seals.end());
  part.mesh = mesh_of(body, component.material, options);
  append(part.mesh, coil_below(spring, "steel"));
  component.mass_kg = mesh_mass_kg(part.mesh);
  component.solid = body;
  // The wire's chords lie inside its own circle.
  const double inside_m = (spring.outside_m - 2 * spring.wire_m) * std::cos(pi / coil_steps);
  component.solid.rings.push_back(
      ring_between(inside_m, spring.outside_m, -spring.height_m, 0, "spring"));
  component.marks.push_back(
      {"the lips face the cover, the spring the band", outside_m / 2, 0, height_m});
  lay_down(f, aside,
           {{0, height_m, outside_m, bore_m, "piston"},
            {-spring.height_m, 0, spring.outside_m, bore_m, "spring"}},
           part);
}

/// Its own zero is the end that meets the band or the lever; the grooves that tell
/// its length are at the other end, in the piston.
void make_servo_pin(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double diameter_m = f.length("diameter");
  const double length_m = f.length("length");
  const int grooves = f.count_or("code_grooves", 0, 1, 8);
  const double groove_m = f.has("code_grooves") ? f.length("groove_width") : 0;
  const double deep_m = f.has("code_grooves") ? f.length("groove_depth") : 0;
  const std::optional<Aside> aside = read_aside(f);
  if (!f.ok()) {
    return;
  }
  if (f.must_be_less("diameter", diameter_m, "length", length_m) && grooves > 0) {
    f.must_be_less("groove_depth", deep_m, "a quarter of the diameter", diameter_m / 4);
    if (2 * groove_m * (grooves + 1) >= length_m / 2) {
      f.impossible("groove_width", std::to_string(grooves) + " grooves of " + in_mm(groove_m) +
                                       " take up half the pin");
    }
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::pin;
  component.solid.rings.push_back(ring_between(0, diameter_m, 0, length_m, "pin"));
  const double edge_m = diameter_m * 0.06;
  const double r_m = diameter_m / 2;
  std::vector<ProfileCorner> outline{{0, 0}, {r_m - edge_m, 0}, {r_m, edge_m}};
  for (int k = grooves; k > 0; --k) {
    const double low_m = length_m - 2 * k * groove_m;
    outline.push_back({r_m, low_m});
    outline.push_back({r_m - deep_m, low_m});
    outline.push_back({r_m - deep_m, low_m + groove_m});
    outline.push_back({r_m, low_m + groove_m});
  }
  outline.push_back({r_m, length_m - edge_m});
  outline.push_back({r_m - edge_m, length_m});
  outline.push_back({0, length_m});
  const int sides = std::max(chords_round(r_m, options.chord_tolerance_m), 24);
  part.mesh = smoothed(turned_outline(outline, sides, component.material), 30 * pi / 180);
  component.mass_kg = mesh_mass_kg(part.mesh);
  component.figures.push_back(thickness_figure(length_m, edge_m, length_m / 2));
  if (grooves > 0) {
    component.marks.push_back({std::to_string(grooves) +
                                   (grooves == 1 ? " groove tells" : " grooves tell") +
                                   " its length; the grooved end goes into the piston",
                               r_m, 0, length_m});
  }
  lay_down(f, aside, {{0, length_m, diameter_m, 0, "pin"}}, part);
}

namespace {

struct ServoCover {
  double outside_m = 0;
  double thickness_m = 0;
  double spigot_m = 0;
  double spigot_height_m = 0;
  double gasket_m = 0;
  double slot_m = 0;
  double slot_at_rad = 0;
  HoleFigures bolts; ///< their diameter is the thread's

  [[nodiscard]] double across_m() const { return 1.7 * bolts.diameter_m; }
  [[nodiscard]] double head_m() const { return 0.65 * bolts.diameter_m; }
  [[nodiscard]] double gasket_bore_m() const { return spigot_m + 0.4e-3; }
  [[nodiscard]] double slot_outside_m() const { return bolts.circle_m - across_m(); }
};

ServoCover read_cover(FigureReader& f) {
  ServoCover c;
  c.outside_m = f.length("outside");
  c.thickness_m = f.length("thickness");
  c.spigot_m = f.length("spigot");
  c.spigot_height_m = f.length("spigot_height");
  c.gasket_m = f.length("gasket");
  c.slot_m = f.length("feed_slot");
  c.slot_at_rad = f.angle_or("feed_slot_at", 0);
  c.bolts.count = f.count("bolts", 3, 12);
  c.bolts.circle_m = f.length("bolt_circle");
  c.bolts.diameter_m = f.length("thread");
  c.bolts.at_rad = f.angle_or("first_bolt_at", 0);
  c.bolts.name = "bolt";
  return c;
}

void check_cover(FigureReader& f, const ServoCover& c) {
  f.must_be_less("spigot", c.spigot_m, "bolt_circle", c.bolts.circle_m - c.across_m());
  f.must_be_less("bolt_circle", c.bolts.circle_m + c.across_m(), "outside", c.outside_m);
  f.must_be_less("gasket", c.gasket_m, "spigot_height", c.spigot_height_m);
  if (f.ok()) {
    check_holes(f, c.bolts);
  }
  if (f.ok() && c.slot_m >= c.spigot_m) {
    f.impossible("feed_slot", in_brackets(in_mm(c.slot_m)) + " is wider than the spigot");
  }
}

/// The cover and its gasket, without bolts.
Solid cover_solid(const ServoCover& c, const MeshOptions& options) {
  Workpiece cover;
  cover.add(ring_between(0, c.outside_m, 0, c.thickness_m, "cover"));
  cover.add(ring_between(0, c.spigot_m, -c.spigot_height_m, 0, "spigot"));
  Workpiece paper;
  SectorRing sheet = ring_between(c.gasket_bore_m(), c.outside_m, -c.gasket_m, 0, "gasket");
  sheet.material = "rubber";
  paper.add(sheet);
  paper.cut(sectors_between(c.gasket_bore_m(), c.slot_outside_m(), -c.gasket_m, 0, "feed slot",
                            {parallel_sector(c.slot_at_rad, c.slot_m)}));
  HoleFigures holes = c.bolts;
  holes.diameter_m *= 1.1;
  for (const SectorRing& band : hole_bands(holes, -c.gasket_m, c.thickness_m, options)) {
    cover.cut(band);
    paper.cut(band);
  }
  Solid solid = cover.take();
  const Solid gasket = paper.take();
  solid.rings.insert(solid.rings.end(), gasket.rings.begin(), gasket.rings.end());
  return solid;
}

void add_cover_bolts(const ServoCover& c, const MeshOptions& options, MadePart& part) {
  const double r_m = c.bolts.diameter_m / 2;
  const double low_m = -c.spigot_height_m;
  const double high_m = c.thickness_m + c.head_m();
  const int sides = round_corners(r_m, RoundFit::within, options.chord_tolerance_m);
  Mesh bolt =
      smoothed(turned_outline({{0, low_m}, {r_m, low_m}, {r_m, c.thickness_m}, {0, c.thickness_m}},
                              sides, "steel"),
               40 * pi / 180);
  const double corner_m = c.across_m() / std::sqrt(3.0);
  std::vector<Vec3> hexagon;
  for (int k = 0; k < 6; ++k) {
    hexagon.push_back({corner_m * std::cos(pi / 3 * k), corner_m * std::sin(pi / 3 * k), 0});
  }
  append(bolt, block_over(hexagon, c.thickness_m, high_m, "steel"));
  for (const double at : c.bolts.angles_rad()) {
    append(part.mesh,
           placed(bolt, Placement::turned(at + pi / sides)
                            .then(Placement::moved(point_at(c.bolts.circle_m / 2, at, 0)))));
  }
  const auto hold = [&](double radius_m, double from_m, double to_m, const char* name) {
    const RoundPlaces places{c.bolts.circle_m / 2, c.bolts.angles_rad(), radius_m,
                             RoundFit::within};
    for (SectorRing& band : round_sectors(places, from_m, to_m, name, options)) {
      part.component.solid.rings.push_back(std::move(band));
    }
  };
  hold(c.across_m() * 0.61, c.thickness_m, high_m, "bolt head");
  hold(r_m, low_m, c.thickness_m, "bolt");
}

} // namespace

/// Its own zero is the face that the cover bolts down on; the spigot and the gasket
/// are below it, the bolts' heads above.
void make_servo_cover(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const ServoCover c = read_cover(f);
  const std::optional<Aside> aside = read_aside(f);
  if (f.ok()) {
    check_cover(f, c);
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::servo;
  component.solid = cover_solid(c, options);
  part.mesh = mesh_of(component.solid, component.material, options);
  add_cover_bolts(c, options, part);
  component.mass_kg = mesh_mass_kg(part.mesh);
  component.marks.push_back({"the gasket's slot lies over the feed hole",
                             (c.spigot_m + c.slot_outside_m()) / 4, c.slot_at_rad, -c.gasket_m});
  lay_down(f, aside,
           {{-c.gasket_m, c.thickness_m + c.head_m(), c.outside_m, 0, "cover"},
            {-c.spigot_height_m, -c.gasket_m, c.bolts.circle_m + c.bolts.diameter_m, 0, "spigot"}},
           part);
}

namespace {

/// A lever's middle line, bent evenly through its pivot, and how wide it is there.
std::vector<Vec3> lever_outline(const Vec3& inner, const Vec3& pivot, const Vec3& outer,
                                double tip_m, double boss_m) {
  constexpr int steps = 20;
  const Vec3 control{2 * pivot.x - (inner.x + outer.x) / 2, 2 * pivot.y - (inner.y + outer.y) / 2,
                     0};
  std::vector<Vec3> right;
  std::vector<Vec3> left;
  for (int k = 0; k <= steps; ++k) {
    const double t = 1.0 * k / steps;
    const double u = 1 - t;
    const Vec3 at{u * u * inner.x + 2 * u * t * control.x + t * t * outer.x,
                  u * u * inner.y + 2 * u * t * control.y + t * t * outer.y, 0};
    const double dx = u * (control.x - inner.x) + t * (outer.x - control.x);
    const double dy = u * (control.y - inner.y) + t * (outer.y - control.y);
    const double along = std::hypot(dx, dy);
    // Rounded at the tips, widest at the boss.
    const double from_tip = std::min(t, u) * 8;
    const double round = from_tip < 1 ? std::sqrt(1 - (1 - from_tip) * (1 - from_tip) * 0.9) : 1;
    const double near_pivot = std::exp(-std::pow((t - 0.5) / 0.16, 2));
    const double half_m = (tip_m + (boss_m - tip_m) * near_pivot) / 2 * round;
    right.push_back({at.x + dy / along * half_m, at.y - dx / along * half_m, 0});
    left.push_back({at.x - dy / along * half_m, at.y + dx / along * half_m, 0});
  }
  right.insert(right.end(), left.rbegin(), left.rend());
  return right;
}

} // namespace

/// Heights and angles are the unit's: a lever lies level and turns about a pivot that
/// is parallel to the unit's axis.
void make_lever(FigureReader& f, const MeshOptions& /*options*/, MadePart& part) {
  const double circle_m = f.length("pivot_circle");
  const double at_rad = f.angle("at");
  const double low_m = f.height("height");
  const double thickness_m = f.length("thickness");
  const double inner_m = f.length("band_arm");
  const double outer_m = f.length("servo_arm");
  const double inner_rad = f.angle("band_arm_turn");
  const double outer_rad = f.angle("servo_arm_turn");
  const double tip_m = f.length("arm_width");
  const double boss_m = f.length("boss");
  const double pivot_m = f.length("pivot");
  const double pivot_length_m = f.length("pivot_length");
  if (!f.ok()) {
    return;
  }
  f.must_be_less("arm_width", tip_m, "boss", boss_m);
  f.must_be_less("pivot", pivot_m, "boss", boss_m);
  f.must_be_less("boss", boss_m, "twice the band_arm", 2 * inner_m);
  f.must_be_less("boss", boss_m, "twice the servo_arm", 2 * outer_m);
  f.must_be_less("thickness", thickness_m, "pivot_length", pivot_length_m);
  const double between = std::abs(std::remainder(inner_rad - outer_rad, 2 * pi));
  if (between < pi / 3) {
    f.impossible("servo_arm_turn", "puts the two arms " + print_angle(between) +
                                       " apart: less than 60 degrees is no lever");
  }
  f.must_be_less("the longer arm", std::max(inner_m, outer_m), "half the pivot_circle",
                 circle_m / 2);
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::servo;
  const Vec3 pivot = point_at(circle_m / 2, at_rad, 0);
  const auto tip_of = [&](double arm_m, double turn_rad) {
    const Vec3 off = point_at(arm_m, at_rad + turn_rad, 0);
    return Vec3{pivot.x + off.x, pivot.y + off.y, 0};
  };
  std::vector<Vec3> outline =
      lever_outline(tip_of(inner_m, inner_rad), pivot, tip_of(outer_m, outer_rad), tip_m, boss_m);
  part.mesh =
      smoothed(block_over(outline, low_m, low_m + thickness_m, component.material), 30 * pi / 180);
  const double stub_m = (pivot_length_m - thickness_m) / 2;
  for (const double from_m : {low_m - stub_m, low_m + thickness_m}) {
    append(part.mesh, placed(round_bar(pivot_m, from_m, from_m + stub_m, component.material),
                             Placement::moved(pivot)));
  }
  component.solid.rings = holding_sectors(part.mesh, at_rad, "lever");
  component.mass_kg = mesh_mass_kg(part.mesh);
}

} // namespace lugline
