// Parts that are rings and little else: pistons, retainers, races, washers.

#include "scene/recipe/finish.h"
#include "scene/recipe/holes.h"
#include "scene/recipe/kinds.h"
#include "scene/recipe/surface.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

void take_and_mesh(FigureReader& f, Workpiece& piece, const MeshOptions& options, MadePart& part) {
  take_solid(f, piece, part);
  if (f.ok()) {
    part.mesh = mesh_of(part.component.solid, part.component.material, options);
  }
}

/// Round pockets for springs, sunk into a web's upper face.
struct Pockets {
  HoleFigures holes; ///< count 0: none
  double depth_m = 0;
};

Pockets read_pockets(FigureReader& f) {
  Pockets pockets;
  pockets.holes.count = f.count_or("pockets", 0, 1, 60);
  if (f.has("pockets")) {
    pockets.holes.diameter_m = f.length("pocket_diameter");
    pockets.holes.circle_m = f.length("pocket_circle");
    pockets.depth_m = f.length("pocket_depth");
    pockets.holes.at_rad = f.angle_or("first_pocket_at", 0);
    pockets.holes.name = "pocket";
  }
  return pockets;
}

/// They lie on the web inside the apply face, or beyond it, and `cuts` stay below their floor.
void check_pockets(FigureReader& f, const Pockets& pockets, const SectorRing& web,
                   const SectorRing& face, const std::vector<SectorRing>& cuts) {
  const HoleFigures& holes = pockets.holes;
  if (holes.count == 0) {
    return;
  }
  const double inner_m = (holes.circle_m - holes.diameter_m) / 2;
  const double outer_m = (holes.circle_m + holes.diameter_m) / 2;
  const bool within = inner_m > web.inner_m && outer_m < face.inner_m;
  const bool beyond = inner_m > face.outer_m && outer_m < web.outer_m;
  if (!within && !beyond) {
    f.impossible("pocket_circle", "puts pockets from " + in_mm(2 * inner_m) + " to " +
                                      in_mm(2 * outer_m) +
                                      ", not on the web beside the apply face");
  }
  const double apart_m = holes.circle_m * std::sin(pi / holes.count);
  if (holes.count > 1 && apart_m <= holes.diameter_m * 1.02) {
    f.impossible("pockets", "of " + in_mm(holes.diameter_m) +
                                " leave no wall: " + std::to_string(holes.count) +
                                " of them on a circle of " + in_mm(holes.circle_m));
  }
  double least_m = web.low_m;
  for (const SectorRing& cut : cuts) {
    if (cut.inner_m < outer_m && cut.outer_m > inner_m) {
      least_m = std::max(least_m, cut.high_m);
    }
  }
  f.must_be_less("pocket_depth", pockets.depth_m, "the metal there", web.high_m - least_m);
}

} // namespace

