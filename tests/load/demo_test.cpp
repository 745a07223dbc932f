// The demo unit that ships: it must load, and raise no question.
#include "tests/load/unit_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

using namespace lugline;
using namespace lugline::test;

namespace {
LoadReport demo() {
  return load_unit(LUGLINE_ROOT "/assets-demo/hobspindle-three");
}
/// At most one full stop, at the end; figures have points of their own.
bool one_sentence(const std::string& text) {
  return text.empty() ||
         (text.back() == '.' && text.find(". ") == std::string::npos && text.size() < 200);
}

} // namespace

TEST_CASE("the demo unit loads with no complaints and no questions") {
  const LoadReport report = demo();
  INFO(text_of(report));
  CHECK(report.complaints.empty());
  CHECK(report.questions.empty());
  REQUIRE(report.unit != nullptr);
  CHECK(report.unit->invented);
  CHECK(report.unit->label == "invented practice data");
  CHECK_FALSE(report.unit->notice.empty());
}

TEST_CASE("every piece of the demo has a mesh, rings and a use") {
  const LoadReport report = demo();
  REQUIRE(report.unit != nullptr);
  std::set<std::string> used;
  for (const Place& place : report.unit->places) {
    used.insert(place.base);
  }
  for (const Step& step : report.unit->steps) {
    used.insert(step.part);
  }
  for (const UnitComponent& component : report.unit->components) {
    INFO(component.id);
    CHECK_FALSE(component.part.solid.rings.empty());
    REQUIRE(component.mesh != nullptr);
    CHECK_FALSE(component.mesh->triangles.empty());
    CHECK(used.contains(component.id));
  }
}

TEST_CASE("the demo's packs are whole") {
  const LoadReport report = demo();
  REQUIRE(report.unit != nullptr);
  const Pack* case_clutch = report.unit->pack("CC");
  const Pack* middle_clutch = report.unit->pack("MC");
  REQUIRE(case_clutch != nullptr);
  REQUIRE(middle_clutch != nullptr);
  const Pack* upper_clutch = report.unit->pack("UC");
  REQUIRE(upper_clutch != nullptr);
  CHECK(upper_clutch->plates.size() == 12);
  CHECK(upper_clutch->clearance.low_m == Approx(0.60e-3));
  CHECK(case_clutch->plates.size() == 10);
  CHECK(middle_clutch->plates.size() == 9);
  CHECK(case_clutch->wave_free);
  CHECK(case_clutch->clearance.low_m == Approx(0.75e-3));
  CHECK(middle_clutch->clearance.high_m == Approx(1.60e-3));
}

TEST_CASE("every step of the demo says what to do, and how one knows") {
  const LoadReport report = demo();
  REQUIRE(report.unit != nullptr);
  for (const Step& step : report.unit->steps) {
    INFO(step.id);
    CHECK_FALSE(step.do_text.empty());
    CHECK_FALSE(step.know_text.empty());
    CHECK_FALSE(step.chapter.empty());
    for (const std::string& text : {step.do_text, step.know_text, step.caution_text}) {
      CHECK(one_sentence(text));
    }
  }
}

namespace {

/// What a step of the sequence says of a one-way clutch: which way `part` runs free against `to`.
const Joint* one_way_joint(const Unit& unit, const std::string& part) {
  for (const Step& step : unit.steps) {
    if (step.part == part && step.joint.kind == JointKind::turns_one_way) {
      return &step.joint;
    }
  }
  return nullptr;
}

double area_mm2(const DriveElement& element) {
  const double outer_mm = element.piston->outer_m * 1e3;
  const double inner_mm = element.piston->inner_m * 1e3;
  return std::numbers::pi / 4 * (outer_mm * outer_mm - inner_mm * inner_mm);
}

} // namespace

