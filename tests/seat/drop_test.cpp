// The drop on parts whose answers are known by hand.

#include "scene/seat/drop.h"
#include "scene/seat/level.h"
#include "scene/seat/poses.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace lugline;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double mm = 1e-3;
constexpr double deg = pi / 180;

SectorRing ring(double inner_mm, double outer_mm, double low_mm, double high_mm,
                std::vector<Sector> sectors = {}) {
  return {inner_mm * mm, outer_mm * mm, low_mm * mm, high_mm * mm, std::move(sectors), "", ""};
}

/// Ten slots at equal steps, one wide at 12 o'clock, a floor below them.
Solid slotted_case() {
  auto slots = repeated(parallel_sector(0, 8.0 * mm), 10);
  slots.front() = parallel_sector(0, 16.0 * mm);
  return {{ring(50, 98, -5, 0), ring(96, 98, 0, 60, between(slots)), ring(98, 103, -5, 60)}};
}

/// A plate with nine narrow lugs and a wide one.
Solid lugged_plate(double narrow_mm, double wide_mm) {
  auto lugs = repeated(parallel_sector(0, narrow_mm * mm), 10);
  lugs.front() = parallel_sector(0, wide_mm * mm);
  return {{ring(71, 95, 0, 4), ring(95, 97.8, 0, 4, lugs)}};
}

DropQuestion one_on_one(const Shape& moving, const Shape& below) {
  DropQuestion question;
  question.moving.push_back({"moving", &moving, 0, 0, spin_hand});
  question.below.push_back({"below", &below, 0, 0, spin_fixed});
  return question;
}

} // namespace

TEST_CASE("a plate with one wide lug has exactly one pose, as wide as its flanks allow") {
  const Shape host(slotted_case());
  const Shape plate(lugged_plate(7.4, 15.4));
  const DropQuestion question = one_on_one(plate, host);
  const DropAnswer answer = drop(question);
  const auto found = poses(question, answer, 0, {0}, contact_tolerance_m);
  REQUIRE(found.size() == 1);
  // By hand: a 7.4 lug between parallel flanks in an 8.0 slot meets first with
  // the corner of its tip. sin(t + asin(3.7/97.8)) = 4.0/97.8.
  const double narrow_rad = std::asin(4.0 / 97.8) - std::asin(3.7 / 97.8);
  const double wide_rad = std::asin(8.0 / 97.8) - std::asin(7.7 / 97.8);
  CHECK(found.front().width_rad() == Approx(2 * narrow_rad).epsilon(1e-9));
  CHECK(found.front().width_rad() / deg == Approx(0.352).margin(0.0005));
  CHECK(2 * wide_rad / deg == Approx(0.353).margin(0.0005));
  CHECK(std::remainder(found.front().middle_rad(), 2 * pi) == Approx(0).margin(1e-12));
}

TEST_CASE("without the wide lug there are ten poses") {
  const Shape host(slotted_case());
  const Shape plate(lugged_plate(7.4, 7.4));
  const DropQuestion question = one_on_one(plate, host);
  const auto found = poses(question, drop(question), 0, {0}, contact_tolerance_m);
  const PoseSummary summary = summary_of(found);
  CHECK(summary.count == 10);
  // The wide slot gives its lug more room, the other nine do not.
  CHECK(summary.step_rad / deg == Approx(36));
}

TEST_CASE("out of its pose a plate stands on the lands, by the height of the slots") {
  const Shape host(slotted_case());
  const Shape plate(lugged_plate(7.4, 15.4));
  const DropAnswer answer = drop(one_on_one(plate, host));
  CHECK(*answer.at(0.1 * deg).rest_m == Approx(0).margin(1e-12));
  CHECK(*answer.at(0.2 * deg).rest_m == Approx(60 * mm));
  CHECK(*answer.at(36 * deg).rest_m == Approx(60 * mm));
  CHECK(*answer.at(180 * deg).rest_m == Approx(60 * mm));
}

TEST_CASE("a plate whose lugs are their own mirror image drops in upside down as well") {
  const Shape host(slotted_case());
  const Shape plate(turned_over(lugged_plate(7.4, 15.4)));
  const DropQuestion question = one_on_one(plate, host);
  const auto found = poses(question, drop(question), 0, {0}, contact_tolerance_m);
  REQUIRE(found.size() == 1);
  CHECK(found.front().width_rad() / deg == Approx(0.352).margin(0.0005));
}

