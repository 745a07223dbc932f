// The choice of selectives against brute force written another way.

#include "scene/pack/choose.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <functional>
#include <map>
#include <random>
#include <tuple>

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
  CHECK(choose({{"plate", 5 * mm}}, 1, 0, 2).empty());
  std::vector<double> many(101);
  for (std::size_t i = 0; i < many.size(); ++i) {
    many[i] = 1 * mm + 0.137 * mm * static_cast<double>(i * i % 997);
  }
  const ChoiceQuestion too_much{std::vector<SelectivePart>(6, {"a", 1 * mm, many}), 1 * mm, 0, 0};
  CHECK(choose_parts(too_much).choices.empty());
  CHECK_FALSE(choose_parts(too_much).why_none.empty());
  // Figures that are none, and limits the wrong way round, are said so.
  CHECK_FALSE(choose_parts({{{"a", 5 * mm, {5 * mm}}}, std::nan(""), 0, 1}).why_none.empty());
  CHECK_FALSE(choose_parts({{{"a", 5 * mm, {5 * mm}}}, 1 * mm, 2 * mm, 1 * mm}).why_none.empty());
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

namespace {

/// A choice as brute force ranks it: whole micrometres, so that nothing is rounded.
struct Tried {
  long off_half_um = 0;
  std::size_t changed = 0;
  long price = 0;
  std::vector<long> um;
  [[nodiscard]] auto key() const { return std::tuple(std::labs(off_half_um), changed, price, um); }
};

long um(double length_m) {
  return std::lround(length_m * 1e6);
}

/// Every combination, one after the other, none left out for any reason but an empty shelf or
/// being another's twin.
std::vector<Tried> try_all(const ChoiceQuestion& question) {
  const std::vector<SelectivePart>& parts = question.parts;
  std::vector<Tried> tried;
  Tried now;
  const auto stands = [&] { // what is fitted may be moved from one place of its sort to another
    std::map<std::pair<std::string, long>, int> left;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const std::string shelf = parts[i].sort.empty() ? parts[i].id : parts[i].sort;
      for (std::size_t j = 0; j < parts[i].options_m.size(); ++j) {
        if (!parts[i].on_shelf.empty()) {
          left.emplace(std::pair(shelf, um(parts[i].options_m[j])), parts[i].on_shelf[j]);
        }
      }
    }
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const std::string shelf = parts[i].sort.empty() ? parts[i].id : parts[i].sort;
      const auto fitted = left.find({shelf, um(parts[i].fitted_m)});
      if (fitted != left.end()) {
        ++fitted->second;
      }
    }
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const std::string shelf = parts[i].sort.empty() ? parts[i].id : parts[i].sort;
      const auto there = left.find({shelf, now.um[i]});
      if (there != left.end() && --there->second < 0) {
        return false;
      }
    }
    return true;
  };
  const std::function<void(std::size_t)> all = [&](std::size_t at) {
    if (at == parts.size()) {
      Tried done = now;
      done.off_half_um = 2 * um(question.clearance_m) - um(question.low_m) - um(question.high_m);
      for (std::size_t i = 0; i < parts.size(); ++i) {
        done.off_half_um -= 2 * (now.um[i] - um(parts[i].fitted_m));
        for (std::size_t k = i + 1; k < parts.size(); ++k) {
          if (!parts[i].sort.empty() && parts[i].sort == parts[k].sort &&
              um(parts[i].fitted_m) == um(parts[k].fitted_m) && now.um[i] > now.um[k]) {
            return; // its twin, thinner first, is told
          }
        }
      }
      if (stands()) {
        tried.push_back(done);
      }
      return;
    }
    for (std::size_t j = 0; j < parts[at].options_m.size(); ++j) {
      const bool same = um(parts[at].options_m[j]) == um(parts[at].fitted_m);
      const long price = same || parts[at].prices.empty() ? 0 : std::lround(parts[at].prices[j]);
      now.um.push_back(um(parts[at].options_m[j]));
      now.changed += same ? 0 : 1;
      now.price += price;
      all(at + 1);
      now.price -= price;
      now.changed -= same ? 0 : 1;
      now.um.pop_back();
    }
  };
  all(0);
  std::ranges::sort(tried, {}, &Tried::key);
  return tried;
}

