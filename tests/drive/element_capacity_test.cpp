#include "scene/drive/element_capacity.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double deg = 3.14159265358979323846 / 180;

DriveElement roller_clutch() {
  DriveElement element;
  element.id = "lrc";
  element.name = "low roller clutch";
  element.kind = ElementKind::one_way_clutch;
  element.free_clockwise = true;
  element.rated_Nm = 800;
  return element;
}

} // namespace

TEST_CASE("one question for every sort of element") {
  DriveElement clutch;
  clutch.kind = ElementKind::clutch;
  clutch.piston = ApplyPiston{142 * mm, 84 * mm};
  clutch.springs = ReturnSprings{16, 6000, 22 * mm, 15 * mm, 10.5 * mm};
  clutch.friction = 0.12;
  clutch.lining_outer_m = 146 * mm;
  clutch.lining_inner_m = 114 * mm;
  const PackFacts pack{5, 1.9 * mm};
  const ElementCapacity of_clutch = element_capacity(clutch, pack, 0, {"", 1.1e6, 0, 360});
  const ClutchCapacity direct =
      clutch_capacity(clutch_design(clutch, pack, 0), {"", 1.1e6, 0, 360});
  CHECK(of_clutch.worked);
  CHECK(of_clutch.capacity_Nm == direct.wear_Nm);
  CHECK(of_clutch.margin == direct.margin);
  CHECK(of_clutch.report.scale->low == 360);

  DriveElement band;
  band.kind = ElementKind::band;
  band.piston = ApplyPiston{72 * mm, 0};
  band.spring_force_N = 300;
  band.lever = 1.25;
  band.drum_m = 164 * mm;
  band.wrap_rad = 660 * deg;
  band.friction = 0.12;
  band.tightens_clockwise = true;
  CHECK(element_capacity(band, {}, 0, {"", 1.5e6, 0, 1178.2}).capacity_Nm ==
        Approx(1776.2).margin(0.05));
  CHECK(element_capacity(band, {}, 0, {"", 1.5e6, 0, -1178.2}).margin < 1);
}

TEST_CASE("a one-way clutch holds one way within its rating and nothing the other way") {
  const ElementCapacity holds = element_capacity(roller_clutch(), {}, 0, {"", 0, 0, -518.4});
  CHECK(holds.worked);
  CHECK(holds.margin == Approx(1.54).margin(0.005));
  CHECK(holds.report.verdict == ReportVerdict::good);
  CHECK(element_capacity(roller_clutch(), {}, 0, {"", 0, 0, -900}).report.verdict ==
        ReportVerdict::bad);
  const ElementCapacity free = element_capacity(roller_clutch(), {}, 0, {"", 0, 0, 100});
  CHECK(free.capacity_Nm == 0);
  CHECK(free.report.verdict_words == "It runs free in this direction and holds nothing.");
  CHECK(element_capacity(roller_clutch(), {}, 0, {}).capacity_Nm == 800);
}

TEST_CASE("a one-way clutch without a rating, and a torque that is none, are refused") {
  DriveElement bare = roller_clutch();
  bare.rated_Nm.reset();
  CHECK(element_capacity(bare, {}, 0, {"", 0, 0, -100}).report.verdict == ReportVerdict::refused);
  CHECK(element_capacity(bare, {}, 0, {"", 0, 0, 100}).worked);
  CHECK_FALSE(element_capacity(roller_clutch(), {}, 0, {"", 0, 0, std::nan("")}).worked);
}
