#include "scene/drive/diagnose.h"

#include "tests/drive/demo_train.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline;

namespace {

Diagnosis of(const std::vector<DriverSymptom>& symptoms,
             const std::vector<PressureReading>& readings = {},
             const ElementPacks& packs = demo_packs()) {
  return diagnose(demo_drive(), packs, symptoms, readings);
}

bool is(const FaultFound& found, FaultKind kind, const std::string& element) {
  return std::ranges::any_of(found.faults, [&](const Fault& fault) {
    return fault.kind == kind && fault.element == element;
  });
}

const FaultFound* found_in(const Diagnosis& diagnosis, FaultKind kind, const std::string& element) {
  for (const FaultFound& found : diagnosis.found) {
    if (found.faults.size() == 1 && is(found, kind, element)) {
      return &found;
    }
  }
  return nullptr;
}

std::string why_not(const Diagnosis& diagnosis, FaultKind kind, const std::string& element) {
  for (const FaultExcluded& excluded : diagnosis.excluded) {
    if (excluded.fault.kind == kind && excluded.fault.element == element) {
      return excluded.words;
    }
  }
  return {};
}

} // namespace

TEST_CASE("no first, and manual low in order: the low one-way clutch") {
  const Diagnosis diagnosis = of({{"D1", Notice::no_drive}, {"M1", Notice::as_it_should}});
  REQUIRE(diagnosis.found.size() == 2);
  CHECK(is(diagnosis.found[0], FaultKind::fallen_out, "low roller clutch"));
  CHECK(diagnosis.found[0].rank == 1);
  // Reversed it would lock second too, which nobody reported.
  CHECK(is(diagnosis.found[1], FaultKind::reversed, "low roller clutch"));
  CHECK(diagnosis.found[1].rank == 2);
  CHECK(diagnosis.found[1].besides == std::vector<std::string>{"D2", "D3", "M2"});
  CHECK(why_not(diagnosis, FaultKind::not_applied, "upper clutch") ==
        "upper clutch not applied: manual low is said to be as it should; with this fault: no "
        "drive.");
  // That second is in order settles it.
  CHECK(of({{"D1", Notice::no_drive}, {"M1", Notice::as_it_should}, {"D2", Notice::as_it_should}})
            .found.size() == 1);
}

TEST_CASE("the demo as it was found: the middle clutch leaks") {
  ElementPacks packs = demo_packs();
  packs["middle clutch"].stroke_m = 3.55e-3;
  const Diagnosis diagnosis = of({{"D3", Notice::slips},
                                  {"D1", Notice::as_it_should},
                                  {"D2", Notice::as_it_should},
                                  {"R", Notice::as_it_should}},
                                 {{"middle clutch", "D3", 0.21e6}}, packs);
  REQUIRE(diagnosis.found.size() == 1);
  CHECK(is(diagnosis.found[0], FaultKind::leaking, "middle clutch"));
  CHECK(diagnosis.found[0].words ==
        "middle clutch leaking: 210 kPa in third, elsewhere all of its pressure: it explains all "
        "that is reported.");
  // Plates alone, however worn, do not lower a gauge.
  CHECK(why_not(diagnosis, FaultKind::worn, "middle clutch")
            .find("it does not explain that middle clutch reads 210 kPa in third of 800 kPa") !=
        std::string::npos);
  // With full pressure there it is the plates, and no leak.
  const Diagnosis worn = of({{"D3", Notice::slips}}, {{"middle clutch", "D3", 0.79e6}}, packs);
  CHECK(found_in(worn, FaultKind::worn, "middle clutch") != nullptr);
  CHECK(found_in(worn, FaultKind::leaking, "middle clutch") == nullptr);
  CHECK(why_not(worn, FaultKind::leaking, "middle clutch").find("its pressure is there") !=
        std::string::npos);
  // No pressure at all is a clutch that is not applied, or one whose leak takes everything.
  const Diagnosis none = of({{"D3", Notice::other_ratio}}, {{"middle clutch", "D3", 0}}, packs);
  CHECK(found_in(none, FaultKind::not_applied, "middle clutch") != nullptr);
  CHECK(found_in(none, FaultKind::leaking, "middle clutch") != nullptr);
  // Pressure where none should be is an element that is kept on.
  const Diagnosis kept = of({{"N", Notice::drives_in_neutral}}, {{"upper clutch", "R", 1.5e6}});
  REQUIRE(kept.found.size() == 1);
  CHECK(is(kept.found[0], FaultKind::stuck_on, "upper clutch"));
}

