// Parts that seal: sealing rings, lip seals, O-rings, gaskets. Drawn as they
// lie when fitted, so none of them stands in what it seals against.

#include "scene/recipe/finish.h"
#include "scene/recipe/holes.h"
#include "scene/recipe/involute.h"
#include "scene/recipe/kinds.h"
#include "scene/recipe/measures.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

struct SealingRings {
  double bore_m = 0;
  double outside_m = 0;
  double height_m = 0;
  std::string joint;
  double gap_m = 0;
  double gap_at_rad = 0;
  double lap_m = 0; ///< how long the ends lie beside each other
  int count = 1;
  double spacing_m = 0;
};

SectorRing ring_but(double bore_m, double outside_m, const SealingRings& r, double from_rad,
                    double to_rad) {
  return sectors_between(bore_m, outside_m, 0, r.height_m, "sealing ring",
                         {{{r.gap_at_rad + from_rad, 0}, {r.gap_at_rad + to_rad, 0}}});
}

/// Two hooks that hold each other: seen along the axis, one end's tongue lies
/// outside the other's, and each has a nib that turns towards the other.
std::vector<SectorRing> hooked(const SealingRings& r) {
  const double mean_m = (r.bore_m + r.outside_m) / 4;
  const double gap = r.gap_m / mean_m;
  const double lap = r.lap_m / 2 / mean_m;
  const double nib = lap / 3;
  const double third_m = (r.outside_m - r.bore_m) / 3;
  const double a_m = r.bore_m + third_m;
  const double b_m = r.outside_m - third_m;
  SectorRing middle = ring_but(a_m, b_m, r, lap, 2 * pi - lap - gap);
  const auto nib_at = [&](double from_rad) {
    return Sector{{r.gap_at_rad + from_rad, 0}, {r.gap_at_rad + from_rad + nib, 0}};
  };
  middle.sectors.insert(middle.sectors.begin(), {nib_at(-lap), nib_at(lap - gap - nib)});
  return {ring_but(r.bore_m, a_m, r, lap, 2 * pi + lap - gap), middle,
          ring_but(b_m, r.outside_m, r, -lap, 2 * pi - lap - gap)};
}

/// A slanting cut: both ends run out to long points that lie over each other.
SectorRing scarfed(const SealingRings& r) {
  const double inner_m = r.bore_m / 2;
  const double outer_m = r.outside_m / 2;
  const double half = r.lap_m / (inner_m + outer_m);
  const Flank cut = flank_through(inner_m, r.gap_at_rad - half, outer_m, r.gap_at_rad + half);
  const double half_gap = r.gap_m / (inner_m + outer_m);
  return sectors_between(r.bore_m, r.outside_m, 0, r.height_m, "sealing ring",
                         {{{cut.angle_rad + half_gap, cut.offset_m},
                           {cut.angle_rad - half_gap + 2 * pi, cut.offset_m}}});
}

std::vector<SectorRing> rings_of(const SealingRings& r) {
  if (r.joint == "hook") {
    return hooked(r);
  }
  if (r.joint == "scarf") {
    return {scarfed(r)};
  }
  const double half_gap = r.gap_m / (r.bore_m + r.outside_m) * 2;
  return {ring_but(r.bore_m, r.outside_m, r, half_gap, 2 * pi - half_gap)};
}

void check_sealing_rings(FigureReader& f, const SealingRings& r) {
  f.must_be_less("bore", r.bore_m, "outside", r.outside_m);
  if (!f.ok()) {
    return;
  }
  if (r.gap_m >= pi * r.bore_m / 8) {
    f.impossible("gap", in_brackets(in_mm(r.gap_m)) + " is more than an eighth of the ring");
  }
  if (r.joint != "butt" && r.lap_m >= pi * r.bore_m / 8) {
    f.impossible("lap", in_brackets(in_mm(r.lap_m)) + " is more than an eighth of the ring");
  } else if (r.joint == "scarf" && r.lap_m * r.lap_m >= r.bore_m * (r.outside_m - r.bore_m) / 2) {
    f.impossible("lap", in_brackets(in_mm(r.lap_m)) + " is too flat a scarf across a ring " +
                            in_mm((r.outside_m - r.bore_m) / 2) + " wide");
  } else if (r.joint == "hook" && r.lap_m < 3 * r.gap_m) {
    f.impossible("gap", in_brackets(in_mm(r.gap_m)) + " leaves no nib on hooks that lap by " +
                            in_mm(r.lap_m));
  }
  if (r.count > 1 && r.spacing_m <= r.height_m) {
    f.impossible("spacing", in_brackets(in_mm(r.spacing_m)) + " puts rings of " +
                                in_mm(r.height_m) + " into one another");
  }
}

} // namespace

