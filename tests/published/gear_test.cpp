// Gears and splines against printed figures; the source stands beside each. Where none
// was found that could be confirmed, the check is a limit case and says so.

#include "scene/recipe/involute.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double inch = 25.4 * mm;
constexpr double pi = std::numbers::pi;
constexpr double deg = pi / 180;

} // namespace

TEST_CASE("the involute function") {
  // Printed in a page on span measurement (machinecalcs.com, span measurement over
  // teeth): inv 20 deg = 0.014904.
  CHECK(involute(20 * deg) == Approx(0.014904).margin(5e-7));
}

TEST_CASE("tooth thickness of a shifted gear") {
  // Elements of Metric Gear Technology, T-81, table 10-1, spur gear: m = 10, 20 deg,
  // z = 12, x = +0.3: s = 17.8918, half angle 8.54270 deg, chord 17.8256, chordal
  // addendum 13.6657.
  const Gear gear = rack_gear(false, 12, 10 * mm, 20 * deg, 0.3);
  CHECK(gear.tooth_thickness_m() / mm == Approx(17.8918).margin(5e-5));
  const double half_rad = gear.half_tooth_rad(gear.reference_diameter_m());
  CHECK(half_rad / deg == Approx(8.54270).margin(5e-6));
  CHECK(gear.reference_diameter_m() * std::sin(half_rad) / mm == Approx(17.8256).margin(5e-5));
  const double addendum_m = (gear.tip_diameter_m - gear.reference_diameter_m()) / 2;
  CHECK(addendum_m / mm == Approx(13.000));
  CHECK((addendum_m + gear.reference_diameter_m() / 2 * (1 - std::cos(half_rad))) / mm ==
        Approx(13.6657).margin(5e-5));
}

TEST_CASE("thickness of a rack is half its pitch") {
  // The same, table 10-2: m = 3, s = 4.7124.
  CHECK(rack_gear(false, 40, 3 * mm, 20 * deg).tooth_thickness_m() / mm ==
        Approx(4.7124).margin(5e-5));
}

TEST_CASE("span over three teeth of twenty") {
  // machinecalcs.com, span measurement over teeth, worked example: z = 20, m = 2,
  // 20 deg, x = 0, k = 3: W = 15.321; base pitch 5.904; contact at 40.59; base circle
  // 37.59, tip 44.00.
  const Gear gear = rack_gear(false, 20, 2 * mm, 20 * deg);
  const SpanMeasure span = span_over(gear, 3);
  CHECK(span.span_m / mm == Approx(15.321).margin(5e-4));
  CHECK(span.contact_diameter_m / mm == Approx(40.59).margin(5e-3));
  CHECK(gear.base_pitch_m() / mm == Approx(5.904).margin(5e-4));
  CHECK(gear.base_diameter_m() / mm == Approx(37.59).margin(5e-3));
  CHECK(gear.tip_diameter_m / mm == Approx(44.00));
  CHECK(teeth_to_span(gear) == 3);
}

TEST_CASE("a gear of 24 teeth and diametral pitch 8") {
  // standardsapplied.com, involute gear design, its example: pitch diameter 3.00000 in,
  // base 2.81908, tip 3.25000, root 2.68750, circular pitch 0.39270, base pitch 0.36902,
  // thickness 0.19635, at the tip 0.08944, span over 4 teeth 1.33357.
  const Gear gear = rack_gear(false, 24, inch / 8, 20 * deg);
  CHECK(gear.reference_diameter_m() / inch == Approx(3.0));
  CHECK(gear.base_diameter_m() / inch == Approx(2.81908).margin(5e-6));
  CHECK(gear.tip_diameter_m / inch == Approx(3.25));
  CHECK(gear.root_diameter_m / inch == Approx(2.6875));
  CHECK(gear.base_pitch_m() / inch == Approx(0.36902).margin(5e-6));
  CHECK(gear.tooth_thickness_m() / inch == Approx(0.19635).margin(5e-6));
  CHECK(gear.tooth_thickness_m(gear.tip_diameter_m) / inch == Approx(0.08944).margin(5e-6));
  CHECK(span_over(gear, 4).span_m / inch == Approx(1.33357).margin(5e-6));
  // A unit mistake: a module of 8 in place of a pitch of 8 is some 64 / 25.4 times it.
  const Gear slip = rack_gear(false, 24, 8 * mm, 20 * deg);
  CHECK(slip.reference_diameter_m() / gear.reference_diameter_m() == Approx(64 / 25.4));
}

