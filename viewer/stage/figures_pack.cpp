// The pack's working, and end play's.
#include "viewer/stage/figures_parts.h"

#include "scene/build/pack_reports.h"
#include "scene/pack/stack_working.h"
#include "scene/pack/ways.h"

#include <algorithm>

namespace lugline::figures {

namespace {

std::string limits_words(const Limits& limits, LengthUnit unit) {
  return print_length(limits.low_m, unit) + " to " + print_length(limits.high_m, unit);
}

/// Told in the unit that is shown first, which the report itself does not know.
void word_verdict(CalculationReport& report, const PackReport& pack, LengthUnit unit) {
  if (pack.verdict == PackVerdict::inside) {
    report.verdict_words = print_length_both(pack.clearance_m, unit) + " is inside the limits " +
                           limits_words({pack.low_m, pack.high_m}, unit) + ".";
  } else if (pack.verdict != PackVerdict::open) {
    report.verdict_words = print_length_both(pack.clearance_m, unit) + " is " +
                           print_length(pack.outside_by_m, unit) + " " + word_for(pack.verdict) +
                           " for the limits " + limits_words({pack.low_m, pack.high_m}, unit) + ".";
  }
}

/// What to fit instead, where something is nearer to the middle.
std::string advice(const Stage& stage, const Pack& pack, const JudgedPack& judged,
                   LengthUnit unit) {
  if (judged.choices.empty() || judged.choices.front().changed == 0) {
    return {};
  }
  const SelectiveChoice& best = judged.choices.front();
  std::string parts;
  for (std::size_t i = 0; i < best.thickness_m.size() && i < pack.selective.size(); ++i) {
    parts += (parts.empty() ? "" : ", ") + stage.workshop().label(pack.selective[i]) + " " +
             print_length(best.thickness_m[i], unit);
  }
  return "Nearest the middle: " + parts + ", which gives " +
         print_length_both(best.clearance_m, unit) + ".";
}

/// What each way of measuring would read of the pack as it was when it was last whole.
std::optional<CalculationReport> ways_of(const Stage& stage, const Pack& pack) {
  const auto judged = std::ranges::find_if(
      stage.check().packs, [&](const JudgedPack& one) { return one.report.id == pack.id; });
  if (judged == stage.check().packs.end() || judged->after_step.empty()) {
    return std::nullopt;
  }
  const BuildState& state = stage.simulation().after[stage.unit().step_index(judged->after_step)];
  const auto stand = stand_now(stage.workshop(), pack, state);
  return stand ? std::optional(ways_report(*stand)) : std::nullopt;
}

} // namespace

void fill_pack(FiguresPage& page, const Stage& stage, const ViewState& view) {
  page.view = "The pack's working";
  page.choose = "pack";
  const Unit& unit = stage.unit();
  const LengthUnit style = view.settings.unit;
  const std::string chosen = one_of(figures_lists(unit).packs, view.figures.pack);
  for (const Pack& pack : unit.packs) {
    page.options.push_back({pack.id, pack.name, pack.id == chosen});
  }
  const auto pack = std::ranges::find(unit.packs, chosen, &Pack::id);
  if (pack == unit.packs.end()) {
    page.report = refused_report("The pack's working", "This unit has no packs.");
    return;
  }
  page.about = pack->name;
  for (const JudgedPack& judged : stage.check().packs) {
    if (judged.report.id != chosen) {
      continue;
    }
    page.report = stack_working(judged.report);
    word_verdict(page.report, judged.report, style);
    const std::string better = advice(stage, *pack, judged, style);
    if (!better.empty()) {
      page.report.notes.insert(page.report.notes.begin(), better);
    }
  }
  page.column = stage.whole_column(chosen, style);
  page.working = view.figures.working;
  if (page.working) {
    page.second = ways_of(stage, *pack);
  }
  for (const MeasuringSheet& sheet : measuring_sheets(stage, view)) {
    for (const MeasuringRow& row : sheet.rows) {
      if (sheet.pack == chosen && !row.options.empty()) {
        page.selectives.push_back(row);
      }
    }
  }
}

void fill_play(FiguresPage& page, const Stage& stage, const ViewState& view) {
  page.view = "End play's working";
  page.choose = "play";
  const Unit& unit = stage.unit();
  const LengthUnit style = view.settings.unit;
  const std::string chosen = one_of(figures_lists(unit).plays, view.figures.play);
  for (const Play& play : unit.plays) {
    page.options.push_back({play.id, play.name, play.id == chosen});
  }
  const auto play = std::ranges::find(unit.plays, chosen, &Play::id);
  if (play == unit.plays.end()) {
    page.report = refused_report("End play's working", "This unit states no play.");
    return;
  }
  page.about = play->name;
  const auto judged = std::ranges::find(stage.check().plays, chosen, &JudgedPlay::id);
  if (judged == stage.check().plays.end() || !judged->play_m) {
    page.report = refused_report(play->name, "It cannot be found: what moves is not in the unit, "
                                             "or nothing stops it, after the step where it is "
                                             "measured.");
    return;
  }
  CalculationReport& report = page.report;
  report.title = play->name;
  std::string moving;
  for (const std::string& id : play->moving) {
    moving += (moving.empty() ? "" : ", ") + stage.workshop().label(id);
  }
  report.inputs = {{"least that is allowed", FigureOf::length, play->limits.low_m, "stated", 0},
                   {"most that is allowed", FigureOf::length, play->limits.high_m, "stated", 0}};
  report.results = {
      {"play", FigureOf::length, *judged->play_m, "from the rear stop to the front stop", 0}};
  report.verdict = judged->inside ? ReportVerdict::good : ReportVerdict::bad;
  report.verdict_words = print_length_both(*judged->play_m, style) +
                         (judged->inside ? " is inside the limits " : " is outside the limits ") +
                         limits_words(play->limits, style) + ".";
  report.scale = ReportScale{"play", FigureOf::length,   *judged->play_m,
                             0,      play->limits.low_m, play->limits.high_m};
  report.notes = {"What moves: " + moving +
                  ". It is moved to the rear until something stops it, "
                  "and to the front, over every path between the parts as they stand after the "
                  "step \"" +
                  play->after_step + "\"; the least travel is the play."};
  report.sources = {"the drop: where each part comes to rest; limits are the unit's own"};
}

} // namespace lugline::figures
