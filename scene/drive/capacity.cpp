#include "scene/drive/capacity.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;
constexpr const char* plates_source =
    "Multi-disc clutch by uniform wear and by uniform pressure: Shigley, Mechanical Engineering "
    "Design, chapter 16 (from memory)";
constexpr const char* head_source = "Centrifugal head: pressure of a fluid that turns as one, rho "
                                    "omega2 (r2 - r02) / 2, hydrostatics";

// Beyond these a figure is a slip of the hand, not a transmission.
constexpr int most_surfaces = 1000;
constexpr double most_lining_m = 10;
constexpr double most_kg_per_m3 = 20e3;

std::string title_of(const ClutchDesign& clutch, const std::string& what,
                     const std::string& duty_name) {
  std::string title = what + " of " + (clutch.name.empty() ? "a clutch" : clutch.name);
  return duty_name.empty() ? title : title + ", " + duty_name;
}

bool head_known(const ClutchDesign& clutch) {
  return clutch.fluid_centre_m > 0 && clutch.fluid_kg_per_m3 > 0;
}

/// What is wrong with a clutch whatever is asked of it.
std::string clutch_problem(const ClutchDesign& clutch) {
  const std::string piston =
      piston_problem(clutch.piston, clutch.springs, clutch.spring_force_N, clutch.stroke_m);
  if (!piston.empty()) {
    return piston;
  }
  if (!(clutch.lining_outer_m > 0) || clutch.lining_outer_m > most_lining_m ||
      !(clutch.lining_inner_m >= 0) || clutch.lining_inner_m >= clutch.lining_outer_m) {
    return "The lining's inner diameter, " + length_words(clutch.lining_inner_m) +
           ", is not smaller than its outer one, " + length_words(clutch.lining_outer_m) +
           ": nothing is left to rub.";
  }
  if (clutch.surfaces <= 0) {
    return "The clutch has no friction faces, so it carries nothing.";
  }
  if (clutch.surfaces > most_surfaces) {
    return "No pack has so many friction faces.";
  }
  const std::string friction = friction_problem(clutch.friction);
  if (!friction.empty()) {
    return friction;
  }
  if (!(clutch.fluid_centre_m >= 0) || !(clutch.fluid_kg_per_m3 >= 0) ||
      !std::isfinite(clutch.fluid_centre_m) || clutch.fluid_kg_per_m3 > most_kg_per_m3) {
    return "The turning fluid's figures cannot be below nothing, nor heavier than any fluid.";
  }
  return {};
}

std::string duty_problem(const ClutchDuty& duty) {
  std::string wrong = pressure_problem(duty.pressure_Pa);
  wrong = wrong.empty() ? turning_problem(duty.turning_rad_per_s) : wrong;
  return wrong.empty() ? torque_problem(duty.torque_Nm) : wrong;
}

bool too_short(const ClutchDesign& clutch) {
  return clutch.most_stroke_m > 0 && clutch.stroke_m > clutch.most_stroke_m;
}

void add_inputs(CalculationReport& report, const ClutchDesign& clutch, const ClutchDuty& duty) {
  auto& in = report.inputs;
  in.push_back({"pressure at the piston", FigureOf::pressure, duty.pressure_Pa, "asked", 0});
  in.push_back({"piston, outer diameter", FigureOf::length, clutch.piston.outer_m, "stated", 0});
  in.push_back({"piston, inner diameter", FigureOf::length, clutch.piston.inner_m, "stated", 0});
  if (clutch.springs) {
    in.push_back({"return springs", FigureOf::count, double(clutch.springs->count), "stated", 0});
    in.push_back({"rate of each", FigureOf::stiffness, clutch.springs->rate_N_per_m, "stated", 0});
    in.push_back({"free height", FigureOf::length, clutch.springs->free_m, "stated", 0});
    in.push_back({"fitted height", FigureOf::length, clutch.springs->fitted_m, "stated", 0});
  }
  in.push_back({"stroke that closes the pack", FigureOf::length, clutch.stroke_m,
                "the pack's clearance", 0});
  in.push_back({"friction faces", FigureOf::count, double(clutch.surfaces),
                "two for each friction plate, unless stated", 0});
  in.push_back({"coefficient of friction", FigureOf::ratio, clutch.friction, "stated", 0});
  in.push_back({"lining, outer diameter", FigureOf::length, clutch.lining_outer_m, "stated", 0});
  in.push_back({"lining, inner diameter", FigureOf::length, clutch.lining_inner_m, "stated", 0});
  if (duty.turning_rad_per_s != 0) {
    in.push_back({"speed of the cylinder", FigureOf::turning_speed,
                  std::abs(duty.turning_rad_per_s), "asked", 0});
    if (head_known(clutch)) {
      in.push_back(
          {"free surface of the fluid", FigureOf::length, clutch.fluid_centre_m, "stated", 0});
    }
  }
  if (duty.torque_Nm) {
    in.push_back({"torque to carry", FigureOf::torque, std::abs(*duty.torque_Nm), "asked", 0});
  }
}

