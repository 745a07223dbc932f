// Gear trains against figures that others have published; the source stands beside each. Rows that
// were worked out here, or are from memory, say so and do not count as published. The textbook
// figures were read as the printed output of open companions that recompute the books' worked
// examples: R. S. Khurmi and J. K. Gupta, Theory of Machines, 14th edition, chapter 13; T. Bevan,
// Theory of Machines, 3rd edition, chapters 11 and 12; U. C. Jindal, Machine Design, chapter 29.

#include "scene/drive/network.h"
#include "scene/drive/train.h"

#include <catch2/catch.hpp>

#include <array>
#include <numbers>

using namespace lugline;

namespace {

// The case's number, as the carrier of axes that stand still.
constexpr std::size_t still = 0;

// The speed of a body where others' are given; every such train has only one answer.
Rational speed_in(const TrainNetwork& network, std::size_t body,
                  const std::vector<GivenSpeed>& given) {
  const SolutionSpace speeds = speeds_of(network, {}, given);
  REQUIRE(speeds.any);
  REQUIRE(speeds.settles(body - 1));
  return speeds.point[body - 1];
}

double printed(const Rational& value) {
  return value.convert_to<double>();
}

Rational fraction(int over, int under) {
  return Rational(over) / Rational(under);
}

// Two wheels on one axis, each in mesh with one of two wheels that turn as one on an arm's pin.
struct Reverted {
  TrainNetwork network;
  std::size_t arm = network.add_body("arm");
  std::size_t first = network.add_body("first");
  std::size_t last = network.add_body("last");
  std::size_t pinion = network.add_body("pinions");

  Reverted(int first_teeth, int its_pinion, int last_pinion, int last_teeth) {
    network.meshes = {{first, first_teeth, pinion, its_pinion, false, arm},
                      {pinion, last_pinion, last, last_teeth, false, arm}};
  }
};

PlanetarySet simple_set(const char* id, const char* sun, const char* ring, const char* carrier,
                        int sun_teeth, int ring_teeth) {
  PlanetarySet set;
  set.id = id;
  set.sun = sun;
  set.ring = ring;
  set.carrier = carrier;
  set.sun_teeth = sun_teeth;
  set.ring_teeth = ring_teeth;
  // Its pinion's count cancels; where sun and ring differ by an odd number it is shifted teeth's.
  set.pinion_teeth = (ring_teeth - sun_teeth) / 2;
  return set;
}

DriveElement brake(const char* id, const char* of, const char* to = case_member) {
  DriveElement element;
  element.id = id;
  element.of = of;
  element.to = to;
  return element;
}

Drive train_of(const std::vector<const char*>& members, std::vector<PlanetarySet> sets,
               std::vector<DriveElement> elements) {
  Drive drive;
  drive.input = "input";
  drive.output = "output";
  for (const char* id : members) {
    drive.members.push_back({id, id, {}});
  }
  drive.sets = std::move(sets);
  drive.elements = std::move(elements);
  return drive;
}

TrainAnswer pulled(const Drive& drive, std::vector<std::string> on) {
  const TrainAnswer answer = settle_train(drive, {std::move(on), {}, {}}, TrainDuty::pull);
  REQUIRE(answer.state == TrainState::drives);
  CHECK(answer.torques_balance);
  CHECK(answer.powers_balance);
  return answer;
}

std::string ratio_of(const Drive& drive, std::vector<std::string> on) {
  return pulled(drive, std::move(on)).ratio->fraction;
}

double speed_of(const TrainAnswer& answer, const char* member) {
  return answer.member(member)->speed->value;
}

// Jindal's and Bevan's four sets: the second and third sun are the input, the third and fourth
// carrier the output, and each reaction member has its brake.
Drive four_sets(const std::array<int, 4>& suns, const std::array<int, 4>& rings) {
  return train_of({"s1", "input", "c1r2", "r1c2r3s4", "output", "r4"},
                  {simple_set("1", "s1", "r1c2r3s4", "c1r2", suns[0], rings[0]),
                   simple_set("2", "input", "c1r2", "r1c2r3s4", suns[1], rings[1]),
                   simple_set("3", "input", "r1c2r3s4", "output", suns[2], rings[2]),
                   simple_set("4", "r1c2r3s4", "r4", "output", suns[3], rings[3])},
                  {brake("hold s1", "s1"), brake("hold c1r2", "c1r2"),
                   brake("hold r1c2r3s4", "r1c2r3s4"), brake("hold r4", "r4")});
}

} // namespace

