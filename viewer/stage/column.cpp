// The gap column: the pack at true proportion, and the space that is left.
#include "viewer/stage/answers.h"

#include "scene/quantity/quantity.h"

#include <algorithm>

namespace lugline {

namespace {

void word_figures(Column& column, const PackReport& report, LengthUnit unit) {
  const LengthUnit other =
      unit == LengthUnit::millimetre ? LengthUnit::inch : LengthUnit::millimetre;
  const int places = unit == LengthUnit::inch ? 3 : 2;
  column.number = print_length_figure(report.clearance_m, unit, places);
  column.number_unit = unit == LengthUnit::inch ? "in" : "mm";
  column.other_unit = print_length(report.clearance_m, other);
  column.limits_words = "limits " + print_length_figure(report.low_m, unit, places) + " to " +
                        print_length(report.high_m, unit);
  column.verdict_words = report.verdict == PackVerdict::open ? std::string("space that is left")
                                                             : word_for(report.verdict);
}

std::optional<Column> column_in(Workshop& workshop, const Pack& pack, const BuildState& state,
                                const std::string& landing, LengthUnit unit) {
  const auto report = pack_now(workshop, pack, state);
  const PlaceState* place = state.place_with(pack.piston);
  if (!report || place == nullptr) {
    return std::nullopt;
  }
  Column column;
  column.id = pack.id;
  column.name = pack.name;
  column.floor_m = report->piston_face_m;
  column.ring_low_m = report->ring_face_m;
  const Shape& ring = workshop.loaded_ring(pack.ring, false);
  column.ring_high_m = column.ring_low_m + ring.high_m() - ring.low_m();
  column.ring_in = place->find(pack.ring) != nullptr;
  column.clearance_m = report->clearance_m;
  column.flat_m = report->clearance_flat_m;
  column.has_wave = report->has_wave;
  column.wave_label = report->wave_label;
  column.low_m = report->low_m;
  column.high_m = report->high_m;
  column.verdict = column.ring_in ? report->verdict : PackVerdict::open;
  column.in = report->lines.size();
  column.of = pack.plates.size();
  double at_m = report->piston_face_m;
  for (const PackLine& line : report->lines) {
    const Component& part = workshop.part(line.id);
    ColumnPlate plate;
    plate.id = line.id;
    plate.label = line.label;
    plate.low_m = at_m;
    plate.high_m = at_m + line.counts_m;
    plate.thick_m = line.counts_m;
    plate.material = part.kind == ComponentKind::friction ? "friction lining" : part.material;
    plate.wave = part.wave.has_value();
    plate.dished = part.wave && part.wave->waves == 0;
    plate.measured = line.measured;
    plate.landing = line.id == landing;
    at_m = plate.high_m;
    column.plates.push_back(plate);
  }
  PackReport worded = *report;
  worded.verdict = column.verdict;
  word_figures(column, worded, unit);
  return column;
}

} // namespace

std::optional<Column> Stage::column(const ViewState& view) const {
  const Pack* pack = staged::pack_for(unit(), simulation(), view.step);
  if (pack == nullptr) {
    return std::nullopt;
  }
  return column_in(workshop(), *pack, staged::state_shown(simulation(), view),
                   unit().steps[view.step].part, view.settings.unit);
}

std::optional<Column> Stage::whole_column(const std::string& pack, LengthUnit style) const {
  const auto found = std::ranges::find(unit().packs, pack, &Pack::id);
  const auto judged = std::ranges::find_if(
      check().packs, [&](const JudgedPack& one) { return one.report.id == pack; });
  if (found == unit().packs.end() || judged == check().packs.end() || judged->after_step.empty()) {
    return std::nullopt;
  }
  const std::size_t step = unit().step_index(judged->after_step);
  return column_in(workshop(), *found, simulation().after[step], {}, style);
}

} // namespace lugline
