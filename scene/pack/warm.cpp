#include "scene/pack/warm.h"

#include "scene/quantity/quantity.h"

#include <array>
#include <cmath>
#include <map>
#include <set>
#include <string_view>
#include <utility>

namespace lugline {

namespace {

constexpr double coldest_K = 273.15 - 60;
constexpr double hottest_K = 273.15 + 250;
constexpr const char* hibbeler = "R. C. Hibbeler, Mechanics of Materials, 8th edition";
constexpr const char* practice = "common practice, no source";

double per_K(const WarmLink& link) {
  return link.per_K != 0 ? link.per_K : expansion_of(link.material).per_K;
}

std::string mm3(double length_m) {
  return print_length(length_m, LengthUnit::millimetre, 3);
}

std::string millionths(double value_per_K) {
  const double scaled = std::round(value_per_K * 1e7) / 10;
  std::string text = print_length_figure(scaled * millimetre_m, LengthUnit::millimetre, 1);
  return text + "e-6 /K";
}

} // namespace

Expansion expansion_of(const std::string& material) {
  struct Row {
    std::string_view material;
    double per_K;
    const char* source;
  };
  static constexpr std::array<Row, 6> rows{
      {{"aluminium", 23e-6, hibbeler},
       {"steel", 12e-6, hibbeler},
       {"iron", 6.0e-6 * 1.8, "SDP/SI, Elements of Metric Gear Technology, table 18-10"},
       {"bronze", 18e-6, practice},
       {"friction lining", 12e-6, "taken as its steel core: common practice, no source"},
       {"rubber", 150e-6, practice}}};
  for (const Row& row : rows) {
    if (row.material == material) {
      return {row.per_K, row.source};
    }
  }
  return {12e-6, "material not stated: taken as steel"};
}

double warm_change_m(const WarmChain& chain, double step_K) {
  double change_m = 0;
  for (const WarmLink& link : chain.links) {
    change_m += link.sign * per_K(link) * link.length_m * step_K;
  }
  return change_m;
}

CalculationReport warm_report(const WarmChain& chain, double warm_K) {
  const std::string at = print_figure(FigureOf::temperature, warm_K, LengthUnit::millimetre);
  const std::string title = chain.name + " at " + at;
  if (!(warm_K >= coldest_K && warm_K <= hottest_K)) {
    return refused_report(title, at + ": between -60 degC and 250 degC was expected. Was it degF?");
  }
  if (chain.links.empty()) {
    return refused_report(title, "Nothing is known of what it is made up of.");
  }
  const double step_K = warm_K - bench_K;
  CalculationReport report;
  report.id = chain.id;
  report.title = title;
  report.inputs = {{"clearance at 20 degC", FigureOf::length, chain.clearance_m, ""},
                   {"warmer by", FigureOf::temperature_step, step_K, ""}};
  std::set<std::string> sources;
  double lengths_m = 0;
  // Links of one material and one sign in one line: ten plates grow alike.
  struct Sum {
    std::string what;
    int count = 0;
    double length_m = 0;
  };
  std::map<std::pair<std::string, int>, Sum> sums;
  for (const WarmLink& link : chain.links) {
    lengths_m += link.sign * link.length_m;
    Sum& sum = sums[{link.material, link.sign}];
    sum.what = sum.count == 0 ? link.what : sum.what;
    sum.count += 1;
    sum.length_m += link.length_m;
    if (link.per_K == 0) {
      sources.insert(expansion_of(link.material).source);
    }
  }
  for (const auto& [key, sum] : sums) {
    double change_m = 0;
    double each_per_K = 0;
    for (const WarmLink& link : chain.links) {
      if (link.material == key.first && link.sign == key.second) {
        change_m += link.sign * per_K(link) * link.length_m * step_K;
        each_per_K = per_K(link);
      }
    }
    report.working.push_back(
        {sum.count == 1 ? sum.what : std::to_string(sum.count) + " parts of " + key.first,
         FigureOf::length, change_m,
         mm3(change_m) + ": " + millionths(each_per_K) + " x " +
             print_length(sum.length_m, LengthUnit::millimetre) + " of " + key.first});
  }
  const double change_m = warm_change_m(chain, step_K);
  const double warm_m = chain.clearance_m + change_m;
  report.results = {{"change", FigureOf::length, change_m, mm3(change_m)},
                    {"clearance at " + at, FigureOf::length, warm_m, ""}};
  if (std::abs(lengths_m - chain.clearance_m) > 1e-6) {
    report.notes.push_back("The chain's lengths come to " +
                           print_length(lengths_m, LengthUnit::millimetre) +
                           ", not to the clearance: a part of it is not in the chain.");
  }
  report.notes.emplace_back("Limits are stated for the bench, at 20 degC; all parts are taken as "
                            "equally warm.");
  for (const std::string& source : sources) {
    report.sources.push_back("Expansion: " + source);
  }
  return report;
}

} // namespace lugline