TEST_CASE("the demo's piston diameters give the areas of its table, to the printed digits") {
  const LoadReport report = demo();
  REQUIRE(report.unit != nullptr);
  REQUIRE(report.unit->drive.has_value());
  const Drive& drive = *report.unit->drive;
  // Invented practice data: 5504.0703, 6898.9375 and 10294.9991 mm2.
  for (const auto& [id, printed_mm2] :
       {std::pair("CC", 5504.0703), std::pair("MC", 6898.9375), std::pair("UC", 10294.9991)}) {
    INFO(id);
    const DriveElement* element = drive.element(id);
    REQUIRE(element != nullptr);
    REQUIRE(element->piston.has_value());
    CHECK(std::abs(area_mm2(*element) - printed_mm2) <= 0.00005);
  }
}

TEST_CASE("the demo's pistons are as wide as the bores that its parts have") {
  const LoadReport report = demo();
  REQUIRE(report.unit != nullptr);
  const Drive& drive = *report.unit->drive;
  for (const char* id : {"CC", "MC", "UC"}) {
    const DriveElement& element = *drive.element(id);
    const Pack& pack = *report.unit->pack(element.pack);
    INFO(id);
    // The model of the piston stands a hair inside the bore that its seal runs on.
    double widest_m = 0;
    for (const SectorRing& ring : report.unit->component(pack.piston)->part.solid.rings) {
      widest_m = std::max(widest_m, 2 * ring.outer_m);
    }
    CHECK(widest_m <= element.piston->outer_m);
    CHECK(widest_m >= element.piston->outer_m - 0.7e-3);
  }
}

TEST_CASE("the demo's one-way clutches run free the way that its sequence says") {
  const LoadReport report = demo();
  REQUIRE(report.unit != nullptr);
  const DriveElement* clutch = report.unit->drive->element("OWC");
  REQUIRE(clutch != nullptr);
  // The sequence turns the outer race against the inner one, which is pressed into the drum, as
  // seen from the pump end: the race counter-clockwise is the drum clockwise.
  const Joint* joint = one_way_joint(*report.unit, "OW-OR");
  REQUIRE(joint != nullptr);
  CHECK(joint->to == "OW-IR");
  CHECK(joint->seen_from == "pump end");
  const DriveMember* drum = report.unit->drive->member(clutch->of);
  const DriveMember* race = report.unit->drive->member(clutch->to);
  REQUIRE(drum != nullptr);
  REQUIRE(race != nullptr);
  CHECK(std::ranges::count(drum->parts, "OW-IR") == 1);
  CHECK(std::ranges::count(race->parts, "OW-OR") == 1);
  CHECK(clutch->free_clockwise == !joint->free_clockwise);
  // The low roller clutch has no such joint; its steps say it in words, as seen from the pump end.
  const DriveElement* roller = report.unit->drive->element("LRC");
  REQUIRE(roller != nullptr);
  CHECK(roller->free_clockwise);
  CHECK(std::ranges::count(report.unit->drive->member(roller->of)->parts, "RT-C2") == 1);
  CHECK(roller->to == case_member);
  const Step* by_hand = report.unit->step("low clutch by hand");
  REQUIRE(by_hand != nullptr);
  CHECK(by_hand->know_text ==
        "Seen from the pump end it locks counter-clockwise and runs free clockwise.");
}

TEST_CASE("each part of the demo turns with one member, stands still, or holds") {
  const LoadReport report = demo();
  REQUIRE(report.unit != nullptr);
  const Drive& drive = *report.unit->drive;
  // What is fixed to the case, lies between, or is a tool.
  std::size_t turning = 0;
  for (const DriveMember& member : drive.members) {
    turning += member.parts.size();
    for (const std::string& part : member.parts) {
      CHECK(report.unit->component(part) != nullptr);
    }
  }
  CHECK(turning > 50);
  for (const char* still : {"CASE-01", "CS-01", "CC-PIST", "PU-COV", "UB-BAND", "LB-BAND"}) {
    for (const DriveMember& member : drive.members) {
      CHECK(std::ranges::count(member.parts, still) == 0);
    }
  }
}