TEST_CASE("two wheels on an arm") {
  // Khurmi and Gupta, example 13.4, p. 438: A 36 and B 45, outside each other, arm at 150 rpm; A
  // held: B 270 rpm; A at 300 rpm the other way: 510 rpm.
  TrainNetwork network;
  const std::size_t arm = network.add_body("arm");
  const std::size_t a = network.add_body("A");
  const std::size_t b = network.add_body("B");
  network.meshes = {{a, 36, b, 45, false, arm}};
  CHECK(speed_in(network, b, {{arm, 150}, {a, 0}}) == 270);
  CHECK(speed_in(network, b, {{arm, 150}, {a, -300}}) == 510);
}

TEST_CASE("a simple set with its ring held") {
  // Khurmi and Gupta, example 13.6: ring 72 held, sun 32, arm at 18 rpm: sun 58.5 rpm, pinion
  // 46.8 rpm the other way.
  const Drive drive =
      train_of({"input", "ring", "output"}, {simple_set("set", "input", "ring", "output", 32, 72)},
               {brake("hold", "ring")});
  const TrainAnswer answer = pulled(drive, {"hold"});
  const double arm_rpm = 18;
  CHECK(arm_rpm * speed_of(answer, "input") / speed_of(answer, "output") == Approx(58.5));
  CHECK(arm_rpm * answer.pinions[0].speed->value / speed_of(answer, "output") == Approx(-46.8));
}

TEST_CASE("a simple set with two members given") {
  // Khurmi and Gupta, example 13.7: sun 40 turns once one way; ring 90 half a turn the other: arm
  // +0.04 turns; ring held: -0.308. Exactly 1/26 and -4/13.
  TrainNetwork network;
  const std::size_t arm = network.add_body("arm");
  const std::size_t sun = network.add_body("sun");
  const std::size_t ring = network.add_body("ring");
  const std::size_t pinion = network.add_body("pinion");
  network.meshes = {{sun, 40, pinion, 25, false, arm}, {pinion, 25, ring, 90, true, arm}};
  const Rational both = speed_in(network, arm, {{sun, -1}, {ring, fraction(1, 2)}});
  CHECK(both == fraction(1, 26));
  CHECK(printed(both) == Approx(0.04).margin(5e-3));
  const Rational held = speed_in(network, arm, {{sun, -1}, {ring, 0}});
  CHECK(held == fraction(-4, 13));
  CHECK(printed(held) == Approx(-0.308).margin(5e-4));
}

TEST_CASE("a reverted train on an arm") {
  // Khurmi and Gupta, example 13.8: 64 on 28, 26 on 62, arm at -100 rpm; the first wheel held:
  // -4.1 rpm; at +10 rpm: +5.4 rpm.
  const Reverted train(64, 28, 26, 62);
  CHECK(printed(speed_in(train.network, train.last, {{train.arm, -100}, {train.first, 0}})) ==
        Approx(-4.1).margin(0.05));
  CHECK(printed(speed_in(train.network, train.last, {{train.arm, -100}, {train.first, 10}})) ==
        Approx(5.4).margin(0.05));
}

TEST_CASE("a stepped pinion between sun and held ring") {
  // Khurmi and Gupta, example 13.10: sun 50 at 110 rpm, pinions 20 and 35, ring 105 held: 50 rpm.
  PlanetarySet set = simple_set("set", "input", "ring", "output", 50, 105);
  set.kind = PlanetaryKind::stepped_pinion;
  set.pinion_teeth = 20;
  set.outer_pinion_teeth = 35;
  const Drive drive = train_of({"input", "ring", "output"}, {set}, {brake("hold", "ring")});
  CHECK(110 / pulled(drive, {"hold"}).ratio->value == Approx(50));
  CHECK(ratio_of(drive, {"hold"}) == "11/5");
}

