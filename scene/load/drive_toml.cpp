#include "scene/load/drive_figures.h"

#include <algorithm>

namespace lugline {

namespace {

constexpr std::size_t most_members = 64;
constexpr std::size_t most_sets = 16;
constexpr std::size_t most_elements = 64;
constexpr std::size_t most_ranges = 32;
constexpr std::size_t most_duties = 16;
constexpr int fewest_teeth = 5;
constexpr int most_teeth = 500;
constexpr double least_fluid_kg_per_m3 = 500;
constexpr double most_fluid_kg_per_m3 = 1500;
constexpr const char* only_view = "pump end";

/// Every direction in these tables is seen from one end, and [train] has to say which.
void read_view(TableReader& table) {
  const auto seen_from = table.text("seen_from");
  if (!seen_from) {
    table.complain("seen_from", "a direction without the end that it is seen from says nothing",
                   "seen_from = \"pump end\"");
  } else if (seen_from->value != only_view) {
    table.complain("seen_from",
                   "seen_from is " + in_quotes(seen_from->value) +
                       ", and the directions of a gear train are read as seen from the pump end",
                   "seen_from = \"pump end\", and turn each direction round if need be");
  }
}

void read_train(TableReader& table, DriveDraft& drive) {
  const auto member = [&](const char* key, const char* asks) {
    const auto written = table.text(key);
    if (!table.has(key) || (written && written->value.empty())) {
      table.complain(key, std::string(key) + (written ? " is empty: " : " is missing: ") + asks);
    }
    return written ? written->value : std::string();
  };
  Drive& train = drive.train;
  train.input = member("input", "which member does the engine turn?");
  train.output = member("output", "which member drives the wheels?");
  read_view(table);
  train.engine_clockwise =
      is_clockwise(table, "engine", "which way does the engine turn?").value_or(true);
  if (const auto efficiency = table.number("mesh_efficiency", 0.5, 1)) {
    train.mesh_efficiency = efficiency->value;
  }
  if (const auto density = table.quantity("fluid_density", Dimension::density)) {
    train.fluid_kg_per_m3 = density->value;
    if (density->value < least_fluid_kg_per_m3 || density->value > most_fluid_kg_per_m3) {
      table.complain("fluid_density",
                     "fluid_density is outside 500 to 1500 kg/m3, and no fluid of a transmission "
                     "is: another unit?");
    }
  }
  table.finish();
  train.source = table.at();
  drive.train_at = table.places();
}

void read_member(TableReader& table, UnitDraft& draft) {
  DriveMember member;
  if (const auto id = table.id("id")) {
    member.id = id->value;
    table.call_it("member " + in_quotes(member.id));
  }
  member.name = table.text_or("name", member.id);
  for (const WrittenText& piece : read_pieces(table, "parts", draft)) {
    member.parts.push_back(piece.value);
  }
  table.finish();
  member.source = table.at();
  draft.drive->members.push_back({std::move(member), table.places(), table.what()});
}

void read_set(TableReader& table, UnitDraft& draft) {
  PlanetarySet set;
  if (const auto id = table.id("id")) {
    set.id = id->value;
    table.call_it("planetary set " + in_quotes(set.id));
  }
  set.name = table.text_or("name", set.id);
  if (!table.has("kind")) {
    table.complain("kind", "kind is missing: how do its pinions mesh?",
                   "one of: " + listed(planetary_kind_words()));
  }
  set.kind = table.word<PlanetaryKind>("kind", planetary_kind_from, planetary_kind_words)
                 .value_or(PlanetaryKind::single_pinion);
  set.sun = table.text_or("sun", "");
  set.ring = table.text_or("ring", "");
  set.carrier = table.text_or("carrier", "");
  const auto teeth = [&](const char* key) {
    const auto written = table.whole(key, fewest_teeth, most_teeth);
    return written ? written->value : 0;
  };
  set.sun_teeth = teeth("sun_teeth");
  set.ring_teeth = teeth("ring_teeth");
  set.pinion_teeth = teeth("pinion_teeth");
  set.outer_pinion_teeth = teeth("outer_pinion_teeth");
  if (const auto pinions = table.whole("pinions", 1, 12)) {
    set.pinions = pinions->value;
  }
  table.finish();
  set.source = table.at();
  draft.drive->sets.push_back({std::move(set), table.places(), table.what()});
}

RangeDuty read_duty(TableReader& table) {
  RangeDuty duty;
  if (const auto name = table.required_text("name")) {
    duty.name = name->value;
    table.call_it(table.what() + " " + in_quotes(duty.name));
  }
  const char* torque_key = "input_torque";
  if (!table.has(torque_key)) {
    table.complain(torque_key, "input_torque is missing: how hard is it driven?",
                   "negative where the wheels drive the engine: \"-70 N m\"");
  }
  if (const auto torque = table.quantity(torque_key, Dimension::torque)) {
    duty.input_Nm = torque->value;
    if (torque->value > torque_bounds.most_si || torque->value < -torque_bounds.most_si) {
      table.complain(torque_key, "input_torque is beyond 100 kN m: another unit?");
    }
  }
  duty.line_Pa = required_within(table, "line_pressure", oil_bounds).value_or(0);
  table.finish();
  return duty;
}

void read_range(TableReader& table, DriveDraft& drive) {
  DriveRange range;
  if (const auto id = table.id("id")) {
    range.id = id->value;
    table.call_it("range " + in_quotes(range.id));
  }
  range.name = table.text_or("name", range.id);
  if (!table.has("on")) {
    table.complain("on", "on is missing: which elements are applied in it?",
                   "on = [] where none is");
  }
  for (WrittenText& written : table.texts("on")) {
    range.on.push_back(std::move(written.value));
  }
  if (const auto ratio = table.number("ratio", -100, 100)) {
    range.ratio = ratio->value;
  }
  if (const auto neutral = table.flag("neutral")) {
    range.neutral = neutral->value;
  }
  std::vector<TableReader> duties = table.tables("duty", table.what() + " duty");
  table.finish();
  if (duties.size() > most_duties) {
    table.complain("duty", "more than " + std::to_string(most_duties) + " duties");
    duties.clear();
  }
  for (TableReader& duty : duties) {
    RangeDuty read = read_duty(duty);
    if (std::ranges::find(range.duties, read.name, &RangeDuty::name) != range.duties.end()) {
      duty.complain("name", "there is a duty of that name in this range already");
    }
    range.duties.push_back(std::move(read));
  }
  range.source = table.at();
  drive.ranges.push_back({std::move(range), table.places(), table.what()});
}

void read_air(TableReader& table, DriveDraft& drive) {
  AirTest air;
  air.test_Pa = required_within(table, "test", air_bounds).value_or(0);
  air.limit_Pa = required_within(table, "limit", air_bounds).value_or(0);
  FigureBounds floor = air_bounds;
  floor.may_be_nothing = true;
  air.floor_Pa = figure_within(table, "floor", floor).value_or(0);
  table.finish();
  drive.train.air = air;
  drive.air_at = table.places();
}

bool too_many(const DriveTables& tables) {
  return tables.members.size() > most_members || tables.sets.size() > most_sets ||
         tables.elements.size() > most_elements || tables.ranges.size() > most_ranges;
}

template <class T>
std::vector<T> values_of(const std::vector<Drafted<T>>& drafted) {
  std::vector<T> values;
  std::ranges::transform(drafted, std::back_inserter(values), &Drafted<T>::value);
  return values;
}

} // namespace

std::optional<double> figure_within(TableReader& table, const std::string& key,
                                    const FigureBounds& bounds) {
  const auto written = table.quantity(key, bounds.dimension);
  if (!written) {
    return std::nullopt;
  }
  if (written->value < 0 || (written->value == 0 && !bounds.may_be_nothing)) {
    table.complain(key, key + (bounds.may_be_nothing ? " is negative" : " is not above nothing"));
    return std::nullopt;
  }
  if (written->value > bounds.most_si * (1 + 1e-12)) {
    table.complain(key, key + " is beyond " + bounds.most_words + ": another unit?");
    return std::nullopt;
  }
  return written->value;
}

std::optional<double> required_within(TableReader& table, const std::string& key,
                                      const FigureBounds& bounds) {
  if (!table.has(key)) {
    table.complain(key, key + " is missing");
  }
  return figure_within(table, key, bounds);
}

std::optional<bool> is_clockwise(TableReader& table, const std::string& key,
                                 const std::string& asks) {
  const char* hint = "\"clockwise\" or \"counter-clockwise\", as seen from the pump end";
  const bool there = table.has(key);
  const auto written = table.text(key);
  if (!there) {
    table.complain(key, key + " is missing: " + asks, hint);
  }
  if (!written) {
    return std::nullopt;
  }
  if (written->value != "clockwise" && written->value != "counter-clockwise") {
    table.complain(key, key + " is " + in_quotes(written->value) + ", which is no direction", hint);
    return std::nullopt;
  }
  return written->value == "clockwise";
}

std::vector<WrittenText> read_pieces(TableReader& table, const std::string& key, UnitDraft& draft) {
  std::vector<WrittenText> pieces;
  for (const WrittenText& written : table.texts(key)) {
    const auto line = std::ranges::find(draft.lines, written.value, &ComponentLine::id);
    const bool several = line != draft.lines.end() && line->count > 1;
    for (const std::string& id :
         several ? line->piece_ids() : std::vector<std::string>{written.value}) {
      draft.references.push_back({Names::component, id, table.what() + ": " + key, written.at});
      pieces.push_back({id, written.at});
    }
  }
  return pieces;
}

DriveTables::DriveTables(TableReader& root)
    : train(root.table("train", "train")), air(root.table("air", "air")),
      members(root.tables("member", "member")), sets(root.tables("planetary", "planetary set")),
      elements(root.tables("element", "element")), ranges(root.tables("range", "range")) {}

bool DriveTables::any() const {
  return train || air || !members.empty() || !sets.empty() || !elements.empty() || !ranges.empty();
}

void read_drive(DriveTables& tables, TableReader& root, UnitDraft& draft) {
  if (too_many(tables)) {
    root.complain("element", "there are " + std::to_string(tables.members.size()) + " members, " +
                                 std::to_string(tables.sets.size()) + " planetary sets, " +
                                 std::to_string(tables.elements.size()) + " elements and " +
                                 std::to_string(tables.ranges.size()) +
                                 " ranges; at most 64, 16, 64 and 32 are read");
    return;
  }
  DriveDraft& drive = draft.drive.emplace();
  if (tables.train) {
    read_train(*tables.train, drive);
  } else {
    root.complain("train", "there are members, elements or ranges, and no [train]",
                  "[train] says which member the engine turns and which drives the wheels");
  }
  for (TableReader& member : tables.members) {
    read_member(member, draft);
  }
  for (TableReader& set : tables.sets) {
    read_set(set, draft);
  }
  for (TableReader& element : tables.elements) {
    read_element(element, draft);
  }
  for (TableReader& range : tables.ranges) {
    read_range(range, drive);
  }
  if (tables.air) {
    read_air(*tables.air, drive);
  }
}

Drive DriveDraft::drive() const {
  Drive whole = train;
  whole.members = values_of(members);
  whole.sets = values_of(sets);
  whole.elements = values_of(elements);
  whole.ranges = values_of(ranges);
  return whole;
}

} // namespace lugline
