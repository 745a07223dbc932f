#include "viewer/stage/measuring.h"

#include <algorithm>
#include <cmath>

namespace lugline {

namespace {

constexpr double same_m = 1e-7;

int places_for(LengthUnit unit) {
  return unit == LengthUnit::inch ? 3 : 2;
}

std::optional<double> thickness_of(const Workshop& workshop, const std::string& id) {
  const Component& part = workshop.part(id);
  if (const Figure* figure = part.figure("thickness")) {
    return figure->value_m;
  }
  const auto reading = workshop.readings().find(id);
  if (reading != workshop.readings().end()) {
    return reading->second.thickness_m;
  }
  return part.solid.high_m() - part.solid.low_m();
}

MeasuringRow row_for(const Stage& stage, const ViewState& view, const std::string& id) {
  const Workshop& workshop = stage.workshop();
  const LengthUnit unit = view.settings.unit;
  const double thickness_m = thickness_of(workshop, id).value_or(0);
  MeasuringRow row;
  row.part = id;
  row.label = workshop.label(id);
  row.figure = print_length(thickness_m, unit);
  row.measured = workshop.readings().contains(id);
  row.now = stage.unit().steps[view.step].part == id;
  row.said_back =
      print_length_both(thickness_m, unit) + (row.measured ? ", measured" : ", nominal");
  const auto refused = std::ranges::find(workshop.refused(), id, &RefusedReading::part);
  if (refused != workshop.refused().end()) {
    row.refused = "The reading is left out: " + refused->why;
  }
  for (const double option_m : stage.unit().component(id)->thickness_options_m) {
    row.options.push_back(
        {option_m, print_length(option_m, unit), std::abs(option_m - thickness_m) < same_m});
  }
  return row;
}

/// "Nearest the middle: backing plate 4.80 mm, which gives 1.00 mm."
std::string advice_for(const Stage& stage, const Pack& pack, const JudgedPack& judged,
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
  return "Nearest the middle of the limits: " + parts + ", which gives " +
         print_length_both(best.clearance_m, unit) + ".";
}

MeasuringSheet sheet_for(const Stage& stage, const ViewState& view, const Pack& pack) {
  const LengthUnit unit = view.settings.unit;
  MeasuringSheet sheet;
  sheet.pack = pack.id;
  sheet.name = pack.name;
  for (const std::string& id : pack.plates) {
    sheet.rows.push_back(row_for(stage, view, id));
  }
  for (const JudgedPack& judged : stage.check().packs) {
    const PackReport& report = judged.report;
    if (report.id != pack.id) {
      continue;
    }
    sheet.wrong = report.verdict == PackVerdict::tight || report.verdict == PackVerdict::loose;
    sheet.result = print_length_both(report.clearance_m, unit) + ", " + word_for(report.verdict) +
                   "; limits " + print_length_figure(report.low_m, unit, places_for(unit)) +
                   " to " + print_length(report.high_m, unit);
    sheet.advice = advice_for(stage, pack, judged, unit);
  }
  return sheet;
}

} // namespace

std::vector<MeasuringSheet> measuring_sheets(const Stage& stage, const ViewState& view) {
  std::vector<MeasuringSheet> sheets;
  for (const Pack& pack : stage.unit().packs) {
    sheets.push_back(sheet_for(stage, view, pack));
  }
  const std::optional<Column> here = stage.column(view);
  if (here) {
    std::stable_partition(sheets.begin(), sheets.end(),
                          [&](const MeasuringSheet& sheet) { return sheet.pack == here->id; });
  }
  return sheets;
}

} // namespace lugline
