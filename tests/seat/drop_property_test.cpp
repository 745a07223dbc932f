// Properties of the drop, over thousands of random parts.

#include "scene/seat/drop.h"
#include "scene/seat/poses.h"
#include "tests/seat/random_parts.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace lugline;
using namespace lugline::test;

namespace {

constexpr double turn = 2 * std::numbers::pi;

struct World {
  std::vector<Shape> shapes;
  Shape moving;
  DropQuestion question;
};

/// Some parts stacked at random heights and turns, and one in hand above.
World random_world(std::mt19937& random) {
  World world;
  const std::size_t count = 1 + random() % 4;
  for (std::size_t i = 0; i < count; ++i) {
    world.shapes.emplace_back(random_solid(random));
  }
  world.moving = Shape(random_solid(random));
  for (std::size_t i = 0; i < count; ++i) {
    const double height_m = 0.02 * static_cast<double>(random() % 5);
    const double turn_rad = turn * static_cast<double>(random() % 1000) / 1000;
    world.question.below.push_back({"below", &world.shapes[i], height_m, turn_rad, spin_fixed});
  }
  world.question.moving.push_back({"moving", &world.moving, 0, 0, spin_hand});
  return world;
}

} // namespace

TEST_CASE("the spans cover the whole turn once, in order") {
  std::mt19937 random(11);
  for (int round = 0; round < 2000; ++round) {
    const World world = random_world(random);
    const DropAnswer answer = drop(world.question);
    REQUIRE(answer.spans.front().from_rad == Approx(0).margin(1e-12));
    REQUIRE(answer.spans.back().to_rad == Approx(turn));
    for (std::size_t i = 0; i + 1 < answer.spans.size(); ++i) {
      REQUIRE(answer.spans[i].to_rad == Approx(answer.spans[i + 1].from_rad).margin(1e-11));
      REQUIRE(answer.spans[i].to_rad > answer.spans[i].from_rad);
    }
  }
}

TEST_CASE("exact and brute force agree on a grid and just beside every breakpoint") {
  std::mt19937 random(12);
  std::size_t compared = 0;
  for (int round = 0; round < 400; ++round) {
    const World world = random_world(random);
    const DropAnswer answer = drop(world.question);
    std::vector<double> angles;
    for (int i = 0; i < 180; ++i) {
      angles.push_back(turn * i / 180 + 1e-4);
    }
    for (const RestSpan& span : answer.spans) {
      // Two microradians: 0.2 micrometre at the rim, well inside a span and
      // well outside what sampling 400 radii can miss of a flank's bend.
      if (span.to_rad - span.from_rad > 1e-5) {
        angles.push_back(span.from_rad + 2e-6);
        angles.push_back(span.to_rad - 2e-6);
      }
    }
    for (const double angle : angles) {
      const auto by_force =
          rest_by_sampling(world.moving.solid(), angle, world.question.below, 200);
      const RestSpan span = answer.at(angle);
      INFO("round " << round << " angle " << angle);
      REQUIRE(by_force.has_value() == span.rest_m.has_value());
      if (by_force) {
        REQUIRE(*span.rest_m == Approx(*by_force).margin(1e-12));
      }
      ++compared;
    }
  }
  CHECK(compared > 50000);
}

TEST_CASE("after a drop nothing is inside anything, and the seat is touched") {
  std::mt19937 random(13);
  int rested = 0;
  for (int round = 0; round < 3000; ++round) {
    const World world = random_world(random);
    const DropAnswer answer = drop(world.question);
    for (const RestSpan& span : answer.spans) {
      if (!span.rest_m) {
        continue;
      }
      ++rested;
      Body in_place = world.question.moving.front();
      in_place.height_m = *span.rest_m;
      in_place.turn_rad = (span.from_rad + span.to_rad) / 2;
      for (std::size_t b = 0; b < world.question.below.size(); ++b) {
        const FitReport fit = fit_between(in_place, world.question.below[b], contact_tolerance_m);
        REQUIRE(fit.fit != Fit::inside);
        if (b == span.contact.below) {
          REQUIRE(fit.fit == Fit::touching);
        }
      }
    }
  }
  CHECK(rested > 3000);
}

