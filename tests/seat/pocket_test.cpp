// A set of springs on a piston with pockets: down on their floors where the two are
// turned alike, on the web anywhere else.

#include "scene/seat/drop.h"
#include "tests/recipe/examples.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numbers>

namespace lugline::test {

namespace {

constexpr double mm = 1e-3;
constexpr double degree_rad = std::numbers::pi / 180;

MadePart example(const std::string& id) {
  const auto found = std::ranges::find(examples(), id, &Example::id);
  REQUIRE(found != examples().end());
  return made(*found);
}

} // namespace

TEST_CASE("springs stand on their pockets' floors, turned as the pockets are") {
  const Shape piston(example("piston with pockets for springs").component.solid);
  const Shape springs(example("springs in pockets").component.solid);
  DropQuestion question;
  question.moving.push_back({"springs", &springs, 0, 0, spin_hand});
  question.below.push_back({"piston", &piston, 0, 0, spin_fixed});
  const DropAnswer answer = drop(question);
  // A web 6 high with pockets 1.5 deep, every 30 degrees.
  for (const double turned_deg : {0.0, 30.0, 150.0, 330.0}) {
    CAPTURE(turned_deg);
    REQUIRE(answer.at(turned_deg * degree_rad).rest_m);
    CHECK(*answer.at(turned_deg * degree_rad).rest_m / mm == Approx(4.5));
  }
  for (const double turned_deg : {2.0, 15.0, 100.0}) {
    CAPTURE(turned_deg);
    REQUIRE(answer.at(turned_deg * degree_rad).rest_m);
    CHECK(*answer.at(turned_deg * degree_rad).rest_m / mm == Approx(6.0));
  }
  REQUIRE(answer.lowest().rest_m);
  CHECK(*answer.lowest().rest_m / mm == Approx(4.5));
}

} // namespace lugline::test
