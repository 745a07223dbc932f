// Finished sub-builds in hand: what is loose in them hangs, is pushed up, and
// carries. On benches of a few rings, each figure worked out beside its check.

#include "tests/build/small_unit.h"

#include "scene/build/explain.h"
#include "scene/build/lower.h"
#include "scene/build/timeline.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>

using namespace lugline;
using namespace lugline::test;

namespace {

constexpr double mm = 1e-3;

/// A lid: a roof of 5 from 55 to 60, a wall of bore 100 from 0 to 60 with a groove of
/// 2.3 near its mouth, drawn with its mouth down, as it stands in the finished unit.
Component lid() {
  Component part =
      part_of("LID", ComponentKind::drum, {ring_mm(0, 100, 55, 60), ring_mm(100, 120, 0, 60)});
  Groove groove;
  groove.id = "ring";
  groove.low_m = 5 * mm;
  groove.high_m = 7.3 * mm;
  groove.bottom_m = 53 * mm;
  groove.land_m = 50 * mm;
  groove.loads_up = false;
  part.grooves = {groove};
  return part;
}

Step over(Step step) {
  step.way_up = WayUp::turned_over;
  return step;
}

/// The lid on its back: a washer of 1.6 on its roof, a hub of 40 on that, a cover of 6
/// that a ring of 2 keeps in. Hub play: 60 - 5 - 5 - 2 less 1.6 + 40 + 6 is 0.4.
Bench lid_bench() {
  Bench bench;
  bench.add(lid());
  bench.add(part_of("T10", ComponentKind::thrust_washer, {ring_mm(20, 40, 0, 1.6)}));
  bench.add(part_of("HUB", ComponentKind::hub, {ring_mm(10, 40, 0, 40)}));
  bench.add(part_of("COVER", ComponentKind::hub, {ring_mm(10, 99, 0, 6)}));
  bench.add(part_of("RING", ComponentKind::snap_ring, {ring_mm(92, 105, 0, 2)}));
  bench.add(part_of("T7", ComponentKind::thrust_washer, {ring_mm(20, 40, 0, 1.5)}));
  bench.add(part_of("TOWER", ComponentKind::case_, {ring_mm(0, 60, 0, 30)}));
  bench.unit.places.push_back({"bench", "bench", "LID", {}});
  bench.add(over(in("bench", "LID", "", JointKind::fixed)));
  bench.add(over(in("bench", "T10", "LID", JointKind::stuck, "LID")));
  bench.add(over(in("bench", "HUB", "T10", JointKind::turns)));
  bench.add(over(in("bench", "COVER", "HUB", JointKind::slides, "LID")));
  Step ring = over(in("bench", "RING", "", JointKind::retained, "LID"));
  ring.groove = "LID/ring";
  bench.add(ring);
  bench.add(over(in("bench", "T7", "COVER", JointKind::stuck, "COVER")));
  bench.stand("case", "TOWER");
  return bench;
}

Step bring(bool turned_over) {
  Step step = step_of(StepKind::bring, "case", "LID");
  step.brings = "bench";
  step.seat = "TOWER";
  step.way_up = turned_over ? WayUp::turned_over : WayUp::right;
  return step;
}

} // namespace

TEST_CASE("what is loose in work that is turned over hangs on its ring, its washer with it") {
  Bench bench = lid_bench();
  bench.add(step_of(StepKind::turn_over, "bench"));
  bench.work();
  CHECK(bench.problems().empty());
  // The ring on the groove's lower face at 5, the cover on it, the hub on the cover.
  CHECK(bench.piece("bench", "RING").height_m / mm == Approx(5));
  CHECK(bench.piece("bench", "COVER").height_m / mm == Approx(7));
  CHECK(bench.piece("bench", "T7").height_m / mm == Approx(5.5));
  CHECK(bench.piece("bench", "HUB").height_m / mm == Approx(13));
  CHECK(bench.piece("bench", "T10").height_m / mm == Approx(55 - 1.6));
  CHECK(bench.piece("bench", "COVER").stands_on == "RING");
  CHECK(bench.piece("bench", "HUB").stands_on == "COVER");
}

