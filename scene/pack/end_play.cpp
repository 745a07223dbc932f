#include "scene/pack/end_play.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lugline {

namespace {

constexpr double most_play_m = 10e-3;

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

/// A reading as a line of the working, and its doubt added up.
struct Taken {
  double value_m = 0;
  double doubt_m = 0;
};

std::string take(const BenchReading& reading, const std::string& what, double bar_m, int sign,
                 CalculationReport& report, Taken& sum) {
  const auto result = result_of(reading);
  if (!result) {
    return what + ": " + result.problem();
  }
  const ReadResult& read = result.value();
  std::string how = word_for(reading.instrument);
  if (reading.places_m.size() > 1) {
    how += (how.empty() ? "" : ", ") + ("mean of " + std::to_string(reading.places_m.size())) +
           " places, spread " + mm(read.spread_m());
  }
  report.inputs.push_back({what, FigureOf::length, read.corrected_m, how, read.plus_minus_m});
  if (bar_m != 0) {
    report.working.push_back({what + ", less the bar", FigureOf::length, read.corrected_m - bar_m,
                              mm(read.corrected_m) + " - " + mm(bar_m)});
  }
  sum.value_m += sign * (read.corrected_m - bar_m);
  sum.doubt_m += read.plus_minus_m;
  return {};
}

void judge(CalculationReport& report, const WasherToChoose& washer, double play_m, double doubt_m) {
  report.results.push_back({"end play", FigureOf::length, play_m, "", doubt_m});
  const bool inside = play_m >= washer.low_m - 1e-9 && play_m <= washer.high_m + 1e-9;
  report.verdict = inside ? ReportVerdict::good : ReportVerdict::bad;
  report.verdict_words = mm(play_m) + (inside ? " is inside " : " is outside ") + mm(washer.low_m) +
                         " to " + mm(washer.high_m) + ".";
  const double middle_m = (washer.low_m + washer.high_m) / 2;
  report.results.push_back({"washer for the middle", FigureOf::length,
                            washer.fitted_m + play_m - middle_m,
                            "fitted + play - wanted: " + mm(washer.fitted_m) + " + " + mm(play_m) +
                                " - " + mm(middle_m)});
  const ChoiceAnswer answer = choose_washer(washer, play_m);
  if (!answer.words.empty()) {
    report.notes.push_back(answer.words);
  }
  for (const SelectiveChoice& choice : answer.choices) {
    report.results.push_back({"with " + mm(choice.thickness_m.front()), FigureOf::length,
                              choice.clearance_m,
                              std::string(choice.inside ? "inside" : "outside") +
                                  (choice.changed == 0 ? ", as fitted" : "")});
  }
  report.sources = {"Common practice, no source; a thicker washer takes the play one for one: C. "
                    "Duffy, Automatic Transmissions and Transaxles, 2010"};
}

std::string why_absurd(double play_m) {
  if (play_m < 0) {
    return "The figures leave " + mm(play_m) +
           " of play: more lies in it than fits. A washer doubled, a bar not taken off, a drum "
           "that is not home?";
  }
  if (play_m > most_play_m) {
    return mm(play_m) + " of play: something is missing, or a bar's thickness was not taken off.";
  }
  return {};
}

} // namespace

ChoiceAnswer choose_washer(const WasherToChoose& washer, double play_m, std::size_t most) {
  SelectivePart part{washer.id, washer.fitted_m, washer.options_m, washer.on_shelf, {},
                     {},        washer.label};
  return choose_parts({{std::move(part)}, play_m, washer.low_m, washer.high_m, most});
}

std::string plays_disagree(double first_m, double first_doubt_m, double second_m,
                           double second_doubt_m) {
  const double apart_m = std::abs(first_m - second_m);
  if (apart_m <= first_doubt_m + second_doubt_m) {
    return {};
  }
  return "They contradict each other: " + mm(first_m) + " and " + mm(second_m) + ", " +
         mm(apart_m) + " apart, more than both doubts together. Read again.";
}

