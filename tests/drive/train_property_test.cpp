// Random trains: what the settled answer says is held to the speeds alone, by another way than the
// one that it was found by, and to the balance of torques and powers.

#include "scene/drive/settle.h"
#include "scene/drive/train.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <set>

using namespace lugline;

namespace {

class RandomTrain {
public:
  explicit RandomTrain(unsigned seed) : random_(seed) {
    const int members = below(4) + 4;
    for (int i = 0; i < members; ++i) {
      const std::string id = "m" + std::to_string(i);
      drive.members.push_back({id, id, {}});
    }
    drive.input = "m0";
    drive.output = "m1";
    drive.engine_clockwise = below(2) == 0;
    for (int i = below(3) + 1; i > 0; --i) {
      drive.sets.push_back(set());
    }
    for (int i = below(6) + 1; i > 0; --i) {
      drive.elements.push_back(element());
      const DriveElement& last = drive.elements.back();
      if (last.kind != ElementKind::one_way_clutch ? below(3) == 0 : below(8) == 0) {
        applied.on.push_back(last.id);
      } else if (last.kind == ElementKind::one_way_clutch && below(4) == 0) {
        applied.reversed.push_back(last.id);
      }
    }
  }

  Drive drive;
  AppliedElements applied;

private:
  int below(int count) { return static_cast<int>(random_() % static_cast<unsigned>(count)); }

  std::string member() {
    return drive.members[static_cast<std::size_t>(below(static_cast<int>(drive.members.size())))]
        .id;
  }

  PlanetarySet set() {
    PlanetarySet made;
    made.id = "s" + std::to_string(drive.sets.size());
    made.kind = static_cast<PlanetaryKind>(below(3));
    made.sun = member();
    do {
      made.ring = member();
    } while (made.ring == made.sun);
    do {
      made.carrier = member();
    } while (made.carrier == made.sun || made.carrier == made.ring);
    made.sun_teeth = 20 + below(20);
    made.pinion_teeth = 12 + below(20);
    made.outer_pinion_teeth = 12 + below(20);
    made.ring_teeth = 60 + below(30);
    return made;
  }

  DriveElement element() {
    DriveElement made;
    made.id = "e" + std::to_string(drive.elements.size());
    made.kind = below(2) == 0 ? ElementKind::one_way_clutch : ElementKind::clutch;
    made.of = member();
    do {
      made.to = below(2) == 0 ? std::string(case_member) : member();
    } while (made.to == made.of);
    made.free_clockwise = below(2) == 0;
    return made;
  }

