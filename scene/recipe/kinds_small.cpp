// Pins and tools.

#include "scene/recipe/finish.h"
#include "scene/recipe/kinds.h"
#include "scene/recipe/measures.h"

#include <cmath>
#include <numbers>

namespace lugline {

namespace {
constexpr double pi = std::numbers::pi;
} // namespace

/// A pin that points at the axis from the side, in the frame of what carries it.
void make_pin(FigureReader& f, const MeshOptions& /*options*/, MadePart& part) {
  const double diameter_m = f.length("diameter");
  const double from_m = f.length("from_axis");
  const double to_m = f.length("to_axis");
  const double height_m = f.height("height");
  const double at_rad = f.angle("at");
  if (!f.ok()) {
    return;
  }
  f.must_be_less("from_axis", from_m, "to_axis", to_m);
  f.must_be_less("diameter", diameter_m, "from_axis", from_m);
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::pin;
  SectorRing ring = sectors_between(0, 0, height_m - diameter_m / 2, height_m + diameter_m / 2,
                                    "pin", {parallel_sector(at_rad, diameter_m)});
  ring.inner_m = from_m;
  ring.outer_m = to_m;
  component.solid.rings.push_back(ring);
  component.keys.push_back({"pin", "", at_rad, from_m, to_m, ring.low_m, ring.high_m, diameter_m});
  // A round bar lies inside the square one that stands for it in the drop.
  constexpr int sides = 24;
  const double end_m = std::sqrt(to_m * to_m - diameter_m * diameter_m / 4);
  std::vector<Vec3> outline;
  for (int k = 0; k < sides; ++k) {
    const double a = 2 * pi * k / sides;
    outline.push_back({diameter_m / 2 * std::cos(a), diameter_m / 2 * std::sin(a), 0});
  }
  part.mesh = smoothed(block_over(outline, from_m, end_m, component.material), 20 * pi / 180);
  Placement placement;
  placement.z_axis = point_at(1, at_rad, 0);
  placement.x_axis = {0, 0, 1};
  placement.y_axis = point_at(1, at_rad - pi / 2, 0);
  placement.origin_m = {0, 0, height_m};
  part.mesh = placed(part.mesh, placement);
  component.mass_kg = body_figures(part.mesh).volume_m3 * density_kg_per_m3(component.material);
}

void make_lifting_spider(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const int fingers = f.count("fingers", 2, 12);
  const double reach_m = f.length("finger_reach");
  const double finger_m = f.length("finger_height");
  const double closed_m = f.length("closed_reach");
  const double width_m = f.length("finger_width");
  const double arm_m = f.length("arm_height");
  const double handle_m = f.length("handle");
  const double bore_m = f.length_if_given("handle_bore").value_or(0);
  const double height_m = f.length("height");
  const double first_rad = f.angle_or("first_finger_at", 0);
  const std::string fits = f.text_or("fingers_fit", "");
  if (!f.ok()) {
    return;
  }
  f.must_be_less("closed_reach", closed_m, "finger_reach", reach_m);
  f.must_be_less("handle", handle_m, "closed_reach", closed_m);
  f.must_be_less("handle_bore", bore_m, "handle", handle_m);
  f.must_be_less("finger_height", finger_m, "arm_height", arm_m);
  f.must_be_less("arm_height", arm_m, "height", height_m);
  const std::vector<Sector> arms = repeated(parallel_sector(first_rad, width_m), fingers);
  if (f.ok() && (width_m >= handle_m || first_meeting(arms, handle_m / 2, reach_m / 2) >= 0)) {
    f.impossible("finger_width", in_brackets(in_mm(width_m)) + " leaves no room for " +
                                     std::to_string(fingers) + " fingers round a handle of " +
                                     in_mm(handle_m));
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::tool;
  // The arms end short of what the fingers reach under, with room to open.
  const double arm_out_m = closed_m - 2e-3;
  Workpiece piece;
  piece.add(ring_between(bore_m, handle_m, 0, height_m, "handle"));
  piece.add(sectors_between(handle_m, arm_out_m, 0, arm_m, "arm", arms));
  piece.add(sectors_between(arm_out_m, reach_m, 0, finger_m, "finger", arms));
  component.keys.push_back(
      {"finger", fits, first_rad, closed_m / 2, reach_m / 2, 0, finger_m, width_m});
  component.marks.push_back({"the handle goes up", handle_m / 2, 0, height_m});
  take_solid(f, piece, part);
  part.mesh = mesh_of(component.solid, component.material, options);
}

} // namespace lugline
