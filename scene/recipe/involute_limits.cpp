// What gears cannot be: in words.

#include "scene/quantity/quantity.h"
#include "scene/recipe/involute.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <string>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

std::string mm_of(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

std::string two_places(double number) {
  std::array<char, 32> text{};
  const auto end =
      std::to_chars(text.data(), text.data() + text.size(), number, std::chars_format::fixed, 2);
  return {text.data(), end.ptr};
}

/// A tooth, or a space, narrower than this is a point: a hundredth of a module.
constexpr double least_width = 0.01;

std::optional<GearProblem> thickness_problem(const Gear& gear) {
  if (!(gear.tooth_thickness_m() > 0)) {
    return GearProblem{"thinning", "leaves nothing of the teeth, which are " +
                                       mm_of(gear.tooth_thickness_m() + gear.thinning_m) +
                                       " thick before it"};
  }
  if (!(gear.space_width_m(gear.reference_diameter_m()) > 0)) {
    return GearProblem{"profile_shift", "leaves no room between the teeth"};
  }
  return std::nullopt;
}

std::optional<GearProblem> diameter_problem(const Gear& gear) {
  const double tip_m = gear.tip_diameter_m;
  const double root_m = gear.root_diameter_m;
  const double base_m = gear.base_diameter_m();
  if (gear.internal ? tip_m >= root_m : root_m >= tip_m) {
    return GearProblem{"root", "(" + mm_of(root_m) + ") must be " +
                                   (gear.internal ? "more" : "less") + " than the tip (" +
                                   mm_of(tip_m) + ")"};
  }
  if (!(root_m > 0)) {
    return GearProblem{"root", "is not above nothing: too few teeth of this size"};
  }
  // Internal teeth end at the base circle at the latest: there is no involute inside it.
  if (gear.internal ? tip_m < base_m - 1e-9 : tip_m <= base_m) {
    return GearProblem{"tip", "(" + mm_of(tip_m) + ") is below the base circle of " +
                                  mm_of(base_m) + ", where there is no involute"};
  }
  return std::nullopt;
}

std::optional<GearProblem> point_problem(const Gear& gear) {
  const double least_m = least_width * gear.module_m;
  if (gear.tooth_thickness_m(gear.tip_diameter_m) < least_m) {
    const std::string at =
        gear.internal ? "" : ": they come to a point at " + mm_of(pointed_diameter_m(gear));
    return GearProblem{"tip",
                       "(" + mm_of(gear.tip_diameter_m) + ") is beyond where the teeth end" + at};
  }
  if (gear.space_width_m(gear.root_diameter_m) < least_m) {
    const std::string at =
        gear.internal ? ": they come to a point at " + mm_of(pointed_diameter_m(gear)) : "";
    return GearProblem{"root",
                       "(" + mm_of(gear.root_diameter_m) + ") is beyond where the spaces end" + at};
  }
  return std::nullopt;
}

/// A rack cuts no deeper than its straight flank of one module, nor than the root.
std::optional<GearProblem> undercut_problem(const Gear& gear) {
  if (gear.internal || gear.pressure_rad > 0.5) {
    return std::nullopt; // internal teeth and splines are not cut by a rack's full depth
  }
  const double below =
      (gear.reference_diameter_m() - gear.root_diameter_m) / 2 / gear.module_m + gear.profile_shift;
  const double depth = std::min(1.0, below);
  const double least = least_profile_shift(gear.teeth, gear.pressure_rad, depth);
  if (gear.profile_shift >= least - 1e-9) {
    return std::nullopt;
  }
  return GearProblem{"profile_shift", "leaves " + std::to_string(gear.teeth) +
                                          " teeth undercut below their base circle: it must be at "
                                          "least " +
                                          two_places(std::ceil(least * 100 - 1e-9) / 100)};
}

} // namespace

std::optional<GearProblem> gear_problem(const Gear& gear) {
  for (const auto& problem :
       {&thickness_problem, &diameter_problem, &point_problem, &undercut_problem}) {
    if (const std::optional<GearProblem> found = problem(gear)) {
      return found;
    }
  }
  return std::nullopt;
}

