#include "scene/drive/capacity.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <numbers>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double rpm = std::numbers::pi / 30;

/// An invented practice clutch: that of the demo's middle drum.
ClutchDesign practice_clutch() {
  ClutchDesign clutch;
  clutch.id = "mc";
  clutch.name = "middle clutch";
  clutch.piston = {140 * mm, 104 * mm};
  clutch.springs = ReturnSprings{14, 6000, 22 * mm, 15 * mm, 10.5 * mm};
  clutch.stroke_m = 1.2 * mm;
  clutch.most_stroke_m = 4.5 * mm;
  clutch.surfaces = 8;
  clutch.friction = 0.12;
  clutch.lining_outer_m = 150 * mm;
  clutch.lining_inner_m = 132 * mm;
  clutch.fluid_centre_m = 60 * mm;
  clutch.fluid_kg_per_m3 = 850;
  return clutch;
}

bool has_line(const std::vector<ReportLine>& lines, const std::string& what, double si) {
  for (const ReportLine& line : lines) {
    if (line.what == what) {
      return line.si == Approx(si);
    }
  }
  return false;
}

bool all_finite(const CalculationReport& report) {
  for (const auto* lines : {&report.inputs, &report.working, &report.results}) {
    for (const ReportLine& line : *lines) {
      if (!std::isfinite(line.si)) {
        return false;
      }
    }
  }
  return true;
}

} // namespace

TEST_CASE("a clutch's capacity by both assumptions, every line of the working told") {
  const ClutchCapacity is = clutch_capacity(practice_clutch(), {"reverse", 1.5e6, 0, 360});
  REQUIRE(is.worked);
  CHECK(is.clamp_N == Approx(9659.6).margin(0.05));
  CHECK(is.wear_Nm == Approx(8 * 0.12 * 9659.606 * 0.0705));
  CHECK(is.pressure_Nm == Approx(654.7).margin(0.05));
  CHECK(is.wear_Nm < is.pressure_Nm);
  CHECK(is.margin == Approx(is.wear_Nm / 360));
  CHECK(is.report.verdict == ReportVerdict::good);
  CHECK(is.report.title == "Capacity of middle clutch, reverse");
  CHECK(has_line(is.report.working, "piston area", 6898.9375e-6));
  CHECK(has_line(is.report.working, "springs, pack closed", 688.8));
  CHECK(has_line(is.report.working, "mean radius, uniform wear", 0.0705));
  CHECK(has_line(is.report.working, "mean radius, uniform pressure", 70.5957e-3));
  CHECK(has_line(is.report.results, "capacity, uniform wear", is.wear_Nm));
  CHECK(has_line(is.report.results, "capacity, uniform pressure", is.pressure_Nm));
  CHECK(all_finite(is.report));
  CHECK_FALSE(is.report.sources.empty());
}

TEST_CASE("a clutch that does not reach its torque slips at its capacity") {
  const ClutchCapacity is = clutch_capacity(practice_clutch(), {"", 0.5e6, 0, -500});
  CHECK(is.margin < 1);
  CHECK(is.margin > 0);
  CHECK(is.report.verdict == ReportVerdict::bad);
  CHECK(is.report.verdict_words.find("slips at") != std::string::npos);
}

TEST_CASE("pressure at and below the springs carries nothing, and says what it takes") {
  const ClutchDesign clutch = practice_clutch();
  for (const double pressure_Pa : {0.0, 50e3, 99e3}) {
    const ClutchCapacity is = clutch_capacity(clutch, {"", pressure_Pa, 0, 100});
    REQUIRE(is.worked);
    CHECK(is.clamp_N == 0);
    CHECK(is.wear_Nm == 0);
    CHECK(is.margin == 0);
    CHECK(is.report.verdict == ReportVerdict::bad);
    CHECK(is.report.verdict_words.find("that takes 99.8 kPa") != std::string::npos);
    CHECK(all_finite(is.report));
  }
  const double closed_Pa = clutch_capacity(clutch, {"", 0, 0, {}}).stroked_at_Pa;
  CHECK(clutch_capacity(clutch, {"", closed_Pa * 1.001, 0, {}}).wear_Nm > 0);
}

