#include "scene/drive/band.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr const char* euler_source =
    "Band brake by Euler's equation, tight over slack = e^(mu theta): Shigley, Mechanical "
    "Engineering Design, chapter 16 (from memory)";

/// Beyond this the grip overflows all meaning: e^50 is 10^21.
constexpr double most_grip_exponent = 50;
constexpr double most_lever = 100;
constexpr double most_length_m = 10;

std::string figure(FigureOf of, double si) {
  return print_figure_both(of, si);
}

std::string wrap_problem(double drum_m, double width_m, double wrap_rad, double friction) {
  if (!(drum_m > 0) || drum_m > most_length_m) {
    return "The drum under the band has no diameter that a drum can have.";
  }
  if (!(width_m >= 0) || width_m > most_length_m) {
    return "The band has no width that a band can have.";
  }
  if (!(wrap_rad > 0) || !std::isfinite(wrap_rad)) {
    return "The band has no wrap, so it grips nothing.";
  }
  const std::string wrong = friction_problem(friction);
  if (!wrong.empty()) {
    return wrong;
  }
  if (friction * wrap_rad > most_grip_exponent) {
    return "Friction times wrap is beyond any band; is the wrap in degrees or in radians?";
  }
  return {};
}

std::string band_problem(const BandDesign& band, const BandDuty& duty) {
  std::string wrong = piston_problem(band.servo, band.springs, band.spring_force_N, band.stroke_m);
  wrong =
      wrong.empty() ? wrap_problem(band.drum_m, band.width_m, band.wrap_rad, band.friction) : wrong;
  if (!wrong.empty()) {
    return wrong;
  }
  if (!(band.lever > 0) || band.lever > most_lever) {
    return "The lever between servo and band must be above nothing, and is below a hundred.";
  }
  wrong = pressure_problem(duty.pressure_Pa);
  return wrong.empty() ? torque_problem(duty.torque_Nm) : wrong;
}

void add_inputs(CalculationReport& report, const BandDesign& band, const BandDuty& duty) {
  auto& in = report.inputs;
  in.push_back({"pressure at the servo", FigureOf::pressure, duty.pressure_Pa, "asked", 0});
  in.push_back({"servo piston, diameter", FigureOf::length, band.servo.outer_m, "stated", 0});
  if (band.servo.inner_m > 0) {
    in.push_back({"servo, stem taken off", FigureOf::length, band.servo.inner_m, "stated", 0});
  }
  in.push_back({"lever", FigureOf::ratio, band.lever, "stated", 0});
  in.push_back({"drum diameter", FigureOf::length, band.drum_m, "stated", 0});
  in.push_back({"wrap", FigureOf::angle, band.wrap_rad, "stated", 0});
  in.push_back({"coefficient of friction", FigureOf::ratio, band.friction, "stated", 0});
  if (band.width_m > 0) {
    in.push_back({"width of the lining", FigureOf::length, band.width_m, "stated", 0});
  }
  if (duty.torque_Nm) {
    in.push_back(
        {"torque on the drum, clockwise positive", FigureOf::torque, *duty.torque_Nm, "asked", 0});
  }
}

void add_working(CalculationReport& report, const BandDesign& band, const BandCapacity& is) {
  report.working = {
      {"servo area", FigureOf::area, is.area_m2, "pi/4 (outer2 - inner2)", 0},
      {"servo spring, band gripping", FigureOf::force, is.back.apply_N,
       is.back.rate_known ? "count x rate x (free - fitted + stroke)" : "stated", 0},
      {"force of the servo", FigureOf::force, is.servo_N, "pressure x area - spring", 0},
      {"force at the band's free end", FigureOf::force, is.band_N, "servo x lever", 0},
      {"grip, tight end over slack end", FigureOf::ratio, is.grip, "e^(friction x wrap in rad)", 0},
      {"pull at the anchored end", FigureOf::force, is.anchor_N,
       is.anchor_N > is.band_N ? "free end x grip" : "free end / grip", 0}};
  if (band.width_m > 0) {
    report.working.push_back({"most lining pressure", FigureOf::pressure, is.lining_Pa,
                              "tight end's pull / (width x drum radius)", 0});
  }
}

void add_results(CalculationReport& report, const BandDesign& band, const BandCapacity& is) {
  const std::string tightens = band.tightens_clockwise ? "clockwise" : "counter-clockwise";
  const std::string loosens = band.tightens_clockwise ? "counter-clockwise" : "clockwise";
  report.results = {{"the servo starts to move at", FigureOf::pressure, is.moves_at_Pa,
                     "spring at home / area", 0},
                    {"holds " + tightens + ", tightening", FigureOf::torque, is.tightening_Nm,
                     "F r (grip - 1)", 0},
                    {"holds " + loosens + ", not tightening", FigureOf::torque, is.loosening_Nm,
                     "F r (1 - 1/grip)", 0}};
  if (is.margin > 0) {
    report.results.push_back({"margin", FigureOf::ratio, is.margin, "capacity / torque", 0});
  }
}

