#include "viewer/app/pace.h"

#include <catch2/catch.hpp>

using namespace lugline;

namespace {

/// A machine on which each level takes so long.
std::size_t settled(const std::vector<double>& ms_at_level, int frames) {
  Pace pace;
  for (int i = 0; i < frames; ++i) {
    pace.moved(ms_at_level[pace.level()]);
  }
  return pace.level();
}

} // namespace

TEST_CASE("care is dropped in order until frames come fast enough, and no further") {
  CHECK(settled({300, 70, 55, 40, 20}, 20) == 3);
  CHECK(settled({300, 200, 150, 100, 60}, 20) == 4);
  CHECK(settled({90, 30, 25, 20, 10}, 200) == 1);
}

TEST_CASE("a fast machine has everything while it moves") {
  CHECK(settled({5, 4, 3, 3, 2}, 100) == 0);
}

TEST_CASE("what proved too slow is not tried again") {
  Pace pace;
  const std::vector<double> ms{60, 10, 8, 6, 4}; // everything is too much, the next is quick
  std::size_t changes = 0;
  std::size_t last = pace.level();
  for (int i = 0; i < 500; ++i) {
    pace.moved(ms[pace.level()]);
    changes += pace.level() != last ? 1 : 0;
    last = pace.level();
  }
  CHECK(pace.level() == 1);
  CHECK(changes == 2);
}

TEST_CASE("one slow frame among quick ones changes nothing") {
  Pace pace;
  for (int i = 0; i < 40; ++i) {
    pace.moved(i % 10 == 0 ? 200 : 30);
  }
  CHECK(pace.level() == 1);
}

TEST_CASE("the levels ask for less and less, and a still for everything") {
  const std::vector<DrawQuality>& all = qualities_in_motion();
  REQUIRE(all.size() == 5);
  CHECK(all.front().supersample == still_quality.supersample);
  for (std::size_t i = 1; i < all.size(); ++i) {
    CHECK(all[i].supersample <= all[i - 1].supersample);
    CHECK(all[i].crevices <= all[i - 1].crevices);
    CHECK(all[i].textures <= all[i - 1].textures);
    CHECK(all[i].coarse_px >= all[i - 1].coarse_px);
    CHECK(all[i].half_pixels >= all[i - 1].half_pixels);
  }
}
