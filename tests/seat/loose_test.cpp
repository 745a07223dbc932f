// Gaps and chains of a few rings, worked out by hand. Millimetres.

#include "scene/seat/loose.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <deque>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;

struct Pile {
  std::deque<Shape> shapes;
  std::vector<Body> bodies;
  std::vector<LooseGroup> groups;

  void add(LooseGroup group, std::vector<SectorRing> rings, double height_mm = 0) {
    shapes.emplace_back(Solid{std::move(rings)});
    bodies.push_back({"", &shapes.back(), height_mm * mm, 0, spin_fixed});
    groups.push_back(group);
  }
  [[nodiscard]] std::vector<LooseTravel> falls(std::size_t count) const {
    return falls_of(gaps_between(bodies, groups), groups, count);
  }
  [[nodiscard]] std::vector<LooseTravel> rises(std::size_t count) const {
    return rises_of(gaps_between(bodies, groups), groups, count);
  }
};

SectorRing ring(double inner_mm, double outer_mm, double low_mm, double high_mm,
                std::vector<Sector> sectors = {}) {
  return {inner_mm * mm, outer_mm * mm, low_mm * mm, high_mm * mm, std::move(sectors), "", ""};
}

} // namespace

TEST_CASE("a chain of loose pieces rises by the sum of its gaps, and falls by that beneath") {
  Pile pile;
  pile.add(held_group, {ring(10, 50, 0, 5), ring(10, 50, 40, 45)});
  pile.add(1, {ring(20, 40, 0, 10)}, 6);  // 1 above the floor
  pile.add(2, {ring(20, 40, 0, 10)}, 20); // 4 above the first, 10 below the roof
  const auto rises = pile.rises(3);
  CHECK(rises[2].by_m / mm == Approx(10));
  CHECK(rises[1].by_m / mm == Approx(14));
  CHECK(*rises[1].stop == 2);
  const auto falls = pile.falls(3);
  CHECK(falls[1].by_m / mm == Approx(1));
  CHECK(falls[2].by_m / mm == Approx(5));
  CHECK(*falls[2].by == 2);
}

TEST_CASE("pieces that hold one another up and nothing else hold nothing") {
  Pile pile;
  pile.add(held_group, {ring(0, 5, 0, 1)});
  // Hooked into one another: each has a shoulder above one of the other's.
  pile.add(1, {ring(20, 30, 0, 2), ring(10, 20, 0, 6), ring(20, 30, 4, 6)});
  pile.add(2, {ring(25, 40, 2.5, 3.5)});
  const auto falls = pile.falls(3);
  CHECK(std::isinf(falls[1].by_m));
  CHECK(std::isinf(falls[2].by_m));
  CHECK_FALSE(falls[1].stop.has_value());
}

TEST_CASE("what moves as one is stopped by whichever of it is stopped first") {
  Pile pile;
  pile.add(held_group, {ring(10, 20, 0, 5), ring(30, 40, 0, 8)});
  pile.add(1, {ring(10, 20, 0, 2)}, 10); // 5 above its floor
  pile.add(1, {ring(30, 40, 0, 2)}, 11); // 3 above its own
  const auto falls = pile.falls(2);
  CHECK(falls[1].by_m / mm == Approx(3));
  CHECK(*falls[1].by == 2);
}

TEST_CASE("teeth that stand between teeth do not stop one another") {
  Pile pile;
  pile.add(held_group,
           {ring(10, 20, 0, 5, repeated(radial_sector(0, 0.5), 6)), ring(0, 5, -9, -8)});
  pile.add(1, {ring(10, 20, 0, 2, repeated(radial_sector(0.52, 0.5), 6)), ring(0, 5, 0, 2)}, 7);
  CHECK(pile.falls(2)[1].by_m / mm == Approx(15));
  pile.bodies[1].turn_rad = 0.52;
  CHECK(pile.falls(2)[1].by_m / mm == Approx(2));
}

TEST_CASE("faces that touch lie on one another, faces that pass do not") {
  Pile pile;
  pile.add(held_group, {ring(10, 20, 0, 5)});
  pile.add(1, {ring(15, 30, 0, 2)}, 5);
  pile.add(2, {ring(20, 30, 0, 2)}, 5);
  CHECK(lies_on(pile.bodies[1], pile.bodies[0]));
  CHECK_FALSE(lies_on(pile.bodies[0], pile.bodies[1]));
  CHECK_FALSE(lies_on(pile.bodies[2], pile.bodies[0]));
}