TEST_CASE("undercut begins at 17.1 teeth of 20 degrees") {
  // The closed form 2 / sin² a, from memory.
  CHECK(least_profile_shift(17, 20 * deg) > 0);
  CHECK(least_profile_shift(18, 20 * deg) < 0);
  CHECK(2 / (std::sin(20 * deg) * std::sin(20 * deg)) == Approx(17.097).margin(5e-4));
}

TEST_CASE("over pins: a gear of 20 teeth, module 1, 20 degrees, over pins of 1.7 mm") {
  // Elements of Metric Gear Technology (SDP/SI), section 10.3, the equations' own example, from
  // memory: ideal pin 1.7245, angle at the pin's centre 24.1350 deg, over pins 22.2941.
  const Gear gear = rack_gear(false, 20, 1 * mm, 20 * deg);
  const auto ideal = over_pins(gear, 1.7245 * mm);
  REQUIRE(ideal);
  CHECK(ideal->contact_diameter_m / mm == Approx(20.0).margin(2e-4)); // at the reference circle
  const auto over = over_pins(gear, 1.7 * mm);
  REQUIRE(over);
  CHECK(std::acos(gear.base_diameter_m() / over->centre_diameter_m) / deg ==
        Approx(24.1350).margin(5e-5));
  CHECK(over->over_m / mm == Approx(22.2941).margin(5e-5));
}

TEST_CASE("over pins: limit cases") {
  // A pin whose axis lies on the base circle: its involute is 0, and M follows from the
  // base circle alone. Half the space there is half the pin's arc.
  const Gear gear = rack_gear(false, 33, 1.5 * mm, 20 * deg);
  const double base_m = gear.base_diameter_m();
  const double pin_m = gear.space_width_m(base_m);
  const auto on_base = over_pins(gear, pin_m * (1 + 1e-9));
  // Below it no pin stands on involutes.
  CHECK_FALSE(over_pins(gear, pin_m * (1 - 1e-6)));
  // (Its contact would be inside the base circle: that is no contact either.)
  CHECK_FALSE(on_base);
  // A pin that touches at the reference circle stands off it along its tangent to the
  // base circle: tan of its axis' angle is tan 20 deg and half a pin over the base radius.
  const double angle = 20 * deg + pi / (2 * 33);
  const double touching_m = base_m * (std::tan(angle) - std::tan(20 * deg));
  const auto at_reference = over_pins(gear, touching_m);
  REQUIRE(at_reference);
  CHECK(at_reference->contact_diameter_m / mm == Approx(49.5).margin(1e-9));
  CHECK(at_reference->centre_diameter_m == Approx(base_m / std::cos(angle)));
}

TEST_CASE("a spline of 36 teeth, 16/32, fillet root, 30 degrees") {
  // A shop's question in a public thread on ANSI B92.1 (eng-tips.com 312537): base
  // diameter 1.949, pitch 2.25, major 2.363, minor 2.188, circular space width 0.0982.
  const Gear hub =
      spline(SplineStandard::ansi_b92_1, SplineRoot::fillet, true, 36, inch / 16, 30 * deg);
  CHECK(hub.reference_diameter_m() / inch == Approx(2.25));
  CHECK(hub.base_diameter_m() / inch == Approx(1.949).margin(5e-4));
  CHECK(hub.root_diameter_m / inch == Approx(2.363).margin(5.1e-4));
  CHECK(hub.tip_diameter_m / inch == Approx(2.188).margin(5.1e-4));
  CHECK(hub.space_width_m(hub.reference_diameter_m()) / inch == Approx(0.0982).margin(5e-5));
}

