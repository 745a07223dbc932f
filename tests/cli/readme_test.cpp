// The README's example unit, as it stands there.

#include "tests/cli/process.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

using namespace lugline::test;

namespace {

/// The fenced block after "<!-- example: NAME -->".
std::string example(const std::string& readme, const std::string& name) {
  const auto mark = readme.find("<!-- example: " + name + " -->");
  REQUIRE(mark != std::string::npos);
  const auto begin = readme.find("```toml\n", mark) + 8;
  const auto end = readme.find("```", begin);
  REQUIRE(end != std::string::npos);
  return readme.substr(begin, end - begin);
}

} // namespace

TEST_CASE("the README's example is a whole unit, and sound") {
  std::ifstream in(std::string(LUGLINE_ROOT) + "/README.md");
  std::ostringstream text;
  text << in.rdbuf();
  const TempFolder folder;
  folder.write("unit.toml", example(text.str(), "unit.toml"));
  folder.write("sequence.toml", example(text.str(), "sequence.toml"));
  const Run run = run_lugline({"check", folder.path(), "--json"});
  INFO(run.out);
  CHECK(run.status == 0);
  const auto document = document_of(run);
  CHECK(document["sound"] == true);
  // 30.00 of bore less 5.00 of floor, 1.60 of spacer and two plates of 2.00.
  for (const auto& step : document["steps"]) {
    if (step["id"] == "depth") {
      CHECK(step["reading"]["value_mm"] == Approx(30.0 - 5.0 - 1.6 - 4.0));
    }
  }
}
