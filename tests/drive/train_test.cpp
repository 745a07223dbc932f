#include "scene/drive/losses.h"
#include "scene/drive/train.h"
#include "tests/drive/demo_train.h"

#include <catch2/catch.hpp>

using namespace lugline;

namespace {

TrainAnswer in_range(const char* id, TrainDuty duty = TrainDuty::pull) {
  const Drive drive = demo_train();
  return settle_train(drive, applied_in(*drive.range(id)), duty);
}

std::string speed(const TrainAnswer& answer, const char* member) {
  const auto& figure = answer.member(member)->speed;
  return figure ? figure->fraction : "free";
}

std::string torque(const TrainAnswer& answer, const char* element) {
  const auto& figure = answer.element(element)->torque;
  return figure ? figure->fraction : "shared";
}

std::string doing(const TrainAnswer& answer, const char* element) {
  return word_for(answer.element(element)->doing);
}

} // namespace

TEST_CASE("the demo's ranges, in exact fractions") {
  // Tooth counts are invented; the figures are the ratios and shares that they give by hand.
  const TrainAnswer first = in_range("D1");
  CHECK(first.state == TrainState::drives);
  CHECK(first.ratio->fraction == "61/25");
  CHECK(speed(first, "front_ring") == "1");
  CHECK(speed(first, "sun") == "-625/671");
  CHECK(first.member("sun")->speed->value == Approx(-0.9314).margin(5e-5));
  CHECK(speed(first, "output") == "25/61");
  CHECK(speed(first, "rear_carrier") == "0");
  CHECK(speed(first, "outer_race") == "free");
  CHECK(doing(first, "low roller clutch") == "holds");
  CHECK(doing(first, "drum one-way") == "free");
  // 360 N m at stall: 518.4 N m on the rear carrier, counter-clockwise, so the case's is clockwise.
  CHECK(torque(first, "low roller clutch") == "36/25");
  CHECK(torque(first, "upper clutch") == "-1");
  CHECK(first.case_torque.fraction == "36/25");

  const TrainAnswer second = in_range("D2");
  CHECK(second.ratio->fraction == "36/25");
  CHECK(speed(second, "sun") == "0");
  CHECK(second.member("rear_carrier")->speed->value == Approx(0.4823).margin(5e-5));
  CHECK(torque(second, "case clutch") == "11/25");
  CHECK(torque(second, "drum one-way") == "11/25");
  CHECK(doing(second, "drum one-way") == "holds");
  CHECK(doing(second, "low roller clutch") == "overruns");
}
