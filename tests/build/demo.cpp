#include "tests/build/demo.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <sstream>

#include <unistd.h>

namespace lugline::test {

namespace {

std::filesystem::path demo_folder() {
  return std::filesystem::path(LUGLINE_ROOT) / "assets-demo" / "hobspindle-three";
}

std::string all_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

} // namespace

std::size_t Demo::step(const std::string& id) const {
  const std::size_t index = unit->step_index(id);
  INFO("step " << id);
  REQUIRE(index < unit->steps.size());
  return index;
}

std::size_t Demo::lowering(const std::string& part) const {
  std::size_t found = unit->steps.size();
  for (std::size_t i = 0; i < unit->steps.size(); ++i) {
    const StepOutcome& outcome = simulation.outcomes[i];
    if (outcome.lowered && outcome.hand && outcome.hand->lead == part) {
      found = i;
    }
  }
  INFO("a step that lowers " << part);
  REQUIRE(found < unit->steps.size());
  return found;
}

Demo& demo() {
  static Demo demo = [] {
    Demo made;
    const LoadReport report = load_unit(demo_folder());
    for (const Complaint& complaint : report.complaints) {
      UNSCOPED_INFO(text_of(complaint));
    }
    REQUIRE(report.unit != nullptr);
    made.unit = report.unit;
    made.workshop = std::make_unique<Workshop>(*made.unit, Readings{});
    made.simulation = simulate(*made.workshop);
    return made;
  }();
  return demo;
}

LoadReport demo_with(const std::string& file, const std::string& text, const std::string& other) {
  const auto folder =
      std::filesystem::temp_directory_path() / ("lugline-demo-" + std::to_string(::getpid()));
  std::filesystem::remove_all(folder);
  std::filesystem::copy(demo_folder(), folder, std::filesystem::copy_options::recursive);
  std::string content = all_of(folder / file);
  const auto at = content.find(text);
  REQUIRE(at != std::string::npos);
  content.replace(at, text.size(), other);
  std::ofstream(folder / file, std::ios::binary) << content;
  LoadReport report = load_unit(folder);
  std::filesystem::remove_all(folder);
  return report;
}

} // namespace lugline::test