std::string mesh_problem(const Gear& a, const Gear& b, double centre_distance_m) {
  if (std::abs(a.base_pitch_m() - b.base_pitch_m()) > 1e-9) {
    return "their base pitches differ: " + mm_of(a.base_pitch_m()) + " and " +
           mm_of(b.base_pitch_m());
  }
  const double bases_m = b.internal ? b.base_diameter_m() - a.base_diameter_m()
                                    : b.base_diameter_m() + a.base_diameter_m();
  if (!(bases_m > 0) || centre_distance_m <= bases_m / 2) {
    return "their base circles leave no line of action at " + mm_of(centre_distance_m);
  }
  if (backlash_m(a, b, centre_distance_m) < 0) {
    return "their teeth are " + mm_of(-backlash_m(a, b, centre_distance_m)) +
           " too thick at a centre distance of " + mm_of(centre_distance_m);
  }
  const double root_room_m = b.internal
                                 ? b.root_diameter_m / 2 - centre_distance_m - a.tip_diameter_m / 2
                                 : centre_distance_m - a.tip_diameter_m / 2 - b.root_diameter_m / 2;
  const double other_room_m =
      b.internal ? b.tip_diameter_m / 2 - centre_distance_m - a.root_diameter_m / 2
                 : centre_distance_m - b.tip_diameter_m / 2 - a.root_diameter_m / 2;
  if (std::min(root_room_m, other_room_m) < 0) {
    return "a tip runs into the other's root";
  }
  const double line_m = centre_distance_m * std::sin(working_pressure_rad(a, b, centre_distance_m));
  // No tip may touch the other's flank inside the point where the line of action leaves
  // its base circle.
  const bool a_digs =
      !b.internal && a.tip_diameter_m / 2 > std::hypot(a.base_diameter_m() / 2, line_m) + 1e-9;
  const bool b_digs =
      b.internal ? b.tip_diameter_m / 2 < std::hypot(b.base_diameter_m() / 2, line_m) - 1e-9
                 : b.tip_diameter_m / 2 > std::hypot(b.base_diameter_m() / 2, line_m) + 1e-9;
  if (a_digs || b_digs) {
    return "a tip digs into the other's flank below its base circle";
  }
  if (contact_ratio(a, b, centre_distance_m) < 1) {
    return "less than one pair of teeth is in mesh at times";
  }
  return {};
}

std::string planet_problem(const Planets& p) {
  const auto number = [](int n) { return std::to_string(n); };
  if (p.sun + 2 * p.pinion != p.ring) {
    return "a sun of " + number(p.sun) + ", pinions of " + number(p.pinion) + " and a ring of " +
           number(p.ring) + " do not go together: " + number(p.sun) + " + 2 x " + number(p.pinion) +
           " = " + number(p.sun + 2 * p.pinion);
  }
  if ((p.sun + p.ring) % p.count != 0) {
    return number(p.count) + " pinions cannot stand at even spacing: sun and ring have " +
           number(p.sun + p.ring) + " teeth together, which is no multiple of " + number(p.count);
  }
  return {};
}

double pinion_tooth_rad(const Planets& p, double at_rad, double sun_tooth_rad) {
  // The sun's nearest tooth stands this far clockwise of the pinion, and the pinion's
  // space that takes it up as far round the pinion, by its own pitch.
  const double pitch_rad = 2 * pi / p.sun;
  double behind_rad = std::fmod(at_rad - sun_tooth_rad, pitch_rad);
  behind_rad = behind_rad < 0 ? behind_rad + pitch_rad : behind_rad;
  return at_rad + pi + behind_rad * p.sun / p.pinion + pi / p.pinion;
}

double ring_space_rad(const Planets& p, double at_rad, double sun_tooth_rad) {
  const double ahead_rad = pinion_tooth_rad(p, at_rad, sun_tooth_rad) - at_rad;
  return at_rad + ahead_rad * p.pinion / p.ring;
}

} // namespace lugline
