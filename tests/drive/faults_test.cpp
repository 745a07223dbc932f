#include "scene/drive/faults.h"

#include "scene/drive/element_capacity.h"
#include "scene/drive/strength.h"
#include "tests/drive/demo_train.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace lugline;

namespace {

RangeBehaviour in_range(const char* id, const std::vector<Fault>& faults,
                        const ElementPacks& packs = demo_packs()) {
  const std::vector<RangeBehaviour> all = behave(demo_drive(), packs, faults);
  const auto found = std::ranges::find(all, id, &RangeBehaviour::range);
  REQUIRE(found != all.end());
  return *found;
}

std::vector<Notice> notices(const char* range, FaultKind kind, const char* element) {
  return in_range(range, {{kind, element, 0, {}}}).notices;
}

// The demo's pack as it was found: worn, its clearance grown from 1.20 to 3.55 mm.
ElementPacks packs_as_found() {
  ElementPacks packs = demo_packs();
  packs["middle clutch"].stroke_m = 3.55e-3;
  return packs;
}

using List = std::vector<Notice>;

} // namespace

TEST_CASE("the sound demo does as it should in every range") {
  for (const RangeBehaviour& range : behave(demo_drive(), demo_packs(), {})) {
    CAPTURE(range.range);
    CHECK(range.notices == List{Notice::as_it_should});
    CHECK(range.words == "as it should");
    CHECK(range.slipping.empty());
  }
  // Second is set by its one-way clutch's rating of 320 N m, which takes 0.44 of the input's.
  CHECK(*in_range("D2", {}).carries_Nm == Approx(320 / 0.44));
  CHECK(*in_range("D1", {}).carries_Nm == Approx(800 / 1.44));
}

TEST_CASE("the demo as it was found: third slips at the pressure that was read") {
  // Invented story: 0.21 MPa at the middle clutch in third instead of 0.80; 38.1 N m carried where
  // 58.1 are asked, and reverse at its own pressure holds.
  const ElementPacks packs = packs_as_found();
  const Drive drive = demo_drive();
  const double carried_Nm = element_capacity(*drive.element("middle clutch"),
                                             packs.at("middle clutch"), 0, {"", 0.21e6, 0, 1})
                                .capacity_Nm;
  CHECK(carried_Nm == Approx(38.1).margin(0.05));
  const std::vector<Fault> leak{{FaultKind::leaking, "middle clutch", 1, {{"D3", 0.21e6}}}};
  const RangeBehaviour third = in_range("D3", leak, packs);
  CHECK(third.notices == List{Notice::slips});
  CHECK(third.slipping == std::vector<std::string>{"middle clutch"});
  CHECK(*third.asked_Nm == 190);
  CHECK(*third.carries_Nm == Approx(carried_Nm * 36 / 11));
  CHECK(*third.asked_Nm * 11 / 36 == Approx(58.1).margin(0.05));
  // Where it gives way the case clutch and its one-way clutch are still there: second.
  CHECK(third.words == "slips above 124.6 N m at the input (190.0 N m asked, coupled): middle "
                       "clutch gives way, and then it drives at 36/25 (1.440)");
  CHECK(in_range("R", leak, packs).notices == List{Notice::as_it_should});
  // With as large a share lost in reverse too, it would slip there as well.
  CHECK(in_range("R", {{FaultKind::leaking, "middle clutch", 0.21 / 0.8, {{"D3", 0.21e6}}}}, packs)
            .shows(Notice::slips));
}

TEST_CASE("what each fault does, by the gear train alone") {
  CHECK(notices("D1", FaultKind::not_applied, "upper clutch") == List{Notice::no_drive});
  CHECK(notices("R", FaultKind::not_applied, "upper clutch") == List{Notice::as_it_should});
  CHECK(notices("N", FaultKind::stuck_on, "upper clutch") == List{Notice::drives_in_neutral});
  CHECK(notices("R", FaultKind::stuck_on, "upper clutch") == List{Notice::locks_up});
  CHECK(notices("D3", FaultKind::not_applied, "middle clutch") ==
        List{Notice::other_ratio, Notice::no_engine_braking});
  CHECK(notices("D2", FaultKind::not_applied, "case clutch") == List{Notice::other_ratio});
  CHECK(notices("M2", FaultKind::not_applied, "upper band") == List{Notice::no_engine_braking});
  CHECK(notices("M1", FaultKind::not_applied, "lower band") == List{Notice::no_engine_braking});
  CHECK(notices("D1", FaultKind::stuck_on, "lower band") == List{Notice::brakes});
  CHECK(notices("D1", FaultKind::fallen_out, "low roller clutch") == List{Notice::no_drive});
  CHECK(notices("M1", FaultKind::fallen_out, "low roller clutch") == List{Notice::as_it_should});
  CHECK(notices("D1", FaultKind::reversed, "low roller clutch") == List{Notice::no_drive});
  CHECK(notices("D2", FaultKind::reversed, "low roller clutch") == List{Notice::locks_up});
  CHECK(notices("D3", FaultKind::stuck_on, "drum one-way") == List{Notice::locks_up});
  // Nothing left of a clutch is the same as one that is not applied.
  CHECK(in_range("D3", {{FaultKind::worn, "middle clutch", 0, {}}}).notices ==
        notices("D3", FaultKind::not_applied, "middle clutch"));
  CHECK(in_range("D3", {{FaultKind::leaking, "middle clutch", 0, {}}}).notices ==
        notices("D3", FaultKind::not_applied, "middle clutch"));
}

