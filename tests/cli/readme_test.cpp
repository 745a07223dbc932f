// The README's example unit, as it stands there.

#include "tests/cli/process.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

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

std::string text_of_file(const std::filesystem::path& file) {
  std::ifstream in(file);
  REQUIRE(in);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

const std::filesystem::path own_unit =
    std::filesystem::path(LUGLINE_ROOT) / "assets-demo/quernside-two";

/// The section between two headings.
std::string section(const std::string& readme, const std::string& heading) {
  const auto begin = readme.find("## " + heading + "\n");
  REQUIRE(begin != std::string::npos);
  return readme.substr(begin, readme.find("\n## ", begin + 3) - begin);
}

/// With its lines run together.
std::string flowing(const std::string& text) {
  std::istringstream words(text);
  std::string all;
  for (std::string word; words >> word;) {
    all += (all.empty() ? "" : " ") + word;
  }
  return all;
}

/// The indented command lines of a section: "lugline make recipes.toml -o parts".
std::vector<std::vector<std::string>> commands_in(const std::string& text) {
  std::vector<std::vector<std::string>> commands;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("    lugline ")) {
      std::istringstream words(line);
      std::vector<std::string> command;
      for (std::string word; words >> word;) {
        command.push_back(word);
      }
      command.erase(command.begin());
      commands.push_back(command);
    }
  }
  return commands;
}

/// The unit's three text files in a folder of their own: no models.
void copy_texts(const TempFolder& folder) {
  for (const char* name : {"recipes.toml", "unit.toml", "sequence.toml"}) {
    folder.write(name, text_of_file(own_unit / name));
  }
}

} // namespace

TEST_CASE("what turns and what holds: each table that the README shows stands in the second unit") {
  const std::string readme = text_of_file(std::string(LUGLINE_ROOT) + "/README.md");
  const auto mark = readme.find("<!-- drive: unit.toml -->\n```toml\n");
  REQUIRE(mark != std::string::npos);
  const auto begin = readme.find("```toml\n", mark) + 8;
  const std::string block = readme.substr(begin, readme.find("```", begin) - begin);
  const std::string unit = text_of_file(own_unit / "unit.toml");
  int tables = 0;
  for (std::size_t at = 0; at < block.size();) {
    const std::size_t next = block.find("\n\n[", at);
    const std::string table = block.substr(at, next == std::string::npos ? next : next + 1 - at);
    INFO(table);
    CHECK(unit.find(table) != std::string::npos);
    ++tables;
    at = next == std::string::npos ? block.size() : next + 2;
  }
  CHECK(tables == 6);
}

TEST_CASE("your own unit: what the README shows of the files stands in them") {
  const std::string text =
      section(text_of_file(std::string(LUGLINE_ROOT) + "/README.md"), "Your own unit");
  for (const char* name : {"recipes.toml", "unit.toml", "sequence.toml"}) {
    INFO(name);
    const auto mark = text.find("<!-- from: " + std::string(name) + " -->\n```toml\n");
    REQUIRE(mark != std::string::npos);
    const auto begin = text.find("```toml\n", mark) + 8;
    const std::string block = text.substr(begin, text.find("```", begin) - begin);
    CHECK(text_of_file(own_unit / name).find(block) != std::string::npos);
  }
}

TEST_CASE("your own unit: the README followed to the letter, from text files to a sound unit") {
  const std::string text =
      section(text_of_file(std::string(LUGLINE_ROOT) + "/README.md"), "Your own unit");
  const TempFolder folder;
  copy_texts(folder);
  // Before the models are made, the unit says which are missing.
  CHECK(run_lugline({"check", folder.path()}).status == 1);
  std::string all;
  int ran = 0;
  for (std::vector<std::string> command : commands_in(text)) {
    for (std::string& word : command) {
      word = word == "."              ? folder.path().string()
             : word == "recipes.toml" ? (folder.path() / "recipes.toml").string()
             : word == "parts"        ? (folder.path() / "parts").string()
                                      : word;
    }
    const Run run = run_lugline(command);
    INFO(command.front() << ": " << run.out << run.err);
    CHECK(run.status == 0);
    all += run.out;
    ++ran;
  }
  CHECK(ran == 5);
  for (const char* said :
       {"Clutch: 1.00 mm (0.039 in)", "Sound: every step reaches its seat", "3.28 mm proud"}) {
    INFO(said);
    CHECK(flowing(text).find(said) != std::string::npos);
    CHECK(all.find(said) != std::string::npos);
  }
  CHECK(all.find("0.80 mm") != std::string::npos);
}

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
