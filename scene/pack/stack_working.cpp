#include "scene/pack/stack_working.h"

#include <cmath>

namespace lugline {

namespace {

constexpr double same_m = 1e-9;

std::string both(double length_m) {
  return print_length_both(length_m, LengthUnit::millimetre);
}

ReportLine plate_line(const PackLine& plate) {
  std::string how = plate.measured ? "measured" : "nominal";
  if (!plate.why.empty()) {
    how += "; " + plate.why;
  }
  if (std::abs(plate.overall_m - plate.counts_m) > same_m) {
    how += ", of " + both(plate.overall_m) + " over all";
  }
  return {plate.label, FigureOf::length, plate.counts_m, how, 0};
}

void judge(CalculationReport& report, const PackReport& pack) {
  const std::string limits = both(pack.low_m) + " to " + both(pack.high_m);
  switch (pack.verdict) {
  case PackVerdict::open:
    report.verdict_words =
        "The pack is not closed yet: " + both(pack.clearance_m) + " of space is left.";
    return;
  case PackVerdict::inside:
    report.verdict = ReportVerdict::good;
    report.verdict_words = both(pack.clearance_m) + " is inside the limits " + limits + ".";
    return;
  case PackVerdict::tight:
  case PackVerdict::loose:
    report.verdict = ReportVerdict::bad;
    report.verdict_words = both(pack.clearance_m) + " is " + both(pack.outside_by_m) + " " +
                           word_for(pack.verdict) + " for the limits " + limits + ".";
    return;
  }
}

} // namespace

CalculationReport stack_working(const PackReport& pack) {
  CalculationReport report;
  report.id = pack.id;
  report.title = "Clearance of " + pack.name;
  for (const PackLine& plate : pack.lines) {
    report.inputs.push_back(plate_line(plate));
  }
  report.working = {{"from the piston's face to the ring's", FigureOf::length,
                     pack.ring_face_m - pack.piston_face_m, "ring's face less the piston's", 0},
                    {"ring's face", FigureOf::length, pack.ring_face_m,
                     "ring pushed to the face that takes the load", 0},
                    {"piston's face", FigureOf::length, pack.piston_face_m, "piston home", 0},
                    {"stack", FigureOf::length, pack.stack_m,
                     "sum of " + std::to_string(pack.lines.size()) + " plates", 0}};
  if (pack.worst_case_m > 0) {
    report.working.push_back(
        {"off at the worst", FigureOf::length, pack.worst_case_m, "sum of the half widths", 0});
    report.working.push_back({"off, root sum of squares", FigureOf::length, pack.root_sum_square_m,
                              "square root of the sum of their squares", 0});
  }
  const std::string how = "space less the stack";
  report.results.push_back({pack.has_wave ? "clearance, " + pack.wave_label + " free" : "clearance",
                            FigureOf::length, pack.clearance_free_m, how, pack.root_sum_square_m});
  if (pack.has_wave) {
    report.results.push_back({"clearance, " + pack.wave_label + " flat", FigureOf::length,
                              pack.clearance_flat_m, "what the piston travels to full clamp",
                              pack.root_sum_square_m});
  }
  if (pack.frictions > 0) {
    report.results.push_back({"for each friction", FigureOf::length, pack.per_friction_m,
                              "clearance / " + std::to_string(pack.frictions), 0});
  }
  if (pack.verdict != PackVerdict::open) {
    report.scale =
        ReportScale{"clearance", FigureOf::length, pack.clearance_m, pack.root_sum_square_m,
                    pack.low_m,  pack.high_m};
  }
  judge(report, pack);
  report.notes = {"Limits are the unit's own; its service manual decides."};
  report.sources = {"the sum of what stands between piston and ring; common practice, no source"};
  return report;
}

} // namespace lugline
