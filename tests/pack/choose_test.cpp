// The choice of selectives against brute force written another way.

#include "scene/pack/choose.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace lugline;

namespace {
constexpr double mm = 1e-3;
}

TEST_CASE("the nearest to the middle is chosen, and an unchanged part is kept") {
  const std::vector<SelectivePart> parts{
      {"plate", 5.0 * mm, {4.6 * mm, 4.8 * mm, 5.0 * mm, 5.2 * mm, 5.4 * mm}}};
  // 0.90 with 5.00; the middle of 0.75 to 1.25 is 1.00: 0.90 and 1.10 are as near.
  const auto choices = choose(parts, 0.90 * mm, 0.75 * mm, 1.25 * mm);
  REQUIRE(choices.size() == 4);
  CHECK(choices[0].thickness_m[0] / mm == Approx(5.0));
  CHECK(choices[0].changed == 0);
  CHECK(choices[1].thickness_m[0] / mm == Approx(4.8));
  CHECK(choices[1].clearance_m / mm == Approx(1.10));
  CHECK(choices[1].inside);
  CHECK_FALSE(choices[2].inside);
}

TEST_CASE("where nothing lands inside, the nearest is still told and marked outside") {
  const std::vector<SelectivePart> parts{{"plate", 5.8 * mm, {5.4 * mm, 5.8 * mm}}};
  const auto choices = choose(parts, 3.0 * mm, 1.0 * mm, 1.6 * mm);
  REQUIRE_FALSE(choices.empty());
  CHECK_FALSE(choices[0].inside);
  CHECK(choices[0].thickness_m[0] / mm == Approx(5.8));
}

TEST_CASE("nothing to choose, and too much to choose") {
  CHECK(choose({}, 1, 0, 2).empty());
  std::vector<double> many(101);
  for (std::size_t i = 0; i < many.size(); ++i) {
    many[i] = static_cast<double>(i) * mm;
  }
  CHECK(choose({{"a", 0, many}, {"b", 0, many}, {"c", 0, many}, {"d", 0, many}}, 1, 0, 2).empty());
}

TEST_CASE("equal to brute force over random packs") {
  std::mt19937 random(5);
  for (int round = 0; round < 300; ++round) {
    std::vector<SelectivePart> parts(1 + random() % 3);
    for (SelectivePart& part : parts) {
      const std::size_t count = 1 + random() % 6;
      for (std::size_t i = 0; i < count; ++i) {
        part.options_m.push_back((1.0 + 0.1 * static_cast<double>(random() % 30)) * mm);
      }
      part.fitted_m = part.options_m[random() % count];
    }
    const double clearance_m = 0.01 * static_cast<double>(random() % 300) * mm;
    const auto choices = choose(parts, clearance_m, 0.8 * mm, 1.2 * mm, 1);
    REQUIRE(choices.size() == 1);
    // Brute force: recursion over the options, keeping the least distance.
    double least_m = 1e9;
    const auto all = [&](auto&& self, std::size_t at, double left_m) -> void {
      if (at == parts.size()) {
        least_m = std::min(least_m, std::abs(left_m - 1.0 * mm));
        return;
      }
      for (const double option_m : parts[at].options_m) {
        self(self, at + 1, left_m + parts[at].fitted_m - option_m);
      }
    };
    all(all, 0, clearance_m);
    REQUIRE(std::abs(choices[0].off_middle_m) == Approx(least_m).margin(2e-7));
  }
}