CalculationReport end_play_report(const EndPlayDepths& depths) {
  CalculationReport report;
  report.title = depths.name + ", from depths";
  Taken sum;
  std::string why =
      take(depths.case_depth, "case's face to the drum", depths.case_bar_m, 1, report, sum);
  const double pushed_m = sum.value_m;
  why = why.empty() ? take(depths.boss_height, "pump's face to its boss", depths.boss_bar_m, -1,
                           report, sum)
                    : why;
  if (!why.empty()) {
    return refused_report(report.title, std::move(why));
  }
  const double gasket_m =
      depths.with_compressed ? depths.gasket_compressed_m : depths.gasket_free_m;
  const double other_m = depths.with_compressed ? depths.gasket_free_m : depths.gasket_compressed_m;
  const std::string which = depths.with_compressed ? "compressed" : "free";
  report.inputs.push_back(
      {"gasket, " + which, FigureOf::length, gasket_m, "as the unit's method takes it"});
  report.inputs.push_back({"washer that is fitted", FigureOf::length, depths.washer.fitted_m, ""});
  const double boss_m = pushed_m - sum.value_m;
  const double play_m = sum.value_m + gasket_m - depths.washer.fitted_m;
  why = why_absurd(play_m);
  if (!why.empty()) {
    return refused_report(report.title, std::move(why));
  }
  report.working.push_back({"depth + gasket - boss - washer", FigureOf::length, play_m,
                            mm(pushed_m) + " + " + mm(gasket_m) + " - " + mm(boss_m) + " - " +
                                mm(depths.washer.fitted_m)});
  if (depths.case_depth_pulled) {
    Taken pulled;
    why = take(*depths.case_depth_pulled, "the same, pulled to the front", depths.case_bar_m, 1,
               report, pulled);
    if (why.empty() && pulled.value_m > pushed_m + sum.doubt_m + pulled.doubt_m) {
      why = "Pulled to the front the drum reads deeper than pushed to the rear: were the two "
            "swapped?";
    }
    if (!why.empty()) {
      return refused_report(report.title, std::move(why));
    }
    report.results.push_back({"left when pulled to the front", FigureOf::length,
                              play_m - (pushed_m - pulled.value_m), ""});
    report.results.push_back({"taken by what lies behind the drum", FigureOf::length,
                              pushed_m - pulled.value_m, "pushed less pulled"});
  }
  judge(report, depths.washer, play_m, sum.doubt_m);
  if (other_m > 0 && std::abs(other_m - gasket_m) > 1e-9) {
    report.notes.push_back("With the gasket " +
                           std::string(depths.with_compressed ? "free" : "compressed") + ", " +
                           mm(other_m) + ", it would come to " + mm(play_m + other_m - gasket_m) +
                           ": do not mix the methods.");
  }
  return report;
}

CalculationReport end_play_report(const EndPlayDial& dial) {
  CalculationReport report;
  report.title = dial.name + ", by dial";
  Taken sum;
  std::string why = take(dial.pulled, "dial, pulled to the front", 0, 1, report, sum);
  why = why.empty() ? take(dial.pushed, "dial, pushed to the rear", 0, -1, report, sum) : why;
  if (why.empty() && sum.value_m < 0) {
    why = "The dial reads less pulled to the front than pushed to the rear: were the two swapped?";
  }
  double play_m = sum.value_m;
  report.working.push_back({"between the two stops", FigureOf::length, play_m, "pulled - pushed"});
  for (const Correction& other : dial.others) {
    play_m -= other.add_m;
    sum.doubt_m += other.plus_minus_m;
    report.working.push_back(
        {"less " + other.what, FigureOf::length, other.add_m, other.how, other.plus_minus_m});
  }
  why = why.empty() ? why_absurd(play_m) : why;
  if (!why.empty()) {
    return refused_report(report.title, std::move(why));
  }
  judge(report, dial.washer, play_m, sum.doubt_m);
  return report;
}

} // namespace lugline
