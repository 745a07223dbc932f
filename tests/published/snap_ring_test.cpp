// Snap rings by the standards' rows: what the arithmetic of rings and grooves makes of them. DIN
// 471 and DIN 472, read in open tables. A row's own figures are inputs; what is checked is that a
// ring of that row seats in that groove, and by how much it plays.

#include "scene/pack/ways.h"
#include "scene/part/component.h"
#include "scene/seat/ring.h"

#include <catch2/catch.hpp>

#include <array>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;

/// Diameters in mm: bore or shaft d1, ring thickness s, free d3, groove d2, groove width m.
struct Row {
  double d1;
  double s;
  double d3;
  double d2;
  double m;
};

RingReport seat(const Row& row, bool in_bore) {
  Component ring;
  ring.kind = ComponentKind::snap_ring;
  RingFigures figures;
  figures.in_bore = in_bore;
  figures.free_m = row.d3 / 2 * mm;
  figures.thickness_m = row.s * mm;
  figures.width_m = 0.05 * row.d1 * mm;
  // Squeezed until it just passes the land.
  figures.squeezed_m = row.d1 / 2 * mm;
  ring.ring = figures;
  const double working_m = row.d2 / 2 * mm;
  SectorRing solid;
  solid.inner_m = in_bore ? working_m - figures.width_m : working_m;
  solid.outer_m = in_bore ? working_m : working_m + figures.width_m;
  solid.low_m = 0;
  solid.high_m = row.s * mm;
  ring.solid.rings = {solid};
  Groove groove;
  groove.in_bore = in_bore;
  groove.low_m = 10 * mm;
  groove.high_m = (10 + row.m) * mm;
  groove.bottom_m = working_m;
  groove.land_m = row.d1 / 2 * mm;
  return seat_ring(ring, false, groove, 0, {});
}

} // namespace

TEST_CASE("shaft rings play in their grooves by the standard's difference") {
  // DIN 471 (two open tables, read): d1, s, d3, d2, m. Play m - s: 0.10 to s 1.75, 0.15 from s 2.
  const std::array<Row, 4> rows{{{45, 1.75, 41.5, 42.5, 1.85},
                                 {50, 2, 45.8, 47, 2.15},
                                 {60, 2, 55.8, 57, 2.15},
                                 {65, 2.5, 60.8, 62, 2.65}}};
  for (const Row& row : rows) {
    INFO("DIN 471 - " << row.d1 << " x " << row.s);
    const RingReport report = seat(row, false);
    CHECK(report.fate == RingFate::seated);
    CHECK(report.play_m / mm == Approx(row.s < 2 ? 0.10 : 0.15));
    // Free it grips smaller than the groove, and the groove lies below the land.
    CHECK(row.d3 < row.d2);
    CHECK(row.d2 < row.d1);
  }
}

TEST_CASE("bore rings pass their land and spring into their groove") {
  // DIN 472 (an open table, read); m of DIN 471 for the same thickness (1.75, 2, 2.5), the other
  // widths from memory and left out.
  const std::array<Row, 5> rows{{{40, 1.75, 43.5, 42.5, 1.85},
                                 {50, 2, 54.2, 53, 2.15},
                                 {62, 2, 66.2, 65, 2.15},
                                 {72, 2.5, 76.5, 75, 2.65},
                                 {80, 2.5, 85.5, 83.5, 2.65}}};
  for (const Row& row : rows) {
    INFO("DIN 472 - " << row.d1 << " x " << row.s);
    const RingReport report = seat(row, true);
    CHECK(report.fate == RingFate::seated);
    CHECK(report.play_m / mm == Approx(row.s < 2 ? 0.10 : 0.15));
    CHECK(row.d3 > row.d2);
    CHECK(row.d2 > row.d1);
  }
}

TEST_CASE("a ring of the next thickness is too thick for the groove") {
  CHECK(seat({50, 2.5, 54.2, 53, 2.15}, true).fate == RingFate::too_thick);
  CHECK(seat({50, 2.5, 54.2, 53, 2.15}, true).too_high_m / mm == Approx(0.35));
}

TEST_CASE("a feeler reads short by the play of the standard's groove, ring down") {
  // DIN 472 - 80 x 2.5 in 2.65: 0.15 between ring up and ring down.
  PackStand stand;
  stand.clearance_m = 1.00 * mm;
  const RingReport report = seat({80, 2.5, 85.5, 83.5, 2.65}, true);
  stand.groove_play_m = report.play_m;
  CHECK((*reads_m(stand, PackWay::feeler_ring_up) - *reads_m(stand, PackWay::feeler_ring_down)) /
            mm ==
        Approx(0.15));
}
