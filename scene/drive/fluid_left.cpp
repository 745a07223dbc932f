#include "scene/drive/capacity.h"

#include <algorithm>
#include <cmath>

namespace lugline {

namespace {

CalculationReport refused(const ClutchDesign& clutch, std::string title, std::string why) {
  CalculationReport report = refused_report(std::move(title), std::move(why));
  report.id = clutch.id;
  return report;
}

void tell(const ClutchDesign& clutch, double turning_rad_per_s, const SpringBack& back,
          FluidLeft& is) {
  const auto rpm = [](double rad_per_s) {
    return print_figure(FigureOf::turning_speed, rad_per_s, LengthUnit::millimetre);
  };
  CalculationReport& report = is.report;
  report.inputs = {
      {"speed of the drum", FigureOf::turning_speed, std::abs(turning_rad_per_s), "asked", 0},
      {"piston, outer diameter", FigureOf::length, clutch.piston.outer_m, "stated", 0},
      {"piston, inner diameter", FigureOf::length, clutch.piston.inner_m, "stated", 0},
      {"free surface of the fluid", FigureOf::length, clutch.fluid_centre_m, "stated", 0},
      {"fluid, kg in a cubic metre", FigureOf::ratio, clutch.fluid_kg_per_m3, "stated", 0},
      {"stroke that closes the pack", FigureOf::length, clutch.stroke_m, "the pack's clearance",
       0}};
  report.working = {{"springs, piston home", FigureOf::force, back.home_N,
                     back.rate_known ? "count x rate x (free - fitted)" : "stated", 0},
                    {"springs, pack closed", FigureOf::force, back.apply_N,
                     back.rate_known ? "count x rate x (free - fitted + stroke)" : "stated", 0},
                    {"centrifugal head on the piston", FigureOf::force, is.centrifugal_N,
                     "pi rho omega2 ((r2^4 - r1^4)/4 - r0^2 (r2^2 - r1^2)/2)", 0}};
  report.results = {{"the piston would leave home at", FigureOf::turning_speed,
                     is.moves_at_rad_per_s, "head = springs, piston home", 0},
                    {"the clutch would drag on from", FigureOf::turning_speed,
                     is.clamps_at_rad_per_s, "head = springs, pack closed", 0},
                    {"drag at the asked speed", FigureOf::torque, is.drag_Nm, "uniform wear", 0}};
  if (is.centrifugal_N > back.apply_N) {
    report.verdict = ReportVerdict::bad;
    report.verdict_words =
        "If the check ball does not let the fluid out, the released clutch drags "
        "itself on at this speed.";
  } else if (is.centrifugal_N > back.home_N) {
    report.verdict = ReportVerdict::bad;
    report.verdict_words =
        "If the check ball does not let the fluid out, the piston leaves home at "
        "this speed without closing the pack.";
  } else {
    report.verdict = ReportVerdict::good;
    report.verdict_words =
        "The springs hold the piston home at this speed even if the fluid stays; "
        "it would leave home at " +
        rpm(is.moves_at_rad_per_s) + ".";
  }
  report.notes = {
      "The drum is taken as full outside the free surface, with nothing on the piston's "
      "other side that balances it. The check ball is there to empty it on release."};
  report.sources = {"Centrifugal head: pressure of a fluid that turns as one, "
                    "rho omega2 (r2 - r02) / 2, hydrostatics"};
}

} // namespace

FluidLeft fluid_left(const ClutchDesign& clutch, double turning_rad_per_s) {
  FluidLeft is;
  const std::string title =
      "Fluid left in " + (clutch.name.empty() ? std::string("a clutch") : clutch.name);
  const std::string wrong = turning_problem(turning_rad_per_s);
  if (!wrong.empty()) {
    is.report = refused(clutch, title, wrong);
    return is;
  }
  if (!(clutch.fluid_centre_m > 0) || !(clutch.fluid_kg_per_m3 > 0) ||
      !std::isfinite(clutch.fluid_kg_per_m3)) {
    is.report = refused(clutch, title,
                        "The fluid's free surface or its density is not stated, so no centrifugal "
                        "head follows.");
    return is;
  }
  // The capacity's own checks hold here too: without pressure it is the same clutch.
  const ClutchCapacity still = clutch_capacity(clutch, {"", 0, turning_rad_per_s, std::nullopt});
  if (!still.worked) {
    is.report = refused(clutch, title, still.report.verdict_words);
    return is;
  }
  const double of_one_N =
      centrifugal_force_N(clutch.fluid_kg_per_m3, 1, clutch.piston, clutch.fluid_centre_m);
  if (!(of_one_N > 0)) {
    is.report = refused(clutch, title,
                        "The fluid's free surface lies outside the piston: whatever is left does "
                        "not press on it at any speed.");
    return is;
  }
  is.worked = true;
  is.centrifugal_N = still.centrifugal_N;
  is.moves_at_rad_per_s = std::sqrt(still.back.home_N / of_one_N);
  is.clamps_at_rad_per_s = std::sqrt(still.back.apply_N / of_one_N);
  is.drag_Nm = still.wear_Nm;
  is.report.id = clutch.id;
  is.report.title = title;
  tell(clutch, turning_rad_per_s, still.back, is);
  return is;
}

} // namespace lugline
