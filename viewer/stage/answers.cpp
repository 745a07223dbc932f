#include "viewer/stage/answers.h"

#include <algorithm>

namespace lugline {

Stage::Stage(std::shared_ptr<const Unit> unit) : answers_(std::make_unique<Answers>()) {
  answers_->unit = std::move(unit);
  set_readings({});
}

Stage::~Stage() = default;
Stage::Stage(Stage&&) noexcept = default;
Stage& Stage::operator=(Stage&&) noexcept = default;

void Stage::set_readings(const Readings& readings) {
  answers_->workshop = std::make_unique<Workshop>(*answers_->unit, readings);
  answers_->simulation = simulate(*answers_->workshop);
  answers_->check = judge(*answers_->workshop, answers_->simulation);
}

const Unit& Stage::unit() const {
  return *answers_->unit;
}
const Simulation& Stage::simulation() const {
  return answers_->simulation;
}
Workshop& Stage::workshop() const {
  return *answers_->workshop;
}
const CheckReport& Stage::check() const {
  return answers_->check;
}
std::size_t Stage::step_count() const {
  return answers_->unit->steps.size();
}

double Stage::seconds(std::size_t step) const {
  return natural_seconds(answers_->simulation, *answers_->unit, step);
}

std::optional<Lowered> Stage::held_drop(const ViewState& view) const {
  const StepOutcome& outcome = answers_->simulation.outcomes[view.step];
  const Step& step = answers_->unit->steps[view.step];
  if (!outcome.lowered) {
    return std::nullopt;
  }
  const InHand* hand = view.hand.over ? outcome.turned_hand.get() : outcome.hand.get();
  if (hand == nullptr) {
    return std::nullopt;
  }
  LowerOptions options;
  options.seat = step.seat;
  options.expected_m =
      outcome.lowered->expected_known ? std::optional(outcome.lowered->expected_m) : std::nullopt;
  options.wanted_turn_rad = step.turn_rad + view.hand.turn_rad;
  const auto& places = answers_->simulation.before(view.step).places;
  const auto place = places.find(step.place);
  return place == places.end() ? std::nullopt
                               : std::optional(lower(workshop(), *hand, place->second, options));
}

namespace staged {

const BuildState& state_shown(const Simulation& simulation, const ViewState& view) {
  return view.moment >= 1 ? simulation.after[view.step] : simulation.before(view.step);
}

namespace {

bool about(const Step& step, const Pack& pack) {
  const auto is_of_pack = [&](const std::string& id) {
    return id == pack.ring || std::ranges::find(pack.plates, id) != pack.plates.end();
  };
  return is_of_pack(step.part) || std::ranges::any_of(step.parts, is_of_pack) ||
         (step.reading && step.reading->of == "clearance:" + pack.id);
}

} // namespace

const Pack* pack_for(const Unit& unit, const Simulation& simulation, std::size_t step) {
  // The step itself, else the last one before it in the same place, as long
  // as the pack's piston is there.
  const std::string& place = unit.steps[step].place;
  for (std::size_t i = step + 1; i-- > 0;) {
    if (unit.steps[i].place != place) {
      continue;
    }
    for (const Pack& pack : unit.packs) {
      if (!about(unit.steps[i], pack)) {
        continue;
      }
      const auto& places = simulation.after[step].places;
      const auto found = places.find(place);
      const bool there = found != places.end() && found->second.find(pack.piston) != nullptr &&
                         !found->second.over;
      return there ? &pack : nullptr;
    }
  }
  return nullptr;
}

std::string place_of_step_name(const Unit& unit, const Step& step) {
  const Place* place = unit.place(step.place);
  return place == nullptr ? std::string() : place->name;
}

} // namespace staged

} // namespace lugline
