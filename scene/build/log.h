// The append-only log of a build: what a person did, a JSON object a line.
//
// Nothing is lost: every action is on disk before the next frame. Undo is an
// action like any other, so the file only ever grows. A last line cut short by
// a power failure is left out when reading, and reported. Lengths in the file
// are millimetres (fields end in _mm). The clock is the caller's: `when` is
// text that the caller gives, and may be empty.
#pragma once

#include "scene/build/workshop.h"
#include "scene/quantity/outcome.h"

#include <filesystem>
#include <string>
#include <vector>

namespace lugline {

inline constexpr int log_schema = 1;

enum class ActionKind {
  stand_at, ///< the bench is at this step, done or not
  read,     ///< a thickness was read (or a selective chosen)
  unread,   ///< … and withdrawn
  finding,  ///< something seen on a part
  attempt,  ///< a part was let go, at a turn and a way up
  undo      ///< the last action that is not undone is undone
};

struct Action {
  ActionKind kind = ActionKind::stand_at;
  std::string step;        ///< stand_at, attempt: step id
  bool done = false;       ///< stand_at: the step's part is in
  std::string part;        ///< read, unread, finding, attempt: component id
  double thickness_m = 0;  ///< read
  double plus_minus_m = 0; ///< read
  std::string words;       ///< finding: what was seen
  double turn_rad = 0;     ///< attempt
  bool over = false;       ///< attempt: turned over against the way it should go
  double rest_m = 0;       ///< attempt: where it came to rest
  std::string when;
  friend bool operator==(const Action&, const Action&) = default;
};

std::string line_of(const Action& action); ///< one line of JSON, without its end
Outcome<Action> action_from(const std::string& line);

/// What the actions add up to.
struct LogState {
  std::string step; ///< where the bench stands; empty: at the beginning
  bool done = false;
  Readings readings;
  std::vector<Action> findings;
  std::vector<Action> attempts;
};
LogState fold(const std::vector<Action>& actions);
/// Whether there is anything to undo.
bool can_undo(const std::vector<Action>& actions);

struct LogReport {
  std::vector<Action> actions;
  std::vector<std::string> problems; ///< lines that were left out, and why
  bool cut_short = false; ///< the last line has no end: it is left out, and append() ends it first
};
/// An absent file is an empty log.
LogReport read_log(const std::filesystem::path& file);

/// Appends and flushes to the disk. The folder is made if it is missing. A
/// problem where it cannot be written: the caller must tell the person.
Outcome<bool> append(const std::filesystem::path& file, const Action& action);

} // namespace lugline
