#include "scene/drive/element_capacity.h"

#include <cmath>

namespace lugline {

namespace {

ElementCapacity one_way_capacity(const DriveElement& element, const ElementDuty& duty) {
  ElementCapacity is;
  CalculationReport& report = is.report;
  const std::string title =
      "Capacity of " + (element.name.empty() ? std::string("a one-way clutch") : element.name) +
      (duty.name.empty() ? "" : ", " + duty.name);
  const std::string wrong = torque_problem(duty.torque_Nm);
  if (!wrong.empty()) {
    report = refused_report(title, wrong);
    report.id = element.id;
    return is;
  }
  const bool asked = duty.torque_Nm && *duty.torque_Nm != 0;
  const bool runs_free = asked && (*duty.torque_Nm > 0) == element.free_clockwise;
  if (!runs_free && (!element.rated_Nm || !(*element.rated_Nm > 0))) {
    report = refused_report(title, "No rating is stated for it, and none is worked out: that needs "
                                   "its rollers' or sprags' geometry and hardness.");
    report.id = element.id;
    return is;
  }
  is.worked = true;
  report.id = element.id;
  report.title = title;
  if (asked) {
    report.inputs.push_back(
        {"torque on it, clockwise positive", FigureOf::torque, *duty.torque_Nm, "asked", 0});
  }
  if (runs_free) {
    report.verdict = ReportVerdict::bad;
    report.verdict_words = "It runs free in this direction and holds nothing.";
    return is;
  }
  is.capacity_Nm = *element.rated_Nm;
  report.results.push_back({"rating", FigureOf::torque, is.capacity_Nm, "stated by the unit", 0});
  if (asked) {
    is.margin = is.capacity_Nm / std::abs(*duty.torque_Nm);
    report.results.push_back({"margin", FigureOf::ratio, is.margin, "rating / torque", 0});
    report.verdict = is.margin >= 1 ? ReportVerdict::good : ReportVerdict::bad;
    report.verdict_words =
        is.margin >= 1 ? "It holds within its rating." : "The torque is above its rating.";
    report.scale = ReportScale{"rating", FigureOf::torque,          is.capacity_Nm,
                               0,        std::abs(*duty.torque_Nm), std::nullopt};
  }
  return is;
}

} // namespace

ElementCapacity element_capacity(const DriveElement& element, const PackFacts& pack,
                                 double fluid_kg_per_m3, const ElementDuty& duty) {
  switch (element.kind) {
  case ElementKind::clutch: {
    ClutchCapacity clutch =
        clutch_capacity(clutch_design(element, pack, fluid_kg_per_m3),
                        {duty.name, duty.pressure_Pa, duty.turning_rad_per_s, duty.torque_Nm});
    return {clutch.worked, clutch.wear_Nm, clutch.margin, std::move(clutch.report)};
  }
  case ElementKind::band: {
    BandCapacity band = band_capacity(band_design(element, pack.stroke_m),
                                      {duty.name, duty.pressure_Pa, duty.torque_Nm});
    return {band.worked, band.capacity_Nm, band.margin, std::move(band.report)};
  }
  case ElementKind::one_way_clutch:
    return one_way_capacity(element, duty);
  }
  return {};
}

} // namespace lugline
