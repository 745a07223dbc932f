#include "scene/drive/air.h"
#include "scene/drive/air_words.h"

#include "scene/quantity/quantity.h"

#include <cmath>

namespace lugline {

namespace {

constexpr double longest_hold_s = 86400;
constexpr double shortest_hold_s = 1e-2;
constexpr double minute_s = 60;
/// m3/(s Pa) to the dm3/(s bar) that data sheets use.
constexpr double data_sheet_conductance = 1e8;

constexpr const char* flow_source =
    "ISO 6358-1: mass flow by sonic conductance C and critical pressure ratio b, choked and not "
    "(formula read in public documentation)";
constexpr const char* sharp_hole_source =
    "Sharp-edged hole: 0.65 of a perfect one, from the table 'Discharge of air through an orifice' "
    "by S. A. Moss's formula, American Machinist, September 20, 1906 (read in a reprint)";

/// In absolute pressures. Without a stated volume one of 1 m3 that the piston does not change: then
/// only ratios of times mean anything.
Cylinder cylinder_of(const AirPiston& piston, const BenchAir& air) {
  if (piston.volume_m3 == 0) {
    return {1, 1, air.outside_Pa, air.outside_Pa};
  }
  const SpringBack back = spring_back(piston.springs, piston.spring_force_N, piston.stroke_m);
  return {piston.volume_m3, piston.volume_m3 + area_m2(piston.piston) * piston.stroke_m,
          air.outside_Pa + moves_at_Pa(piston.piston, back),
          air.outside_Pa + stroked_at_Pa(piston.piston, back)};
}

std::string fall_problem(const AirPiston& piston, const AirTest& test, double from_Pa,
                         double to_Pa) {
  const std::string wrong = air_problem(piston, test, from_Pa);
  if (!wrong.empty()) {
    return wrong;
  }
  if (!(to_Pa > 0) || !std::isfinite(to_Pa)) {
    return "A timed hold ends while the gauge still reads something: a gauge at nothing no longer "
           "tells when it got there.";
  }
  if (to_Pa > from_Pa) {
    return "The gauge ends higher than it began: shut the air off before the hold.";
  }
  if (piston.most_stroke_m > 0 && piston.stroke_m > piston.most_stroke_m) {
    return "The piston ends on its stop before the pack is closed; mend that first.";
  }
  return {};
}

std::string reading_problem(const AirPiston& piston, const AirTest& test,
                            const HoldReading& reading) {
  const std::string wrong = fall_problem(piston, test, reading.from_Pa, reading.to_Pa);
  if (!wrong.empty()) {
    return wrong;
  }
  if (!(reading.seconds >= shortest_hold_s)) {
    return "A hold of no time tells nothing: it leaks faster than the gauge can be read.";
  }
  return reading.seconds > longest_hold_s
             ? "A hold of more than a day is no bench check: is the time in seconds?"
             : "";
}

std::string leak_problem(const Leak& leak) {
  if (!(leak.conductance >= 0) || !std::isfinite(leak.conductance)) {
    return "A leak below nothing cannot be.";
  }
  // 1e-6 m3/(s Pa) is a hole of some 30 mm: no leak but an open port.
  if (leak.conductance > 1e-6) {
    return "That is no leak but an open port.";
  }
  if (!(leak.critical_ratio >= 0) || !(leak.critical_ratio < 1)) {
    return "A critical pressure ratio lies between 0 and 1.";
  }
  return {};
}

bool good_hold_known(const AirPiston& piston, const AirTest& test) {
  return piston.good_hold_s >= shortest_hold_s && piston.good_hold_s <= longest_hold_s &&
         test.floor_Pa > 0 && test.test_Pa > test.floor_Pa &&
         test.test_Pa <= test.limit_Pa * (1 + 1e-9);
}

void add_inputs(CalculationReport& report, const AirPiston& piston, double from_Pa, double to_Pa,
                double critical_ratio, const BenchAir& air) {
  report.inputs = {{"shut off at, gauge", FigureOf::pressure, from_Pa, "read", 0},
                   {"ended at, gauge", FigureOf::pressure, to_Pa, "read", 0},
                   {"outside, absolute", FigureOf::pressure, air.outside_Pa, "assumed", 0},
                   {"air's temperature", FigureOf::temperature, air.temperature_K, "assumed", 0},
                   {"critical ratio b of the leak", FigureOf::ratio, critical_ratio,
                    "assumed: 0.5283 is a nozzle's", 0}};
  if (piston.volume_m3 > 0) {
    report.inputs.push_back(
        {"passage and cylinder, piston home", FigureOf::volume, piston.volume_m3, "stated", 0});
  }
}

void add_volumes(CalculationReport& report, const AirPiston& piston, const Cylinder& cylinder,
                 double from_Pa, double to_Pa, double critical_ratio, const BenchAir& air) {
  if (piston.volume_m3 > 0) {
    report.working.push_back({"volume at the start", FigureOf::volume,
                              cylinder.volume_m3(from_Pa + air.outside_Pa),
                              "piston home + area x travel", 0});
    report.working.push_back({"volume at the end", FigureOf::volume,
                              cylinder.volume_m3(to_Pa + air.outside_Pa),
                              "less as the springs drive the piston home", 0});
  }
  if (critical_ratio > 0) {
    report.working.push_back({"flow is choked above, gauge", FigureOf::pressure,
                              air.outside_Pa / critical_ratio - air.outside_Pa,
                              "outside / b - outside", 0});
  }
}

void add_leak(CalculationReport& report, const Leak& leak, double hole_m, double from_Pa,
              const BenchAir& air) {
  report.results.push_back({"sonic conductance C, dm3/(s bar)", FigureOf::ratio,
                            leak.conductance * data_sheet_conductance,
                            "the leak that takes this long", 0});
  report.results.push_back({"sharp-edged hole that leaks as much", FigureOf::length, hole_m,
                            "choked flow, discharge coefficient as assumed", 0});
  const double flow = leak_flow_kg_per_s(leak, from_Pa + air.outside_Pa, air);
  report.results.push_back({"free air lost in a minute, at the start", FigureOf::volume,
                            flow * minute_s / reference_kg_per_m3, "at 100 kPa and 20 degC", 0});
}

void hold_to_good(const AirPiston& piston, const AirTest& test, HoldResult& is) {
  CalculationReport& report = is.report;
  report.inputs.push_back(
      {"good hold", FigureOf::time, piston.good_hold_s, "stated by the unit", 0});
  report.working.push_back({"hold from test pressure to floor", FigureOf::time, is.full_hold_s,
                            "the same leak from " + air_figure(FigureOf::pressure, test.test_Pa) +
                                " to " + air_figure(FigureOf::pressure, test.floor_Pa),
                            0});
  report.results.push_back({"leak, times that of a good one", FigureOf::ratio, is.times_good_leak,
                            "good hold / this hold", 0});
  report.scale =
      ReportScale{"hold", FigureOf::time, is.full_hold_s, 0, piston.good_hold_s, std::nullopt};
  const bool good = is.full_hold_s >= piston.good_hold_s * (1 - 1e-9);
  report.verdict = good ? ReportVerdict::good : ReportVerdict::bad;
  report.verdict_words =
      good ? "It holds as long as the unit calls good, or longer."
           : "It leaks " + air_figure(FigureOf::ratio, is.times_good_leak) +
                 " times as much as the unit calls good: look for seal, ring, ball or bolt hole.";
}

void size_leak(const AirPiston& piston, const HoldReading& reading, const LeakAssumptions& assumed,
               double conductance, const BenchAir& air, HoldResult& is) {
  is.report.sources = {flow_source};
  if (piston.volume_m3 == 0) {
    is.report.notes.emplace_back("The volume of passage and cylinder is not stated, so the leak's "
                                 "size does not follow.");
    return;
  }
  is.leak.conductance = conductance;
  is.hole_m = hole_diameter_m(conductance, assumed.discharge, air);
  is.report.inputs.push_back({"discharge coefficient of the hole", FigureOf::ratio,
                              assumed.discharge, "assumed: sharp-edged", 0});
  add_leak(is.report, is.leak, is.hole_m, reading.from_Pa, air);
  is.report.sources.emplace_back(sharp_hole_source);
}

HoldResult did_not_fall(const AirPiston& piston, const AirTest& test, const HoldReading& reading,
                        std::string title) {
  HoldResult is;
  is.worked = true;
  is.report.id = piston.id;
  is.report.title = std::move(title);
  is.report.inputs = {{"held at, gauge", FigureOf::pressure, reading.from_Pa, "read", 0},
                      {"for", FigureOf::time, reading.seconds, "read", 0}};
  is.report.verdict = ReportVerdict::good;
  is.report.verdict_words = "The gauge did not fall: no leak that this gauge shows in this time.";
  add_air_cautions(is.report, test, reading.from_Pa);
  return is;
}

} // namespace

HoldResult leak_from_hold(const AirPiston& piston, const AirTest& test, const HoldReading& reading,
                          const LeakAssumptions& assumed, const BenchAir& air) {
  HoldResult is;
  const std::string title = air_title(piston, "Timed hold");
  const Leak unit_leak{1e-10, assumed.critical_ratio};
  std::string wrong = reading_problem(piston, test, reading);
  wrong = wrong.empty() ? leak_problem(unit_leak) : wrong;
  if (wrong.empty() && !(assumed.discharge > 0 && assumed.discharge <= 1)) {
    wrong = "A hole's discharge coefficient lies above 0 and is at most 1.";
  }
  if (!wrong.empty()) {
    is.report = air_refusal(piston, title, wrong);
    return is;
  }
  if (reading.from_Pa == reading.to_Pa) {
    return did_not_fall(piston, test, reading, title);
  }
  is.worked = true;
  is.report.id = piston.id;
  is.report.title = title;
  // Time is in inverse proportion to the conductance, so one forecast gives it.
  const Cylinder cylinder = cylinder_of(piston, air);
  const auto of_unit_s = [&](double from_Pa, double to_Pa) {
    return hold_time_s(unit_leak, cylinder, from_Pa + air.outside_Pa, to_Pa + air.outside_Pa, air);
  };
  const double reading_s = of_unit_s(reading.from_Pa, reading.to_Pa);
  add_inputs(is.report, piston, reading.from_Pa, reading.to_Pa, assumed.critical_ratio, air);
  is.report.inputs.push_back({"time", FigureOf::time, reading.seconds, "read", 0});
  add_volumes(is.report, piston, cylinder, reading.from_Pa, reading.to_Pa, assumed.critical_ratio,
              air);
  is.leak = {0, assumed.critical_ratio};
  size_leak(piston, reading, assumed, unit_leak.conductance * reading_s / reading.seconds, air, is);
  if (good_hold_known(piston, test)) {
    const double good_unit_s = of_unit_s(test.test_Pa, test.floor_Pa);
    is.full_hold_s = reading.seconds * good_unit_s / reading_s;
    is.times_good_leak = piston.good_hold_s / is.full_hold_s;
    if (piston.volume_m3 > 0) {
      is.good_hole_m = hole_diameter_m(unit_leak.conductance * good_unit_s / piston.good_hold_s,
                                       assumed.discharge, air);
      is.report.working.push_back({"hole of a leak that is just good", FigureOf::length,
                                   is.good_hole_m, "from the good hold", 0});
    }
    hold_to_good(piston, test, is);
  } else {
    is.report.verdict_words = piston.volume_m3 > 0
                                  ? "The unit states no good hold, so this one is only sized."
                                  : "The unit states neither a good hold nor the volume, so this "
                                    "one tells nothing more.";
  }
  is.report.notes.emplace_back("Isothermal; all the leaks together count as one.");
  add_air_cautions(is.report, test, reading.from_Pa);
  return is;
}

Leak leak_of_hole(double hole_m, const LeakAssumptions& assumed, const BenchAir& air) {
  return {hole_conductance(hole_m, assumed.discharge, air), assumed.critical_ratio};
}

HoldForecast hold_with_leak(const AirPiston& piston, const AirTest& test, double from_Pa,
                            double to_Pa, const Leak& leak, const BenchAir& air) {
  HoldForecast is;
  const std::string title = air_title(piston, "Hold with a leak");
  std::string wrong = fall_problem(piston, test, from_Pa, to_Pa);
  wrong = wrong.empty() ? leak_problem(leak) : wrong;
  if (wrong.empty() && piston.volume_m3 == 0) {
    wrong = "The volume of passage and cylinder is not stated, so no time follows.";
  }
  if (!wrong.empty()) {
    is.report = air_refusal(piston, title, wrong);
    return is;
  }
  is.worked = true;
  const Cylinder cylinder = cylinder_of(piston, air);
  is.seconds = hold_time_s(leak, cylinder, from_Pa + air.outside_Pa, to_Pa + air.outside_Pa, air);
  CalculationReport& report = is.report;
  report.id = piston.id;
  report.title = title;
  add_inputs(report, piston, from_Pa, to_Pa, leak.critical_ratio, air);
  report.inputs.push_back({"sonic conductance C, dm3/(s bar)", FigureOf::ratio,
                           leak.conductance * data_sheet_conductance, "asked", 0});
  add_volumes(report, piston, cylinder, from_Pa, to_Pa, leak.critical_ratio, air);
  report.sources = {flow_source};
  if (std::isinf(is.seconds)) {
    report.verdict_words = "Without a leak it holds without end.";
  } else {
    report.results = {{"it holds", FigureOf::time, is.seconds, "mass in it / mass that leaks", 0}};
    report.verdict_words = "It holds for " + air_figure(FigureOf::time, is.seconds) + ".";
  }
  report.notes.emplace_back("Isothermal; all the leaks together count as one.");
  add_air_cautions(report, test, from_Pa);
  return is;
}

} // namespace lugline
