// One sitting at one unit: what is open, the state, and its log on disk.
//
// No window and no OpenGL, so that it can be tested alone. Owns the stage. A
// wish changes the state through the reducer; each new action is on disk
// before apply() returns, or a note says that it is not and why.
#pragma once

#include "scene/load/load.h"
#include "scene/quantity/complaint.h"
#include "viewer/app/reduce.h"
#include "viewer/stage/page.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace lugline {

/// What opening a unit's folder gave. Reading it may take a while and may be
/// done on another thread; the stage then goes to the one that shows it.
struct OpenedUnit {
  std::unique_ptr<Stage> stage; ///< null where there are complaints
  std::vector<Complaint> complaints;
};
OpenedUnit open_unit(const std::filesystem::path& folder);

class Sitting {
public:
  /// now: the time as text, for the log. log may be empty: nothing is kept,
  /// and a note says so.
  Sitting(std::filesystem::path log, Settings settings, std::function<std::string()> now);

  /// Goes to where the log ends; the first time, the log is read. With
  /// complaints, what was open before stays open.
  void opened(OpenedUnit unit);

  void apply(const Wish& wish);
  std::vector<Errand> take_errands();

  [[nodiscard]] const AppState& state() const { return state_; }
  [[nodiscard]] const Facts& facts() const { return facts_; }
  /// Null until a unit is open.
  [[nodiscard]] const Stage* stage() const { return stage_.get(); }
  [[nodiscard]] const std::vector<Complaint>& complaints() const { return complaints_; }
  [[nodiscard]] const std::filesystem::path& log() const { return log_; }
  [[nodiscard]] const std::vector<PageNote>& notes() const { return notes_; }
  /// Told until something else is done.
  void tell(PageNote note);
  [[nodiscard]] bool kept() const { return log_problem_.empty(); }

private:
  void keep();
  void use_readings();
  void gather_notes();

  std::filesystem::path log_;
  std::function<std::string()> now_;
  AppState state_;
  Facts facts_;
  std::unique_ptr<Stage> stage_;
  Readings used_; ///< what the stage was last given
  std::vector<Complaint> complaints_;
  std::size_t on_disk_ = 0; ///< how many of the actions are
  bool log_read_ = false;
  std::string log_problem_;
  std::vector<PageNote> told_;
  std::vector<PageNote> notes_;
};

} // namespace lugline
