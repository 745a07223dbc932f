#include "tests/recipe/demo.h"

#include <catch2/catch.hpp>

#include <random>

namespace lugline::test {

std::filesystem::path demo_folder() {
  return std::filesystem::path(LUGLINE_ROOT) / "assets-demo" / "hobspindle-three";
}

const RecipeBook& demo_book() {
  static const RecipeBook book = make_parts(demo_folder() / "recipes.toml");
  return book;
}

const MadePart& demo_part(const std::string& id) {
  for (const MadePart& part : demo_book().parts) {
    if (part.component.id == id) {
      return part;
    }
  }
  FAIL("the demo has no part " << id);
  return demo_book().parts.front();
}

const Solid& demo_solid(const std::string& id) {
  return demo_part(id).component.solid;
}

std::filesystem::path fresh_folder() {
  std::random_device random; // several people may run the tests at once
  return std::filesystem::temp_directory_path() /
         ("lugline-recipe-" + std::to_string(random()) + "-" + std::to_string(random()));
}

} // namespace lugline::test
