// The guide to the recipes against the recipes themselves.

#include "scene/recipe/guide.h"
#include "scene/recipe/kinds.h"
#include "tests/recipe/examples.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

namespace lugline::test {

namespace {

/// A recipe's line, with the groups that it names written out.
std::string line_for(const std::string& word) {
  const auto found = std::ranges::find_if(recipe_guide(),
                                          [&](const GuideLine& line) { return line.word == word; });
  if (found == recipe_guide().end()) {
    return {};
  }
  std::string text = found->figures;
  for (const GuideLine& group : guide_groups()) {
    const std::string name = group.word;
    if (text.find(name.substr(0, name.find(' '))) != std::string::npos) {
      text += std::string(" ") + group.word + " " + group.figures;
    }
  }
  return text;
}

/// What a part with no figures at all is told that it needs.
std::vector<std::string> needed(const std::string& word) {
  std::vector<std::string> names;
  for (const Complaint& complaint : complaints_of("schema = 1\n[[part]]\nid = \"P\"\nname = \"P\"\n"
                                                  "recipe = \"" +
                                                  word + "\"\n")) {
    const std::string needs = " needs ";
    const auto at = complaint.message.find(needs);
    if (at != std::string::npos) {
      const auto begin = at + needs.size();
      std::string name =
          complaint.message.substr(begin, complaint.message.find(',', begin) - begin);
      if (name.starts_with("at least one ")) {
        name = name.substr(std::string("at least one ").size());
      }
      names.push_back(name);
    }
  }
  return names;
}

} // namespace

TEST_CASE("every recipe is in the guide, with each figure that it cannot do without") {
  std::size_t figures = 0;
  for (const Recipe& recipe : recipes()) {
    CAPTURE(recipe.word);
    const std::string line = line_for(recipe.word);
    REQUIRE_FALSE(line.empty());
    for (const std::string& name : needed(recipe.word)) {
      CAPTURE(name);
      CHECK(line.find(name) != std::string::npos);
      ++figures;
    }
  }
  CHECK(figures > 100);
}

TEST_CASE("the guide speaks of no recipe that is not there") {
  for (const GuideLine& line : recipe_guide()) {
    CAPTURE(line.word);
    CHECK(std::ranges::any_of(
        recipes(), [&](const Recipe& recipe) { return std::string(recipe.word) == line.word; }));
  }
  CHECK(recipe_guide_text().find("recipe = \"snap ring\"") != std::string::npos);
}

} // namespace lugline::test