void judge(const BandDuty& duty, BandCapacity& is) {
  CalculationReport& report = is.report;
  const bool asked = duty.torque_Nm && *duty.torque_Nm != 0;
  const std::string way = is.tightens ? "in the direction that tightens the band"
                                      : "in the direction that does not tighten the band";
  if (is.band_N <= 0) {
    report.verdict = ReportVerdict::bad;
    report.verdict_words =
        figure(FigureOf::pressure, duty.pressure_Pa) +
        " does not overcome the servo's spring, and the band holds nothing: that takes " +
        figure(FigureOf::pressure, is.back.apply_N / is.area_m2) + ".";
  } else if (!asked) {
    report.verdict = duty.torque_Nm ? ReportVerdict::good : ReportVerdict::none;
    report.verdict_words = "It holds up to " + figure(FigureOf::torque, is.tightening_Nm) +
                           " tightening and " + figure(FigureOf::torque, is.loosening_Nm) +
                           " the other way.";
  } else if (is.margin >= 1) {
    report.verdict = ReportVerdict::good;
    report.verdict_words = "It holds, " + way + ", with " + figure(FigureOf::ratio, is.margin) +
                           " times the torque that it has to hold.";
  } else {
    report.verdict = ReportVerdict::bad;
    report.verdict_words = "It slips at " + figure(FigureOf::torque, is.capacity_Nm) + ", " + way +
                           ", below the torque that it has to hold.";
  }
}

std::string differential_problem(const DifferentialBand& band, double pull_N) {
  const std::string wrong = wrap_problem(band.drum_m, band.width_m, band.wrap_rad, band.friction);
  if (!wrong.empty()) {
    return wrong;
  }
  if (!(band.slack_arm_m > 0) || !(band.tight_arm_m >= 0) || !(band.pull_arm_m > 0) ||
      band.slack_arm_m + band.tight_arm_m + band.pull_arm_m > 3 * most_length_m) {
    return "The lever's arms for the pull and for the slack end must be above nothing.";
  }
  if (!(pull_N >= 0)) {
    return "A pull below nothing cannot be.";
  }
  return pull_N > 1e6 ? "So strong a pull is beyond any lever." : "";
}

void add_inputs(CalculationReport& report, const DifferentialBand& band, double pull_N) {
  report.inputs = {{"pull on the lever", FigureOf::force, pull_N, "asked", 0},
                   {"arm of the pull", FigureOf::length, band.pull_arm_m, "stated", 0},
                   {"arm of the slack end", FigureOf::length, band.slack_arm_m, "stated", 0},
                   {"arm of the tight end", FigureOf::length, band.tight_arm_m, "stated", 0},
                   {"drum diameter", FigureOf::length, band.drum_m, "stated", 0},
                   {"wrap", FigureOf::angle, band.wrap_rad, "stated", 0},
                   {"coefficient of friction", FigureOf::ratio, band.friction, "stated", 0}};
}

} // namespace

BandDesign band_design(const DriveElement& element, double stroke_m) {
  BandDesign band;
  band.id = element.id;
  band.name = element.name;
  band.servo = element.piston.value_or(ApplyPiston{});
  band.springs = element.springs;
  band.spring_force_N = element.spring_force_N;
  band.stroke_m = stroke_m;
  band.lever = element.lever;
  band.drum_m = element.drum_m;
  band.wrap_rad = element.wrap_rad;
  band.friction = element.friction;
  band.tightens_clockwise = element.tightens_clockwise;
  return band;
}

