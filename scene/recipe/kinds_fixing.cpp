// Parts that hold or guide others: bushings and bolts.

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
} // namespace

void make_bushing(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const double bore_m = f.length("bore");
  const double outside_m = f.length("outside");
  const double height_m = f.length("height");
  const bool grooved = f.has("groove_width");
  const double groove_m = grooved ? f.length("groove_width") : 0;
  const double deep_m = grooved ? f.length("groove_depth") : 0;
  const double stop_m = grooved ? f.length("groove_stops") : 0;
  const bool open_up = grooved && f.word("groove_open", {"upper end", "lower end"}) == "upper end";
  const double at_rad = grooved ? f.angle_or("groove_at", 0) : 0;
  if (!f.ok()) {
    return;
  }
  if (f.must_be_less("bore", bore_m, "outside", outside_m) && grooved) {
    f.must_be_less("groove_depth", deep_m, "the wall", (outside_m - bore_m) / 2);
    f.must_be_less("groove_stops", stop_m, "height", height_m);
    f.must_be_less("groove_width", groove_m, "bore", bore_m);
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::bushing;
  Workpiece piece;
  piece.add(ring_between(bore_m, outside_m, 0, height_m, "bushing"));
  if (grooved) {
    const double low_m = open_up ? stop_m : 0;
    const double high_m = open_up ? height_m : height_m - stop_m;
    piece.cut(sectors_between(bore_m, bore_m + 2 * deep_m, low_m, high_m, "oil groove",
                              {parallel_sector(at_rad, groove_m)}));
    component.marks.push_back(
        {open_up ? "the oil groove's open end faces up" : "the oil groove's open end faces down",
         bore_m / 2, at_rad, open_up ? height_m : 0});
  }
  component.figures.push_back(thickness_figure(height_m, 0, height_m));
  take_solid(f, piece, part);
  part.mesh = mesh_of(component.solid, component.material, options);
}

namespace {

/// Standing on its thread: the shank below, washer and hexagon head above.
Mesh one_bolt(double thread_m, double length_m, double washer_m, double washer_outside_m,
              double head_m, double across_m, int sides, const std::string& material) {
  const double point_m = thread_m * 0.12;
  const double r_m = thread_m / 2;
  Mesh bolt = smoothed(turned_outline({{0, -length_m},
                                       {r_m - point_m, -length_m},
                                       {r_m, point_m - length_m},
                                       {r_m, 0},
                                       {washer_outside_m / 2, 0},
                                       {washer_outside_m / 2, washer_m},
                                       {0, washer_m}},
                                      sides, material),
                       40 * pi / 180);
  std::vector<Vec3> hexagon;
  for (int k = 0; k < 6; ++k) {
    const double a = pi / 3 * k;
    const double corner_m = across_m / std::sqrt(3.0);
    hexagon.push_back({corner_m * std::cos(a), corner_m * std::sin(a), 0});
  }
  append(bolt, block_over(hexagon, washer_m, washer_m + head_m, material));
  return bolt;
}

} // namespace

void make_bolt_set(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const int bolts = f.count("bolts", 1, 48);
  const double thread_m = f.length("thread");
  const double length_m = f.length("length");
  const double washer_m = f.length("washer");
  const double washer_outside_m = f.length("washer_outside");
  const double head_m = f.length("head_height");
  const double across_m = f.length("across_flats");
  HoleFigures places;
  places.circle_m = f.length("circle");
  places.count = bolts;
  places.at_rad = f.angle_or("first_bolt_at", 0);
  places.offset_rad = f.angle_or("offset_one", 0);
  places.name = "bolt";
  places.fits = f.text_or("bolts_fit", "");
  if (!f.ok()) {
    return;
  }
  f.must_be_less("thread", thread_m, "across_flats", across_m);
  f.must_be_less("across_flats", across_m, "washer_outside", washer_outside_m * 1.2);
  f.must_be_less("thread", thread_m, "washer_outside", washer_outside_m);
  places.diameter_m = std::max(washer_outside_m, across_m * 2 / std::sqrt(3.0));
  if (f.ok() && places.diameter_m >= places.circle_m) {
    f.impossible("circle", in_brackets(in_mm(places.circle_m)) + " leaves no room for heads of " +
                               in_mm(places.diameter_m));
  } else if (f.ok()) {
    check_holes(f, places);
  }
  if (!f.ok()) {
    return;
  }
  Component& component = part.component;
  component.kind = ComponentKind::bolt;
  const auto round = [&](double diameter_m, double low_m, double high_m, const char* name) {
    const RoundPlaces at{places.circle_m / 2, places.angles_rad(), diameter_m / 2,
                         RoundFit::within};
    for (SectorRing& band : round_sectors(at, low_m, high_m, name, options)) {
      component.solid.rings.push_back(std::move(band));
    }
  };
  round(thread_m, -length_m, 0, "thread");
  round(places.diameter_m * 1.02, 0, washer_m + head_m, "head");
  HoleFigures keyed = places;
  keyed.diameter_m = thread_m;
  add_hole_keys(component, keyed, -length_m, 0);
  const int sides = round_corners(thread_m / 2, RoundFit::within, options.chord_tolerance_m);
  const Mesh one = one_bolt(thread_m, length_m, washer_m, washer_outside_m, head_m, across_m, sides,
                            component.material);
  for (const double at_rad : places.angles_rad()) {
    append(part.mesh,
           placed(one, Placement::turned(at_rad + pi / sides)
                           .then(Placement::moved(point_at(places.circle_m / 2, at_rad, 0)))));
  }
  component.mass_kg = mesh_mass_kg(part.mesh);
}

} // namespace lugline