TEST_CASE("a clutch asked for nothing holds it, and one asked nothing only says its capacity") {
  CHECK(clutch_capacity(practice_clutch(), {"", 1e6, 0, 0}).report.verdict == ReportVerdict::good);
  const ClutchCapacity is = clutch_capacity(practice_clutch(), {"", 1e6, 0, {}});
  CHECK(is.report.verdict == ReportVerdict::none);
  CHECK(is.margin == 0);
}

TEST_CASE("a piston that ends on its stop before the pack is closed clamps nothing") {
  ClutchDesign worn = practice_clutch();
  worn.stroke_m = 4.6 * mm;
  worn.springs->solid_m = 0;
  const ClutchCapacity is = clutch_capacity(worn, {"", 1.5e6, 0, 10});
  CHECK(is.wear_Nm == 0);
  CHECK(is.report.verdict_words.find("ends on its stop") != std::string::npos);
}

TEST_CASE("what a clutch cannot be is refused with a sentence and no figures") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refusal = [](const ClutchDesign& clutch, const ClutchDuty& duty) {
    const ClutchCapacity is = clutch_capacity(clutch, duty);
    CHECK_FALSE(is.worked);
    CHECK(is.report.verdict == ReportVerdict::refused);
    CHECK(is.wear_Nm == 0);
    return is.report.verdict_words;
  };
  const ClutchDuty duty{"", 1e6, 0, {}};
  ClutchDesign clutch = practice_clutch();
  clutch.surfaces = 0;
  CHECK(refusal(clutch, duty) == "The clutch has no friction faces, so it carries nothing.");
  clutch = practice_clutch();
  clutch.lining_inner_m = clutch.lining_outer_m;
  CHECK(refusal(clutch, duty).find("nothing is left to rub") != std::string::npos);
  clutch = practice_clutch();
  clutch.piston = {104 * mm, 140 * mm};
  CHECK(refusal(clutch, duty).find("no area is left") != std::string::npos);
  clutch = practice_clutch();
  clutch.friction = 0;
  CHECK(refusal(clutch, duty).find("coefficient of friction") != std::string::npos);
  clutch = practice_clutch();
  clutch.stroke_m = -0.1 * mm;
  CHECK(refusal(clutch, duty).find("more plates are in than fit") != std::string::npos);
  clutch = practice_clutch();
  clutch.fluid_kg_per_m3 = -1;
  CHECK(refusal(clutch, duty).find("fluid") != std::string::npos);
  clutch = practice_clutch();
  CHECK(refusal(clutch, {"", -1, 0, {}}).find("pressure below nothing") != std::string::npos);
  CHECK(refusal(clutch, {"", nan, 0, {}}).find("pressure below nothing") != std::string::npos);
  CHECK(refusal(clutch, {"", 1e6, nan, {}}).find("speed") != std::string::npos);
  CHECK(refusal(clutch, {"", 1e6, 0, nan}).find("torque") != std::string::npos);
}