void make_piston(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double web_m = f.length("web_thickness");
  const double height_m = f.length("height");
  const double face_bore_m = f.length("face_bore");
  const double face_outside_m = f.length_or("face_outside", outside_m);
  const std::optional<double> recess_bore_m = f.length_if_given("recess_bore");
  const double recess_outside_m = recess_bore_m ? f.length("recess_outside") : 0;
  const double recess_m = recess_bore_m ? f.length("recess_depth") : 0;
  std::vector<FigureReader> groove_tables = f.tables("seal_groove");
  std::vector<SectorRing> grooves;
  for (FigureReader& t : groove_tables) {
    if (const std::optional<SectorRing> groove = read_seal_groove(t)) {
      grooves.push_back(*groove);
    }
  }
  const Pockets pockets = read_pockets(f);
  if (!f.ok()) {
    return;
  }
  f.must_be_less("bore", bore_m, "outside", outside_m);
  f.must_be_less("web_thickness", web_m, "height", height_m);
  f.must_be_less("face_bore", face_bore_m, "face_outside", face_outside_m);
  if (face_bore_m < bore_m || face_outside_m > outside_m) {
    f.impossible("face_bore", "to face_outside is not within bore to outside");
  }
  if (recess_bore_m) {
    f.must_be_less("recess_bore", *recess_bore_m, "recess_outside", recess_outside_m);
    f.must_be_less("recess_depth", recess_m, "web_thickness", web_m);
    grooves.insert(grooves.begin(),
                   ring_between(*recess_bore_m, recess_outside_m, 0, recess_m, "recess"));
  }
  const SectorRing web = ring_between(bore_m, outside_m, 0, web_m, "web");
  const SectorRing face = ring_between(face_bore_m, face_outside_m, web_m, height_m, "apply face");
  if (f.ok()) {
    check_pockets(f, pockets, web, face, grooves);
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::piston;
  Workpiece piece;
  piece.add(web);
  piece.add(face);
  for (const SectorRing& cut : grooves) {
    piece.cut(cut);
  }
  if (pockets.holes.count > 0) {
    add_hole_keys(component, pockets.holes, web_m - pockets.depth_m, web_m);
    for (const SectorRing& band :
         hole_bands(pockets.holes, web_m - pockets.depth_m, web_m, options)) {
      piece.cut(band);
    }
  }
  component.figures.push_back(thickness_figure(height_m, web_m, height_m));
  component.marks.push_back(
      {"the apply face goes up", (face_bore_m + face_outside_m) / 4, 0, height_m});
  take_and_mesh(f, piece, options, part);
}

void make_retainer(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double thickness_m = f.length("thickness");
  const std::optional<double> rim_from_m = f.length_if_given("rim_from");
  const double rim_m = rim_from_m ? f.length("rim_height") : 0;
  if (!f.ok()) {
    return;
  }
  f.must_be_less("bore", bore_m, "outside", outside_m);
  if (rim_from_m) {
    f.must_be_less("rim_from", *rim_from_m, "outside", outside_m);
    f.must_be_less("bore", bore_m, "rim_from", *rim_from_m);
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::retainer;
  Workpiece piece;
  piece.add(ring_between(bore_m, outside_m, 0, thickness_m, "plate"));
  if (rim_from_m) {
    piece.add(ring_between(*rim_from_m, outside_m, thickness_m, thickness_m + rim_m, "rim"));
    component.marks.push_back(
        {"the raised rim faces up", (*rim_from_m + outside_m) / 4, 0, thickness_m + rim_m});
  }
  component.figures.push_back(thickness_figure(thickness_m, 0, thickness_m));
  take_and_mesh(f, piece, options, part);
}

void make_spacer_ring(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double height_m = f.length("height");
  if (!f.ok() || !f.must_be_less("bore", bore_m, "outside", outside_m)) {
    return;
  }
  Workpiece piece;
  piece.add(ring_between(bore_m, outside_m, 0, height_m, "ring"));
  part.component.figures.push_back(thickness_figure(height_m, 0, height_m));
  take_and_mesh(f, piece, options, part);
}

void make_inner_race(FigureReader& f, const MeshOptions& options, MadePart& part) {
  make_spacer_ring(f, options, part);
  part.component.kind = ComponentKind::one_way_inner;
  for (SectorRing& ring : part.component.solid.rings) {
    ring.feature = "race";
  }
}

void make_outer_race(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double root_m = f.length("teeth_root");
  const double tip_m = f.length("teeth_tip");
  const int teeth = f.count("teeth", 3, 360);
  const double tooth_rad = f.angle("tooth_width");
  const double height_m = f.length("height");
  const std::string fits = f.text_or("teeth_fit", "");
  const double lead_m = f.length_if_given("lead_chamfer").value_or(0);
  if (!f.ok()) {
    return;
  }
  f.must_be_less("bore", bore_m, "teeth_root", root_m);
  f.must_be_less("teeth_root", root_m, "teeth_tip", tip_m);
  f.must_be_less("lead_chamfer", lead_m, "height", height_m);
  if (!(tooth_rad > 0) || tooth_rad * teeth >= 2 * pi) {
    f.impossible("tooth_width", in_brackets(print_angle(tooth_rad)) +
                                    " is not between nothing and the " +
                                    print_angle(2 * pi / teeth) + " pitch");
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::one_way_outer;
  Workpiece piece;
  piece.add(ring_between(bore_m, root_m, 0, height_m, "race"));
  piece.add(sectors_between(root_m, tip_m, 0, height_m, "tooth",
                            repeated(radial_sector(0, tooth_rad), teeth)));
  component.keys.push_back(
      {"tooth", fits, 0, root_m / 2, tip_m / 2, 0, height_m, tip_m * std::sin(tooth_rad / 2)});
  component.figures.push_back(thickness_figure(height_m, 0, height_m));
  take_solid(f, piece, part);
  if (lead_m <= 0) {
    part.mesh = mesh_of(component.solid, component.material, options);
    return;
  }
  component.marks.push_back({"the chamfered tooth ends face down", tip_m / 2, 0, 0});
  // The lower tooth ends lean in over the chamfer: a third narrower, and lower.
  part.mesh = surface_of(component.solid, component.material, options, {{}, {lead_m}});
  const double depth_m = std::min(lead_m / 2, (tip_m - root_m) / 2 * 0.6);
  bend(part.mesh, [&](const Vec3& p) {
    const double r_m = std::hypot(p.x, p.y);
    if (p.z > lead_m / 2 || r_m < root_m / 2 + 1e-6) {
      return p;
    }
    const double angle = std::atan2(-p.x, p.y);
    const double middle = std::round(angle * teeth / (2 * pi)) * 2 * pi / teeth;
    return point_at(r_m - depth_m, middle + (angle - middle) * 2 / 3, p.z);
  });
  part.mesh = smoothed(part.mesh, 8 * pi / 180);
}

void make_thrust_washer(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double thickness_m = f.length("thickness");
  const int tabs = f.count_or("tabs", 0, 1, 24);
  const double over_tabs_m = f.has("tabs") ? f.length("over_tabs") : outside_m;
  const double tab_m = f.has("tabs") ? f.length("tab_width") : 0;
  const double tab_drop_m = f.has("tabs") ? f.length("tab_drop") : 0;
  const double first_rad = f.angle_or("first_tab_at", 0);
  const std::string fits = f.text_or("tabs_fit", "");
  const bool up = f.word_or("tabs_face", "down", {"down", "up"}) == "up";
  const int grooves = f.count_or("oil_grooves", 0, 1, 24);
  const double groove_m = f.has("oil_grooves") ? f.length("oil_groove_width") : 0;
  const double groove_deep_m = f.has("oil_grooves") ? f.length("oil_groove_depth") : 0;
  if (!f.ok()) {
    return;
  }
  f.must_be_less("bore", bore_m, "outside", outside_m);
  const std::vector<Sector> tab_sectors = repeated(parallel_sector(first_rad, tab_m), tabs);
  if (tabs > 0 && f.must_be_less("outside", outside_m, "over_tabs", over_tabs_m) &&
      (tab_m >= outside_m || first_meeting(tab_sectors, outside_m / 2, over_tabs_m / 2) >= 0)) {
    f.impossible("tab_width", "leaves no room: " + std::to_string(tabs) + " tabs of " +
                                  in_mm(tab_m) + " do not fit round " + in_mm(outside_m));
  }
  const std::vector<Sector> groove_sectors =
      repeated(parallel_sector(first_rad + pi / std::max(grooves, 1), groove_m), grooves);
  if (grooves > 0 && f.must_be_less("oil_groove_depth", groove_deep_m, "thickness", thickness_m) &&
      (groove_m >= bore_m || first_meeting(groove_sectors, bore_m / 2, outside_m / 2) >= 0)) {
    f.impossible("oil_groove_width", "leaves no face between the grooves");
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::thrust_washer;
  Workpiece piece;
  piece.add(ring_between(bore_m, outside_m, 0, thickness_m, "washer"));
  if (tabs > 0) {
    // Bent down from the edge: of two washers one on the other, the upper one's
    // tabs hang past the lower one's where there is room.
    const double tab_top_m = std::max(thickness_m - tab_drop_m, thickness_m / 4);
    const double low_m = up ? thickness_m - tab_top_m : -tab_drop_m;
    const double high_m = up ? thickness_m + tab_drop_m : tab_top_m;
    piece.add(sectors_between(outside_m, over_tabs_m, low_m, high_m, "tab", tab_sectors));
    component.keys.push_back(
        {"tab", fits, first_rad, outside_m / 2, over_tabs_m / 2, low_m, high_m, tab_m});
    component.marks.push_back({up ? "the tabs face up" : "the tabs face down", over_tabs_m / 2,
                               first_rad, up ? high_m : low_m});
  }
  if (grooves > 0) {
    // Away from the tabs.
    const double low_m = up ? 0 : thickness_m - groove_deep_m;
    piece.cut(sectors_between(bore_m, outside_m, low_m, low_m + groove_deep_m, "oil groove",
                              groove_sectors));
    component.marks.push_back({up ? "the oil grooves face down" : "the oil grooves face up",
                               (bore_m + outside_m) / 4, first_rad + pi / grooves,
                               up ? 0 : thickness_m});
  }
  component.figures.push_back(thickness_figure(thickness_m, 0, thickness_m));
  take_and_mesh(f, piece, options, part);
}

} // namespace lugline