TEST_CASE("a spline of 48 teeth, pitch 16, 37.5 degrees") {
  // A worked sheet citing Deutschman, Michels and Wilson 1975, pages 374 to 376: pitch
  // .196, D 3.000, Db 2.380, t .098 in. Its major diameter, 3.113, is the 30 degree
  // fillet's and is not held to: at 37.5 degrees the standard has (N + 1.6) / P.
  const Gear shaft =
      spline(SplineStandard::ansi_b92_1, SplineRoot::fillet, false, 48, inch / 16, 37.5 * deg);
  CHECK(shaft.reference_diameter_m() / inch == Approx(3.000));
  CHECK(shaft.base_diameter_m() / inch == Approx(2.380).margin(5e-4));
  CHECK(shaft.tooth_thickness_m() / inch == Approx(0.098).margin(5e-4));
  CHECK(pi * shaft.module_m / inch == Approx(0.196).margin(5e-4));
  const Gear hub =
      spline(SplineStandard::ansi_b92_1, SplineRoot::fillet, true, 48, inch / 16, 37.5 * deg);
  CHECK(hub.root_diameter_m / inch == Approx(49.6 / 16));
}

TEST_CASE("the rows of the standards' tables of formulas") {
  // ANSI B92.1 and ANSI B92.2M / ISO 4156, tables of formulas in a public help page of
  // a drawing program (involute splines: terms, symbols and relations), N = Z = 24.
  struct Row {
    double angle;
    SplineRoot root;
    double hub_root, hub_tip, shaft_tip, space; // in 1/P
  };
  const double half = pi / 2;
  for (const Row& row : {Row{30, SplineRoot::flat, 25.35, 23, 25, half},
                         Row{30, SplineRoot::fillet, 25.8, 23, 25, half},
                         Row{37.5, SplineRoot::fillet, 25.6, 23.2, 25, half + 0.1},
                         Row{45, SplineRoot::fillet, 25.4, 23.4, 25, half + 0.2}}) {
    CAPTURE(row.angle);
    const Gear hub = spline(SplineStandard::ansi_b92_1, row.root, true, 24, inch, row.angle * deg);
    const Gear shaft =
        spline(SplineStandard::ansi_b92_1, row.root, false, 24, inch, row.angle * deg);
    CHECK(hub.root_diameter_m / inch == Approx(row.hub_root));
    CHECK(hub.tip_diameter_m / inch == Approx(row.hub_tip));
    CHECK(shaft.tip_diameter_m / inch == Approx(row.shaft_tip));
    CHECK(hub.space_width_m(hub.reference_diameter_m()) / inch == Approx(row.space));
  }
  struct Metric {
    double angle;
    SplineRoot root;
    double hub_root, shaft_tip, shaft_root; // in modules
  };
  for (const Metric& row : {Metric{30, SplineRoot::flat, 25.5, 25, 22.5},
                            Metric{30, SplineRoot::fillet, 25.8, 25, 22.2},
                            Metric{37.5, SplineRoot::fillet, 25.4, 24.9, 22.6},
                            Metric{45, SplineRoot::fillet, 25.2, 24.8, 22.8}}) {
    CAPTURE(row.angle);
    const Gear hub = spline(SplineStandard::iso_4156, row.root, true, 24, mm, row.angle * deg);
    const Gear shaft = spline(SplineStandard::iso_4156, row.root, false, 24, mm, row.angle * deg);
    CHECK(hub.root_diameter_m / mm == Approx(row.hub_root));
    CHECK(shaft.tip_diameter_m / mm == Approx(row.shaft_tip));
    CHECK(shaft.root_diameter_m / mm == Approx(row.shaft_root));
    CHECK(hub.space_width_m(hub.reference_diameter_m()) / mm == Approx(half));
  }
}

TEST_CASE("form clearance keeps between two and ten thousandths of an inch") {
  // ANSI B92.1: 0.001 D, least 0.002, most 0.010 in.
  CHECK(form_clearance_m(1 * inch) / inch == Approx(0.002));
  CHECK(form_clearance_m(5 * inch) / inch == Approx(0.005));
  CHECK(form_clearance_m(15 * inch) / inch == Approx(0.010));
}