TEST_CASE("capacity rises with pressure, faces, friction and speed, and falls with the springs") {
  const ClutchDesign clutch = practice_clutch();
  double before_Nm = -1;
  for (int step = 1; step <= 30; ++step) {
    const double now_Nm = clutch_capacity(clutch, {"", 100e3 * step, 0, {}}).wear_Nm;
    CHECK(now_Nm > before_Nm);
    before_Nm = now_Nm;
  }
  before_Nm = 0;
  for (int step = 0; step <= 12; ++step) {
    const double now_Nm = clutch_capacity(clutch, {"", 1e6, step * 500 * rpm, {}}).wear_Nm;
    CHECK(now_Nm > before_Nm);
    CHECK(now_Nm == clutch_capacity(clutch, {"", 1e6, -step * 500 * rpm, {}}).wear_Nm);
    before_Nm = now_Nm;
  }
  for (int count = 1; count < 30; ++count) {
    ClutchDesign one = clutch;
    one.springs->count = count;
    ClutchDesign more = clutch;
    more.springs->count = count + 1;
    CHECK(clutch_capacity(one, {"", 1e6, 0, {}}).wear_Nm >
          clutch_capacity(more, {"", 1e6, 0, {}}).wear_Nm);
  }
  ClutchDesign faces = clutch;
  faces.surfaces = 10;
  CHECK(clutch_capacity(faces, {"", 1e6, 0, {}}).wear_Nm ==
        Approx(1.25 * clutch_capacity(clutch, {"", 1e6, 0, {}}).wear_Nm));
}

TEST_CASE("psi taken for kPa leaves out most of the capacity, and a bare figure is not read") {
  const auto pressure_Pa = [](const char* text) {
    return parse_quantity(text, Dimension::pressure).value().si;
  };
  const ClutchDesign clutch = practice_clutch();
  const double right_N = clutch_capacity(clutch, {"", pressure_Pa("160 psi"), 0, {}}).pressure_N;
  const double slip_N = clutch_capacity(clutch, {"", pressure_Pa("160 kPa"), 0, {}}).pressure_N;
  CHECK(right_N / slip_N == Approx(6.894757293168));
  CHECK_FALSE(parse_quantity("160", Dimension::pressure).ok());
  CHECK_FALSE(parse_quantity("160 lbf ft", Dimension::pressure).ok());
  CHECK_FALSE(parse_quantity("140 mm", Dimension::pressure).ok());
}

TEST_CASE("the head of a turning fluid agrees with adding up thin rings") {
  const double speed = 6000 * rpm;
  for (const double centre_m : {40 * mm, 104 * mm, 120 * mm, 139 * mm}) {
    double sum_N = 0;
    const int rings = 20000;
    const double width_m = (70 - 52) * mm / rings;
    for (int ring = 0; ring < rings; ++ring) {
      const double radius_m = 52 * mm + (ring + 0.5) * width_m;
      sum_N += centrifugal_head_Pa(850, speed, radius_m, centre_m / 2) * 2 * std::numbers::pi *
               radius_m * width_m;
    }
    CHECK(centrifugal_force_N(850, speed, {140 * mm, 104 * mm}, centre_m) ==
          Approx(sum_N).epsilon(1e-6));
  }
  CHECK(centrifugal_force_N(850, speed, {140 * mm, 104 * mm}, 150 * mm) == 0);
  CHECK(centrifugal_force_N(850, 0, {140 * mm, 104 * mm}, 60 * mm) == 0);
  CHECK(centrifugal_head_Pa(850, speed, 20 * mm, 30 * mm) == 0);
}

TEST_CASE("without a stated free surface no head is counted, and that is said") {
  ClutchDesign clutch = practice_clutch();
  clutch.fluid_centre_m = 0;
  const ClutchCapacity is = clutch_capacity(clutch, {"", 1e6, 3000 * rpm, {}});
  CHECK(is.centrifugal_N == 0);
  CHECK(is.report.notes.back().find("no centrifugal head") != std::string::npos);
}

