#include "scene/build/log.h"

#include "scene/quantity/quantity.h"

#include <nlohmann/json.hpp>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <sstream>

#include <fcntl.h>
#include <unistd.h>

namespace lugline {

namespace {

using nlohmann::json;

constexpr std::size_t longest_line = 64 * 1024;
constexpr double degree_rad = 0.017453292519943295;

struct KindWord {
  ActionKind kind;
  const char* word;
};
constexpr KindWord action_words[] = {
    {ActionKind::stand_at, "stand at"}, {ActionKind::read, "read"},
    {ActionKind::unread, "unread"},     {ActionKind::finding, "finding"},
    {ActionKind::attempt, "attempt"},   {ActionKind::undo, "undo"},
};

std::string text(const json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && found->is_string() ? found->get<std::string>() : std::string();
}

double number(const json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && found->is_number() ? found->get<double>() : 0.0;
}

bool flag(const json& object, const char* name) {
  const auto found = object.find(name);
  return found != object.end() && found->is_boolean() && found->get<bool>();
}

} // namespace

std::string line_of(const Action& action) {
  nlohmann::ordered_json object;
  object["schema"] = log_schema;
  for (const KindWord& known : action_words) {
    if (known.kind == action.kind) {
      object["action"] = known.word;
    }
  }
  if (!action.step.empty()) {
    object["step"] = action.step;
  }
  if (!action.part.empty()) {
    object["part"] = action.part;
  }
  switch (action.kind) {
  case ActionKind::stand_at:
    object["done"] = action.done;
    break;
  case ActionKind::read:
    object["thickness_mm"] = action.thickness_m / millimetre_m;
    object["plus_minus_mm"] = action.plus_minus_m / millimetre_m;
    break;
  case ActionKind::finding:
    object["words"] = action.words;
    break;
  case ActionKind::attempt:
    object["turn_deg"] = action.turn_rad / degree_rad;
    object["over"] = action.over;
    object["rest_mm"] = action.rest_m / millimetre_m;
    break;
  case ActionKind::unread:
  case ActionKind::undo:
    break;
  }
  if (!action.when.empty()) {
    object["when"] = action.when;
  }
  // Text that is not UTF-8 is written with marks in its place, never refused.
  return object.dump(-1, ' ', false, json::error_handler_t::replace);
}

Outcome<Action> action_from(const std::string& line) {
  if (line.size() > longest_line) {
    return Problem{"the line is longer than a log line can be"};
  }
  const json object = json::parse(line, nullptr, false);
  if (!object.is_object()) {
    return Problem{"it is not a JSON object"};
  }
  const double schema = number(object, "schema");
  if (schema != log_schema) {
    return Problem{"its schema is not " + std::to_string(log_schema) + ", the one understood here"};
  }
  Action action;
  const std::string word = text(object, "action");
  bool known = false;
  for (const KindWord& kind : action_words) {
    if (word == kind.word) {
      action.kind = kind.kind;
      known = true;
    }
  }
  if (!known) {
    return Problem{"the action \"" + word + "\" is not known"};
  }
  action.step = text(object, "step");
  action.part = text(object, "part");
  action.done = flag(object, "done");
  action.thickness_m = number(object, "thickness_mm") * millimetre_m;
  action.plus_minus_m = number(object, "plus_minus_mm") * millimetre_m;
  action.words = text(object, "words");
  action.turn_rad = number(object, "turn_deg") * degree_rad;
  action.over = flag(object, "over");
  action.rest_m = number(object, "rest_mm") * millimetre_m;
  action.when = text(object, "when");
  return action;
}

namespace {

/// The actions that stand, undone ones left out.
std::vector<Action> standing(const std::vector<Action>& actions) {
  std::vector<Action> left;
  for (const Action& action : actions) {
    if (action.kind != ActionKind::undo) {
      left.push_back(action);
    } else if (!left.empty()) {
      left.pop_back();
    }
  }
  return left;
}

} // namespace

bool can_undo(const std::vector<Action>& actions) {
  return !standing(actions).empty();
}

LogState fold(const std::vector<Action>& actions) {
  LogState state;
  for (const Action& action : standing(actions)) {
    switch (action.kind) {
    case ActionKind::stand_at:
      state.step = action.step;
      state.done = action.done;
      break;
    case ActionKind::read:
      state.readings[action.part] = {action.thickness_m, action.plus_minus_m};
      break;
    case ActionKind::unread:
      state.readings.erase(action.part);
      break;
    case ActionKind::finding:
      state.findings.push_back(action);
      break;
    case ActionKind::attempt:
      state.attempts.push_back(action);
      break;
    case ActionKind::undo:
      break;
    }
  }
  return state;
}

LogReport read_log(const std::filesystem::path& file) {
  LogReport report;
  std::ifstream in(file, std::ios::binary);
  if (!in) {
    return report;
  }
  std::ostringstream all;
  all << in.rdbuf();
  const std::string bytes = all.str();
  std::size_t at = 0;
  int line_number = 0;
  while (at < bytes.size()) {
    ++line_number;
    const std::size_t end = bytes.find('\n', at);
    if (end == std::string::npos) {
      report.cut_short = true;
      report.problems.push_back("line " + std::to_string(line_number) +
                                " was cut short and is left out");
      break;
    }
    const std::string line = bytes.substr(at, end - at);
    at = end + 1;
    if (line.empty()) {
      continue;
    }
    auto action = action_from(line);
    if (action) {
      report.actions.push_back(std::move(action).value());
    } else {
      report.problems.push_back("line " + std::to_string(line_number) + ": " + action.problem());
    }
  }
  return report;
}

Outcome<bool> append(const std::filesystem::path& file, const Action& action) {
  std::error_code error;
  if (file.has_parent_path()) {
    std::filesystem::create_directories(file.parent_path(), error);
  }
  const int handle = ::open(file.c_str(), O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC, 0644);
  if (handle < 0) {
    return Problem{"the log " + file.string() + " cannot be written: " + std::strerror(errno)};
  }
  std::string line = line_of(action) + "\n";
  // A line that a power failure cut short is ended first, so that it spoils
  // itself alone.
  char last = '\n';
  const off_t size = ::lseek(handle, 0, SEEK_END);
  if (size > 0 && ::pread(handle, &last, 1, size - 1) == 1 && last != '\n') {
    line.insert(line.begin(), '\n');
  }
  const ssize_t written = ::write(handle, line.data(), line.size());
  const bool ok = written == static_cast<ssize_t>(line.size()) && ::fsync(handle) == 0;
  const int failed = errno;
  ::close(handle);
  if (!ok) {
    return Problem{"the log " + file.string() + " cannot be written: " + std::strerror(failed)};
  }
  return true;
}

} // namespace lugline
