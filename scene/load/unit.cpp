#include "scene/load/unit.h"

#include "scene/load/words.h"

namespace lugline {

namespace {

constexpr std::array<Word<WayUp>, 2> way_up_table{{
    {WayUp::right, "right way up"},
    {WayUp::turned_over, "turned over"},
}};

constexpr std::array<Word<StepKind>, 15> step_kind_table{{
    {StepKind::place, "place"},
    {StepKind::spread, "spread"},
    {StepKind::take_out, "take out"},
    {StepKind::refit, "refit"},
    {StepKind::attach, "attach"},
    {StepKind::detach, "detach"},
    {StepKind::bring, "bring"},
    {StepKind::turn_over, "turn over"},
    {StepKind::press, "press"},
    {StepKind::grease, "grease"},
    {StepKind::soak, "soak"},
    {StepKind::torque, "torque"},
    {StepKind::measure, "measure"},
    {StepKind::check, "check"},
    {StepKind::note, "note"},
}};

constexpr std::array<Word<CheckBy>, 4> check_by_table{{
    {CheckBy::gauge, "gauge"},
    {CheckBy::hand, "hand"},
    {CheckBy::air, "air"},
    {CheckBy::look, "look"},
}};

constexpr std::array<Word<JointKind>, 8> joint_kind_table{{
    {JointKind::loose, "loose"},
    {JointKind::fixed, "fixed"},
    {JointKind::turns, "turns"},
    {JointKind::turns_one_way, "turns one way"},
    {JointKind::slides, "slides"},
    {JointKind::sprung, "sprung"},
    {JointKind::stuck, "stuck"},
    {JointKind::retained, "retained"},
}};

} // namespace

std::string word_for(WayUp way_up) {
  return word_in(way_up_table, way_up);
}
std::optional<WayUp> way_up_from(const std::string& word) {
  return value_in<WayUp>(way_up_table, word);
}
std::vector<std::string> way_up_words() {
  return words_in(way_up_table);
}

std::string word_for(StepKind kind) {
  return word_in(step_kind_table, kind);
}
std::optional<StepKind> step_kind_from(const std::string& word) {
  return value_in<StepKind>(step_kind_table, word);
}
std::vector<std::string> step_kind_words() {
  return words_in(step_kind_table);
}

std::string word_for(CheckBy by) {
  return word_in(check_by_table, by);
}
std::optional<CheckBy> check_by_from(const std::string& word) {
  return value_in<CheckBy>(check_by_table, word);
}
std::vector<std::string> check_by_words() {
  return words_in(check_by_table);
}

std::string word_for(JointKind kind) {
  return word_in(joint_kind_table, kind);
}
std::optional<JointKind> joint_kind_from(const std::string& word) {
  return value_in<JointKind>(joint_kind_table, word);
}
std::vector<std::string> joint_kind_words() {
  return words_in(joint_kind_table);
}

const UnitComponent* Unit::component(const std::string& id) const {
  return with_id(components, id);
}
const Pack* Unit::pack(const std::string& id) const {
  return with_id(packs, id);
}
const Chain* Unit::chain(const std::string& id) const {
  return with_id(chains, id);
}
const Place* Unit::place(const std::string& id) const {
  return with_id(places, id);
}
const Step* Unit::step(const std::string& id) const {
  return with_id(steps, id);
}

std::size_t Unit::step_index(const std::string& id) const {
  return static_cast<std::size_t>(std::ranges::find(steps, id, &Step::id) - steps.begin());
}

} // namespace lugline