TEST_CASE("fluid left in a released drum moves its piston from a certain speed on") {
  const ClutchDesign clutch = practice_clutch();
  const FluidLeft slow = fluid_left(clutch, 1000 * rpm);
  REQUIRE(slow.worked);
  CHECK(slow.report.verdict == ReportVerdict::good);
  CHECK(slow.drag_Nm == 0);
  CHECK(slow.moves_at_rad_per_s < slow.clamps_at_rad_per_s);
  const auto head_N = [&](double speed) {
    return centrifugal_force_N(850, speed, clutch.piston, clutch.fluid_centre_m);
  };
  CHECK(head_N(slow.moves_at_rad_per_s) == Approx(588));
  CHECK(head_N(slow.clamps_at_rad_per_s) == Approx(688.8));

  const double between = (slow.moves_at_rad_per_s + slow.clamps_at_rad_per_s) / 2;
  CHECK(fluid_left(clutch, between).report.verdict_words.find("without closing") !=
        std::string::npos);
  const FluidLeft fast = fluid_left(clutch, -1.5 * slow.clamps_at_rad_per_s);
  CHECK(fast.drag_Nm > 0);
  CHECK(fast.report.verdict == ReportVerdict::bad);
  CHECK(fast.report.verdict_words.find("check ball") != std::string::npos);
  CHECK(all_finite(fast.report));
}

TEST_CASE("fluid that cannot press is said, not worked out") {
  ClutchDesign clutch = practice_clutch();
  clutch.fluid_centre_m = 0;
  CHECK_FALSE(fluid_left(clutch, 100).worked);
  clutch.fluid_centre_m = 141 * mm;
  CHECK(fluid_left(clutch, 100).report.verdict_words.find("outside the piston") !=
        std::string::npos);
  clutch = practice_clutch();
  clutch.surfaces = 0;
  CHECK(fluid_left(clutch, 100).report.verdict == ReportVerdict::refused);
  CHECK_FALSE(fluid_left(practice_clutch(), std::nan("")).worked);
}

TEST_CASE("a clutch is made from what its unit says and its pack counts") {
  DriveElement element;
  element.id = "uc";
  element.piston = ApplyPiston{142 * mm, 84 * mm};
  element.most_stroke_m = 4.5 * mm;
  element.friction = 0.12;
  ClutchDesign clutch = clutch_design(element, {5, 1.9 * mm}, 850);
  CHECK(clutch.surfaces == 10);
  CHECK(clutch.stroke_m == 1.9 * mm);
  CHECK(clutch.fluid_kg_per_m3 == 850);
  element.surfaces = 9;
  CHECK(clutch_design(element, {5, 1.9 * mm}, 0).surfaces == 9);
  element.piston.reset();
  CHECK(clutch_capacity(clutch_design(element, {5, 0}, 0), {"", 1e6, 0, {}})
            .report.verdict_words.find("no outer diameter") != std::string::npos);
}

TEST_CASE("mean radii, lining pressures and the least number of faces") {
  CHECK(wear_mean_radius_m(0.2, 0.1) == Approx(0.075));
  CHECK(pressure_mean_radius_m(0.2, 0.1) == Approx((8e-3 - 1e-3) / (3 * (0.04 - 0.01))));
  // Uniform pressure's radius is that of a ring's first moment: add up thin rings.
  double moment = 0;
  double area = 0;
  const int rings = 100000;
  for (int ring = 0; ring < rings; ++ring) {
    const double radius_m = 0.05 + 0.05 * (ring + 0.5) / rings;
    moment += radius_m * radius_m;
    area += radius_m;
  }
  CHECK(pressure_mean_radius_m(0.2, 0.1) == Approx(moment / area).epsilon(1e-8));
  CHECK(wear_lining_Pa(wear_clamp_N(1e6, 0.2, 0.1), 0.2, 0.1, 0.1) == Approx(1e6));
  CHECK(wear_lining_Pa(wear_clamp_N(1e6, 0.2, 0.1), 0.2, 0.1, 0.2) == Approx(0.5e6));
  CHECK(least_surfaces(100, 1000, 0.1, 0.1) == 10);
  CHECK(least_surfaces(100.1, 1000, 0.1, 0.1) == 11);
  CHECK(least_surfaces(0, 1000, 0.1, 0.1) == 0);
  CHECK(least_surfaces(100, 0, 0.1, 0.1) == 0);
}
