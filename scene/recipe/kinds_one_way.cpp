// The sprag element and the spring set: many small bodies on a circle, drawn
// one by one; for the drop each is the ring that holds them.

#include "scene/recipe/finish.h"
#include "scene/recipe/kinds.h"
#include "scene/recipe/measures.h"
#include "scene/recipe/round_hole.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

/// A sprag seen along the axis: two rounded ends and a waist. Leaning with its
/// outer end counter-clockwise of its inner one by lean_rad.
std::vector<Vec3> sprag_outline(double angle_rad, double lean_rad, double inner_m, double outer_m,
                                double width_m) {
  const double middle_m = (inner_m + outer_m) / 2;
  // Along the sprag, and to the left of it, in parts of its half length and half width.
  constexpr double shape[][2] = {{-1, -0.35}, {-0.75, -1}, {-0.3, -0.6}, {0.3, -0.6},
                                 {0.75, -1},  {1, -0.35},  {1, 0.35},    {0.75, 1},
                                 {0.3, 0.6},  {-0.3, 0.6}, {-0.75, 1},   {-1, 0.35}};
  // Its corners must stay between the races although it leans.
  const double half_m = ((outer_m - inner_m) / 2 - width_m * 0.35 / 2 * std::sin(lean_rad)) /
                        std::cos(lean_rad) * 0.96;
  std::vector<Vec3> outline;
  outline.reserve(std::size(shape));
  for (const auto& [along, left] : shape) {
    const double u = along * half_m;
    const double v = left * width_m / 2;
    const double out = middle_m + u * std::cos(lean_rad) - v * std::sin(lean_rad);
    const double across = u * std::sin(lean_rad) + v * std::cos(lean_rad);
    // Across is counter-clockwise of the sprag's own radius.
    outline.push_back({-out * std::sin(angle_rad) - across * std::cos(angle_rad),
                       out * std::cos(angle_rad) - across * std::sin(angle_rad), 0});
  }
  return outline;
}

} // namespace