TEST_CASE("a stepped pinion between one sun and two rings") {
  // Khurmi and Gupta, example 13.11: sun 12 at -1 turn/s, pinions 30 and 14, rings D 56 at +5
  // turns/s and E 72: arm 27.989 rad/s, E 33.70 rad/s.
  TrainNetwork network;
  const std::size_t arm = network.add_body("arm");
  const std::size_t sun = network.add_body("sun");
  const std::size_t d = network.add_body("D");
  const std::size_t e = network.add_body("E");
  const std::size_t pinion = network.add_body("pinions");
  network.meshes = {{sun, 12, pinion, 30, false, arm},
                    {pinion, 14, d, 56, true, arm},
                    {pinion, 30, e, 72, true, arm}};
  const double turn = 2 * std::numbers::pi;
  CHECK(turn * printed(speed_in(network, arm, {{sun, -1}, {d, 5}})) == Approx(27.989).margin(5e-4));
  CHECK(turn * printed(speed_in(network, e, {{sun, -1}, {d, 5}})) == Approx(33.70).margin(5e-3));
}

TEST_CASE("Ferguson's paradox") {
  // Khurmi and Gupta, example 13.13: a pinion on wheels of 100 (held), 101 and 99, arm once round:
  // .0099 and -.0101. Exactly 1/101 and -1/99.
  TrainNetwork network;
  const std::size_t arm = network.add_body("arm");
  const std::size_t held = network.add_body("100");
  const std::size_t more = network.add_body("101");
  const std::size_t less = network.add_body("99");
  const std::size_t pinion = network.add_body("pinion");
  network.meshes = {{held, 100, pinion, 20, false, arm},
                    {more, 101, pinion, 20, false, arm},
                    {less, 99, pinion, 20, false, arm}};
  const Rational slowly = speed_in(network, more, {{arm, 1}, {held, 0}});
  const Rational back = speed_in(network, less, {{arm, 1}, {held, 0}});
  CHECK(slowly == fraction(1, 101));
  CHECK(back == fraction(-1, 99));
  CHECK(printed(slowly) == Approx(.0099).margin(5e-5));
  CHECK(printed(back) == Approx(-.0101).margin(5e-5));
}

TEST_CASE("a stepped set between two pairs of wheels") {
  // Khurmi and Gupta, example 13.14: 300 rpm through 40 on 30 to a sun 40, pinions 20 and 30, ring
  // 90 held, arm through 50 on 80: 100.0 rpm.
  TrainNetwork network;
  const std::size_t motor = network.add_body("motor");
  const std::size_t sun = network.add_body("sun");
  const std::size_t arm = network.add_body("arm");
  const std::size_t out = network.add_body("out");
  const std::size_t pinion = network.add_body("pinions");
  network.meshes = {{motor, 40, sun, 30, false, still},
                    {sun, 40, pinion, 20, false, arm},
                    {pinion, 30, still, 90, true, arm},
                    {arm, 50, out, 80, false, still}};
  CHECK(speed_in(network, out, {{motor, 300}}) == 100);
}

TEST_CASE("holding torque of a ring") {
  // Khurmi and Gupta, example 13.20, p. 465: sun five times as fast as the carrier, so that the
  // ring has four times its teeth (64 on 16); 100 N m on the sun: 400 N m hold the ring.
  const Drive drive =
      train_of({"input", "ring", "output"}, {simple_set("set", "input", "ring", "output", 16, 64)},
               {brake("hold", "ring")});
  const TrainAnswer answer = pulled(drive, {"hold"});
  CHECK(answer.ratio->fraction == "5");
  CHECK(100 * answer.element("hold")->torque->value == Approx(400));
  CHECK(100 * -answer.output_torque->value == Approx(500));
}

TEST_CASE("reverted trains, Bevan") {
  // Bevan, chapter 11, example 5, p. 388: 21 held on 30, 27 on 24: driving arm over driven wheel
  // 4.71. Exactly 80/17.
  const Reverted five(21, 30, 27, 24);
  const Rational slower = speed_in(five.network, five.last, {{five.arm, 1}, {five.first, 0}});
  CHECK(1 / slower == fraction(80, 17));
  CHECK(printed(1 / slower) == Approx(4.71).margin(5e-3));
  // Example 6, p. 391: 75 on 18, 17 on 71, arm at 500 rpm; B held: 1.174 rpm; B at 100 rpm: 100.9.
  const Reverted six(75, 18, 17, 71);
  CHECK(printed(speed_in(six.network, six.last, {{six.arm, 500}, {six.first, 0}})) ==
        Approx(1.174).margin(5e-4));
  CHECK(printed(speed_in(six.network, six.last, {{six.arm, 500}, {six.first, 100}})) ==
        Approx(100.9).margin(0.05));
}

