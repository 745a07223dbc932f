#include "scene/load/draft.h"

#include <numbers>

namespace lugline {

namespace {

constexpr std::size_t most_places = 50;
constexpr std::size_t most_steps = 2000;
constexpr double quarter_rad = std::numbers::pi / 2;

void read_place(TableReader& table, SequenceDraft& draft) {
  Place place;
  if (const auto id = table.id("id")) {
    place.id = id->value;
    table.call_it("place " + in_quotes(place.id));
  }
  place.name = table.text_or("name", place.id);
  place.base = referred(table, "base", Names::component, draft.references);
  table.finish();
  if (!table.has("base")) {
    table.complain("base", "base is missing: which part is the work built on?");
  }
  place.source = table.at();
  draft.places.push_back({std::move(place), table.places(), table.what()});
}

Joint read_joint(TableReader table, std::vector<Reference>& references) {
  Joint joint;
  if (!table.has("kind")) {
    table.complain("kind", "kind is missing");
  }
  const auto kind = table.word<JointKind>("kind", joint_kind_from, joint_kind_words);
  joint.kind = kind.value_or(JointKind::loose);
  joint.to = referred(table, "to", Names::component, references);
  const auto free = table.text("free");
  joint.seen_from = table.text_or("seen_from", "");
  table.finish();
  const bool one_way = joint.kind == JointKind::turns_one_way;
  if (free && free->value != "clockwise" && free->value != "counter-clockwise") {
    table.complain("free", "free is " + in_quotes(free->value) + ", which is no direction",
                   "\"clockwise\" or \"counter-clockwise\"");
  }
  joint.free_clockwise = free && free->value == "clockwise";
  if (one_way && !free) {
    table.complain("free", "free is missing: which way does it turn?",
                   "\"clockwise\" or \"counter-clockwise\"");
  }
  if (one_way && joint.seen_from.empty()) {
    table.complain("seen_from", "a direction without the end that it is seen from says nothing",
                   "seen_from = \"pump end\"");
  }
  if (kind && !one_way && (free || table.has("seen_from"))) {
    table.complain("free", "free and seen_from are for a joint that turns one way, and this one " +
                               in_quotes(word_for(joint.kind)));
  }
  return joint;
}

std::optional<Reading> read_reading(TableReader table) {
  Reading reading;
  if (const auto of = table.required_text("of")) {
    reading.of = of->value;
  }
  bool all = true;
  const auto length = [&](const std::string& key) {
    if (!table.has(key)) {
      table.complain(key, key + " is missing");
    }
    const auto written = table.quantity(key, Dimension::length);
    all = all && written;
    return written ? written->value : 0.0;
  };
  reading.expect_m = length("expect");
  reading.low_m = length("low");
  reading.high_m = length("high");
  if (const auto places = table.whole("places", 1, 12)) {
    reading.places = places->value;
  }
  table.finish();
  const auto mm = [](double length_m) { return print_length(length_m, LengthUnit::millimetre); };
  if (all && reading.low_m > reading.high_m) {
    table.complain("low", "the limits are the wrong way round: low is " + mm(reading.low_m) +
                              " and high is " + mm(reading.high_m));
  } else if (all && (reading.expect_m < reading.low_m || reading.expect_m > reading.high_m)) {
    table.complain("expect", "what is expected, " + mm(reading.expect_m) +
                                 ", is outside its own limits, " + mm(reading.low_m) + " to " +
                                 mm(reading.high_m));
  }
  return reading;
}

CameraHint read_camera(TableReader table) {
  CameraHint camera;
  if (const auto turn = table.quantity("turn", Dimension::angle)) {
    camera.turn_rad = turn->value;
  }
  if (const auto rise = table.quantity("rise", Dimension::angle)) {
    camera.rise_rad = rise->value;
    if (rise->value < -quarter_rad || rise->value > quarter_rad) {
      table.complain("rise", "rise is outside -90 deg to 90 deg");
    }
  }
  if (const auto closeness = table.number("closeness", 0.1, 20)) {
    camera.closeness = closeness->value;
  }
  table.finish();
  return camera;
}

void read_words(TableReader& table, Step& step) {
  step.chapter = table.text_or("chapter", "");
  if (const auto text = table.required_text("do")) {
    step.do_text = text->value;
  }
  step.know_text = table.text_or("know", "");
  step.caution_text = table.text_or("caution", "");
  step.wrong_way_text = table.text_or("wrong_way", "");
}

void read_how(TableReader& table, Step& step, std::vector<Reference>& references) {
  step.way_up = table.word<WayUp>("way_up", way_up_from, way_up_words).value_or(WayUp::right);
  if (const auto turn = table.quantity("turn", Dimension::angle)) {
    step.turn_rad = turn->value;
  }
  step.groove = referred(table, "groove", Names::groove, references);
  step.seat = referred(table, "seat", Names::component, references);
  step.key = referred(table, "key", Names::key, references);
  step.band_state = table.text_or("band_state", "");
  if (const auto height = table.quantity("press_to", Dimension::length)) {
    step.press_to_m = height->value;
  }
  if (const auto height = table.quantity("side_to", Dimension::length)) {
    step.side_to_m = height->value;
  }
  step.lets_go = all_referred(table, "lets_go", Names::component, references);
  if (auto joint = table.table("joint", table.what() + ": joint")) {
    step.joint = read_joint(*joint, references);
  }
}

/// What a kind of step cannot do without, and what it has no use for.
void judge_kind(TableReader& table, const Step& step) {
  const std::string kind = in_quotes(word_for(step.kind));
  const auto needs = [&](const char* key) {
    if (!table.has(key)) {
      table.complain(key,
                     std::string(key) + " is missing, and a step of kind " + kind + " needs it");
    }
  };
  const auto no_use = [&](const char* key) {
    if (table.has(key)) {
      table.complain(key, std::string(key) + " is of no use to a step of kind " + kind);
    }
  };
  switch (step.kind) {
  case StepKind::place:
  case StepKind::refit:
  case StepKind::grease:
  case StepKind::detach:
  case StepKind::take_out:
    needs("part");
    break;
  case StepKind::attach:
    needs("part");
    needs("groove");
    break;
  case StepKind::spread:
    needs("part");
    needs("band_state");
    needs("key");
    break;
  case StepKind::bring:
    needs("brings");
    break;
  case StepKind::press:
    needs("part");
    needs("press_to");
    break;
  case StepKind::measure:
    needs("reading");
    break;
  case StepKind::check:
    needs("by");
    break;
  case StepKind::torque:
    if (step.press_to_m) {
      needs("part");
    }
    break;
  case StepKind::turn_over:
  case StepKind::soak:
  case StepKind::note:
    break;
  }
  if (step.kind != StepKind::press && step.kind != StepKind::torque) {
    no_use("press_to");
  }
  if (step.kind != StepKind::place && step.kind != StepKind::refit) {
    no_use("side_to");
  }
  if (step.kind != StepKind::bring) {
    no_use("brings");
  }
  // What goes in goes in a part at a time: each is a fall of its own.
  const bool several = step.kind == StepKind::take_out || step.kind == StepKind::soak ||
                       step.kind == StepKind::torque || step.kind == StepKind::measure ||
                       step.kind == StepKind::check || step.kind == StepKind::note;
  if (!several) {
    no_use("parts");
  }
  if (step.kind != StepKind::check && step.kind != StepKind::measure) {
    no_use("by");
  }
  if (table.has("elements") && (step.kind != StepKind::check || step.by != CheckBy::air)) {
    table.complain("elements", "elements are for a check by air: whose pistons does it move?");
  }
}

void read_step(TableReader& table, SequenceDraft& draft) {
  Step step;
  if (const auto id = table.id("id")) {
    step.id = id->value;
    table.call_it("step " + in_quotes(step.id));
  }
  std::vector<Reference>& references = draft.references;
  if (!table.has("kind")) {
    table.complain("kind", "kind is missing", "one of: " + listed(step_kind_words(), 99));
  }
  const auto kind = table.word<StepKind>("kind", step_kind_from, step_kind_words);
  step.kind = kind.value_or(StepKind::note);
  step.place = referred(table, "place", Names::place, references);
  if (step.place.empty()) {
    table.complain("place", "place is missing: where is it done?");
  }
  step.part = referred(table, "part", Names::component, references);
  step.brings = referred(table, "brings", Names::place, references);
  step.parts = all_referred(table, "parts", Names::component, references);
  read_how(table, step, references);
  read_words(table, step);
  step.by = table.word<CheckBy>("by", check_by_from, check_by_words);
  for (WrittenText& element : table.texts("elements")) {
    step.elements.push_back(std::move(element.value));
  }
  if (auto reading = table.table("reading", table.what() + ": reading")) {
    step.reading = read_reading(*reading);
  }
  if (auto camera = table.table("camera", table.what() + ": camera")) {
    step.camera = read_camera(*camera);
  }
  table.finish();
  if (kind) {
    judge_kind(table, step);
  }
  step.source = table.at();
  draft.steps.push_back({std::move(step), table.places(), table.what()});
}

} // namespace

std::optional<SequenceDraft> read_sequence_toml(const std::string& text, Findings& findings) {
  const std::optional<toml::table> document = parse_toml(text, sequence_file, findings);
  if (!document) {
    return std::nullopt;
  }
  TableReader root(*document, sequence_file, "sequence", findings);
  if (!schema_is_understood(root)) {
    return std::nullopt;
  }
  SequenceDraft draft;
  std::vector<TableReader> places = root.tables("place", "place");
  std::vector<TableReader> steps = root.tables("step", "step");
  root.finish();
  if (places.empty()) {
    root.complain("place", "there is no [[place]]: where is it put together, and on what?");
  }
  if (steps.empty()) {
    root.complain("step", "there is no [[step]]: how does it go together?");
  }
  if (places.size() > most_places || steps.size() > most_steps) {
    root.complain("step", "there are " + std::to_string(places.size()) + " places and " +
                              std::to_string(steps.size()) + " steps; at most " +
                              std::to_string(most_places) + " and " + std::to_string(most_steps) +
                              " are read");
    return std::nullopt;
  }
  for (TableReader& place : places) {
    read_place(place, draft);
  }
  for (TableReader& step : steps) {
    read_step(step, draft);
  }
  return draft;
}

} // namespace lugline
