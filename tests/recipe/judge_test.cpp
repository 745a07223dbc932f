// The judge itself, on solids whose answer is plain.

#include "scene/recipe/recipe.h"
#include "tests/recipe/judge.h"

#include <catch2/catch.hpp>

#include <stdexcept>

namespace lugline::test {

namespace {

constexpr double mm = 1e-3;

Mesh washer(double inner_m, double outer_m, double from_m, double to_m) {
  Solid solid;
  solid.rings.push_back({inner_m, outer_m, from_m, to_m, {}, "body", ""});
  return mesh_of(solid, "steel");
}

} // namespace

TEST_CASE("the judge finds a solid wholly inside another, whose surfaces are clear") {
  Judge judge;
  const std::size_t outer = judge.add(washer(10 * mm, 40 * mm, 0, 20 * mm));
  const std::size_t inner = judge.add(washer(20 * mm, 30 * mm, 5 * mm, 15 * mm));
  CHECK_FALSE(judge.surfaces_meet(outer, inner));
  CHECK(judge.interfere(outer, inner));
  CHECK(judge.interfere(inner, outer));
}

TEST_CASE("the judge clears a solid in another's hole or above it, and not one that crosses it") {
  Judge judge;
  const std::size_t outer = judge.add(washer(10 * mm, 40 * mm, 0, 20 * mm));
  const std::size_t small = judge.add(washer(2 * mm, 9 * mm, 5 * mm, 15 * mm));
  CHECK_FALSE(judge.interfere(outer, small));
  judge.stand(small, Placement::moved({1.5 * mm, 0, 0}));
  CHECK(judge.interfere(outer, small));
  judge.stand(small, Placement::moved({25 * mm, 0, 15.1 * mm}));
  CHECK_FALSE(judge.interfere(outer, small));
  judge.stand(small, Placement::moved({25 * mm, 0, 14.9 * mm}));
  CHECK(judge.interfere(outer, small));
  // A quarter turn about z takes what stands at +x to +y.
  judge.stand(small, Placement::moved({25 * mm, 0, 0}).then(Placement::turned(1.5707963267948966)));
  judge.stand(outer, Placement::moved({0, 60 * mm, 0}));
  CHECK(judge.interfere(outer, small));
  judge.stand(outer, Placement::moved({60 * mm, 0, 0}));
  CHECK_FALSE(judge.interfere(outer, small));
}

TEST_CASE("the judge refuses a mesh that is not closed") {
  Mesh open = washer(10 * mm, 40 * mm, 0, 20 * mm);
  open.triangles.pop_back();
  Judge judge;
  CHECK_THROWS_AS(judge.add(open), std::invalid_argument);
}

} // namespace lugline::test
