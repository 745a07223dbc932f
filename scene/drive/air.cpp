#include "scene/drive/air.h"

#include "scene/drive/air_words.h"
#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cmath>

namespace lugline {

const char* const compressed_air_caution =
    "Compressed air injures eyes, ears and skin, and a part can jump. Regulate it, wear eye "
    "protection, keep hands clear of piston and drum, and never blow on a person.";
const char* const cleaning_air_note =
    "29 CFR 1910.242(b) holds air for cleaning below 30 psi (207 kPa), with guarding and "
    "protective equipment. It is a rule for cleaning and no limit for testing, which the unit's "
    "service manual and local rules decide.";

std::string air_figure(FigureOf of, double si) {
  return print_figure_both(of, si);
}

std::string air_problem(const AirPiston& piston, const AirTest& test, double pressure_Pa) {
  if (!(pressure_Pa > 0) || !std::isfinite(pressure_Pa)) {
    return "The pressure must be above nothing.";
  }
  if (!(test.limit_Pa > 0)) {
    return "The unit states no limit for bench air: take it from the service manual first.";
  }
  if (pressure_Pa > test.limit_Pa * (1 + 1e-9)) {
    return air_figure(FigureOf::pressure, pressure_Pa) +
           " is above the unit's limit for bench air, " +
           air_figure(FigureOf::pressure, test.limit_Pa) + ": lower the regulator.";
  }
  if (!(piston.volume_m3 >= 0) || piston.volume_m3 > 0.01) {
    return "The volume of passage and cylinder must be between nothing and ten litres.";
  }
  return piston_problem(piston.piston, piston.springs, piston.spring_force_N, piston.stroke_m);
}

CalculationReport air_refusal(const AirPiston& piston, std::string title, std::string why) {
  CalculationReport report = refused_report(std::move(title), std::move(why));
  report.id = piston.id;
  report.cautions = {compressed_air_caution};
  report.notes = {cleaning_air_note};
  return report;
}

void add_air_cautions(CalculationReport& report, const AirTest& test, double pressure_Pa) {
  report.cautions = {compressed_air_caution};
  if (test.limit_Pa > published_air_ceiling_Pa * (1 + 1e-9)) {
    report.cautions.emplace_back("The unit's limit is above 50 psi (345 kPa), which US Army TM "
                                 "9-2320-280-34 never lets a clutch piston be checked above.");
  }
  if (pressure_Pa >= cleaning_air_Pa) {
    report.notes.emplace_back(cleaning_air_note);
  }
}

std::string air_title(const AirPiston& piston, const std::string& what) {
  return what + (piston.name.empty() ? std::string() : " of " + piston.name);
}

AirPiston air_piston(const DriveElement& element, double stroke_m) {
  AirPiston piston;
  piston.id = element.id;
  piston.name = element.name;
  piston.piston = element.piston.value_or(ApplyPiston{});
  piston.springs = element.springs;
  piston.spring_force_N = element.spring_force_N;
  piston.stroke_m = stroke_m;
  piston.servo = element.kind == ElementKind::band;
  piston.most_stroke_m = element.most_stroke_m;
  piston.volume_m3 = element.air_volume_m3;
  piston.good_hold_s = element.good_hold_s;
  return piston;
}

namespace {

void tell(const AirPiston& piston, double pressure_Pa, const BenchAir& air, AirReach& is) {
  CalculationReport& report = is.report;
  report.inputs = {{"air, gauge", FigureOf::pressure, pressure_Pa, "asked", 0},
                   {"piston, outer diameter", FigureOf::length, piston.piston.outer_m, "stated", 0},
                   {"piston, inner diameter", FigureOf::length, piston.piston.inner_m, "stated", 0},
                   {"stroke", FigureOf::length, piston.stroke_m,
                    piston.servo ? "stated" : "the pack's clearance", 0}};
  report.working = {{"piston area", FigureOf::area, is.area_m2, "pi/4 (outer2 - inner2)", 0},
                    {"force of the air", FigureOf::force, is.push_N, "pressure x area", 0},
                    {"springs, piston home", FigureOf::force, is.back.home_N,
                     is.back.rate_known ? "count x rate x (free - fitted)" : "stated at apply", 0},
                    {"springs, at the stroke's end", FigureOf::force, is.back.apply_N,
                     is.back.rate_known ? "count x rate x (free - fitted + stroke)" : "stated", 0}};
  report.results = {{"it starts to move at", FigureOf::pressure, is.moves_at_Pa,
                     "springs, piston home / area", 0},
                    {"it is at its stroke's end at", FigureOf::pressure, is.stroked_at_Pa,
                     "springs there / area", 0},
                    {"it travels", FigureOf::length, is.travel_m,
                     "(force - springs, home) / rate, up to the stroke", 0},
                    {"it clamps with", FigureOf::force, is.clamp_N, "force - springs", 0}};
  if (piston.volume_m3 > 0) {
    report.inputs.push_back(
        {"passage and cylinder, piston home", FigureOf::volume, piston.volume_m3, "stated", 0});
    report.inputs.push_back(
        {"outside, absolute", FigureOf::pressure, air.outside_Pa, "assumed", 0});
    report.results.push_back(
        {"volume filled", FigureOf::volume, is.volume_m3, "piston home + area x travel", 0});
    report.results.push_back({"free air drawn", FigureOf::volume, is.free_air_m3,
                              "absolute pressure x volume, less what was in it", 0});
    report.notes.emplace_back("Free air is counted at 100 kPa and 20 degC (ISO 8778).");
  }
}

void judge(const AirPiston& piston, const AirTest& test, double pressure_Pa, AirReach& is) {
  CalculationReport& report = is.report;
  report.verdict = is.completes ? ReportVerdict::good : ReportVerdict::bad;
  const std::string needs = air_figure(FigureOf::pressure, is.stroked_at_Pa);
  if (piston.most_stroke_m > 0 && piston.stroke_m > piston.most_stroke_m) {
    report.verdict_words = "The piston ends on its stop before the pack is closed.";
  } else if (!is.moves) {
    report.verdict_words =
        "The air does not overcome the springs: the piston does not move below " +
        air_figure(FigureOf::pressure, is.moves_at_Pa) + ".";
  } else if (!is.completes) {
    report.verdict_words = "The piston moves and stops at " +
                           air_figure(FigureOf::length, is.travel_m) + " of " +
                           air_figure(FigureOf::length, piston.stroke_m) +
                           " against its springs: too little air makes good seals look bad. The "
                           "whole stroke takes " +
                           needs + ".";
  } else if (piston.stroke_m == 0) {
    report.verdict_words = "The piston moves, and pushes with " +
                           air_figure(FigureOf::force, is.clamp_N) +
                           " beyond its spring; its stroke is not stated.";
  } else {
    report.verdict_words = "The piston makes its whole stroke and clamps with " +
                           air_figure(FigureOf::force, is.clamp_N) + ".";
  }
  if (!is.completes && is.stroked_at_Pa > test.limit_Pa) {
    report.notes.emplace_back("That is above the unit's limit for bench air, " +
                              air_figure(FigureOf::pressure, test.limit_Pa) +
                              ": this piston cannot be checked with air.");
  }
  // The bench's commonest slip: a gauge in psi read as kPa.
  constexpr double psi_over_kPa = 6.894757293168;
  if (!is.moves && pressure_Pa * psi_over_kPa >= is.stroked_at_Pa &&
      pressure_Pa * psi_over_kPa <= test.limit_Pa) {
    report.notes.emplace_back(
        "Was the gauge in psi? " +
        print_figure(FigureOf::ratio, pressure_Pa / 1e3, LengthUnit::millimetre) + " psi is " +
        air_figure(FigureOf::pressure, pressure_Pa * psi_over_kPa) + ", which would move it.");
  }
}

} // namespace

AirReach air_reach(const AirPiston& piston, const AirTest& test, double pressure_Pa,
                   const BenchAir& air) {
  AirReach is;
  const std::string title = air_title(piston, "Bench air on the piston");
  const std::string wrong = air_problem(piston, test, pressure_Pa);
  if (!wrong.empty()) {
    is.report = air_refusal(piston, title, wrong);
    return is;
  }
  is.worked = true;
  const double reach_m =
      piston.most_stroke_m > 0 ? std::min(piston.stroke_m, piston.most_stroke_m) : piston.stroke_m;
  is.area_m2 = area_m2(piston.piston);
  is.push_N = pressure_Pa * is.area_m2;
  is.back = spring_back(piston.springs, piston.spring_force_N, piston.stroke_m);
  is.moves_at_Pa = moves_at_Pa(piston.piston, is.back);
  is.stroked_at_Pa = stroked_at_Pa(piston.piston, is.back);
  is.travel_m = travel_at_m(piston.piston, is.back, reach_m, pressure_Pa);
  is.moves = is.push_N > is.back.home_N;
  is.completes = is.push_N >= is.back.apply_N && is.moves && reach_m >= piston.stroke_m;
  is.clamp_N = is.completes ? is.push_N - is.back.apply_N : 0;
  if (piston.volume_m3 > 0) {
    is.volume_m3 = piston.volume_m3 + is.area_m2 * is.travel_m;
    is.free_air_m3 =
        ((pressure_Pa + air.outside_Pa) * is.volume_m3 - air.outside_Pa * piston.volume_m3) /
        reference_Pa * reference_K / air.temperature_K;
  }
  is.report.id = piston.id;
  is.report.title = title;
  tell(piston, pressure_Pa, air, is);
  judge(piston, test, pressure_Pa, is);
  is.report.notes.emplace_back("Seal friction is left out; a piston that sticks needs more.");
  is.report.sources = {"Force = pressure x area, statics; springs by Hooke's law"};
  is.report.scale =
      ReportScale{"bench air", FigureOf::pressure, pressure_Pa, 0, is.stroked_at_Pa, test.limit_Pa};
  add_air_cautions(is.report, test, pressure_Pa);
  return is;
}

} // namespace lugline
