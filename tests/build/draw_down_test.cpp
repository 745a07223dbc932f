// Bolts draw a cover down onto its gasket, on benches of a few rings.

#include "tests/build/small_unit.h"

#include <catch2/catch.hpp>

using namespace lugline;
using namespace lugline::test;

namespace {

constexpr double mm = 1e-3;

/// A pot of 100 with a floor of 5, a disc on it, a gasket of 0.55 free and 0.40 drawn down
/// on its rim at 50, and a cover whose boss reaches 20 below its face.
Bench pot(double disc_mm) {
  Bench bench;
  bench.add(
      part_of("POT", ComponentKind::case_, {ring_mm(10, 120, 0, 5), ring_mm(100, 120, 5, 50)}));
  bench.add(part_of("DISC", ComponentKind::drum, {ring_mm(10, 90, 0, disc_mm)}));
  Component gasket = part_of("GASKET", ComponentKind::gasket, {ring_mm(101, 119, 0, 0.55)});
  gasket.wave = WaveFigures{0.55 * mm, 0.40 * mm, 0};
  bench.add(std::move(gasket));
  bench.add(
      part_of("COVER", ComponentKind::pump, {ring_mm(30, 60, -20, 0), ring_mm(30, 118, 0, 8)}));
  bench.add(part_of("WASHER", ComponentKind::thrust_washer, {ring_mm(30, 58, 0, 2)}));
  bench.stand("bench", "POT");
  bench.add(in("bench", "DISC", "POT", JointKind::turns));
  Step washer = in("bench", "WASHER", "DISC", JointKind::stuck, "DISC");
  bench.add(washer);
  bench.add(in("bench", "GASKET", "POT", JointKind::fixed, "POT"));
  bench.add(in("bench", "COVER", "GASKET", JointKind::slides, "POT"));
  Step torque = step_of(StepKind::torque, "bench", "COVER");
  torque.press_to_m = 50.40 * mm;
  bench.add(torque);
  return bench;
}

} // namespace

TEST_CASE("a cover is drawn down by as much as its gasket gives") {
  Bench bench = pot(20);
  bench.work();
  CHECK(bench.problems().empty());
  CHECK(bench.piece("bench", "COVER").height_m == Approx(50.40 * mm));
  CHECK(bench.piece("bench", "GASKET").squashed_to_m == Approx(0.40 * mm));
  CHECK(bench.piece("bench", "COVER").joint.kind == JointKind::retained);
}

TEST_CASE("a cover that stands on the works stops above its gasket, and says on what") {
  // 5 + 23.5 + 2 of washer = 30.5; the boss would be at 50.4 - 20 = 30.4.
  Bench bench = pot(23.5);
  bench.work();
  CHECK(bench.last_problems().find("stops 0.10 mm above where it is drawn to: WASHER stands in "
                                   "the way") != std::string::npos);
  CHECK(bench.piece("bench", "COVER").height_m == Approx(50.50 * mm));
}

TEST_CASE("a cover is not drawn through its gasket, nor up") {
  Bench low = pot(20);
  low.unit.steps.back().press_to_m = 50.30 * mm;
  low.work();
  CHECK(low.last_problems().find("0.10 mm beyond solid") != std::string::npos);
  Bench high = pot(20);
  high.unit.steps.back().press_to_m = 51 * mm;
  high.work();
  CHECK(high.last_problems().find("already, below the 51.00 mm") != std::string::npos);
  Bench none = pot(20);
  none.unit.steps.erase(none.unit.steps.end() - 2);
  none.work();
  CHECK(none.last_problems().find("COVER is not in") != std::string::npos);
}
