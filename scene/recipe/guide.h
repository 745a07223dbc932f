// What somebody who writes recipes.toml needs to know: every recipe and the figures that it
// takes, in words. Held to the recipes by a test.
#pragma once

#include <string>
#include <vector>

namespace lugline {

struct GuideLine {
  const char* word;    ///< the recipe, or the name of a group of figures
  const char* figures; ///< names as in recipes.toml; those in brackets may be left out
};

/// A line for each recipe.
const std::vector<GuideLine>& recipe_guide();
/// Figures that several recipes share, by the name that recipe_guide calls them.
const std::vector<GuideLine>& guide_groups();

/// All of it as text, 96 columns wide.
std::string recipe_guide_text();

} // namespace lugline