BandCapacity band_capacity(const BandDesign& band, const BandDuty& duty) {
  BandCapacity is;
  CalculationReport& report = is.report;
  report.title = "Capacity of " + (band.name.empty() ? std::string("a band") : band.name) +
                 (duty.name.empty() ? "" : ", " + duty.name);
  const std::string wrong = band_problem(band, duty);
  if (!wrong.empty()) {
    report = refused_report(report.title, wrong);
    report.id = band.id;
    return is;
  }
  is.worked = true;
  is.area_m2 = area_m2(band.servo);
  is.back = spring_back(band.springs, band.spring_force_N, band.stroke_m);
  is.moves_at_Pa = moves_at_Pa(band.servo, is.back);
  is.servo_N = std::max(0.0, duty.pressure_Pa * is.area_m2 - is.back.apply_N);
  is.band_N = is.servo_N * band.lever;
  is.grip = band_grip(band.friction, band.wrap_rad);
  is.tightening_Nm = tightening_torque_Nm(is.band_N, band.drum_m, is.grip);
  is.loosening_Nm = loosening_torque_Nm(is.band_N, band.drum_m, is.grip);
  const bool asked = duty.torque_Nm && *duty.torque_Nm != 0;
  is.tightens = asked && (*duty.torque_Nm > 0) == band.tightens_clockwise;
  is.capacity_Nm = is.tightens ? is.tightening_Nm : is.loosening_Nm;
  // With no torque asked, the pulls and the lining pressure are those of the harder direction.
  const bool harder = is.tightens || !asked;
  is.anchor_N = harder ? is.band_N * is.grip : is.band_N / is.grip;
  if (band.width_m > 0) {
    is.lining_Pa = band_lining_Pa(std::max(is.band_N, is.anchor_N), band.drum_m, band.width_m);
  }
  if (asked) {
    is.margin = is.capacity_Nm / std::abs(*duty.torque_Nm);
  }
  report.id = band.id;
  add_inputs(report, band, duty);
  add_working(report, band, is);
  add_results(report, band, is);
  judge(duty, is);
  if (is.margin > 0) {
    report.scale = ReportScale{"capacity", FigureOf::torque,          is.capacity_Nm,
                               0,          std::abs(*duty.torque_Nm), std::nullopt};
  }
  report.notes = {"Clockwise and counter-clockwise are of the torque on the drum, as seen from the "
                  "pump end. The band's own stiffness and the seals' friction are left out."};
  if (band.wrap_rad > 2 * std::numbers::pi) {
    report.notes.emplace_back("The band is wrapped more than a turn; the equation holds as it is.");
  }
  report.sources = {euler_source};
  return is;
}

double band_grip(double friction, double wrap_rad) {
  assert(friction >= 0 && wrap_rad >= 0);
  return std::exp(friction * wrap_rad);
}

double tightening_torque_Nm(double free_end_N, double drum_m, double grip) {
  assert(grip >= 1);
  return free_end_N * drum_m / 2 * (grip - 1);
}

double loosening_torque_Nm(double free_end_N, double drum_m, double grip) {
  assert(grip >= 1);
  return free_end_N * drum_m / 2 * (1 - 1 / grip);
}

double band_lining_Pa(double tight_end_N, double drum_m, double width_m) {
  assert(drum_m > 0 && width_m > 0);
  return 2 * tight_end_N / (width_m * drum_m);
}

DifferentialCapacity differential_capacity(const DifferentialBand& band, double pull_N) {
  DifferentialCapacity is;
  CalculationReport& report = is.report;
  report.title =
      "Capacity of " + (band.name.empty() ? std::string("a differential band") : band.name);
  const std::string wrong = differential_problem(band, pull_N);
  if (!wrong.empty()) {
    report = refused_report(report.title, wrong);
    return is;
  }
  is.worked = true;
  is.grip = band_grip(band.friction, band.wrap_rad);
  const double arm_m = band.slack_arm_m - band.tight_arm_m * is.grip;
  is.self_locking = arm_m <= 0;
  add_inputs(report, band, pull_N);
  report.working = {
      {"grip, tight end over slack end", FigureOf::ratio, is.grip, "e^(friction x wrap in rad)", 0},
      {"arm that the pull works against", FigureOf::length, arm_m,
       "slack arm - tight arm x grip; nothing or less locks by itself", 0}};
  report.sources = {euler_source};
  if (is.self_locking) {
    report.verdict = ReportVerdict::bad;
    report.verdict_words = "It locks by itself in this direction: the tight end's pull alone draws "
                           "the band tighter, and no torque makes it slip.";
    return is;
  }
  is.slack_N = pull_N * band.pull_arm_m / arm_m;
  is.tight_N = is.slack_N * is.grip;
  is.torque_Nm = tightening_torque_Nm(is.slack_N, band.drum_m, is.grip);
  report.working.push_back({"pull of the slack end", FigureOf::force, is.slack_N,
                            "pull x its arm / (slack arm - tight arm x grip)", 0});
  report.working.push_back(
      {"pull of the tight end", FigureOf::force, is.tight_N, "slack end x grip", 0});
  if (band.width_m > 0) {
    is.lining_Pa = band_lining_Pa(is.tight_N, band.drum_m, band.width_m);
    report.working.push_back({"most lining pressure", FigureOf::pressure, is.lining_Pa,
                              "tight end's pull / (width x drum radius)", 0});
  }
  report.results = {{"holds", FigureOf::torque, is.torque_Nm, "(tight - slack) r", 0}};
  report.verdict_words =
      "It holds up to " + figure(FigureOf::torque, is.torque_Nm) + " and does not lock by itself.";
  return is;
}

double differential_pull_N(const DifferentialBand& band, double torque_Nm) {
  const double grip = band_grip(band.friction, band.wrap_rad);
  assert(grip > 1 && band.drum_m > 0 && band.pull_arm_m > 0);
  const double slack_N = torque_Nm / (band.drum_m / 2 * (grip - 1));
  return slack_N * (band.slack_arm_m - band.tight_arm_m * grip) / band.pull_arm_m;
}

} // namespace lugline
