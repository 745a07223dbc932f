#include "viewer/app/sitting.h"

#include <algorithm>

namespace lugline {

namespace {

bool same(const Readings& one, const Readings& other) {
  return std::ranges::equal(one, other, [](const auto& a, const auto& b) {
    return a.first == b.first && a.second.thickness_m == b.second.thickness_m &&
           a.second.plus_minus_m == b.second.plus_minus_m;
  });
}

/// Looking round and time passing do not take a message away.
bool only_looks(const Wish& wish) {
  return std::holds_alternative<wish::PassTime>(wish) ||
         std::holds_alternative<wish::LookRound>(wish) ||
         std::holds_alternative<wish::Zoom>(wish) || std::holds_alternative<wish::Pan>(wish) ||
         std::holds_alternative<wish::SavePicture>(wish);
}

} // namespace

OpenedUnit open_unit(const std::filesystem::path& folder) {
  OpenedUnit opened;
  LoadReport report = load_unit(folder);
  opened.complaints = std::move(report.complaints);
  if (report.unit != nullptr && report.unit->steps.empty()) {
    opened.complaints.push_back(
        {"sequence.toml", 0, 0, "there is no step in it", "write at least one [[step]]"});
  } else if (report.unit != nullptr) {
    opened.stage = std::make_unique<Stage>(report.unit);
  }
  return opened;
}

Sitting::Sitting(std::filesystem::path log, Settings settings, std::function<std::string()> now)
    : log_(std::move(log)), now_(std::move(now)) {
  state_.view.settings = settings;
}

void Sitting::opened(OpenedUnit unit) {
  complaints_ = std::move(unit.complaints);
  if (unit.stage == nullptr) {
    state_.panel = PanelKind::faults;
    return;
  }
  stage_ = std::move(unit.stage);
  used_ = {};
  facts_ = facts_of(*stage_);
  std::vector<Action> actions = state_.actions;
  if (!log_read_) {
    log_read_ = true;
    LogReport report = read_log(log_);
    actions = std::move(report.actions);
    on_disk_ = actions.size();
    for (const std::string& problem : report.problems) {
      told_.push_back({"The log's " + problem + ".", true});
    }
    if (log_.empty()) {
      log_problem_ = "there is no home folder to keep a log in";
    }
  }
  state_ = stand_where(actions, state_.view.settings, facts_);
  use_readings();
  gather_notes();
}

void Sitting::apply(const Wish& wish) {
  if (!only_looks(wish)) {
    told_.clear();
  }
  state_ = reduce(std::move(state_), wish, facts_);
  keep();
  use_readings();
  gather_notes();
}

void Sitting::keep() {
  while (on_disk_ < state_.actions.size() && !log_.empty()) {
    Action& action = state_.actions[on_disk_];
    if (action.when.empty()) {
      action.when = now_();
    }
    const auto appended = append(log_, action);
    log_problem_ = appended ? std::string() : appended.problem();
    if (!appended) {
      return; // the next action tries again
    }
    ++on_disk_;
  }
}

void Sitting::use_readings() {
  if (stage_ == nullptr) {
    return;
  }
  const Readings readings = fold(state_.actions).readings;
  if (!same(readings, used_)) {
    stage_->set_readings(readings);
    used_ = readings;
    facts_ = facts_of(*stage_);
  }
}

void Sitting::gather_notes() {
  notes_ = told_;
  if (!log_problem_.empty()) {
    notes_.push_back({"Nothing of this is kept: " + log_problem_ + ".", true});
  }
}

void Sitting::tell(PageNote note) {
  told_.push_back(std::move(note));
  gather_notes();
}

std::vector<Errand> Sitting::take_errands() {
  std::vector<Errand> taken;
  taken.swap(state_.errands);
  return taken;
}

} // namespace lugline
