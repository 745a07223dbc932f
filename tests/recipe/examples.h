// One sound example of each kind of recipe that the demo does not show, or does
// not show all sides of.
#pragma once

#include "scene/recipe/recipe.h"

#include <filesystem>
#include <string>
#include <vector>

namespace lugline::test {

struct Example {
  std::string id;
  std::string recipe;
  std::string figures; ///< what stands in its [[part]] besides id, name and recipe
  bool finer = false;  ///< its mesh is within its solid, and less
  bool aside = false;  ///< its solid only holds it
};

const std::vector<Example>& examples();
/// The part that an example makes; fails the test where it has complaints.
MadePart made(const Example& example);

/// A file of recipes for as long as it is needed.
class Written {
public:
  explicit Written(const std::string& text);
  ~Written();
  Written(const Written&) = delete;
  Written& operator=(const Written&) = delete;

  [[nodiscard]] std::filesystem::path path() const { return folder_ / "recipes.toml"; }

private:
  std::filesystem::path folder_;
};

std::string with(std::string text, const std::string& from, const std::string& to);
std::string part_of(const std::string& recipe, const std::string& figures);
std::vector<Complaint> complaints_of(const std::string& text);
/// One complaint, at this line, holding these words.
void check_one(const std::string& text, int line, const std::string& words,
               const std::string& hint = "");

} // namespace lugline::test