void add_working(CalculationReport& report, const ClutchDesign& clutch, const ClutchCapacity& is) {
  auto& work = report.working;
  work.push_back({"piston area", FigureOf::area, is.area_m2, "pi/4 (outer2 - inner2)", 0});
  work.push_back({"force of the pressure", FigureOf::force, is.pressure_N, "pressure x area", 0});
  work.push_back({"springs, piston home", FigureOf::force, is.back.home_N,
                  is.back.rate_known ? "count x rate x (free - fitted)" : "stated", 0});
  work.push_back({"springs, pack closed", FigureOf::force, is.back.apply_N,
                  is.back.rate_known ? "count x rate x (free - fitted + stroke)" : "stated", 0});
  if (is.centrifugal_N > 0) {
    work.push_back({"centrifugal head on the piston", FigureOf::force, is.centrifugal_N,
                    "pi rho omega2 ((r2^4 - r1^4)/4 - r0^2 (r2^2 - r1^2)/2)", 0});
  }
  work.push_back({"clamp force", FigureOf::force, is.clamp_N,
                  is.centrifugal_N > 0 ? "pressure + head - springs" : "pressure - springs", 0});
  work.push_back(
      {"mean radius, uniform wear", FigureOf::length, is.wear_radius_m, "(D + d) / 4", 0});
  work.push_back({"mean radius, uniform pressure", FigureOf::length, is.pressure_radius_m,
                  "(D3 - d3) / (3 (D2 - d2))", 0});
  if (is.clamp_N > 0) {
    work.push_back({"lining pressure, even", FigureOf::pressure,
                    is.clamp_N / pressure_clamp_N(1, clutch.lining_outer_m, clutch.lining_inner_m),
                    "clamp / lining area", 0});
  }
}

void add_results(CalculationReport& report, const ClutchCapacity& is) {
  auto& out = report.results;
  out.push_back({"the piston starts to move at", FigureOf::pressure, is.moves_at_Pa,
                 "springs, piston home / area", 0});
  out.push_back({"the pack is closed at", FigureOf::pressure, is.stroked_at_Pa,
                 "springs, pack closed / area", 0});
  out.push_back({"capacity, uniform wear", FigureOf::torque, is.wear_Nm,
                 "faces x friction x clamp x mean radius", 0});
  out.push_back({"capacity, uniform pressure", FigureOf::torque, is.pressure_Nm,
                 "faces x friction x clamp x mean radius", 0});
  if (is.margin > 0) {
    out.push_back({"margin, uniform wear", FigureOf::ratio, is.margin, "capacity / torque", 0});
    out.push_back({"margin, uniform pressure", FigureOf::ratio,
                   is.margin * is.pressure_Nm / is.wear_Nm, "capacity / torque", 0});
  }
}

