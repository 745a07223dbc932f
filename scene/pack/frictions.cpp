#include "scene/pack/frictions.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace lugline {

namespace {

/// 0.010 in for each friction: common practice, no source. Two technical manuals' pack limits come
/// to 0.0080 to 0.0135 in and to 0.008 to 0.017 in for each (TM 10-3930-664-24, pp. 4-57, 4-62).
constexpr double thumb_m = 0.254e-3;
constexpr double thumb_low_m = 0.2032e-3;
constexpr double thumb_high_m = 0.4318e-3;
constexpr double far_thicker = 1.25;

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

std::string why_not(const Frictions& frictions) {
  if (frictions.plates.empty()) {
    return "There are no friction plates in it.";
  }
  if (!(frictions.new_m > 0)) {
    return "The thickness of a new friction is not stated.";
  }
  if (frictions.least_m < 0 || frictions.least_m >= frictions.new_m) {
    return "The least thickness, " + mm(frictions.least_m) + ", is not below that of a new one, " +
           mm(frictions.new_m) + ".";
  }
  for (const FrictionRead& plate : frictions.plates) {
    if (!(plate.thickness_m > 0) || plate.thickness_m > frictions.new_m * far_thicker) {
      return plate.label + " of " + mm(plate.thickness_m) + ", and a new one has " +
             mm(frictions.new_m) + ": is it another pack's?";
    }
  }
  return {};
}

void judge_wear(const Frictions& frictions, CalculationReport& report) {
  double lost_m = 0;
  const FrictionRead* thinnest = nullptr;
  for (const FrictionRead& plate : frictions.plates) {
    lost_m += frictions.new_m - plate.thickness_m;
    if (plate.measured) {
      std::string how = mm(plate.thickness_m) + " read";
      if (frictions.least_m > 0) {
        how += ", " + mm(plate.thickness_m - frictions.least_m) + " left";
        report.working.push_back({plate.label + ", worn", FigureOf::share,
                                  worn_share(frictions.new_m, frictions.least_m, plate.thickness_m),
                                  how});
      } else {
        report.working.push_back({plate.label + ", worn by", FigureOf::length,
                                  frictions.new_m - plate.thickness_m, how});
      }
      thinnest =
          thinnest == nullptr || plate.thickness_m < thinnest->thickness_m ? &plate : thinnest;
    }
  }
  if (thinnest == nullptr) {
    report.notes.emplace_back("None was read: all are taken as new.");
    return;
  }
  report.results.push_back(
      {"lost by all together", FigureOf::length, lost_m, "what wear has added to the clearance"});
  if (frictions.least_m > 0 && thinnest->thickness_m < frictions.least_m) {
    report.verdict = ReportVerdict::bad;
    report.verdict_words = thinnest->label + " is worn out: " + mm(thinnest->thickness_m) +
                           ", and the least is " + mm(frictions.least_m) + ".";
  } else if (frictions.least_m > 0) {
    report.verdict = ReportVerdict::good;
    report.verdict_words = "None is worn out.";
  }
}

void judge_each(const Frictions& frictions, CalculationReport& report) {
  const auto count = static_cast<double>(frictions.plates.size());
  const double each_m = frictions.clearance_m / count;
  std::string how = "clearance / frictions";
  if (frictions.each_low_m && frictions.each_high_m) {
    const bool inside =
        each_m >= *frictions.each_low_m - 1e-9 && each_m <= *frictions.each_high_m + 1e-9;
    how = "the unit allows " + mm(*frictions.each_low_m) + " to " + mm(*frictions.each_high_m);
    if (!inside) {
      report.verdict = ReportVerdict::bad;
      report.verdict_words += (report.verdict_words.empty() ? "" : " ") + mm(each_m) +
                              " for each friction is outside the unit's " +
                              mm(*frictions.each_low_m) + " to " + mm(*frictions.each_high_m) + ".";
    }
  }
  report.results.push_back({"clearance for each friction", FigureOf::length, each_m, how});
  if (each_m < thumb_low_m || each_m > thumb_high_m) {
    report.notes.push_back("The rule of thumb says about " + mm(thumb_m) +
                           " for each. Only a hint: the unit's limits decide.");
  }
}

} // namespace

double worn_share(double new_m, double least_m, double thickness_m) {
  assert(least_m < new_m);
  return (new_m - thickness_m) / (new_m - least_m);
}

CalculationReport frictions_report(const Frictions& frictions) {
  const std::string title = frictions.name + ": friction plates";
  std::string why = why_not(frictions);
  if (!why.empty()) {
    return refused_report(title, std::move(why));
  }
  const auto count = static_cast<double>(frictions.plates.size());
  CalculationReport report;
  report.id = frictions.id;
  report.title = title;
  report.inputs = {{"frictions", FigureOf::count, count, ""},
                   {"new thickness", FigureOf::length, frictions.new_m, "stated"}};
  if (frictions.least_m > 0) {
    report.inputs.push_back({"least thickness", FigureOf::length, frictions.least_m, "stated"});
  } else {
    report.notes.emplace_back("The unit states no least thickness.");
  }
  judge_wear(frictions, report);
  if (frictions.wet_m > 0) {
    report.inputs.push_back({"wet allowance of each", FigureOf::length, frictions.wet_m, "stated"});
    report.results.push_back({"clearance with all soaked", FigureOf::length,
                              frictions.clearance_m - count * frictions.wet_m,
                              "as read dry, less frictions x wet allowance"});
  }
  judge_each(frictions, report);
  report.sources = {"Rule of thumb, 0.010 in for each friction: common practice, no source; inside "
                    "the ranges that two packs' limits in TM 10-3930-664-24 come to"};
  return report;
}

} // namespace lugline