TEST_CASE("output torque of a set and a pair of wheels") {
  // Bevan, chapter 12, example 2, p. 414: 10 lb ft in, (114/83)(-90/25) of it out: -49.4 lb ft. The
  // arrangement is put together from the printed factors: ring 83 drives, sun 31 is held, and the
  // carrier drives a wheel of 90 through one of 25.
  TrainNetwork network;
  const std::size_t ring = network.add_body("ring");
  const std::size_t carrier = network.add_body("carrier");
  const std::size_t out = network.add_body("out");
  const std::size_t pinion = network.add_body("pinion");
  network.meshes = {{still, 31, pinion, 26, false, carrier},
                    {pinion, 26, ring, 83, true, carrier},
                    {carrier, 25, out, 90, false, still}};
  const SolutionSpace torques = torques_of(network, {}, {{ring, 10}}, {out});
  REQUIRE(torques.any);
  REQUIRE(torques.settles(network.meshes.size()));
  // The load balances it, so it is minus that.
  CHECK(printed(-torques.point.back()) == Approx(-49.4).margin(0.05));
}

TEST_CASE("four coupled sets") {
  // Jindal, example 29-1, p. 749: suns 16, 18, 20, 25, rings 64, 63, 70, 50: third 1.471, first
  // 4.5, reverse -6.000. How they are coupled is put together from the companion's equations.
  const Drive drive = four_sets({16, 18, 20, 25}, {64, 63, 70, 50});
  const TrainAnswer third = pulled(drive, {"hold s1"});
  CHECK(third.ratio->fraction == "153/104");
  CHECK(third.ratio->value == Approx(1.471).margin(5e-4));
  CHECK(pulled(drive, {"hold r1c2r3s4"}).ratio->value == Approx(4.5).margin(1e-12));
  CHECK(pulled(drive, {"hold r4"}).ratio->value == Approx(-6.000).margin(1e-12));

  // From here on worked out beside the program, by a second method; not published.
  CHECK(ratio_of(drive, {"hold c1r2"}) == "81/32");
  CHECK(pulled(four_sets({23, 24, 26, 25}, {61, 72, 70, 50}), {"hold s1"}).ratio->value ==
        Approx(1.489957).margin(5e-7));
  const auto torque = [&](std::size_t set, ExactFigure SetTorques::*on) {
    return (third.sets[set].*on).value;
  };
  const double near = 5e-7;
  CHECK(torque(2, &SetTorques::sun) == Approx(-.326923).margin(near));
  CHECK(torque(2, &SetTorques::ring) == Approx(-1.144231).margin(near));
  CHECK(torque(1, &SetTorques::sun) == Approx(-.673077).margin(near));
  CHECK(torque(1, &SetTorques::ring) == Approx(-2.355769).margin(near));
  CHECK(torque(1, &SetTorques::carrier) == Approx(3.028846).margin(near));
  CHECK(torque(0, &SetTorques::ring) == Approx(-1.884615).margin(near));
  CHECK(torque(0, &SetTorques::carrier) == Approx(2.355769).margin(near));
  CHECK(third.element("hold s1")->torque->value == Approx(.471154).margin(near));
  CHECK(speed_of(third, "c1r2") == Approx(.470588).margin(near));
  CHECK(speed_of(third, "r1c2r3s4") == Approx(.588235).margin(near));
  CHECK(speed_of(third, "output") == Approx(.679739).margin(near));
  // Power circulates between the first two sets: 1.108597 times what is put in.
  CHECK(third.sets[0].greatest_power.value == Approx(1.108597).margin(near));
  CHECK(third.sets[2].greatest_power.value < 1 + 1e-9);
}

namespace {

// Front ring input; front carrier and rear ring output; one sun. Worked out, not published.
Drive common_sun(int front_sun, int front_ring, int rear_sun, int rear_ring) {
  return train_of({"input", "drum", "sun", "output", "rear"},
                  {simple_set("front", "sun", "drum", "output", front_sun, front_ring),
                   simple_set("rear", "sun", "output", "rear", rear_sun, rear_ring)},
                  {brake("ahead", "input", "drum"), brake("direct", "input", "sun"),
                   brake("low", "rear"), brake("second", "sun")});
}

} // namespace

