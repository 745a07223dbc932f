// The demo unit that ships: it must load, and raise no question.
#include "tests/load/unit_folder.h"

#include <catch2/catch.hpp>

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
