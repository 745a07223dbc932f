#include "scene/recipe/teeth.h"

#include "scene/quantity/quantity.h"
#include "scene/recipe/kinds.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double turn_rad = 2 * pi;
constexpr double degree_rad = pi / 180;

/// What every set of teeth has.
struct Common {
  double low_m = 0;
  double high_m = 0;
  double first_rad = 0;
  std::string name;
  std::string fits;
};

Common read_common(FigureReader& t, const std::string& name) {
  Common common;
  common.low_m = t.height("from");
  common.high_m = t.height("to");
  common.first_rad = t.angle_or("first_tooth_at", 0);
  common.name = t.text_or("name", name);
  common.fits = t.text_or("fits", "");
  if (t.ok()) {
    t.must_be_less("from", common.low_m, "to", common.high_m);
  }
  return common;
}

std::optional<Teeth> read_plain(FigureReader& t) {
  const double root_m = t.length("root");
  const double tip_m = t.length("tip");
  const int count = t.count("teeth", 1, 360);
  const double width_rad = t.angle("tooth_width");
  const Common c = read_common(t, "tooth");
  t.finish("a set of teeth");
  if (!t.ok()) {
    return std::nullopt;
  }
  if (root_m == tip_m) {
    t.impossible("tip", in_brackets(in_mm(tip_m)) + " is the root: no teeth");
    return std::nullopt;
  }
  if (!(width_rad > 0) || width_rad * count >= turn_rad) {
    t.impossible("tooth_width", in_brackets(print_angle(width_rad)) +
                                    " is not between nothing and the " +
                                    print_angle(turn_rad / count) + " pitch");
    return std::nullopt;
  }
  const double low_m = std::min(root_m, tip_m);
  const double high_m = std::max(root_m, tip_m);
  return Teeth{{sectors_between(low_m, high_m, c.low_m, c.high_m, c.name,
                                repeated(radial_sector(c.first_rad, width_rad), count))},
               {c.name, c.fits, c.first_rad, low_m / 2, high_m / 2, c.low_m, c.high_m,
                tip_m * std::sin(width_rad / 2)}};
}

Gear read_gear(FigureReader& t, bool internal, double module_m, int teeth) {
  const double pressure_rad = t.angle_or("pressure_angle", 20 * degree_rad);
  const double shift = t.number_or("profile_shift", 0, -2, 2);
  const double thinning_m = t.length_if_given("thinning").value_or(0);
  if (t.ok() && !(pressure_rad > 9.99 * degree_rad && pressure_rad < 35.01 * degree_rad)) {
    t.impossible("pressure_angle",
                 in_brackets(print_angle(pressure_rad)) + " is not between 10 and 35 degrees");
  }
  return rack_gear(internal, teeth, module_m, pressure_rad, shift, thinning_m);
}

Gear read_spline(FigureReader& t, bool internal, double module_m, int teeth, bool by_pitch) {
  const double pressure_rad = t.angle_or("pressure_angle", 30 * degree_rad);
  const SplineRoot root = t.word_or("root_form", "fillet", {"flat", "fillet"}) == "flat"
                              ? SplineRoot::flat
                              : SplineRoot::fillet;
  const double thinning_m = t.length_if_given("thinning").value_or(0);
  const auto is = [&](double degrees) {
    return std::abs(pressure_rad - degrees * degree_rad) < 1e-6;
  };
  if (t.ok() && !is(30) && !is(37.5) && !is(45)) {
    t.impossible("pressure_angle",
                 in_brackets(print_angle(pressure_rad)) + " is none of 30, 37.5 and 45 degrees");
  } else if (t.ok() && root == SplineRoot::flat && !is(30)) {
    t.impossible("root_form", "can be flat at 30 degrees only");
  }
  return spline(by_pitch ? SplineStandard::ansi_b92_1 : SplineStandard::iso_4156, root, internal,
                teeth, module_m, pressure_rad, thinning_m);
}

std::optional<Teeth> read_involute(FigureReader& t, bool is_spline, const MeshOptions& options) {
  const bool internal = t.word("in", {"shaft", "bore"}) == "bore";
  const bool by_pitch = t.has("diametral_pitch");
  const double module_m = read_module(t);
  const int count = t.count("teeth", 4, 360);
  Gear gear = is_spline ? read_spline(t, internal, module_m, count, by_pitch)
                        : read_gear(t, internal, module_m, count);
  gear.tip_diameter_m = t.length_or("tip", gear.tip_diameter_m);
  gear.root_diameter_m = t.length_or("root", gear.root_diameter_m);
  const Common c = read_common(t, is_spline ? "spline" : "gear tooth");
  t.finish(is_spline ? "a spline" : "a set of involute teeth");
  if (!t.ok() || !check_gear(t, gear)) {
    return std::nullopt;
  }
  Teeth made;
  made.rings =
      involute_rings(gear, c.first_rad, c.low_m, c.high_m, c.name, options.chord_tolerance_m);
  made.key = {c.name,
              c.fits,
              c.first_rad,
              made.rings.front().inner_m,
              made.rings.back().outer_m,
              c.low_m,
              c.high_m,
              gear.tooth_thickness_m(gear.reference_diameter_m())};
  return made;
}

} // namespace

double read_module(FigureReader& t) {
  if (!t.has("diametral_pitch")) {
    return t.length("module");
  }
  const double pitch = t.number("diametral_pitch", 1, 128);
  if (t.length_if_given("module")) {
    t.impossible("diametral_pitch", "and module say the same: write one of them");
  }
  return inch_m / pitch;
}

bool check_gear(FigureReader& t, const Gear& gear) {
  const std::optional<GearProblem> problem = gear_problem(gear);
  if (problem) {
    t.impossible(problem->figure, problem->why);
  }
  return !problem;
}

std::optional<Teeth> read_teeth(FigureReader& t, const MeshOptions& options) {
  const std::string form = t.word_or("form", "plain", {"plain", "involute", "spline"});
  if (!t.ok()) {
    return std::nullopt; // whose figures are meant is not known
  }
  return form == "plain" ? read_plain(t) : read_involute(t, form == "spline", options);
}

} // namespace lugline
