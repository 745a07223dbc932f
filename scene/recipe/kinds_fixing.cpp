// Parts that hold or guide others: bushings and bolts.

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

namespace {

struct BoltFigures {
  double thread_m = 0;
  double length_m = 0;
  double washer_m = 0;
  double washer_outside_m = 0;
  double head_m = 0;
  double across_m = 0;

  /// Of what stands above its seat.
  [[nodiscard]] double widest_m() const {
    return std::max(washer_outside_m, across_m * 2 / std::sqrt(3.0));
  }
};

void stand_bolts(const BoltFigures& b, const HoleFigures& places, const MeshOptions& options,
                 MadePart& part) {
  Component& component = part.component;
  const auto round = [&](double diameter_m, double low_m, double high_m, const char* name) {
    const RoundPlaces at{places.circle_m / 2, places.angles_rad(), diameter_m / 2,
                         RoundFit::within};
    for (SectorRing& band : round_sectors(at, low_m, high_m, name, options)) {
      component.solid.rings.push_back(std::move(band));
    }
  };
  round(b.thread_m, -b.length_m, 0, "thread");
  round(b.widest_m() * 1.02, 0, b.washer_m + b.head_m, "head");
  HoleFigures keyed = places;
  keyed.diameter_m = b.thread_m;
  add_hole_keys(component, keyed, -b.length_m, 0);
  const int sides = round_corners(b.thread_m / 2, RoundFit::within, options.chord_tolerance_m);
  const Mesh one = one_bolt(b.thread_m, b.length_m, b.washer_m, b.washer_outside_m, b.head_m,
                            b.across_m, sides, component.material);
  for (const double at_rad : places.angles_rad()) {
    append(part.mesh,
           placed(one, Placement::turned(at_rad + pi / sides)
                           .then(Placement::moved(point_at(places.circle_m / 2, at_rad, 0)))));
  }
}

/// One bolt alone, crosswise to the unit's axis, its head outward.
void lay_bolt(FigureReader& f, const BoltFigures& b, const Aside& aside, const MeshOptions& options,
              MadePart& part) {
  Component& component = part.component;
  const AsideBody thread{-b.length_m, 0, b.thread_m, 0, "thread"};
  const std::string problem = aside_problem(aside, thread);
  if (!problem.empty()) {
    f.impossible("from_axis", problem);
    return;
  }
  component.solid.rings = held_aside(aside, thread);
  for (SectorRing& head : held_aside(aside, {0, b.washer_m + b.head_m, b.widest_m(), 0, "head"})) {
    component.solid.rings.push_back(std::move(head));
  }
  const int sides = chords_round(b.thread_m / 2, options.chord_tolerance_m);
  part.mesh = placed(one_bolt(b.thread_m, b.length_m, b.washer_m, b.washer_outside_m, b.head_m,
                              b.across_m, sides, component.material),
                     aside.placement());
  component.keys.push_back({"bolt", f.text_or("bolts_fit", ""), aside.at_rad,
                            aside.from_axis_m - b.length_m, aside.from_axis_m,
                            aside.height_m - b.thread_m / 2, aside.height_m + b.thread_m / 2,
                            b.thread_m});
}

} // namespace

void make_bolt_set(FigureReader& f, const MeshOptions& options, MadePart& part) {
  BoltFigures b;
  b.thread_m = f.length("thread");
  b.length_m = f.length("length");
  b.washer_m = f.length("washer");
  b.washer_outside_m = f.length("washer_outside");
  b.head_m = f.length("head_height");
  b.across_m = f.length("across_flats");
  const std::optional<Aside> aside = read_aside(f);
  HoleFigures places;
  places.count = f.count("bolts", 1, aside ? 1 : 48);
  if (!aside) {
    places.circle_m = f.length("circle");
    places.at_rad = f.angle_or("first_bolt_at", 0);
    places.offset_rad = f.angle_or("offset_one", 0);
  }
  places.name = "bolt";
  places.fits = f.text_or("bolts_fit", "");
  if (!f.ok()) {
    return;
  }
  f.must_be_less("thread", b.thread_m, "across_flats", b.across_m);
  f.must_be_less("across_flats", b.across_m, "washer_outside", b.washer_outside_m * 1.2);
  f.must_be_less("thread", b.thread_m, "washer_outside", b.washer_outside_m);
  places.diameter_m = b.widest_m();
  if (f.ok() && !aside && places.diameter_m >= places.circle_m) {
    f.impossible("circle", in_brackets(in_mm(places.circle_m)) + " leaves no room for heads of " +
                               in_mm(places.diameter_m));
  } else if (f.ok() && !aside) {
    check_holes(f, places);
  }
  if (!f.ok()) {
    return;
  }
  part.component.kind = ComponentKind::bolt;
  if (aside) {
    lay_bolt(f, b, *aside, options, part);
  } else {
    stand_bolts(b, places, options, part);
  }
  part.component.mass_kg = mesh_mass_kg(part.mesh);
}

} // namespace lugline