void make_sprag_element(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double height_m = f.length("height");
  const int sprags = f.count("sprags", 3, 120);
  const double cage_m = f.length("cage_thickness");
  const double lean_rad = f.angle("lean");
  if (!f.ok()) {
    return;
  }
  f.must_be_less("bore", bore_m, "outside", outside_m);
  f.must_be_less("cage_thickness", cage_m, "half the height", height_m / 2);
  if (std::abs(lean_rad) >= pi / 4) {
    f.impossible("lean", in_brackets(print_angle(lean_rad)) + " is beyond 45 degrees");
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::one_way_element;
  component.solid.rings.push_back(ring_between(bore_m, outside_m, 0, height_m, "sprags"));
  component.figures.push_back(thickness_figure(height_m, 0, height_m));
  component.marks.push_back({lean_rad > 0
                                 ? "seen from above, the sprags' outer ends lean counter-clockwise"
                                 : "seen from above, the sprags' outer ends lean clockwise",
                             (bore_m + outside_m) / 4, 0, height_m});
  // Two flat cage rings, and the sprags between them.
  const double pitch_m = pi * (bore_m + outside_m) / 2 / sprags;
  const double width_m = std::min(0.62 * pitch_m, 0.3 * (outside_m - bore_m));
  const double inset_m = (outside_m - bore_m) / 8;
  Solid cage;
  for (const double low_m : {0.0, height_m - cage_m}) {
    cage.rings.push_back(
        ring_between(bore_m + 2 * inset_m, outside_m - 2 * inset_m, low_m, low_m + cage_m, "cage"));
  }
  part.mesh = mesh_of(cage, component.material, options);
  for (int k = 0; k < sprags; ++k) {
    append(
        part.mesh,
        block_over(sprag_outline(2 * pi * k / sprags, lean_rad, bore_m / 2, outside_m / 2, width_m),
                   cage_m + 0.05e-3, height_m - cage_m - 0.05e-3, component.material));
  }
  component.mass_kg = body_figures(part.mesh).volume_m3 * density_kg_per_m3(component.material);
}

namespace {

struct Coils {
  int count = 0;
  double circle_m = 0;
  double outside_m = 0;
  double wire_m = 0;
  double turns = 0;
  double free_m = 0;
};

/// One coil's middle line, its ends closed: the last turn at either end lies
/// one wire below the next.
std::vector<Vec3> coil_line(const Coils& coils, double angle_rad) {
  // Coarser than other rounds: there may be dozens of coils, and nothing rests on their sides.
  constexpr double coil_tolerance_m = 0.11e-3;
  const double mid_m = (coils.outside_m - coils.wire_m) / 2;
  const double step_rad = 2 * std::acos(std::max(1 - coil_tolerance_m / mid_m, 0.8));
  const double steps_a_turn = std::ceil(2 * pi / step_rad);
  const int steps = static_cast<int>(std::lround(coils.turns * steps_a_turn));
  const Vec3 middle = point_at(coils.circle_m / 2, angle_rad, 0);
  const double r_m = (coils.outside_m - coils.wire_m) / 2;
  const double rise_m = coils.free_m - coils.wire_m;
  const double end_m = coils.wire_m * 1.02;
  std::vector<Vec3> line;
  for (int k = 0; k <= steps; ++k) {
    const double turned = coils.turns * k / steps;
    const double left = coils.turns - turned;
    double z_m = 0;
    if (turned < 1) {
      z_m = end_m * turned;
    } else if (left < 1) {
      z_m = rise_m - end_m * left;
    } else {
      z_m = end_m + (rise_m - 2 * end_m) * (turned - 1) / (coils.turns - 2);
    }
    const Vec3 round = point_at(r_m, angle_rad + 2 * pi * turned, 0);
    line.push_back({middle.x + round.x, middle.y + round.y, coils.wire_m / 2 + z_m});
  }
  return line;
}

} // namespace

void make_spring_set(FigureReader& f, const MeshOptions& options, MadePart& part) {
  Coils coils;
  coils.count = f.count("coils", 1, 60);
  coils.circle_m = coils.count > 1 ? f.length("circle") : 0;
  coils.outside_m = f.length("coil_outside");
  coils.wire_m = f.length("wire");
  coils.turns = f.turns("turns", 3, 60);
  coils.free_m = f.length("free_height");
  const double solid_m = f.length("solid_height");
  const double rate_N_per_m = f.quantity("rate_of_each", Dimension::stiffness);
  const bool in_pockets = f.has("stand_in") && f.word("stand_in", {"pockets"}) == "pockets";
  if (!f.ok()) {
    return;
  }
  f.must_be_less("solid_height", solid_m, "free_height", coils.free_m);
  f.must_be_less("wire", coils.wire_m, "half the coil_outside", coils.outside_m / 2);
  if (coils.turns * coils.wire_m > solid_m * 1.001) {
    f.impossible("turns", "times the wire is " + in_mm(coils.turns * coils.wire_m) +
                              ", more than the solid_height (" + in_mm(solid_m) + ")");
  }
  if (coils.count > 1 && coils.circle_m * std::sin(pi / coils.count) < coils.outside_m) {
    f.impossible("coils", "of " + in_mm(coils.outside_m) +
                              " do not fit side by side: " + std::to_string(coils.count) +
                              " of them on a circle of " + in_mm(coils.circle_m));
  }
  if (in_pockets && (coils.count < 2 || coils.outside_m >= coils.circle_m)) {
    f.impossible("stand_in", "is for coils on a circle, each in a pocket of its own");
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::springs;
  // One coil alone stands round the axis and is open inside.
  const double inside_m = coils.count > 1 ? std::max(coils.circle_m - coils.outside_m, 0.0)
                                          : coils.outside_m - 2 * coils.wire_m;
  if (in_pockets) {
    // Each coil fills its own round, so that it goes down where there is a pocket for it. The
    // margin keeps the wire within where the round's nearest end is an arc about the axis.
    constexpr double margin_m = 0.05e-3;
    std::vector<double> angles_rad;
    for (int k = 0; k < coils.count; ++k) {
      angles_rad.push_back(2 * pi * k / coils.count);
    }
    component.solid.rings = round_sectors(
        {coils.circle_m / 2, angles_rad, coils.outside_m / 2 + margin_m, RoundFit::around}, 0,
        coils.free_m, "springs", options);
  } else {
    component.solid.rings.push_back(
        ring_between(inside_m, coils.circle_m + coils.outside_m, 0, coils.free_m, "springs"));
  }
  component.springs = SpringFigures{coils.free_m, solid_m, rate_N_per_m * coils.count};
  component.figures.push_back(thickness_figure(coils.free_m, 0, coils.free_m, "free height"));
  for (int k = 0; k < coils.count; ++k) {
    append(part.mesh, wire_along(coil_line(coils, 2 * pi * k / coils.count), coils.wire_m, 6,
                                 component.material));
  }
  const double wire_length_m = coils.turns * pi * (coils.outside_m - coils.wire_m);
  component.mass_kg = coils.count * wire_length_m * pi / 4 * coils.wire_m * coils.wire_m *
                      density_kg_per_m3(component.material);
}

} // namespace lugline
