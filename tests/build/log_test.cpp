// The log: nothing lost, nothing half read.

#include "scene/build/log.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include <unistd.h>

using namespace lugline;

namespace {

struct TempFile {
  std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("lugline-log-" + std::to_string(::getpid()));
  std::filesystem::path path = folder / "deep" / "build.jsonl";
  TempFile() { std::filesystem::remove_all(folder); }
  ~TempFile() { std::filesystem::remove_all(folder); }
};

Action stand_at(const std::string& step, bool done) {
  Action action;
  action.kind = ActionKind::stand_at;
  action.step = step;
  action.done = done;
  return action;
}

Action read_thickness(const std::string& part, double thickness_m) {
  Action action;
  action.kind = ActionKind::read;
  action.part = part;
  action.thickness_m = thickness_m;
  return action;
}

Action undo() {
  Action action;
  action.kind = ActionKind::undo;
  return action;
}

} // namespace

TEST_CASE("every kind of action goes to a line and back") {
  std::vector<Action> actions{stand_at("cc-f1", true), read_thickness("CC-S1", 1.48e-3), undo()};
  Action finding;
  finding.kind = ActionKind::finding;
  finding.part = "CC-F2";
  finding.words = "glazed, \"blue\" at the edge\nand cracked";
  finding.when = "2026-01-02 03:04:05";
  actions.push_back(finding);
  Action attempt;
  attempt.kind = ActionKind::attempt;
  attempt.step = "cc-bp";
  attempt.part = "CC-BP";
  attempt.turn_rad = 0.5;
  attempt.over = true;
  attempt.rest_m = 0.1562;
  actions.push_back(attempt);
  for (const Action& action : actions) {
    const std::string line = line_of(action);
    CHECK(line.find('\n') == std::string::npos);
    const auto back = action_from(line);
    REQUIRE(back.ok());
    CHECK(back.value().kind == action.kind);
    CHECK(back.value().step == action.step);
    CHECK(back.value().part == action.part);
    CHECK(back.value().words == action.words);
    CHECK(back.value().when == action.when);
    CHECK(back.value().done == action.done);
    CHECK(back.value().over == action.over);
    CHECK(back.value().thickness_m == Approx(action.thickness_m));
    CHECK(back.value().turn_rad == Approx(action.turn_rad));
    CHECK(back.value().rest_m == Approx(action.rest_m));
  }
}

TEST_CASE("what is appended is there, in order, and opening returns to the same step") {
  const TempFile file;
  CHECK(read_log(file.path).actions.empty());
  REQUIRE(append(file.path, stand_at("a", false)).ok());
  REQUIRE(append(file.path, read_thickness("CC-S1", 1.5e-3)).ok());
  REQUIRE(append(file.path, stand_at("b", true)).ok());
  const LogReport report = read_log(file.path);
  CHECK(report.problems.empty());
  REQUIRE(report.actions.size() == 3);
  const LogState state = fold(report.actions);
  CHECK(state.step == "b");
  CHECK(state.done);
  CHECK(state.readings.at("CC-S1").thickness_m == Approx(1.5e-3));
}

TEST_CASE("undo takes back one action at a time, down to nothing") {
  std::vector<Action> actions{stand_at("a", false), read_thickness("CC-S1", 1.4e-3),
                              read_thickness("CC-S1", 1.5e-3)};
  actions.push_back(undo());
  CHECK(fold(actions).readings.at("CC-S1").thickness_m == Approx(1.4e-3));
  actions.push_back(undo());
  CHECK(fold(actions).readings.empty());
  CHECK(can_undo(actions));
  actions.push_back(undo());
  CHECK(fold(actions).step.empty());
  CHECK_FALSE(can_undo(actions));
  actions.push_back(undo()); // one too many does no harm
  CHECK(fold(actions).step.empty());
}

TEST_CASE("a line that a power failure cut short spoils itself alone") {
  const TempFile file;
  REQUIRE(append(file.path, stand_at("a", true)).ok());
  std::ofstream(file.path, std::ios::app | std::ios::binary) << "{\"schema\":1,\"acti";
  LogReport report = read_log(file.path);
  CHECK(report.cut_short);
  CHECK(report.actions.size() == 1);
  REQUIRE(append(file.path, stand_at("b", false)).ok());
  report = read_log(file.path);
  REQUIRE(report.actions.size() == 2);
  CHECK(fold(report.actions).step == "b");
  CHECK(report.problems.size() == 1);
}

TEST_CASE("what is not a log line is left out and told") {
  CHECK_FALSE(action_from("").ok());
  CHECK_FALSE(action_from("[1,2]").ok());
  CHECK_FALSE(action_from("{\"schema\":2,\"action\":\"undo\"}").ok());
  CHECK_FALSE(action_from("{\"schema\":1,\"action\":\"fly\"}").ok());
  CHECK_FALSE(action_from(std::string(100000, ' ')).ok());
  CHECK(action_from("{\"schema\":1,\"action\":\"undo\"}").ok());
}

TEST_CASE("a log that cannot be written says so") {
  const auto written = append("/proc/none/build.jsonl", stand_at("a", false));
  REQUIRE_FALSE(written.ok());
  CHECK(written.problem().find("cannot be written") != std::string::npos);
}