void judge(const ClutchDesign& clutch, const ClutchDuty& duty, ClutchCapacity& is) {
  CalculationReport& report = is.report;
  const bool asked = duty.torque_Nm && *duty.torque_Nm != 0;
  const auto figure = [](FigureOf of, double si) { return print_figure_both(of, si); };
  if (too_short(clutch)) {
    report.verdict = ReportVerdict::bad;
    report.verdict_words = "The piston can travel " + length_words(clutch.most_stroke_m) +
                           " and the pack needs " + length_words(clutch.stroke_m) +
                           ": it ends on its stop and clamps nothing.";
  } else if (is.clamp_N <= 0) {
    report.verdict = ReportVerdict::bad;
    report.verdict_words = figure(FigureOf::pressure, duty.pressure_Pa) +
                           " does not close the pack against its springs, and carries nothing: "
                           "standing still that takes " +
                           figure(FigureOf::pressure, is.stroked_at_Pa) + ".";
  } else if (!asked) {
    report.verdict = duty.torque_Nm ? ReportVerdict::good : ReportVerdict::none;
    report.verdict_words = "It carries up to " + figure(FigureOf::torque, is.wear_Nm) +
                           " (uniform wear) before it slips.";
  } else {
    const bool holds = is.margin >= 1;
    report.verdict = holds ? ReportVerdict::good : ReportVerdict::bad;
    report.verdict_words = holds ? "It holds, with " + figure(FigureOf::ratio, is.margin) +
                                       " times the torque that it has to carry (uniform wear)."
                                 : "It slips at " + figure(FigureOf::torque, is.wear_Nm) +
                                       " (uniform wear), below the torque that it has to carry.";
  }
}

CalculationReport refused(const ClutchDesign& clutch, std::string title, std::string why) {
  CalculationReport report = refused_report(std::move(title), std::move(why));
  report.id = clutch.id;
  return report;
}

} // namespace

std::string turning_problem(double rad_per_s) {
  if (!std::isfinite(rad_per_s)) {
    return "The turning speed is not a number.";
  }
  return std::abs(rad_per_s) > 1e4 ? "Nothing on the bench turns so fast; is its unit right?" : "";
}

ClutchDesign clutch_design(const DriveElement& element, const PackFacts& pack,
                           double fluid_kg_per_m3) {
  ClutchDesign clutch;
  clutch.id = element.id;
  clutch.name = element.name;
  clutch.piston = element.piston.value_or(ApplyPiston{});
  clutch.springs = element.springs;
  clutch.spring_force_N = element.spring_force_N;
  clutch.stroke_m = pack.stroke_m;
  clutch.most_stroke_m = element.most_stroke_m;
  clutch.surfaces = element.surfaces > 0 ? element.surfaces : 2 * pack.frictions;
  clutch.friction = element.friction;
  clutch.lining_outer_m = element.lining_outer_m;
  clutch.lining_inner_m = element.lining_inner_m;
  clutch.fluid_centre_m = element.fluid_centre_m;
  clutch.fluid_kg_per_m3 = fluid_kg_per_m3;
  return clutch;
}

ClutchCapacity clutch_capacity(const ClutchDesign& clutch, const ClutchDuty& duty) {
  ClutchCapacity is;
  const std::string title = title_of(clutch, "Capacity", duty.name);
  std::string wrong = clutch_problem(clutch);
  wrong = wrong.empty() ? duty_problem(duty) : wrong;
  if (!wrong.empty()) {
    is.report = refused(clutch, title, wrong);
    return is;
  }
  is.worked = true;
  is.area_m2 = area_m2(clutch.piston);
  is.pressure_N = duty.pressure_Pa * is.area_m2;
  is.back = spring_back(clutch.springs, clutch.spring_force_N, clutch.stroke_m);
  if (head_known(clutch)) {
    is.centrifugal_N = centrifugal_force_N(clutch.fluid_kg_per_m3, duty.turning_rad_per_s,
                                           clutch.piston, clutch.fluid_centre_m);
  }
  if (!too_short(clutch)) {
    is.clamp_N = std::max(0.0, is.pressure_N + is.centrifugal_N - is.back.apply_N);
  }
  is.moves_at_Pa = moves_at_Pa(clutch.piston, is.back);
  is.stroked_at_Pa = stroked_at_Pa(clutch.piston, is.back);
  is.wear_radius_m = wear_mean_radius_m(clutch.lining_outer_m, clutch.lining_inner_m);
  is.pressure_radius_m = pressure_mean_radius_m(clutch.lining_outer_m, clutch.lining_inner_m);
  is.wear_Nm = disc_torque_Nm(is.clamp_N, clutch.surfaces, clutch.friction, is.wear_radius_m);
  is.pressure_Nm =
      disc_torque_Nm(is.clamp_N, clutch.surfaces, clutch.friction, is.pressure_radius_m);
  if (duty.torque_Nm && *duty.torque_Nm != 0) {
    is.margin = is.wear_Nm / std::abs(*duty.torque_Nm);
  }
  CalculationReport& report = is.report;
  report.id = clutch.id;
  report.title = title;
  add_inputs(report, clutch, duty);
  add_working(report, clutch, is);
  add_results(report, is);
  judge(clutch, duty, is);
  if (is.margin > 0) {
    report.scale = ReportScale{"capacity, uniform wear",  FigureOf::torque, is.wear_Nm, 0,
                               std::abs(*duty.torque_Nm), std::nullopt};
  }
  report.notes = {"Uniform wear stands for linings that are run in, uniform pressure for new ones; "
                  "the verdict is held to uniform wear, which carries less.",
                  "Seal friction and drag are left out."};
  report.sources = {plates_source};
  if (is.centrifugal_N > 0) {
    report.sources.emplace_back(head_source);
  } else if (duty.turning_rad_per_s != 0 && !head_known(clutch)) {
    report.notes.emplace_back("The fluid's free surface or its density is not stated, so no "
                              "centrifugal head is counted.");
  }
  return is;
}