TEST_CASE("two faults where no single one will do") {
  const Diagnosis diagnosis = of({{"D1", Notice::no_drive},
                                  {"D2", Notice::as_it_should},
                                  {"M2", Notice::no_engine_braking},
                                  {"R", Notice::as_it_should}});
  CHECK(diagnosis.words.find("No single fault") == 0);
  REQUIRE_FALSE(diagnosis.found.empty());
  for (const FaultFound& found : diagnosis.found) {
    REQUIRE(found.faults.size() == 2);
    CHECK(is(found, FaultKind::fallen_out, "low roller clutch"));
    CHECK((found.faults[0].element == "upper band" || found.faults[1].element == "upper band"));
  }
  // Nothing drives, and yet it locks up nowhere: no two faults do that with the rest in order.
  CHECK(of({{"D1", Notice::locks_up},
            {"D2", Notice::no_drive},
            {"R", Notice::no_drive},
            {"D3", Notice::as_it_should}})
            .found.empty());
}

TEST_CASE("each fault's own symptoms rank it first, or tied") {
  const Drive drive = demo_drive();
  int changing = 0;
  for (const FaultRow& row : fault_table(drive, demo_packs(), {0.25, 0.25}).rows) {
    std::vector<DriverSymptom> symptoms;
    bool changes = false;
    for (const RangeBehaviour& range : row.ranges) {
      for (const Notice notice : range.notices) {
        symptoms.push_back({range.range, notice});
        changes = changes || notice != Notice::as_it_should;
      }
    }
    if (!changes) {
      continue;
    }
    ++changing;
    const Diagnosis diagnosis = diagnose(drive, demo_packs(), symptoms, {});
    CAPTURE(row.words);
    CAPTURE(diagnosis.words);
    REQUIRE_FALSE(diagnosis.refused);
    const FaultFound* found =
        found_in(diagnosis, row.faults.front().kind, row.faults.front().element);
    REQUIRE(found != nullptr);
    CHECK(found->rank == 1);
    CHECK(found->besides.empty());
  }
  CHECK(changing > 20);
}

TEST_CASE("what cannot be asked is refused in a sentence") {
  const auto refused = [](const Diagnosis& diagnosis, const std::string& words) {
    CHECK(diagnosis.refused);
    CHECK(diagnosis.words == words);
    CHECK(diagnosis.found.empty());
    CHECK(lines_of(diagnosis).front() == words);
  };
  refused(of({}), "Nothing is reported, so there is nothing to explain.");
  refused(of({{"D1", Notice::as_it_should}}),
          "All that is reported is as it should be: there is nothing to explain.");
  refused(of({}, {{"middle clutch", "D3", 0.8e6}}),
          "All that is reported is as it should be: there is nothing to explain.");
  refused(of({{"D4", Notice::slips}}), "There is no range 'D4'.");
  refused(of({}, {{"middle clutch", "D4", 1e5}}), "There is no range 'D4'.");
  refused(of({}, {{"fourth clutch", "D3", 1e5}}), "There is no element 'fourth clutch'.");
  refused(of({}, {{"drum one-way", "D2", 1e5}}),
          "'drum one-way' is a one-way clutch: no pressure applies it.");
  refused(of({}, {{"middle clutch", "D3", -1}}),
          "The pressure at 'middle clutch' is below nothing.");
  refused(of({{"D3", Notice::slips}, {"D3", Notice::as_it_should}}),
          "third is reported as 'as it should' and as 'slips': both cannot be.");
  refused(of({{"D3", Notice::no_drive}, {"D3", Notice::slips}}),
          "third is reported as 'slips' and as 'no drive': both cannot be.");
  refused(diagnose(Drive{}, {}, {}, {}), "The input is nothing: no such member.");
  // A range that states no line pressure cannot judge a reading.
  const Diagnosis no_line = of({{"N", Notice::drives_in_neutral}}, {{"upper clutch", "N", 1e5}});
  CHECK(no_line.notes.front() == "The reading at upper clutch in neutral is left out: no line "
                                 "pressure is stated for that range.");
}
