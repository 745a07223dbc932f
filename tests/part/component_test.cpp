#include "scene/part/component.h"

#include <catch2/catch.hpp>

#include <set>

using namespace lugline;

TEST_CASE("every kind has a word of its own that reads back") {
  std::set<std::string> seen;
  for (int i = 0; i <= static_cast<int>(ComponentKind::other); ++i) {
    const auto kind = static_cast<ComponentKind>(i);
    const std::string word = word_for(kind);
    CAPTURE(i, word);
    CHECK(seen.insert(word).second);
    REQUIRE(kind_from(word).has_value());
    CHECK(*kind_from(word) == kind);
  }
  const std::vector<std::string> words = kind_words();
  CHECK(std::set<std::string>(words.begin(), words.end()) == seen);
}

TEST_CASE("an unknown kind has no value") {
  CHECK_FALSE(kind_from("").has_value());
  CHECK_FALSE(kind_from("Steel").has_value());
  CHECK_FALSE(kind_from("wave_plate").has_value());
}

TEST_CASE("figures and grooves are found by name") {
  Component component;
  component.figures = {{"thickness", 2e-3, 0, 2e-3}, {"step", 1e-3, 0, 1e-3}};
  component.grooves = {{"upper", true, 1, 2, 3, 4, true}};
  REQUIRE(component.figure("step") != nullptr);
  CHECK(component.figure("step")->value_m == 1e-3);
  CHECK(component.figure("height") == nullptr);
  REQUIRE(component.groove("upper") != nullptr);
  CHECK(component.groove("upper")->high_m == 2);
  CHECK(component.groove("lower") == nullptr);
}