std::vector<double> random_sizes(std::mt19937& random, std::size_t count, bool coarse) {
  std::vector<double> sizes;
  double at_m = 1 * mm;
  for (std::size_t i = 0; i < count; ++i) {
    at_m += (coarse ? 0.1 * mm : 0.05 * mm + 0.001 * mm * static_cast<double>(random() % 90));
    sizes.push_back(at_m);
  }
  return sizes;
}

ChoiceQuestion random_question(std::mt19937& random) {
  ChoiceQuestion question;
  const bool coarse = random() % 2 == 0;
  const std::size_t count = 1 + random() % 5;
  const auto steels = random_sizes(random, 2 + random() % 4, coarse);
  const bool prices = random() % 2 == 0;
  const bool shelves = random() % 3 != 0;
  std::vector<int> steel_shelf;
  std::vector<double> steel_prices;
  for (std::size_t j = 0; j < steels.size(); ++j) {
    steel_shelf.push_back(static_cast<int>(random() % 3));
    steel_prices.push_back(static_cast<double>(1 + random() % 5));
  }
  for (std::size_t i = 0; i < count; ++i) {
    SelectivePart part;
    part.id = "part " + std::to_string(i);
    const bool steel = random() % 2 == 0;
    part.sort = steel ? "steel" : "";
    part.options_m = steel ? steels : random_sizes(random, 1 + random() % 6, coarse);
    if (prices) {
      part.prices = steel ? steel_prices : std::vector<double>(part.options_m.size(), 3);
    }
    if (shelves) {
      part.on_shelf = steel ? steel_shelf : std::vector<int>(part.options_m.size(), 1);
      part.on_shelf[random() % part.on_shelf.size()] = steel ? part.on_shelf[0] : 0;
    }
    part.on_shelf = steel && shelves ? steel_shelf : part.on_shelf;
    part.fitted_m = part.options_m[random() % part.options_m.size()];
    question.parts.push_back(part);
  }
  question.clearance_m = 0.01 * mm * static_cast<double>(random() % 300);
  question.low_m = 0.8 * mm;
  question.high_m = 1.2 * mm;
  return question;
}

} // namespace

TEST_CASE("the best four equal brute force, with shelves, sorts and prices") {
  std::mt19937 random(11);
  for (int round = 0; round < 400; ++round) {
    const ChoiceQuestion question = random_question(random);
    const std::vector<Tried> tried = try_all(question);
    const ChoiceAnswer answer = choose_parts(question);
    INFO("round " << round);
    REQUIRE(answer.choices.size() == std::min<std::size_t>(4, tried.size()));
    for (std::size_t k = 0; k < answer.choices.size(); ++k) {
      std::vector<long> fitted;
      for (const double thickness_m : answer.choices[k].thickness_m) {
        fitted.push_back(um(thickness_m));
      }
      INFO("choice " << k);
      CHECK(std::labs(std::lround(answer.choices[k].off_middle_m * 2e6)) ==
            std::labs(tried[k].off_half_um));
      CHECK(answer.choices[k].changed == tried[k].changed);
      CHECK(answer.choices[k].price == Approx(static_cast<double>(tried[k].price)));
      CHECK(fitted == tried[k].um);
    }
  }
}

