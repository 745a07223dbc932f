#include "scene/pack/chain.h"

#include "scene/seat/drop.h"

#include <cmath>

namespace lugline {

namespace {

void judge(ChainReport& report) {
  if (report.value_m < report.low_m - contact_tolerance_m) {
    report.verdict = ChainVerdict::too_little;
    report.outside_by_m = report.low_m - report.value_m;
  } else if (report.value_m > report.high_m + contact_tolerance_m) {
    report.verdict = ChainVerdict::too_much;
    report.outside_by_m = report.value_m - report.high_m;
  }
}

ReportLine line_of(const ChainPiece& piece) {
  return {piece.label, FigureOf::length, piece.length_m, piece.measured ? "measured" : "stated",
          piece.plus_minus_m};
}

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

} // namespace

std::string word_for(ChainVerdict verdict) {
  switch (verdict) {
  case ChainVerdict::inside:
    return "inside limits";
  case ChainVerdict::too_little:
    return "too little";
  case ChainVerdict::too_much:
    return "too much";
  }
  return {};
}

ChainReport add_up(const ChainStack& stack) {
  ChainReport report;
  report.id = stack.id;
  report.name = stack.name;
  report.gap = stack.gap;
  report.lines = stack.members;
  report.low_m = stack.low_m;
  report.high_m = stack.high_m;
  report.worst_case_m = stack.gap.plus_minus_m;
  double squares_m2 = stack.gap.plus_minus_m * stack.gap.plus_minus_m;
  for (const ChainPiece& piece : stack.members) {
    report.filled_m += piece.length_m;
    report.worst_case_m += piece.plus_minus_m;
    squares_m2 += piece.plus_minus_m * piece.plus_minus_m;
  }
  report.root_sum_square_m = std::sqrt(squares_m2);
  report.value_m = stack.gap.length_m - report.filled_m;
  judge(report);
  return report;
}

CalculationReport report_of(const ChainReport& chain) {
  CalculationReport report;
  report.id = chain.id;
  report.title = chain.name;
  report.inputs.push_back(line_of(chain.gap));
  for (const ChainPiece& piece : chain.lines) {
    report.inputs.push_back(line_of(piece));
  }
  report.working.push_back({"filled", FigureOf::length, chain.filled_m, "sum of what is in it"});
  report.results.push_back(
      {chain.name, FigureOf::length, chain.value_m, "gap - filled", chain.worst_case_m});
  const bool inside = chain.verdict == ChainVerdict::inside;
  report.verdict = inside ? ReportVerdict::good : ReportVerdict::bad;
  report.verdict_words = chain.name + " is " + mm(chain.value_m) + ", " + word_for(chain.verdict) +
                         (inside ? "" : " by " + mm(chain.outside_by_m)) + ": limits " +
                         mm(chain.low_m) + " to " + mm(chain.high_m) + ".";
  report.sources.push_back("common practice, no source");
  report.scale = ReportScale{chain.name,         FigureOf::length, chain.value_m,
                             chain.worst_case_m, chain.low_m,      chain.high_m};
  return report;
}

} // namespace lugline
