// Figures that nobody means: every answer is a number or a sentence, and never a crash.
#include "scene/drive/air.h"
#include "scene/drive/band.h"
#include "scene/drive/capacity.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <limits>
#include <random>

using namespace lugline;

namespace {

class Absurd {
public:
  /// Mostly the sane figure, so that each odd one is met beside sound ones.
  double or_sane(double sane) {
    static const std::array odd{0.0,
                                -1.0,
                                1e-300,
                                1e-9,
                                1e-3,
                                1.0,
                                1e3,
                                1e9,
                                1e300,
                                std::numeric_limits<double>::infinity(),
                                -std::numeric_limits<double>::infinity(),
                                std::numeric_limits<double>::quiet_NaN()};
    return below(12) == 0 ? odd[below(odd.size())] : sane;
  }
  std::size_t below(std::size_t count) { return random_() % count; }

private:
  std::mt19937 random_{20240611};
};

void told(const CalculationReport& report) {
  CHECK_FALSE(report.title.empty());
  CHECK_FALSE(report.verdict_words.empty());
  for (const auto* lines : {&report.inputs, &report.working, &report.results}) {
    for (const ReportLine& line : *lines) {
      INFO(report.title << ": " << line.what);
      CHECK(std::isfinite(line.si));
    }
  }
  CHECK((report.verdict != ReportVerdict::refused || report.results.empty()));
}

ApplyPiston piston(Absurd& absurd) {
  return {absurd.or_sane(0.14), absurd.or_sane(0.104)};
}

std::optional<ReturnSprings> springs(Absurd& absurd) {
  if (absurd.below(4) == 0) {
    return std::nullopt;
  }
  return ReturnSprings{static_cast<int>(absurd.below(20)) - 1, absurd.or_sane(6000),
                       absurd.or_sane(0.022), absurd.or_sane(0.015), absurd.or_sane(0.0105)};
}

} // namespace

TEST_CASE("absurd clutches are told in numbers or refused in words") {
  Absurd absurd;
  int worked = 0;
  for (int round = 0; round < 4000; ++round) {
    ClutchDesign clutch;
    clutch.piston = piston(absurd);
    clutch.springs = springs(absurd);
    clutch.spring_force_N = absurd.or_sane(300);
    clutch.stroke_m = absurd.or_sane(0.0012);
    clutch.most_stroke_m = absurd.or_sane(0.0045);
    clutch.surfaces = static_cast<int>(absurd.below(12)) - 1;
    clutch.friction = absurd.or_sane(0.12);
    clutch.lining_outer_m = absurd.or_sane(0.15);
    clutch.lining_inner_m = absurd.or_sane(0.132);
    clutch.fluid_centre_m = absurd.or_sane(0.06);
    clutch.fluid_kg_per_m3 = absurd.or_sane(850);
    const double speed = absurd.or_sane(300);
    const ClutchCapacity is = clutch_capacity(
        clutch, {"", absurd.or_sane(1e6), speed,
                 absurd.below(3) == 0 ? std::nullopt : std::optional(absurd.or_sane(300))});
    told(is.report);
    CHECK(std::isfinite(is.wear_Nm));
    CHECK(is.wear_Nm >= 0);
    CHECK(is.wear_Nm <= is.pressure_Nm);
    told(fluid_left(clutch, speed).report);
    worked += is.worked ? 1 : 0;
  }
  CHECK(worked > 800);
  CHECK(worked < 3600);
}

TEST_CASE("absurd bands are told in numbers or refused in words") {
  Absurd absurd;
  int worked = 0;
  for (int round = 0; round < 4000; ++round) {
    BandDesign band;
    band.servo = piston(absurd);
    band.springs = springs(absurd);
    band.spring_force_N = absurd.or_sane(300);
    band.stroke_m = absurd.or_sane(0.0012);
    band.lever = absurd.or_sane(1.25);
    band.drum_m = absurd.or_sane(0.164);
    band.width_m = absurd.or_sane(0.04);
    band.wrap_rad = absurd.or_sane(11.5);
    band.friction = absurd.or_sane(0.12);
    band.tightens_clockwise = absurd.below(2) == 0;
    const BandCapacity is = band_capacity(
        band, {"", absurd.or_sane(1e6),
               absurd.below(3) == 0 ? std::nullopt : std::optional(absurd.or_sane(-300))});
    told(is.report);
    CHECK(is.loosening_Nm <= is.tightening_Nm);
    DifferentialBand both;
    both.drum_m = band.drum_m;
    both.width_m = band.width_m;
    both.wrap_rad = band.wrap_rad;
    both.friction = band.friction;
    both.slack_arm_m = absurd.or_sane(0.2);
    both.tight_arm_m = absurd.or_sane(0.03);
    both.pull_arm_m = absurd.or_sane(0.9);
    told(differential_capacity(both, absurd.or_sane(300)).report);
    worked += is.worked ? 1 : 0;
  }
  CHECK(worked > 800);
  CHECK(worked < 3600);
}

TEST_CASE("absurd air checks are told in numbers or refused in words") {
  Absurd absurd;
  int worked = 0;
  for (int round = 0; round < 4000; ++round) {
    AirPiston one;
    one.piston = piston(absurd);
    one.springs = springs(absurd);
    one.spring_force_N = absurd.or_sane(300);
    one.stroke_m = absurd.or_sane(0.0012);
    one.most_stroke_m = absurd.or_sane(0.0045);
    one.volume_m3 = absurd.or_sane(30e-6);
    one.good_hold_s = absurd.or_sane(6);
    const AirTest test{absurd.or_sane(250e3), absurd.or_sane(280e3), absurd.or_sane(150e3)};
    const double from_Pa = absurd.or_sane(240e3);
    const double to_Pa = absurd.or_sane(160e3);
    told(air_reach(one, test, from_Pa).report);
    const HoldResult is = leak_from_hold(one, test, {from_Pa, to_Pa, absurd.or_sane(4)},
                                         {absurd.or_sane(0.5), absurd.or_sane(0.65)});
    told(is.report);
    told(hold_with_leak(one, test, from_Pa, to_Pa, {absurd.or_sane(1e-10), absurd.or_sane(0.5)})
             .report);
    worked += is.worked ? 1 : 0;
  }
  CHECK(worked > 800);
  CHECK(worked < 3600);
}