TEST_CASE("turning the whole world turns the answer and changes no height") {
  std::mt19937 random(14);
  for (int round = 0; round < 1000; ++round) {
    World world = random_world(random);
    const DropAnswer before = drop(world.question);
    const double by_rad = turn * static_cast<double>(random() % 10000) / 10000;
    for (Body& body : world.question.below) {
      body.turn_rad += by_rad;
    }
    const DropAnswer after = drop(world.question);
    for (const RestSpan& span : before.spans) {
      if (span.to_rad - span.from_rad < 1e-8) {
        continue;
      }
      const double middle_rad = (span.from_rad + span.to_rad) / 2;
      REQUIRE(after.at(middle_rad + by_rad).rest_m == span.rest_m);
    }
  }
}

TEST_CASE("raising everything below raises the rest by as much") {
  std::mt19937 random(15);
  for (int round = 0; round < 500; ++round) {
    World world = random_world(random);
    const DropAnswer before = drop(world.question);
    for (Body& body : world.question.below) {
      body.height_m += 0.25;
    }
    const DropAnswer after = drop(world.question);
    REQUIRE(after.spans.size() == before.spans.size());
    for (std::size_t i = 0; i < before.spans.size(); ++i) {
      REQUIRE(after.spans[i].rest_m.has_value() == before.spans[i].rest_m.has_value());
      if (before.spans[i].rest_m) {
        REQUIRE(*after.spans[i].rest_m == Approx(*before.spans[i].rest_m + 0.25).margin(1e-12));
      }
    }
  }
}

TEST_CASE("turned over twice is as before, and mirrors the answer") {
  std::mt19937 random(16);
  for (int round = 0; round < 500; ++round) {
    const Solid solid = random_solid(random);
    const Solid twice = turned_over(turned_over(solid));
    REQUIRE(twice.rings.size() == solid.rings.size());
    for (std::size_t i = 0; i < solid.rings.size(); ++i) {
      REQUIRE(twice.rings[i].low_m == Approx(solid.rings[i].low_m).margin(1e-15));
      REQUIRE(twice.rings[i].high_m == Approx(solid.rings[i].high_m).margin(1e-15));
      REQUIRE(twice.rings[i].sectors.size() == solid.rings[i].sectors.size());
      for (std::size_t k = 0; k < solid.rings[i].sectors.size(); ++k) {
        REQUIRE(twice.rings[i].sectors[k].from.angle_rad ==
                solid.rings[i].sectors[k].from.angle_rad);
      }
    }
  }
}

TEST_CASE("a free body lined up lets the part fall as far as at its best turn") {
  std::mt19937 random(17);
  for (int round = 0; round < 500; ++round) {
    World world = random_world(random);
    world.question.below.resize(1);
    const DropAnswer fixed = drop(world.question);
    world.question.below.front().spin = 2;
    const DropAnswer free = drop(world.question);
    REQUIRE(free.exact);
    REQUIRE(free.spans.size() == 1);
    REQUIRE(free.spans.front().rest_m == fixed.lowest().rest_m);

    world.question.spins = {{2, FreeTurn::off}};
    const DropAnswer off = drop(world.question);
    double highest_m = -1;
    for (const RestSpan& span : fixed.spans) {
      highest_m = std::max(highest_m, span.rest_m.value_or(-1));
    }
    REQUIRE(off.spans.front().rest_m.value_or(-1) == highest_m);

    // And the turn that it is given does what was promised.
    for (const FreeTurn rule : {FreeTurn::lined_up, FreeTurn::off}) {
      world.question.spins = {{2, rule}};
      const double hand_rad = 1.234;
      const auto turns = turns_after(world.question, hand_rad);
      REQUIRE(turns.size() == 1);
      if (turns.front().play_rad < 1e-5) {
        continue;
      }
      World placed = world;
      placed.question.spins.clear();
      placed.question.below.front().spin = spin_fixed;
      placed.question.below.front().turn_rad += turns.front().turn_rad;
      REQUIRE(drop(placed.question).at(hand_rad).rest_m ==
              drop(world.question).at(hand_rad).rest_m);
    }
  }
}