TEST_CASE("exact face contact is a seat, not an overlap") {
  const Shape a(Solid{{ring(10, 20, 0, 2)}});
  const Body lower{"lower", &a, 0, 0, spin_fixed};
  Body upper{"upper", &a, 2 * mm, 0, spin_hand};
  CHECK(fit_between(lower, upper, contact_tolerance_m).fit == Fit::touching);
  upper.height_m = 2 * mm + 1e-6;
  CHECK(fit_between(lower, upper, contact_tolerance_m).fit == Fit::clear);
  CHECK(fit_between(lower, upper, contact_tolerance_m).by_m == Approx(1e-6));
  upper.height_m = 2 * mm - 1e-6;
  CHECK(fit_between(lower, upper, contact_tolerance_m).fit == Fit::inside);
  CHECK(fit_between(lower, upper, contact_tolerance_m).by_m == Approx(1e-6));
}

TEST_CASE("what shares no radius falls through") {
  const Shape wide(Solid{{ring(30, 40, 0, 2)}});
  const Shape narrow(Solid{{ring(10, 20, 0, 2)}});
  CHECK_FALSE(drop(one_on_one(narrow, wide)).spans.front().rest_m.has_value());
}

TEST_CASE("a fall from inside a pack passes what is above it") {
  const Shape plate(Solid{{ring(10, 20, 0, 2)}});
  DropQuestion question;
  question.moving.push_back({"plate", &plate, 0, 0, spin_hand});
  question.below.push_back({"lower", &plate, 0, 0, spin_fixed});
  question.below.push_back({"upper", &plate, 10 * mm, 0, spin_fixed});
  CHECK(*drop(question).lowest().rest_m == Approx(12 * mm));
  question.from_m = 5 * mm;
  CHECK(*drop(question).lowest().rest_m == Approx(2 * mm));
  const Travel travel = rise({{"plate", &plate, 2 * mm, 0, spin_hand}}, question.below);
  CHECK(travel.up_m == Approx(6 * mm));
}

TEST_CASE("a hub on four free plates: each can carry it, and says so") {
  // Outer teeth of a hub, 42 of them, entering plates with 42 inner teeth.
  const int teeth = 42;
  const double pitch = 2 * pi / teeth;
  const Shape hub(
      Solid{{ring(58, 64.75, 0, 14.8),
             ring(64.75, 67, 0, 14.8, repeated(radial_sector(0, pitch * 0.46), teeth))}});
  const Shape plate(
      Solid{{ring(64.85, 67.1, 0, 1.6, repeated(radial_sector(pitch / 2, pitch * 0.46), teeth)),
             ring(67.1, 87, 0, 1.6)}});
  DropQuestion question;
  question.moving.push_back({"hub", &hub, 0, 0, spin_hand});
  const Shape floor(Solid{{ring(50, 62, -5, 0)}});
  question.below.push_back({"floor", &floor, 0, 0, spin_fixed});
  for (int i = 0; i < 4; ++i) {
    question.below.push_back({"plate", &plate, 0.1 * mm + 3.1 * mm * i, 0.01 * i, 2 + i});
  }
  const DropAnswer home = drop(question);
  REQUIRE(home.exact);
  REQUIRE(home.spans.size() == 1);
  CHECK(*home.spans.front().rest_m == Approx(0).margin(1e-12));
  CHECK(home.spans.front().contact.below == 0);
  for (int i = 0; i < 4; ++i) {
    question.spins = {{2 + i, FreeTurn::off}};
    const DropAnswer off = drop(question);
    CHECK(*off.spans.front().rest_m == Approx(1.7 * mm + 3.1 * mm * i));
    CHECK(off.spans.front().contact.below == static_cast<std::size_t>(1 + i));
  }
  // Two off: the upper one carries.
  question.spins = {{2, FreeTurn::off}, {4, FreeTurn::off}};
  CHECK(drop(question).spans.front().contact.below == 3);
}

TEST_CASE("a part carried on less than half a turn is cocked, and says which side is low") {
  const Shape disc(Solid{{ring(20, 60, 0, 5)}});
  const Shape floor(Solid{{ring(20, 60, -5, 0)}});
  const Shape block(Solid{{ring(40, 60, 0, 3, {radial_sector(0, 40 * deg)})}});
  DropQuestion question = one_on_one(disc, floor);
  CHECK_FALSE(level_on(question, 0, 0).cocked);
  question.below.push_back({"block", &block, 0, 0, spin_fixed});
  const double rest_m = *drop(question).lowest().rest_m;
  CHECK(rest_m == Approx(3 * mm));
  const LevelReport level = level_on(question, 0, rest_m);
  REQUIRE(level.cocked);
  CHECK(level.low_side_rad / deg == Approx(180).margin(0.5));
  // Over the inner edge of the block at radius 40 it stands 3 mm up; opposite,
  // its rim at radius 60 touches the floor: heights are a straight line. The
  // block's inner corners, at 20 deg, carry: 40 cos 20 = 37.588.
  const double slope = 3.0 / (60 + 40 * std::cos(20 * deg));
  CHECK(level.heights_m[0] / mm == Approx(slope * 120).epsilon(0.01));
  CHECK(level.heights_m[1] / mm == Approx(slope * (60 - 60 * std::cos(60 * deg))).epsilon(0.01));
  CHECK(level.heights_m[2] == Approx(level.heights_m[1]).epsilon(0.01));
}