TEST_CASE("the table of faults holds every fault of every element once") {
  const Drive drive = demo_drive();
  const FaultTable table = fault_table(drive, demo_packs());
  CHECK(table.refused.empty());
  CHECK(table.rows.size() == 5 * 4 + 2 * 3);
  for (const FaultRow& row : table.rows) {
    CHECK(row.ranges.size() == drive.ranges.size());
    CHECK(fault_trouble(drive, row.faults.front()).empty());
  }
  const std::vector<std::string> lines = lines_of(table);
  CHECK(std::ranges::find(lines, "low roller clutch fallen out") != lines.end());
  CHECK(std::ranges::find(lines, "  D1: no drive") != lines.end());
}

TEST_CASE("a worn element slips in proportion, and elements that share slip together") {
  const double whole = *in_range("R", {}).carries_Nm;
  for (const double left : {0.1, 0.3, 0.9}) {
    const double carried = *in_range("R", {{FaultKind::worn, "lower band", left, {}}}).carries_Nm;
    CHECK(carried == Approx(whole * left));
  }
  // Manual low pulling: band and one-way clutch hold the carrier together.
  const Drive drive = demo_drive();
  const AppliedElements low = applied_in(*drive.range("M1"));
  const std::map<std::string, ElementGrip> grips{{"lower band", {100, 100}},
                                                 {"low roller clutch", {260, 260}}};
  const TrainStrength together = strength_of(drive, low, TrainDuty::pull, grips);
  CHECK(together.input_Nm == Approx(360 / 1.44));
  CHECK(together.slipping == std::vector<std::string>{"lower band", "low roller clutch"});
  const TrainStrength coasting = strength_of(drive, low, TrainDuty::coast, grips);
  CHECK(coasting.input_Nm == Approx(100 / 1.44));
  CHECK(coasting.slipping == std::vector<std::string>{"lower band"});
  // A band grips less against its turn; the train turns the carrier clockwise in reverse.
  const AppliedElements reverse = applied_in(*drive.range("R"));
  const auto with_band = [&](double clockwise_Nm, double counter_Nm) {
    return strength_of(drive, reverse, TrainDuty::pull,
                       {{"lower band", {clockwise_Nm, counter_Nm}}})
        .input_Nm;
  };
  CHECK(with_band(360, 1) == Approx(110));
  CHECK(with_band(std::numeric_limits<double>::infinity(), 1) ==
        std::numeric_limits<double>::infinity());
}

TEST_CASE("faults that cannot be are said so") {
  const Drive drive = demo_drive();
  const auto trouble = [&](const Fault& fault) { return fault_trouble(drive, fault); };
  CHECK(trouble({FaultKind::worn, "fourth clutch", 0.5, {}}) ==
        "There is no element 'fourth clutch'.");
  CHECK(trouble({FaultKind::reversed, "lower band", 0, {}}) ==
        "The band 'lower band' cannot be reversed.");
  CHECK(trouble({FaultKind::leaking, "drum one-way", 0.5, {}}) ==
        "The one-way clutch 'drum one-way' cannot be leaking.");
  CHECK(trouble({FaultKind::worn, "lower band", 1.5, {}}) ==
        "What is left of 'lower band' is a share between 0 and 1.");
  CHECK(trouble({FaultKind::worn, "lower band", std::nan(""), {}}) ==
        "What is left of 'lower band' is a share between 0 and 1.");
  CHECK(trouble({FaultKind::leaking, "lower band", 1, {{"D4", 0}}}) == "There is no range 'D4'.");
  CHECK(trouble({FaultKind::leaking, "lower band", 1, {{"R", -1}}}) ==
        "A pressure at 'lower band' is below nothing.");
  const auto refused = behave(drive, demo_packs(), {{FaultKind::worn, "x", 0.5, {}}});
  CHECK(refused.front().words == "There is no element 'x'.");
  CHECK(refused.front().pull == TrainState::refused);
  CHECK(fault_table(Drive{}, {}).refused == "The input is nothing: no such member.");
  Drive no_ranges = drive;
  no_ranges.ranges.clear();
  CHECK(lines_of(fault_table(no_ranges, {})).front() ==
        "The unit states no ranges: there is nothing that a fault could change.");
  // A unit that states no figures of its elements still has its gear train.
  const FaultTable bare = fault_table(demo_train(), {});
  CHECK(bare.refused.empty());
  CHECK_FALSE(bare.rows.front().ranges[1].shows(Notice::as_it_should));
}

TEST_CASE("words of faults and notices go both ways") {
  for (const std::string& word : notice_words()) {
    CHECK(word_for(*notice_from(word)) == word);
  }
  CHECK_FALSE(notice_from("late"));
  CHECK(fault_kind_from("stuck on") == FaultKind::stuck_on);
  CHECK_FALSE(fault_kind_from("tired"));
}
