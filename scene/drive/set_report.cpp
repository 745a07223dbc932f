#include "scene/drive/train.h"

#include <cmath>
#include <cstdlib>
#include <numeric>

namespace lugline {

namespace {

std::string name_of(const PlanetarySet& set) {
  return set.name.empty() ? set.id : set.name;
}

std::string text(long long count) {
  return std::to_string(count);
}

// Ring and sun have one axis, so the pinions between them have to fill the room between.
std::string room_words(const PlanetarySet& set, CalculationReport& report) {
  if (set.sun.empty() || set.ring.empty()) {
    return {};
  }
  if (set.kind == PlanetaryKind::double_pinion) {
    report.notes.emplace_back("A double-pinion set's pinions stand beside each other at an angle: "
                              "their counts alone do not say whether they fit.");
    return {};
  }
  const bool stepped = set.kind == PlanetaryKind::stepped_pinion;
  const int outer = stepped ? set.outer_pinion_teeth : set.pinion_teeth;
  const int filled = set.sun_teeth + set.pinion_teeth + outer;
  report.working.push_back({stepped ? "sun + both pinions" : "sun + 2 pinions", FigureOf::count,
                            static_cast<double>(filled),
                            text(set.sun_teeth) + " + " + text(set.pinion_teeth) + " + " +
                                text(outer) + (stepped ? ", of one module" : "")});
  if (filled == set.ring_teeth) {
    return {};
  }
  return "The ring has " + text(set.ring_teeth) + " teeth where sun and pinions make " +
         text(filled) +
         (stepped ? ": they fit only if the two sizes of pinion are of different module."
                  : ": they fit only with shifted teeth.");
}

// The next pinion goes in where the first was, once the carrier has gone one place on.
std::string spacing_words(const PlanetarySet& set, CalculationReport& report) {
  if (set.pinions <= 1 || set.sun.empty() || set.ring.empty()) {
    return {};
  }
  const long long sun = set.sun_teeth;
  const long long ring = set.ring_teeth;
  const long long inner = set.pinion_teeth;
  const long long outer = set.outer_pinion_teeth;
  long long sum = sun + ring;
  long long by = set.pinions;
  std::string how =
      "(sun + ring) / pinions = (" + text(sun) + " + " + text(ring) + ") / " + text(set.pinions);
  if (set.kind == PlanetaryKind::double_pinion) {
    sum = std::llabs(ring - sun);
    how =
        "(ring - sun) / pinions = (" + text(ring) + " - " + text(sun) + ") / " + text(set.pinions);
  } else if (set.kind == PlanetaryKind::stepped_pinion) {
    sum = sun * outer + ring * inner;
    by = set.pinions * std::gcd(inner, outer);
    how = "(sun x small + ring x large) / (pinions x common divisor of the pinions)";
  }
  report.working.push_back({"teeth that have to go round evenly", FigureOf::ratio,
                            static_cast<double>(sum) / static_cast<double>(by), how});
  if (sum % by == 0) {
    return {};
  }
  return "Not a whole number: " + text(set.pinions) + " pinions do not go in at equal spacing.";
}

} // namespace

CalculationReport report_set(const PlanetarySet& set) {
  const std::string title = "Tooth counts of " + name_of(set);
  if (set.pinion_teeth <= 0 || (!set.sun.empty() && set.sun_teeth <= 0) ||
      (!set.ring.empty() && set.ring_teeth <= 0) ||
      (set.kind != PlanetaryKind::single_pinion && set.outer_pinion_teeth <= 0)) {
    return refused_report(title, "A gear without teeth: every tooth count must be stated.");
  }
  CalculationReport report;
  report.id = set.id;
  report.title = title;
  report.inputs = {{"sun teeth", FigureOf::count, static_cast<double>(set.sun_teeth), ""},
                   {"pinion teeth", FigureOf::count, static_cast<double>(set.pinion_teeth), ""},
                   {"ring teeth", FigureOf::count, static_cast<double>(set.ring_teeth), ""},
                   {"pinions", FigureOf::count, static_cast<double>(set.pinions), ""}};
  if (set.kind != PlanetaryKind::single_pinion) {
    report.inputs.push_back(
        {"outer pinion teeth", FigureOf::count, static_cast<double>(set.outer_pinion_teeth), ""});
  }
  const std::string room = room_words(set, report);
  const std::string spacing = spacing_words(set, report);
  if (set.pinions == 0) {
    report.notes.emplace_back("The number of pinions is not stated, so their spacing is not "
                              "judged.");
  }
  report.verdict = room.empty() && spacing.empty() ? ReportVerdict::good : ReportVerdict::bad;
  report.verdict_words = room.empty() && spacing.empty()
                             ? "The tooth counts go together."
                             : room + (room.empty() || spacing.empty() ? "" : " ") + spacing;
  report.sources = {"Ring = sun + 2 pinions, and (sun + ring) / pinions whole: standard, from "
                    "memory; those of double and stepped pinions worked out here"};
  return report;
}

} // namespace lugline