double centrifugal_head_Pa(double kg_per_m3, double rad_per_s, double radius_m,
                           double free_surface_radius_m) {
  assert(kg_per_m3 >= 0 && radius_m >= 0 && free_surface_radius_m >= 0);
  if (radius_m <= free_surface_radius_m) {
    return 0;
  }
  return kg_per_m3 * rad_per_s * rad_per_s *
         (radius_m * radius_m - free_surface_radius_m * free_surface_radius_m) / 2;
}

double centrifugal_force_N(double kg_per_m3, double rad_per_s, const ApplyPiston& piston,
                           double fluid_centre_m) {
  assert(kg_per_m3 >= 0 && fluid_centre_m >= 0);
  const double free_m = fluid_centre_m / 2;
  const double from_m = std::max(piston.inner_m / 2, free_m);
  const double to_m = piston.outer_m / 2;
  if (to_m <= from_m) {
    return 0;
  }
  const double from2 = from_m * from_m;
  const double to2 = to_m * to_m;
  return pi * kg_per_m3 * rad_per_s * rad_per_s *
         ((to2 * to2 - from2 * from2) / 4 - free_m * free_m * (to2 - from2) / 2);
}

double wear_mean_radius_m(double outer_m, double inner_m) {
  assert(outer_m > inner_m && inner_m >= 0);
  return (outer_m + inner_m) / 4;
}

double pressure_mean_radius_m(double outer_m, double inner_m) {
  assert(outer_m > inner_m && inner_m >= 0);
  // (D3 - d3) / (3 (D2 - d2)) with the common factor taken out, so that a narrow ring is exact too.
  return (outer_m * outer_m + outer_m * inner_m + inner_m * inner_m) / (3 * (outer_m + inner_m));
}

double disc_torque_Nm(double clamp_N, int surfaces, double friction, double mean_radius_m) {
  assert(clamp_N >= 0 && surfaces >= 0 && friction >= 0);
  return clamp_N * surfaces * friction * mean_radius_m;
}

double wear_clamp_N(double peak_Pa, double outer_m, double inner_m) {
  return pi * peak_Pa * inner_m * (outer_m - inner_m) / 2;
}

double pressure_clamp_N(double peak_Pa, double outer_m, double inner_m) {
  return pi * peak_Pa * (outer_m * outer_m - inner_m * inner_m) / 4;
}

double wear_lining_Pa(double clamp_N, double outer_m, double inner_m, double at_m) {
  assert(outer_m > inner_m && at_m >= inner_m && at_m <= outer_m && at_m > 0);
  return 2 * clamp_N / (pi * at_m * (outer_m - inner_m));
}

int least_surfaces(double torque_Nm, double clamp_N, double friction, double mean_radius_m) {
  const double of_one_Nm = clamp_N * friction * mean_radius_m;
  if (!(of_one_Nm > 0)) {
    return 0;
  }
  const double needed = std::ceil(std::abs(torque_Nm) / of_one_Nm * (1 - 1e-12));
  return needed > 1e6 ? 0 : static_cast<int>(needed);
}

} // namespace lugline