TEST_CASE("what hangs is pushed up until it carries: the lead stands on the solid chain") {
  Bench bench = lid_bench();
  const bool turned_on_the_bench = GENERATE(true, false);
  if (turned_on_the_bench) {
    bench.add(step_of(StepKind::turn_over, "bench"));
  }
  bench.add(bring(!turned_on_the_bench));
  bench.work();
  CHECK(bench.problems().empty());
  // Tower 30, T7 1.5, cover 6, hub 40, T10 1.6: the roof's inner face at 79.1.
  const Lowered& lowered = *bench.simulation().outcomes.back().lowered;
  CHECK(*lowered.rest_m / mm == Approx(79.1 - 55));
  CHECK(lowered.seated);
  CHECK(lowered.stands_on == "TOWER");
  CHECK(lowered.by == "T7");
  CHECK(bench.piece("case", "T7").height_m / mm == Approx(30));
  CHECK(bench.piece("case", "COVER").height_m / mm == Approx(31.5));
  CHECK(bench.piece("case", "HUB").height_m / mm == Approx(37.5));
  CHECK(bench.piece("case", "T10").height_m / mm == Approx(77.5));
  // The ring hangs again: on its groove's lower face, 5 above the lid's rim at 24.1.
  CHECK(bench.piece("case", "RING").height_m / mm == Approx(29.1));
  CHECK(bench.piece("case", "LID").stands_on == "T10");
  CHECK(bench.piece("case", "T10").stands_on == "HUB");
  CHECK(bench.piece("case", "HUB").stands_on == "COVER");
  CHECK(bench.piece("case", "COVER").stands_on == "T7");
  CHECK(bench.piece("case", "T7").stands_on == "TOWER");
}

TEST_CASE("on its way down what hangs stays where it hangs until it meets what carries it") {
  Bench bench = lid_bench();
  bench.add(bring(true));
  bench.work();
  const std::size_t step = bench.unit.steps.size() - 1;
  double before_m = 1;
  for (int k = 0; k <= 100; ++k) {
    const Moment now = moment_of(bench.workshop(), bench.simulation(), step, k / 100.0);
    const auto at = [&](const std::string& id) {
      const auto piece = std::ranges::find(now.pieces, id, &PosedPiece::id);
      REQUIRE(piece != now.pieces.end());
      return piece->height_m;
    };
    // Hung the cover is 7 above the lid's rim; carried, at 31.5.
    CHECK(at("COVER") / mm == Approx(std::max((at("LID") + 7 * mm) / mm, 31.5)));
    CHECK(at("LID") <= before_m + 1e-12);
    before_m = at("LID");
  }
}

TEST_CASE("a loose piece that nothing in hand stops from going up carries nothing") {
  Bench bench;
  bench.add(
      part_of("TRAY", ComponentKind::drum, {ring_mm(40, 100, 0, 5), ring_mm(100, 120, 0, 20)}));
  bench.add(part_of("PLATE", ComponentKind::steel, {ring_mm(10, 98, 0, 2)}));
  bench.add(part_of("POST", ComponentKind::case_, {ring_mm(0, 30, 0, 50), ring_mm(0, 200, -5, 0)}));
  bench.stand("bench", "TRAY");
  bench.add(in("bench", "PLATE", "TRAY", JointKind::slides, "TRAY"));
  bench.stand("case", "POST");
  Step step = step_of(StepKind::bring, "case", "TRAY");
  step.brings = "bench";
  step.seat = "POST";
  bench.add(step);
  bench.work();
  CHECK(bench.problems().empty());
  CHECK(bench.piece("case", "TRAY").height_m / mm == Approx(0));
  CHECK(bench.piece("case", "PLATE").height_m / mm == Approx(50));
  CHECK(bench.piece("case", "PLATE").stands_on == "POST");
}

TEST_CASE(
    "a loose piece that meets something first, and goes solid later, is told as what carries") {
  // The cover meets a high collar beside the tower before T7 meets the tower.
  Bench bench = lid_bench();
  bench.unit.components[6].part.solid.rings.push_back(ring_mm(70, 90, 0, 33));
  bench.add(bring(true));
  bench.work();
  const Lowered& lowered = *bench.simulation().outcomes.back().lowered;
  CHECK(lowered.by == "COVER");
  CHECK(*lowered.rest_m / mm == Approx(33 + 6 + 40 + 1.6 - 55));
}