TEST_CASE("two sets on a common sun: worked out, not published") {
  const Drive even = common_sun(30, 70, 30, 70);
  CHECK(ratio_of(even, {"ahead", "low"}) == "17/7");
  CHECK(ratio_of(even, {"ahead", "second"}) == "10/7");
  CHECK(ratio_of(even, {"ahead", "direct"}) == "1");
  CHECK(ratio_of(even, {"direct", "low"}) == "-7/3");
  const TrainAnswer first = pulled(even, {"ahead", "low"});
  CHECK(first.element("low")->torque->fraction == "10/7");
  CHECK(first.output_torque->fraction == "-17/7");
  const Drive uneven = common_sun(30, 70, 32, 76);
  CHECK(ratio_of(uneven, {"ahead", "low"}) == "137/56");
  CHECK(ratio_of(uneven, {"ahead", "second"}) == "10/7");
  CHECK(ratio_of(uneven, {"direct", "low"}) == "-19/8");
  // The ratios that such trains are commonly given, 2.45, 1.45 and -2.2, are those of a ring 2.2
  // times its sun: from memory.
  const Drive common = common_sun(30, 66, 30, 66);
  CHECK(ratio_of(common, {"ahead", "low"}) == "27/11");
  CHECK(ratio_of(common, {"ahead", "second"}) == "16/11");
  CHECK(ratio_of(common, {"direct", "low"}) == "-11/5");
}

namespace {

// Small sun on a short pinion, that on a long one, which meshes with the large sun and the ring.
Drive ravigneaux(int small, int large, int ring) {
  PlanetarySet short_one = simple_set("short", "small", "output", "carrier", small, ring);
  short_one.kind = PlanetaryKind::double_pinion;
  short_one.pinion_teeth = 18;
  short_one.outer_pinion_teeth = (ring - large) / 2;
  Drive drive = train_of({"input", "small", "large", "carrier", "output"},
                         {short_one, simple_set("long", "large", "output", "carrier", large, ring)},
                         {brake("to small", "input", "small"), brake("to large", "input", "large"),
                          brake("to carrier", "input", "carrier"), brake("hold carrier", "carrier"),
                          brake("hold large", "large")});
  return drive;
}

} // namespace

TEST_CASE("Ravigneaux's train: worked out, not published") {
  const Drive drive = ravigneaux(26, 34, 74);
  CHECK(ratio_of(drive, {"to small", "hold carrier"}) == "37/13");
  CHECK(ratio_of(drive, {"to small", "hold large"}) == "185/117");
  CHECK(ratio_of(drive, {"to small", "to large"}) == "1");
  CHECK(ratio_of(drive, {"to carrier", "hold large"}) == "37/54");
  CHECK(ratio_of(drive, {"to large", "hold carrier"}) == "-37/17");
  const Drive other = ravigneaux(24, 32, 72);
  CHECK(ratio_of(other, {"to small", "hold carrier"}) == "3");
  CHECK(ratio_of(other, {"to small", "hold large"}) == "21/13");
  CHECK(ratio_of(other, {"to carrier", "hold large"}) == "9/13");
  CHECK(ratio_of(other, {"to large", "hold carrier"}) == "-9/4");
}

TEST_CASE("torques of a simple set stand as 1 : rho : -(1 + rho)") {
  // From memory: any text on planetary gears; the open Modelica library's IdealPlanetary has the
  // same speeds, (1 + ratio) carrier = sun + ratio ring.
  const Drive drive =
      train_of({"input", "ring", "output"}, {simple_set("set", "input", "ring", "output", 30, 72)},
               {brake("hold", "ring")});
  const TrainAnswer answer = pulled(drive, {"hold"});
  CHECK(answer.sets[0].sun.fraction == "-1");
  CHECK(answer.sets[0].ring.fraction == "-12/5");
  CHECK(answer.sets[0].carrier.fraction == "17/5");
}

TEST_CASE("assembly of equally spaced pinions: from memory") {
  // (sun + ring) / pinions whole, ring = sun + 2 pinions.
  PlanetarySet set = simple_set("set", "sun", "ring", "carrier", 30, 72);
  set.pinions = 3;
  CHECK(report_set(set).verdict == ReportVerdict::good); // 102 / 3
  set.pinions = 4;
  CHECK(report_set(set).verdict == ReportVerdict::bad); // 25.5
}