void make_sealing_ring(FigureReader& f, const MeshOptions& options, MadePart& part) {
  SealingRings r;
  r.bore_m = f.length("bore");
  r.outside_m = f.length("outside");
  r.height_m = f.length("height");
  r.joint = f.word("joint", {"butt", "scarf", "hook"});
  r.gap_m = f.length("gap");
  r.gap_at_rad = f.angle_or("gap_at", 0);
  r.lap_m = r.joint == "butt" ? 0 : f.length("lap");
  r.count = f.count_or("rings", 1, 1, 12);
  r.spacing_m = r.count > 1 ? f.length("spacing") : 0;
  if (f.ok()) {
    check_sealing_rings(f, r);
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::seal;
  for (int k = 0; k < r.count; ++k) {
    for (SectorRing ring : rings_of(r)) {
      ring.low_m += k * r.spacing_m;
      ring.high_m += k * r.spacing_m;
      component.solid.rings.push_back(ring);
    }
  }
  part.mesh = mesh_of(component.solid, component.material, options);
  const double top_m = (r.count - 1) * r.spacing_m + r.height_m;
  component.figures.push_back(thickness_figure(r.height_m, 0, r.height_m));
  const char* words = r.joint == "butt"    ? "the ends stand a small gap apart"
                      : r.joint == "scarf" ? "the scarf ends lie flat, long point to long point"
                                           : "the hooks of the ends are joined";
  component.marks.push_back({words, r.outside_m / 2, r.gap_at_rad, top_m});
}

void make_lip_seal(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double height_m = f.length("height");
  const bool down = f.word("lip", {"down", "up"}) == "down";
  const bool outer = f.word("rubs_on", {"outside", "bore"}) == "outside";
  if (!f.ok()) {
    return;
  }
  f.must_be_less("bore", bore_m, "outside", outside_m);
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::seal;
  component.solid.rings.push_back(ring_between(bore_m, outside_m, 0, height_m, "lip seal"));
  component.figures.push_back(thickness_figure(height_m, 0, height_m));
  component.marks.push_back({down ? "the lip faces down" : "the lip faces up",
                             (outer ? outside_m : bore_m) / 2, 0, down ? 0 : height_m});
  // Across the section from the heel's side to the rubbing one, and along it from the
  // lip's edge to the heel's back, both 0 to 1.
  constexpr double section[][2] = {{0, 0.12},   {0.34, 0.12}, {0.5, 0.6},  {0.88, 0},
                                   {1.0, 0.08}, {0.84, 0.66}, {0.84, 1.0}, {0, 1.0}};
  const double wide_m = (outside_m - bore_m) / 2;
  std::vector<ProfileCorner> outline;
  for (const auto& [across, along] : section) {
    outline.push_back({outer ? bore_m / 2 + across * wide_m : outside_m / 2 - across * wide_m,
                       down ? along * height_m : (1 - along) * height_m});
  }
  // Mirrored once, the outline would run the other way round.
  if (outer != down) {
    std::ranges::reverse(outline);
  }
  const int segments = chords_round(outside_m / 2, options.chord_tolerance_m);
  part.mesh = smoothed(turned_outline(outline, segments, component.material), 10 * pi / 180);
  component.mass_kg = mesh_mass_kg(part.mesh);
}

void make_o_ring(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double height_m = f.length_or("height", (outside_m - bore_m) / 2);
  if (!f.ok()) {
    return;
  }
  if (!f.must_be_less("bore", bore_m, "outside", outside_m)) {
    return;
  }
  const double cord_m = (outside_m - bore_m) / 2;
  if (height_m < cord_m / 2 || height_m > 2 * cord_m) {
    f.impossible("height", in_brackets(in_mm(height_m)) + " is no squeezed round of " +
                               in_mm(cord_m) + " between bore and outside");
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::seal;
  component.solid.rings.push_back(ring_between(bore_m, outside_m, 0, height_m, "O-ring"));
  component.figures.push_back(thickness_figure(height_m, 0, height_m));
  constexpr int sides = 16;
  std::vector<ProfileCorner> outline;
  for (int k = 0; k < sides; ++k) {
    const double a = 2 * pi * k / sides;
    outline.push_back({(bore_m + outside_m) / 4 + cord_m / 2 * std::cos(a),
                       height_m / 2 + height_m / 2 * std::sin(a)});
  }
  const int segments = chords_round(outside_m / 2, options.chord_tolerance_m);
  part.mesh = smoothed(turned_outline(outline, segments, component.material), 60 * pi / 180);
  component.mass_kg = mesh_mass_kg(part.mesh);
}

namespace {

/// A complaint where a hole would break through the ring's edges.
void check_in_ring(FigureReader& f, const std::string& name, double inner_m, double outer_m,
                   double bore_m, double outside_m) {
  if (inner_m <= bore_m || outer_m >= outside_m) {
    f.impossible(name, "reaches from " + in_mm(inner_m) + " to " + in_mm(outer_m) +
                           ", and the gasket from " + in_mm(bore_m) + " to " + in_mm(outside_m));
  }
}

std::string cut_holes(std::vector<FigureReader>& tables, Workpiece& piece, double bore_m,
                      double outside_m, double high_m, Component& component,
                      const MeshOptions& options) {
  for (FigureReader& t : tables) {
    const HoleFigures holes = read_holes(t);
    t.finish("a hole");
    if (t.ok()) {
      check_in_ring(t, "circle", holes.circle_m - holes.diameter_m,
                    holes.circle_m + holes.diameter_m, bore_m, outside_m);
      check_holes(t, holes);
    }
    if (!t.ok()) {
      continue;
    }
    add_hole_keys(component, holes, 0, high_m);
    for (const SectorRing& band : hole_bands(holes, 0, high_m, options)) {
      const std::string problem = piece.cut(band);
      if (!problem.empty()) {
        return problem;
      }
    }
  }
  return {};
}

std::string cut_windows(std::vector<FigureReader>& tables, Workpiece& piece, double bore_m,
                        double outside_m, double high_m, Component& component) {
  for (FigureReader& t : tables) {
    const double inner_m = t.length("inner");
    const double outer_m = t.length("outer");
    const double width_m = t.length("width");
    const double at_rad = t.angle("at");
    const std::string name = t.text_or("name", "window");
    const std::string fits = t.text_or("fits", "");
    t.finish("a window");
    if (!t.ok() || !t.must_be_less("inner", inner_m, "outer", outer_m)) {
      continue;
    }
    check_in_ring(t, "inner", inner_m, outer_m, bore_m, outside_m);
    if (width_m >= inner_m) {
      t.impossible("width",
                   in_brackets(in_mm(width_m)) + " leaves no room round " + in_mm(inner_m));
    }
    if (!t.ok()) {
      continue;
    }
    component.keys.push_back({name, fits, at_rad, inner_m / 2, outer_m / 2, 0, high_m, width_m});
    const std::string problem = piece.cut(
        sectors_between(inner_m, outer_m, 0, high_m, name, {parallel_sector(at_rad, width_m)}));
    if (!problem.empty()) {
      return name + ": " + problem;
    }
  }
  return {};
}

} // namespace

void make_gasket(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double free_m = f.length("free_height");
  const double pressed_m = f.length("compressed_height");
  std::vector<FigureReader> holes = f.tables("hole");
  std::vector<FigureReader> windows = f.tables("window");
  if (!f.ok()) {
    return;
  }
  f.must_be_less("bore", bore_m, "outside", outside_m);
  f.must_be_less("compressed_height", pressed_m, "free_height", free_m);
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  Workpiece piece;
  piece.add(ring_between(bore_m, outside_m, 0, free_m, "gasket"));
  std::string problem = cut_holes(holes, piece, bore_m, outside_m, free_m, component, options);
  if (problem.empty() && f.ok()) {
    problem = cut_windows(windows, piece, bore_m, outside_m, free_m, component);
  }
  if (!problem.empty()) {
    f.impossible("id", "cannot be made: " + problem);
  }
  if (!f.ok()) {
    return;
  }
  component.kind = ComponentKind::gasket;
  component.wave = WaveFigures{free_m, pressed_m, 0};
  component.figures.push_back(thickness_figure(pressed_m, 0, free_m));
  component.figures.push_back(thickness_figure(free_m, 0, free_m, "free height"));
  take_solid(f, piece, part);
  part.mesh = mesh_of(component.solid, component.material, options);
}

} // namespace lugline
