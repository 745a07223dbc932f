// The demo's parts, made once for all tests.
#pragma once

#include "scene/recipe/recipe.h"

#include <filesystem>
#include <string>

namespace lugline::test {

std::filesystem::path demo_folder();
const RecipeBook& demo_book();
/// Fails the test where there is no such part.
const MadePart& demo_part(const std::string& id);
const Solid& demo_solid(const std::string& id);

/// A folder's name in the place for temporary files that nobody else uses; not made yet.
std::filesystem::path fresh_folder();

} // namespace lugline::test