TEST_CASE("a part that stands aside, off the axis, stands on its own foot") {
  const Shape floor(Solid{{ring(20, 60, -5, 0)}});
  const Shape ball(Solid{{ring(40, 48, 0, 6, {parallel_sector(60 * deg, 8 * mm)})}});
  CHECK_FALSE(level_on(one_on_one(ball, floor), 0, 0).cocked);
  // Over half a turn round it is not aside: carried at one end it tips.
  const Shape arc(Solid{{ring(40, 48, 0, 6, {radial_sector(0, 200 * deg)})}});
  const Shape block(Solid{{ring(40, 48, 0, 3, {radial_sector(0, 40 * deg)})}});
  DropQuestion question = one_on_one(arc, floor);
  question.below.push_back({"block", &block, 0, 0, spin_fixed});
  CHECK(level_on(question, 0, 3 * mm).cocked);
}

TEST_CASE("tabs at four places have four poses") {
  const Shape washer(Solid{
      {ring(30, 38, 0, 1.6), ring(38, 40, -1.2, 1.6, repeated(parallel_sector(0, 8 * mm), 4))}});
  const auto notches = repeated(parallel_sector(0, 8.4 * mm), 4);
  const Shape face(Solid{{ring(20, 37.8, -10, 0), ring(37.8, 40.3, -1.5, 0, between(notches)),
                          ring(37.8, 40.3, -10, -1.5), ring(40.3, 60, -10, 0)}});
  const DropQuestion question = one_on_one(washer, face);
  const DropAnswer answer = drop(question);
  const PoseSummary summary = summary_of(poses(question, answer, 0, {0}, contact_tolerance_m));
  CHECK(summary.count == 4);
  CHECK(summary.step_rad / deg == Approx(90));
  CHECK(*answer.at(45 * deg).rest_m == Approx(1.2 * mm));
}

TEST_CASE("a free piece in the middle of its room stays, though the room runs over 12 o'clock") {
  const Shape host(slotted_case());
  const Shape plate(lugged_plate(7.4, 15.4));
  DropQuestion question = one_on_one(plate, host);
  question.below.front().spin = 2;
  const auto turns = turns_after(question, 0);
  REQUIRE(turns.size() == 1);
  CHECK(turns.front().turn_rad == 0);
  CHECK(turns.front().play_rad / deg == Approx(0.352).margin(0.0005));
  // A whole degree off it comes back to the middle.
  question.below.front().turn_rad = 1 * deg;
  CHECK(turns_after(question, 0).front().turn_rad == Approx(-1 * deg).margin(1e-12));
}

TEST_CASE("a free piece that is not in the way is left as it stands") {
  // Teeth far beneath a ledge that stops the plate above them.
  const Shape plate(
      Solid{{ring(40, 50, 0, 4), ring(50, 60, -2, 4, repeated(parallel_sector(0, 6 * mm), 3))}});
  const Shape ledge(Solid{{ring(38, 45, 0, 30)}});
  const Shape toothed(
      Solid{{ring(46, 50, 0, 5), ring(50, 60, 0, 8, repeated(parallel_sector(0, 6 * mm), 4))}});
  DropQuestion question = one_on_one(plate, ledge);
  question.below.push_back({"toothed", &toothed, 0, 7 * deg, 2});
  CHECK(*drop(question).at(0).rest_m == Approx(30 * mm));
  const auto turns = turns_after(question, 0);
  REQUIRE(turns.size() == 1);
  CHECK(turns.front().turn_rad == 0);
  // Raised into the way, it is turned until the plate comes down.
  question.below.back().height_m = 21 * mm;
  question.below.back().turn_rad = 2 * deg;
  CHECK(*drop(question).at(0).rest_m == Approx(30 * mm));
  CHECK(turns_after(question, 0).front().turn_rad != 0);
}
