// What the recipes of kinds_test.cpp say of figures that cannot be: each names
// the figure and why.

#include "tests/recipe/examples.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

namespace lugline::test {

namespace {

/// One complaint of the example with one figure written otherwise, at that figure.
void check_figure(const std::string& id, const std::string& from, const std::string& to,
                  const std::string& words) {
  CAPTURE(id, to);
  const auto found = std::ranges::find(examples(), id, &Example::id);
  REQUIRE(found != examples().end());
  const std::string text = with(part_of(found->recipe, found->figures), from, to);
  const std::vector<Complaint> complaints = complaints_of(text);
  for (const Complaint& complaint : complaints) {
    UNSCOPED_INFO(text_of(complaint));
  }
  REQUIRE(complaints.size() == 1);
  CAPTURE(complaints[0].message);
  CHECK(complaints[0].message.find(words) != std::string::npos);
  CHECK(complaints[0].line > 1);
}

} // namespace

TEST_CASE("dished and single-sided plates that cannot be made") {
  const std::string dished = "dished, outer edge low";
  check_figure(dished, "free_height = \"2.6 mm\"", "free_height = \"1.6 mm\"",
               "flat_height (1.60 mm) must be less than free_height (1.60 mm)");
  check_figure(dished, "free_height = \"2.6 mm\"", "free_height = \"20 mm\"",
               "free_height (20.00 mm) makes a cone steeper than 45 degrees");
  check_figure(dished, "low_edge = \"outer\"", "low_edge = \"upper\"",
               "low_edge is one of outer, inner");
  check_figure(dished, "bore = \"118 mm\"", "bore = \"150 mm\"", "must be less than outside");
  check_figure("dished, inner edge low, with lugs", "over_lugs = \"148 mm\"",
               "over_lugs = \"140 mm\"", "must be less than over_lugs");
  check_figure("dished, inner edge low, with lugs", "lug_width = \"8 mm\"", "lug_width = \"80 mm\"",
               "lug_width leaves no room");

  const std::string toothed = "single-sided, toothed";
  check_figure(toothed, "core_thickness = \"1.4 mm\"", "core_thickness = \"2.4 mm\"",
               "core_thickness (2.40 mm) must be less than thickness");
  check_figure(toothed, "lining_bore = \"114 mm\"", "lining_bore = \"104 mm\"",
               "lining_bore to lining_outside is not within teeth_root to outside");
  check_figure(toothed, "tooth_width = \"4.6 deg\"", "tooth_width = \"12 deg\"",
               "is not between nothing and the 10.59 deg pitch");
  check_figure(toothed, "teeth_tip = \"103.7 mm\"", "teeth_tip = \"109 mm\"",
               "teeth_tip (109.00 mm) must be less than teeth_root");
  check_figure(toothed, "lined = \"upper face\"", "lined = \"both\"", "lined is one of upper face");
  check_figure("single-sided, lugged", "lug_width = \"6.4 mm\"", "lug_width = \"40 mm\"",
               "lug_width leaves no room");
}

TEST_CASE("disc springs and shells that cannot be made") {
  const std::string spring = "disc spring, inner edge low";
  check_figure(spring, "free_height = \"6.4 mm\"", "free_height = \"2.2 mm\"",
               "thickness (2.20 mm) must be less than free_height (2.20 mm)");
  check_figure(spring, "free_height = \"6.4 mm\"", "free_height = \"24 mm\"",
               "free_height (24.00 mm) makes a cone steeper than 45 degrees");
  check_figure(spring, "bore = \"104 mm\"", "bore = \"146 mm\"", "must be less than outside");
  check_figure(spring, "low_edge = \"inner\"", "low_edge = \"lower\"",
               "low_edge is one of outer, inner");
  check_figure(spring, "rate = \"420 N/mm\"", "rate = \"420 mm\"", "rate");
  check_figure("shell", "teeth = 50", "teeth = 54", "root");
  check_figure("shell", "width = \"9 mm\"", "width = \"60 mm\"", "leaves no room round 145.20 mm");
}

TEST_CASE("pockets for springs that cannot be sunk") {
  const std::string piston = "piston with pockets for springs";
  check_figure(piston, "pocket_circle = \"142 mm\"", "pocket_circle = \"146 mm\"",
               "pocket_circle puts pockets from 140.40 mm to 151.60 mm, not on the web");
  check_figure(piston, "pocket_circle = \"142 mm\"", "pocket_circle = \"139 mm\"",
               "not on the web beside the apply face");
  check_figure(piston, "pockets = 12\npocket_diameter = \"5.6 mm\"",
               "pockets = 60\npocket_diameter = \"7.4 mm\"",
               "pockets of 7.40 mm leave no wall: 60 of them on a circle of 142.00 mm");
  check_figure(piston, "pocket_depth = \"1.5 mm\"", "pocket_depth = \"2 mm\"",
               "pocket_depth (2.00 mm) must be less than the metal there (2.00 mm)");
  check_figure("springs in pockets", "stand_in = \"pockets\"", "stand_in = \"bores\"",
               "stand_in is one of pockets");
  check_figure("springs in pockets", "coils = 12\ncircle = \"142 mm\"", "coils = 1",
               "is for coils on a circle");
}

TEST_CASE("roller clutches and bearings that cannot be made") {
  const std::string clutch = "roller clutch";
  check_figure(clutch, "roller = \"7.8 mm\"", "roller = \"8.0 mm\"",
               "roller (8.00 mm) is thicker than the 7.80 mm between bore and outside");
  check_figure(clutch, "roller_length = \"15 mm\"", "roller_length = \"17 mm\"",
               "roller_length (17.00 mm) leaves no rims of 1.20 mm in a height of 18.00 mm");
  check_figure(clutch, "rollers = 12", "rollers = 30", "leave no room for cage and springs");
  check_figure(clutch, "rollers_pushed = \"clockwise\"", "rollers_pushed = \"left\"",
               "rollers_pushed is one of clockwise");
  check_figure(clutch, "bore = \"76.2 mm\"", "bore = \"96 mm\"", "must be less than outside");

  const std::string bearing = "thrust bearing, lip inside and below";
  check_figure(bearing, "needle = \"2.0 mm\"", "needle = \"3.2 mm\"",
               "needle (3.20 mm) must be less than thickness");
  check_figure(bearing, "lip_width = \"0.8 mm\"", "lip_width = \"6 mm\"",
               "lip_width (6.00 mm) leaves no track for needles");
  check_figure(bearing, "needles = 28", "needles = 90", "do not fit side by side");
  check_figure(bearing, "bore = \"44 mm\"", "bore = \"64 mm\"", "must be less than outside");
}

TEST_CASE("check balls, bushings and bolts that cannot be made") {
  check_figure("check ball", "seat_bore = \"3 mm\"", "seat_bore = \"5 mm\"",
               "seat_bore (5.00 mm) must be less than ball (5.00 mm)");
  check_figure("check ball", "capsule_outside = \"7.8 mm\"", "capsule_outside = \"5.6 mm\"",
               "leaves no wall round a ball");
  check_figure("check ball", "capsule_height = \"6.6 mm\"", "capsule_height = \"5 mm\"",
               "leaves no seat under a ball");
  check_figure("check ball", "circle = \"122 mm\"", "circle = \"7 mm\"",
               "must be less than circle");

  const std::string bushing = "bushing, grooved";
  check_figure(bushing, "groove_depth = \"0.8 mm\"", "groove_depth = \"2 mm\"",
               "groove_depth (2.00 mm) must be less than the wall (1.95 mm)");
  check_figure(bushing, "groove_stops = \"4 mm\"", "groove_stops = \"18 mm\"",
               "groove_stops (18.00 mm) must be less than height");
  check_figure(bushing, "groove_width = \"3 mm\"", "groove_width = \"37 mm\"",
               "must be less than bore");
  check_figure(bushing, "outside = \"40 mm\"", "outside = \"36 mm\"", "must be less than outside");

  const std::string bolts = "bolt set";
  check_figure(bolts, "across_flats = \"13 mm\"", "across_flats = \"8 mm\"",
               "thread (8.00 mm) must be less than across_flats");
  check_figure(bolts, "washer_outside = \"15 mm\"", "washer_outside = \"10 mm\"",
               "across_flats (13.00 mm) must be less than washer_outside");
  check_figure(bolts, "bolts = 8", "bolts = 48", "leaves no wall: 48 holes");
  check_figure(bolts, "offset_one = \"-6 deg\"", "offset_one = \"-40 deg\"",
               "offset_one leaves no wall");
  check_figure(bolts, "circle = \"210 mm\"", "circle = \"12 mm\"", "leaves no room for heads");
}

TEST_CASE("seals and gaskets that cannot be made") {
  const std::string scarf = "sealing rings, scarf, a set of four";
  check_figure("sealing ring, butt", "gap = \"0.2 mm\"", "gap = \"40 mm\"",
               "gap (40.00 mm) is more than an eighth of the ring");
  check_figure("sealing ring, butt", "joint = \"butt\"", "joint = \"but\"",
               "joint is one of butt, scarf, hook");
  check_figure("sealing ring, butt", "bore = \"52 mm\"", "bore = \"58 mm\"",
               "must be less than outside");
  check_figure(scarf, "lap = \"4 mm\"", "lap = \"30 mm\"",
               "lap (30.00 mm) is more than an eighth of the ring");
  check_figure(scarf, "lap = \"4 mm\"", "lap = \"13 mm\"", "is too flat a scarf across a ring");
  check_figure(scarf, "spacing = \"7 mm\"", "spacing = \"2 mm\"",
               "spacing (2.00 mm) puts rings of 2.40 mm into one another");
  check_figure("sealing rings, hooked, two", "gap = \"0.2 mm\"", "gap = \"2 mm\"",
               "leaves no nib on hooks that lap by 5.00 mm");
  check_figure("lip seal, outside, down", "bore = \"150 mm\"", "bore = \"158 mm\"",
               "must be less than outside");
  check_figure("lip seal, outside, down", "lip = \"down\"", "lip = \"in\"",
               "lip is one of down, up");
  check_figure("O-ring, squeezed", "height = \"3 mm\"", "height = \"9 mm\"",
               "is no squeezed round of 2.55 mm");
  check_figure("O-ring, round", "bore = \"190.8 mm\"", "bore = \"196 mm\"",
               "must be less than outside");
  check_figure("gasket", "compressed_height = \"0.40 mm\"", "compressed_height = \"0.55 mm\"",
               "compressed_height (0.55 mm) must be less than free_height");
  check_figure("gasket", "circle = \"210 mm\"", "circle = \"220 mm\"",
               "circle reaches from 211.00 mm to 229.00 mm, and the gasket from 197.00 mm");
  check_figure("gasket", "outer = \"204 mm\"", "outer = \"230 mm\"",
               "and the gasket from 197.00 mm");
  check_figure("gasket", "width = \"12 mm\"", "width = \"300 mm\"",
               "leaves no room round 199.50 mm");
}

TEST_CASE("holes and cams that cannot be cut") {
  const std::string holes = "turned, with holes";
  check_figure(holes, "diameter = \"8 mm\"", "diameter = \"130 mm\"", "must be less than circle");
  check_figure(holes, "diameter = \"8 mm\"", "diameter = \"106 mm\"",
               "diameter leaves no wall: 3 holes of 106.00 mm");
  check_figure(holes, "  name = \"drain\"\n", "", "name \"hole\" names something else");

  const std::string cam = "turned, with a cam";
  check_figure(cam, "width = \"22 deg\"", "width = \"30 deg\"",
               "width (30.00 deg) is not between nothing and the 30.00 deg pitch");
  check_figure(cam, "depth = \"1.4 mm\"", "depth = \"25 mm\"",
               "depth (25.00 mm) is no pocket in a bore of 92.00 mm");
  check_figure(cam, "depth = \"1.4 mm\"", "depth = \"0.2 mm\"", "hardly rises at all");
  check_figure(cam, "shallow = \"clockwise\"", "shallow = \"left\"", "shallow is one of clockwise");
}

TEST_CASE("servo parts and levers that cannot be made") {
  const std::string piston = "servo piston, upright";
  check_figure(piston, "pin_bore = \"8.1 mm\"", "pin_bore = \"23 mm\"",
               "must be less than the spring's inside (22.00 mm)");
  check_figure(piston, "spring_outside = \"26 mm\"", "spring_outside = \"44 mm\"",
               "must be less than outside");
  check_figure(piston, "ring_width = \"2.4 mm\"", "ring_width = \"7 mm\"",
               "ring_width 1 rings of 7.00 mm leave no lands");
  check_figure(piston, "ring_depth = \"2.2 mm\"", "ring_depth = \"17 mm\"",
               "ring_depth (17.00 mm) must be less than the wall");
  check_figure(piston, "spring_turns = 5", "spring_turns = 12", "spring_turns times the wire is");
  check_figure("servo piston, laid down", "from_axis = \"150 mm\"", "from_axis = \"20 mm\"",
               "from_axis reaches back past the unit's axis, by 6.00 mm");
  const std::string straight = "servo pin, straight out";
  check_figure(straight, "from_axis = \"90 mm\"", "from_axis = \"4 mm\"",
               "from_axis runs into the unit's axis");

  const std::string pin = "servo pin, upright";
  check_figure(pin, "length = \"58.5 mm\"", "length = \"6 mm\"", "must be less than length");
  check_figure(pin, "groove_depth = \"0.6 mm\"", "groove_depth = \"3 mm\"",
               "must be less than a quarter of the diameter");
  check_figure(pin, "groove_width = \"1 mm\"", "groove_width = \"4 mm\"",
               "3 grooves of 4.00 mm take up half the pin");

  const std::string cover = "servo cover";
  check_figure(cover, "spigot = \"70 mm\"", "spigot = \"80 mm\"", "must be less than bolt_circle");
  check_figure(cover, "bolt_circle = \"88 mm\"", "bolt_circle = \"100 mm\"",
               "must be less than outside");
  check_figure(cover, "gasket = \"0.6 mm\"", "gasket = \"12 mm\"",
               "must be less than spigot_height");
  check_figure(cover, "feed_slot = \"6 mm\"", "feed_slot = \"75 mm\"",
               "feed_slot (75.00 mm) is wider than the spigot");

  const std::string lever = "lever";
  check_figure(lever, "arm_width = \"7 mm\"", "arm_width = \"14 mm\"", "must be less than boss");
  check_figure(lever, "pivot = \"8 mm\"", "pivot = \"13 mm\"", "must be less than boss");
  check_figure(lever, "band_arm = \"16 mm\"", "band_arm = \"6 mm\"",
               "must be less than twice the band_arm");
  check_figure(lever, "servo_arm_turn = \"10 deg\"", "servo_arm_turn = \"100 deg\"",
               "puts the two arms 30.00 deg apart");
  check_figure(lever, "pivot_length = \"30 mm\"", "pivot_length = \"10 mm\"",
               "thickness (12.00 mm) must be less than pivot_length");
  check_figure(lever, "servo_arm = \"20 mm\"", "servo_arm = \"99 mm\"",
               "must be less than half the pivot_circle");
}

TEST_CASE("double-wrap bands that cannot be made") {
  const std::string band = "double-wrap band";
  check_figure(band, "lining = \"1.8 mm\"", "lining = \"3.8 mm\"",
               "lining (3.80 mm) must be less than thickness");
  check_figure(band, "spread_bore = \"167 mm\"", "spread_bore = \"160 mm\"",
               "spread_bore is less than the bore before it");
  check_figure(band, "wrap = \"660 deg\"", "wrap = \"330 deg\"",
               "is not between a turn and a quarter and two turns");
  check_figure(band, "wrap = \"660 deg\"", "wrap = \"710 deg\"", "leaves no room between the ears");
  check_figure(band, "middle_width = \"17 mm\"", "middle_width = \"36 mm\"",
               "and two splits leave no outer straps");
  check_figure(band, "servo_ear = \"5.6 mm\"", "servo_ear = \"3 mm\"",
               "must be less than servo_ear");
  check_figure(band, "ear_notch = \"5 mm\"", "ear_notch = \"7 mm\"",
               "must be less than half the ear_length");
}

TEST_CASE("pump gears and seals' grooves that cannot be made") {
  const std::string gears = "pump gears";
  check_figure(gears, "over_lug_recesses = \"46 mm\"", "over_lug_recesses = \"52 mm\"",
               "must be less than the root of the drive gear (49.50 mm)");
  check_figure(gears, "over_lug_recesses = \"46 mm\"", "over_lug_recesses = \"39 mm\"",
               "must be less than over_lug_recesses");
  check_figure(gears, "lug_recess_depth = \"6 mm\"", "lug_recess_depth = \"16 mm\"",
               "must be less than thickness");
  check_figure(gears, "driven_bore = \"20 mm\"", "driven_bore = \"50 mm\"",
               "must be less than the root of the driven gear");
  check_figure(gears, "lug_recess_width = \"8 mm\"", "lug_recess_width = \"41 mm\"",
               "must be less than bore");
  check_figure(gears, "drive_teeth = 19", "drive_teeth = 4", "drive_teeth is a count from 6 to 60");
  const std::string piston = "piston with grooves for its seals";
  check_figure(piston, "inner = \"151 mm\"", "inner = \"158 mm\"", "must be less than outer");
  check_figure("pump cover", "from = \"4 mm\"", "from = \"7 mm\"", "must be less than to");
}

TEST_CASE("waved snap rings that cannot be made") {
  const std::string ring = "waved ring for a bore";
  check_figure(ring, "free_height = \"2.6 mm\"", "free_height = \"1.5 mm\"",
               "thickness (1.60 mm) must be less than free_height (1.50 mm)");
  check_figure(ring, "free_height = \"2.6 mm\"", "free_height = \"40 mm\"",
               "is too high for waves of 119.88 mm each");
  check_figure(ring, "waves = 5", "waves = 1", "waves is a count from 2 to 24");
  check_figure(ring, "gap = \"16 deg\"", "gap = \"200 deg\"",
               "is not between nothing and half a turn");
  check_figure("waved ring for a shaft", "spread_bore = \"42.5 mm\"", "spread_bore = \"39.5 mm\"",
               "must be less than spread_bore");
}

} // namespace lugline::test