TEST_CASE("two places that need the same plate need two of it on the shelf") {
  SelectivePart one{"S1", 1.5 * mm, {1.5 * mm, 1.7 * mm}, {0, 1}, {}, "steel"};
  SelectivePart two = one;
  two.id = "S2";
  // 1.40 with both at 1.50, wanted 1.00: both at 1.70, and there is one.
  const ChoiceAnswer short_of = choose_parts({{one, two}, 1.4 * mm, 0.95 * mm, 1.05 * mm});
  CHECK(short_of.choices[0].clearance_m / mm == Approx(1.2));
  CHECK_FALSE(short_of.any_inside);
  one.on_shelf = two.on_shelf = {0, 2};
  const ChoiceAnswer enough = choose_parts({{one, two}, 1.4 * mm, 0.95 * mm, 1.05 * mm});
  CHECK(enough.choices[0].clearance_m / mm == Approx(1.0));
  CHECK(enough.choices[0].changed == 2);
}

TEST_CASE("where nothing lands inside, the part that would is named") {
  const ChoiceAnswer answer =
      choose_parts({{{"BP", 5.4 * mm, {5.2 * mm, 5.4 * mm}, {}, {}, {}, "backing plate"}},
                    2.0 * mm,
                    0.75 * mm,
                    1.25 * mm});
  CHECK_FALSE(answer.any_inside);
  CHECK(answer.outside_by_m / mm == Approx(0.75));
  REQUIRE(answer.needed.size() == 1);
  CHECK(answer.needed[0].thickness_m / mm == Approx(6.4));
  CHECK(answer.needed[0].least_m / mm == Approx(6.15));
  CHECK(answer.needed[0].most_m / mm == Approx(6.65));
  CHECK(answer.words == "Nothing that can be had lands inside. The nearest, as fitted, gives 2.00 "
                        "mm, 0.75 mm too loose. It would take backing plate 6.40 mm (6.15 mm to "
                        "6.65 mm lands inside).");
}

TEST_CASE("a part that was read stands for its size, and may stay") {
  // A plate of 5.00 reads 4.99: the new one of 5.00 brings nothing; 4.80 and 5.20 do.
  const std::vector<SelectivePart> parts{{"BP", 4.99 * mm, {4.8 * mm, 5.0 * mm, 5.2 * mm}}};
  const auto choices = choose(parts, 1.00 * mm, 0.75 * mm, 1.25 * mm);
  REQUIRE(choices.size() == 3);
  CHECK(choices[0].thickness_m[0] / mm == Approx(4.99));
  CHECK(choices[0].changed == 0);
  CHECK(choices[1].changed == 1);
}

TEST_CASE("six parts of twelve sizes each are chosen at once") {
  // 2 985 984 combinations. A generous bound: the debug build, under load.
  std::mt19937 random(3);
  for (const bool coarse : {true, false}) {
    ChoiceQuestion question;
    for (int i = 0; i < 6; ++i) {
      SelectivePart part{"part " + std::to_string(i), 0, random_sizes(random, 12, coarse)};
      part.fitted_m = part.options_m[random() % 12];
      question.parts.push_back(part);
    }
    question.clearance_m = 1.337 * mm;
    question.low_m = 0.8 * mm;
    question.high_m = 1.2 * mm;
    const auto begin = std::chrono::steady_clock::now();
    const ChoiceAnswer answer = choose_parts(question);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
    CHECK(took.count() < 0.5);
    REQUIRE(answer.choices.size() == 4);
    // As good as every combination: sums of three against sums of three, by hand.
    std::vector<long> sums{0};
    for (const SelectivePart& part : question.parts) {
      std::vector<long> more;
      for (const long sum : sums) {
        for (const double option_m : part.options_m) {
          more.push_back(sum + um(option_m) - um(part.fitted_m));
        }
      }
      std::ranges::sort(more);
      more.erase(std::unique(more.begin(), more.end()), more.end());
      sums = std::move(more);
    }
    long least = 1'000'000;
    for (const long sum : sums) {
      least = std::min(least, std::labs(337 - sum));
    }
    CHECK(std::lround(std::abs(answer.choices[0].off_middle_m) * 1e6) == least);
  }
}
