#include "scene/recipe/kinds.h"

#include <cmath>
#include <numbers>
#include <utility>

namespace lugline {

namespace {
constexpr double turn_rad = 2 * std::numbers::pi;
} // namespace

const std::vector<Recipe>& recipes() {
  static const std::vector<Recipe> all{
      {"case", "aluminium", make_case},
      {"centre support", "iron", make_centre_support},
      {"drum", "steel", make_drum},
      {"shaft", "steel", make_shaft},
      {"hub", "steel", make_hub},
      {"shell", "steel", make_hub},
      {"output shaft", "steel", make_output_shaft},
      {"ring gear", "steel", make_ring_gear},
      {"planetary carrier", "steel", make_carrier},
      {"turned part", "steel", make_turned_part},
      {"spacer ring", "steel", make_spacer_ring},
      {"lugged plate", "steel", make_lugged_plate},
      {"wave plate", "steel", make_wave_plate},
      {"friction plate", "steel", make_friction_plate},
      {"snap ring", "steel", make_snap_ring},
      {"waved snap ring", "steel", make_waved_snap_ring},
      {"piston", "aluminium", make_piston},
      {"spring set", "steel", make_spring_set},
      {"retainer", "steel", make_retainer},
      {"inner race", "steel", make_inner_race},
      {"outer race", "steel", make_outer_race},
      {"sprag element", "steel", make_sprag_element},
      {"thrust washer", "bronze", make_thrust_washer},
      {"band", "steel", make_band},
      {"pin", "steel", make_pin},
      {"dished plate", "steel", make_dished_plate},
      {"disc spring", "steel", make_disc_spring},
      {"single-sided plate", "steel", make_single_sided_plate},
      {"roller clutch", "steel", make_roller_clutch},
      {"thrust bearing", "steel", make_thrust_bearing},
      {"check ball", "steel", make_check_ball},
      {"sealing ring", "iron", make_sealing_ring},
      {"lip seal", "rubber", make_lip_seal},
      {"O-ring", "rubber", make_o_ring},
      {"gasket", "steel", make_gasket},
      {"bushing", "bronze", make_bushing},
      {"bolt set", "steel", make_bolt_set},
      {"pump body", "iron", make_pump_part},
      {"pump cover", "iron", make_pump_part},
      {"pump gears", "steel", make_pump_gears},
      {"double-wrap band", "steel", make_double_wrap_band},
      {"servo piston", "aluminium", make_servo_piston},
      {"servo pin", "steel", make_servo_pin},
      {"servo cover", "steel", make_servo_cover},
      {"lever", "steel", make_lever},
      {"lifting spider", "steel", make_lifting_spider},
  };
  return all;
}

SectorRing ring_between(double bore_m, double outside_m, double low_m, double high_m,
                        std::string feature) {
  return {bore_m / 2, outside_m / 2, low_m, high_m, {}, std::move(feature), ""};
}

SectorRing sectors_between(double bore_m, double outside_m, double low_m, double high_m,
                           std::string feature, std::vector<Sector> sectors) {
  return {bore_m / 2, outside_m / 2, low_m, high_m, std::move(sectors), std::move(feature), ""};
}

Vec3 point_at(double r_m, double angle_rad, double z_m) {
  return {-r_m * std::sin(angle_rad), r_m * std::cos(angle_rad), z_m};
}

double LugFigures::angle_rad(int k) const {
  return first_rad + turn_rad * k / count;
}

std::vector<Sector> LugFigures::narrow() const {
  std::vector<Sector> made;
  for (int k = 0; k < count; ++k) {
    if (!has_wide || k != wide_at) {
      made.push_back(parallel_sector(angle_rad(k), width_m));
    }
  }
  return made;
}

std::vector<Sector> LugFigures::wide() const {
  std::vector<Sector> made;
  if (has_wide) {
    made.push_back(parallel_sector(angle_rad(wide_at), wide_width_m));
  }
  return made;
}

std::vector<Sector> LugFigures::all() const {
  std::vector<Sector> made;
  for (int k = 0; k < count; ++k) {
    made.push_back(
        parallel_sector(angle_rad(k), has_wide && k == wide_at ? wide_width_m : width_m));
  }
  return made;
}

LugFigures read_lugs(FigureReader& f, const std::string& noun, int least) {
  LugFigures lugs;
  lugs.name = noun;
  lugs.count = least > 0 ? f.count(noun + "s", least, 360) : f.count_or(noun + "s", 0, 1, 360);
  if (f.has(noun + "s")) {
    lugs.width_m = f.length(noun + "_width");
    lugs.first_rad = f.angle_or("first_" + noun + "_at", 0);
    lugs.fits = f.text_or(noun + "_fits", "");
    const std::optional<double> wide_m = f.length_if_given("wide_" + noun + "_width");
    const double at_rad = f.angle_or("wide_" + noun + "_at", lugs.first_rad);
    lugs.wide_name = f.text_or("wide_" + noun + "_name", "wide " + noun);
    lugs.wide_fits = f.text_or("wide_" + noun + "_fits", "");
    if (wide_m) {
      lugs.has_wide = true;
      lugs.wide_width_m = *wide_m;
      const double place = (at_rad - lugs.first_rad) * lugs.count / turn_rad;
      const double nearest = std::round(place);
      lugs.wide_at = ((static_cast<int>(nearest) % lugs.count) + lugs.count) % lugs.count;
      if (std::abs(place - nearest) > 1e-6) {
        f.impossible("wide_" + noun + "_at",
                     "is not where one of the " + std::to_string(lugs.count) + " " + noun +
                         "s stands, which are " + print_angle(turn_rad / lugs.count) + " apart");
      }
    }
  }
  return lugs;
}

void check_lugs(FigureReader& f, const LugFigures& lugs, const std::string& noun, double inner_m,
                double outer_m) {
  if (lugs.count == 0 || !f.ok()) {
    return;
  }
  const bool narrow_fits = lugs.width_m < inner_m;
  const bool wide_fits = !lugs.has_wide || lugs.wide_width_m < inner_m;
  // One alone still has to leave the circle open somewhere.
  if (!narrow_fits || !wide_fits || first_meeting(lugs.all(), inner_m / 2, outer_m / 2) >= 0) {
    const double widest_m = std::max(lugs.width_m, lugs.has_wide ? lugs.wide_width_m : 0);
    f.impossible(noun + "_width", "leaves no room: " + std::to_string(lugs.count) + " " + noun +
                                      "s, the widest " + in_mm(widest_m) +
                                      ", do not fit side by side round " + in_mm(inner_m));
  }
}

void add_lug_keys(Component& component, const LugFigures& lugs, double bore_m, double outside_m,
                  double low_m, double high_m) {
  const auto key = [&](const std::string& id, const std::string& fits, double angle_rad,
                       double width_m) {
    component.keys.push_back(
        {id, fits, angle_rad, bore_m / 2, outside_m / 2, low_m, high_m, width_m});
  };
  if (lugs.has_wide) {
    key(lugs.wide_name, lugs.wide_fits, lugs.angle_rad(lugs.wide_at), lugs.wide_width_m);
  }
  if (lugs.count > (lugs.has_wide ? 1 : 0)) {
    const int first = lugs.has_wide && lugs.wide_at == 0 ? 1 : 0;
    key(lugs.name, lugs.fits, lugs.angle_rad(first), lugs.width_m);
  }
}

void add_lugs(Workpiece& piece, Component& component, const LugFigures& lugs, double bore_m,
              double outside_m, double low_m, double high_m) {
  if (lugs.count == 0) {
    return;
  }
  if (!lugs.narrow().empty()) {
    piece.add(sectors_between(bore_m, outside_m, low_m, high_m, lugs.name, lugs.narrow()));
  }
  if (lugs.has_wide) {
    piece.add(sectors_between(bore_m, outside_m, low_m, high_m, lugs.wide_name, lugs.wide()));
  }
  add_lug_keys(component, lugs, bore_m, outside_m, low_m, high_m);
}

std::optional<SectorRing> read_seal_groove(FigureReader& t) {
  const double inner_m = t.length("inner");
  const double outer_m = t.length("outer");
  const double from_m = t.height("from");
  const double to_m = t.height("to");
  t.finish("a seal's groove");
  if (!t.ok() || !t.must_be_less("inner", inner_m, "outer", outer_m) ||
      !t.must_be_less("from", from_m, "to", to_m)) {
    return std::nullopt;
  }
  return ring_between(inner_m, outer_m, from_m, to_m, "seal groove");
}

std::string sink_dot(Workpiece& piece, double circle_m, double angle_rad, double dot_m,
                     double low_m, double high_m) {
  // A round hollow as strips across it, each as wide as the circle is there.
  constexpr int strips = 5;
  for (int k = 0; k < strips; ++k) {
    const double from = -dot_m / 2 + dot_m * k / strips;
    const double to = from + dot_m / strips;
    const double middle = (from + to) / 2;
    const double width_m = 2 * std::sqrt(dot_m * dot_m / 4 - middle * middle);
    SectorRing strip =
        sectors_between(0, 0, low_m, high_m, "dot", {parallel_sector(angle_rad, width_m)});
    strip.inner_m = circle_m / 2 + from;
    strip.outer_m = circle_m / 2 + to;
    const std::string problem = piece.cut(strip);
    if (!problem.empty()) {
      return problem;
    }
  }
  return {};
}

Figure thickness_figure(double value_m, double zone_low_m, double zone_high_m, std::string name) {
  return {std::move(name), value_m, zone_low_m, zone_high_m};
}

void take_solid(FigureReader& f, Workpiece& piece, MadePart& part) {
  const std::string overlap = piece.overlap();
  if (!overlap.empty()) {
    f.impossible("id", "cannot be made: " + overlap);
    return;
  }
  part.component.solid = piece.take();
}

} // namespace lugline