TEST_CASE("washers in hand are causes too, and alike where their chain is one") {
  Bench bench = lid_bench();
  bench.add(bring(true));
  bench.work();
  const auto causes =
      likely_causes(bench.workshop(), bench.simulation(), bench.unit.steps.size() - 1);
  std::map<std::string, double> by_words;
  std::map<std::string, std::vector<std::string>> alike;
  for (const Cause& cause : causes) {
    by_words[cause.words] = cause.stand_off_m / mm;
    alike[cause.words] = cause.alike;
  }
  REQUIRE(by_words.size() == 3);
  CHECK(by_words.at("T7 is left out") == Approx(-1.5));
  CHECK(by_words.at("T10 is left out") == Approx(-1.6));
  CHECK(alike.at("T7 is left out").empty());
  // T10 twice would leave no room for the ring; T7 has room beneath it.
  CHECK(by_words.at("T7 is laid in twice") == Approx(1.5));
}

TEST_CASE("a play moves what is joined fast to what moves, its rings, and what is loose above") {
  Bench bench = lid_bench();
  bench.unit.components[6].part.solid.rings.push_back(ring_mm(130, 140, 0, 90));
  bench.add(part_of("BOSS", ComponentKind::other, {ring_mm(0, 140, 0, 10)}));
  bench.add(bring(true));
  bench.add(in("case", "BOSS", "TOWER", JointKind::retained, "TOWER"));
  const std::string last = bench.unit.steps.back().id;
  bench.unit.plays = {{"end", "End play", {"LID"}, last, {5 * mm, 6 * mm}, {}},
                      {"hubs", "Hubs", {"HUB"}, last, {5 * mm, 6 * mm}, {}},
                      {"washer", "Washer", {"T7"}, last, {5 * mm, 6 * mm}, {}}};
  bench.work();
  CHECK(bench.problems().empty());
  // The lid's back at 79.1 + 5, the boss at 90; lifted from beneath all rises with it.
  for (const JudgedPlay& play : bench.check().plays) {
    INFO(play.id);
    CHECK(play.play_m.value() / mm == Approx(5.9));
  }
}

TEST_CASE("causes that give the same are told as alike") {
  Bench bench = lid_bench();
  bench.unit.components[5].part.solid.rings[0].high_m = 1.6 * mm; // T7 as thick as T10
  bench.add(bring(true));
  bench.work();
  const auto causes = explain(bench.workshop(), bench.simulation(), bench.unit.steps.size() - 1,
                              -1.55 * mm, 0.1 * mm);
  std::map<std::string, std::vector<std::string>> alike;
  for (const Cause& cause : causes) {
    if (cause.fits) {
      alike[cause.part] = cause.alike;
    }
  }
  CHECK(alike == std::map<std::string, std::vector<std::string>>{{"T7", {"T10"}}, {"T10", {"T7"}}});
}

TEST_CASE("a part joined fast to a loose one falls and is lifted with it") {
  Bench bench;
  bench.add(lid());
  bench.add(part_of("PLATE", ComponentKind::steel, {ring_mm(60, 98, 0, 2)}));
  bench.add(part_of("WASHER", ComponentKind::thrust_washer, {ring_mm(62, 80, 0, 1)}));
  bench.add(part_of("RING", ComponentKind::snap_ring, {ring_mm(92, 105, 0, 2)}));
  bench.unit.places.push_back({"bench", "bench", "LID", {}});
  bench.add(over(in("bench", "LID", "", JointKind::fixed)));
  bench.add(over(in("bench", "PLATE", "LID", JointKind::slides, "LID")));
  bench.add(over(in("bench", "WASHER", "PLATE", JointKind::stuck, "PLATE")));
  Step ring = over(in("bench", "RING", "", JointKind::retained, "LID"));
  ring.groove = "LID/ring";
  bench.add(ring);
  bench.add(step_of(StepKind::turn_over, "bench"));
  bench.work();
  CHECK(bench.problems().empty());
  CHECK(bench.piece("bench", "PLATE").height_m / mm == Approx(7));
  CHECK(bench.piece("bench", "WASHER").height_m / mm == Approx(6));
}