  std::mt19937 random_;
};

// The train's speeds with what drives turning once; what is driven as given, if it is.
bool can_turn(const RandomTrain& train, std::size_t driving, int way, std::size_t driven,
              std::optional<Rational> at, std::optional<Rational> slower_than) {
  const Drive& drive = train.drive;
  const DriveNetwork built = network_of(drive);
  std::vector<Coupling> closed;
  std::vector<std::pair<Coupling, int>> one_ways;
  for (const DriveElement& element : drive.elements) {
    const Coupling coupling{built.body(element.of), built.body(element.to)};
    const auto is_in = [&](const std::vector<std::string>& ids) {
      return std::ranges::find(ids, element.id) != ids.end();
    };
    if (is_in(train.applied.on)) {
      closed.push_back(coupling);
    } else if (element.kind == ElementKind::one_way_clutch) {
      const bool clockwise = element.free_clockwise != is_in(train.applied.reversed);
      one_ways.emplace_back(coupling, clockwise == drive.engine_clockwise ? 1 : -1);
    }
  }
  std::vector<GivenSpeed> given{{driving, way}};
  if (at) {
    given.emplace_back(driven, *at);
  }
  const SolutionSpace speeds = speeds_of(built.network, closed, given);
  if (!speeds.any) {
    return false;
  }
  std::vector<Inequality> all;
  for (const auto& [coupling, free_way] : one_ways) {
    RationalRow row = row_of(built.network, coupling);
    for (Rational& figure : row) {
      figure *= free_way;
    }
    all.push_back(along(speeds, row, false));
  }
  if (slower_than) {
    // In the sense of its sign: less of it than this.
    RationalRow row = row_of_body(built.network, driven);
    for (Rational& figure : row) {
      figure *= -slower_than->sign();
    }
    Inequality one = along(speeds, row, true);
    one.constant += *slower_than * slower_than->sign();
    all.push_back(one);
  }
  return can_all_hold(all, speeds.directions.size());
}

void hold_to_speeds(const RandomTrain& train, const TrainAnswer& answer, int way) {
  const bool pull = answer.duty == TrainDuty::pull;
  const std::size_t driving = pull ? 1 : 2;
  const std::size_t driven = pull ? 2 : 1;
  const bool neutral = can_turn(train, driving, way, driven, Rational(0), {});
  const bool turns = can_turn(train, driving, way, driven, {}, {});
  CHECK((answer.state == TrainState::neutral) == neutral);
  const bool locked = answer.state == TrainState::locked || answer.state == TrainState::fighting;
  CHECK(locked == !turns);
  if (answer.state == TrainState::drives) {
    const Rational ratio(answer.ratio->fraction);
    const Rational at = (pull ? Rational(1) / ratio : ratio) * way;
    CHECK(can_turn(train, driving, way, driven, at, {}));
    CHECK_FALSE(can_turn(train, driving, way, driven, {}, at));
  }
}

void hold_to_balance(const RandomTrain& train, const TrainAnswer& answer) {
  bool shared = false;
  for (const ElementWork& work : answer.elements) {
    shared = shared || !work.torque;
  }
  const bool sets_known = std::ranges::all_of(answer.sets, &SetTorques::known);
  if (!shared && sets_known) {
    CHECK(answer.torques_balance);
    CHECK(answer.powers_balance);
  }
  CHECK(Rational(answer.output_torque->fraction) * -1 == Rational(answer.ratio->fraction));
  for (const ElementWork& work : answer.elements) {
    const DriveElement& element = *train.drive.element(work.id);
    if (element.kind != ElementKind::one_way_clutch || work.doing == ElementDoing::on) {
      continue;
    }
    const bool reversed =
        std::ranges::find(train.applied.reversed, work.id) != train.applied.reversed.end();
    const bool free_with_engine =
        (element.free_clockwise != reversed) == train.drive.engine_clockwise;
    // Answers are shares of the input's; coasting, its own torque is the other way.
    const double speed_sign = answer.member("m0")->speed->value < 0 ? -1 : 1;
    if (work.doing == ElementDoing::overruns && answer.duty == TrainDuty::pull) {
      CHECK((work.slip->value > 0) == free_with_engine);
    }
    if (work.doing == ElementDoing::holds && work.torque && answer.duty == TrainDuty::pull) {
      CHECK((work.torque->value * speed_sign > 0) == free_with_engine);
    }
    if (work.doing == ElementDoing::holds) {
      CHECK(work.slip->fraction == "0");
    }
    if (work.doing == ElementDoing::overruns) {
      CHECK(work.torque->fraction == "0");
    }
  }
}

} // namespace

TEST_CASE("random trains: each drives, is neutral or is locked, as its speeds alone allow") {
  std::set<std::pair<TrainDuty, TrainState>> seen;
  int with_holding = 0;
  int with_sharing = 0;
  for (unsigned seed = 0; seed < 700; ++seed) {
    const RandomTrain train(seed);
    CAPTURE(seed);
    REQUIRE(train_troubles(train.drive).empty());
    const TrainAnswer pull = settle_train(train.drive, train.applied, TrainDuty::pull);
    const TrainAnswer coast = settle_train(train.drive, train.applied, TrainDuty::coast);
    seen.emplace(TrainDuty::pull, pull.state);
    seen.emplace(TrainDuty::coast, coast.state);
    hold_to_speeds(train, pull, 1);
    const bool reverse = pull.state == TrainState::drives && pull.ratio->value < 0;
    hold_to_speeds(train, coast, reverse ? -1 : 1);
    for (const TrainAnswer* answer : {&pull, &coast}) {
      if (answer->state == TrainState::drives) {
        hold_to_balance(train, *answer);
      }
      for (const ElementWork& work : answer->elements) {
        with_holding += work.doing == ElementDoing::holds ? 1 : 0;
        with_sharing += work.shares_with.empty() ? 0 : 1;
      }
    }
  }
  CHECK(seen.size() == 8); // every state was met, pulling and coasting
  CHECK(with_holding > 50);
  CHECK(with_sharing > 5);
}

TEST_CASE("random trains: seen in a mirror they do the same") {
  for (unsigned seed = 2000; seed < 2100; ++seed) {
    const RandomTrain train(seed);
    CAPTURE(seed);
    Drive mirrored = train.drive;
    mirrored.engine_clockwise = !mirrored.engine_clockwise;
    for (DriveElement& element : mirrored.elements) {
      element.free_clockwise = !element.free_clockwise;
      // Which side is called `of` makes no difference either.
      std::swap(element.of, element.to);
      element.free_clockwise = !element.free_clockwise;
    }
    const TrainAnswer one = settle_train(train.drive, train.applied, TrainDuty::pull);
    const TrainAnswer other = settle_train(mirrored, train.applied, TrainDuty::pull);
    CHECK(one.state == other.state);
    if (one.state == TrainState::drives) {
      CHECK(one.ratio->fraction == other.ratio->fraction);
    }
  }
}
