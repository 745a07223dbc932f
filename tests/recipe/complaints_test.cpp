// What recipes.toml is told when it is wrong: file, line, column, what was
// read and what was expected, the nearest name, all in one go.

#include "scene/recipe/recipe.h"
#include "tests/recipe/examples.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

namespace lugline::test {

namespace {

const std::string plate = R"(schema = 1
[[part]]
id = "S"
name = "Steel"
recipe = "lugged plate"
role = "steel"
bore = "142 mm"
outside = "190 mm"
over_lugs = "195.6 mm"
thickness = "1.5 mm"
lugs = 10
lug_width = "7.4 mm"
)";

} // namespace

TEST_CASE("a figure that no bench has, a key without end, and words that a terminal would obey") {
  check_one(with(plate, "\"142 mm\"", "\"1e300 mm\""), 7, "\"1e300 mm\" is beyond 10 m");
  check_one(with(plate, "\"142 mm\"", "\"1e-300 mm\""), 7, "\"1e-300 mm\" is below 0.0001 mm");
  std::string key = "a";
  for (int i = 0; i < 100000; ++i) {
    key += ".a";
  }
  check_one("schema = 1\n" + key + " = 1\n", 2, "a key of more than 16 parts");
  check_one(with(plate, "\"Steel\"", "\"Steel\\u001b[2J\""), 4, "holds a control character");
}

TEST_CASE("a sound recipe has no complaints") {
  CHECK(complaints_of(plate).empty());
}

TEST_CASE("what is wrong with the file itself") {
  CHECK(make_parts("/nowhere/recipes.toml").complaints.size() == 1);
  check_one("schema = 1\n[[part]\n", 2, "not TOML");
  check_one("schema = 1\n", 0, "holds no parts");
  check_one(with(plate, "schema = 1", "schema = 2"), 1, "only schema 1 is understood");
  check_one(with(plate, "schema = 1\n", ""), 1, "needs schema");
  check_one(with(plate, "schema = 1", "schema = 1\ncolour = 3"), 2, "no figure \"colour\"");
}

TEST_CASE("names: missing, twice, unknown, and the nearest one") {
  check_one(with(plate, "id = \"S\"\n", ""), 2, "needs id");
  check_one(with(plate, "id = \"S\"", "id = \"../S\""), 3, "may have letters");
  check_one(with(plate, "name = \"Steel\"\n", ""), 2, "needs name");
  check_one(with(plate, "recipe = \"lugged plate\"\n", ""), 2, "needs recipe");
  check_one(with(plate, "lugged plate", "luged plate"), 5, "recipe is one of case", "lugged plate");
  check_one(with(plate, "role = \"steel\"", "role = \"stel\""), 6, "role is one of steel", "steel");
  check_one(with(plate, "lugs = 10", "material = \"stele\"\nlugs = 10"), 11, "material is one of",
            "steel");
}

TEST_CASE("a figure under a name that is near the right one: both are told") {
  const auto complaints = complaints_of(with(plate, "thickness", "thicknes"));
  REQUIRE(complaints.size() == 2);
  CHECK(complaints[0].line == 2);
  CHECK(complaints[0].message.find("S needs thickness, a length") != std::string::npos);
  CHECK(complaints[1].line == 10);
  CHECK(complaints[1].column == 1);
  CHECK(complaints[1].hint == "did you mean \"thickness\"?");
}

TEST_CASE("a part's id is its own") {
  const std::string second = plate.substr(plate.find("[[part]]"));
  check_one(plate + second, 14, "id is the id of another part");
}

TEST_CASE("figures without a unit, of another dimension, or of another kind") {
  check_one(with(plate, "\"142 mm\"", "142"), 7, "142 has no unit", "in quotes");
  check_one(with(plate, "\"142 mm\"", "142.5"), 7, "142.5 has no unit");
  check_one(with(plate, "\"142 mm\"", "\"142\""), 7, "bore: ");
  check_one(with(plate, "\"142 mm\"", "\"142 N\""), 7, "bore: ");
  check_one(with(plate, "\"142 mm\"", "\"142 in\""), 7, "must be less than outside");
  check_one(with(plate, "\"142 mm\"", "\"142 m\""), 7, "beyond 10 m");
  check_one(with(plate, "\"142 mm\"", "\"6 m\""), 7, "beyond", "a wrong unit?");
  check_one(with(plate, "\"142 mm\"", "\"0 mm\""), 7, "bore must be more than nothing");
  check_one(with(plate, "\"142 mm\"", "\"-3 mm\""), 7, "bore must be more than nothing");
  check_one(with(plate, "\"142 mm\"", "true"), 7, "true has no unit");
  check_one(with(plate, "\"142 mm\"", "1979-05-27"), 7, "a date or time has no unit");
  check_one(with(plate, "lugs = 10", "lugs = 10.5"), 11, "lugs is a count");
  check_one(with(plate, "lugs = 10", "lugs = \"10\""), 11, "lugs is a count");
  check_one(with(plate, "lugs = 10", "lugs = 100000"), 11, "lugs is a count from 1 to 360");
  check_one(with(plate, "\"S\"", "3"), 3, "id is words");
}

TEST_CASE("inches are inches") {
  const Written written(with(plate, "\"142 mm\"", "\"5.5 in\""));
  const RecipeBook book = make_parts(written.path());
  REQUIRE(book.parts.size() == 1);
  CHECK(book.parts[0].component.solid.rings[0].inner_m == Approx(5.5 * 25.4e-3 / 2));
}

TEST_CASE("every complaint in one go, by line") {
  const std::string second =
      with(with(plate.substr(plate.find("[[part]]")), "\"S\"", "\"T\""), "\"190 mm\"", "190");
  const auto complaints = complaints_of(with(plate, "1.5 mm", "1.5 furlong") + second);
  REQUIRE(complaints.size() == 2);
  CHECK(complaints[0].line == 10);
  CHECK(complaints[1].line == 19);
}

TEST_CASE("plates that cannot be made say which figure and why") {
  check_one(with(plate, "\"142 mm\"", "\"200 mm\""), 7,
            "bore (200.00 mm) must be less than outside (190.00 mm)");
  check_one(with(plate, "195.6 mm", "180 mm"), 9,
            "over_lugs (180.00 mm) is neither beyond the outside (190.00 mm) nor inside the bore");
  CHECK(complaints_of(with(plate, "195.6 mm", "135 mm")).empty());
  check_one(with(with(plate, "195.6 mm", "135 mm"), "7.4 mm", "45 mm"), 12,
            "do not fit side by side round 135.00 mm");
  const std::string taper = plate + "taper_from = \"168 mm\"\n";
  check_one(taper, 2, "needs taper_depth");
  CHECK(complaints_of(taper + "taper_depth = \"0.4 mm\"\n").empty());
  check_one(taper + "taper_depth = \"1.5 mm\"\n", 14,
            "taper_depth (1.50 mm) must be less than thickness (1.50 mm)");
  check_one(with(taper, "168 mm", "190 mm") + "taper_depth = \"0.4 mm\"\n", 13,
            "must be less than outside");
  check_one(taper + "taper_depth = \"0.4 mm\"\nstep_from = \"170 mm\"\nstep_depth = \"0.2 mm\"\n",
            13, "one or the other");
  check_one(taper + "taper_depth = \"0.4 mm\"\ndot = \"lower face\"\n", 15, "tapered plate");
  check_one(with(plate, "7.4 mm", "70 mm"), 12, "lug_width leaves no room: 10 lugs");
  check_one(with(plate, "7.4 mm", "400 mm"), 12, "lug_width leaves no room");
  check_one(plate + "wide_lug_width = \"60 mm\"\nwide_lug_at = \"10 deg\"\n", 14,
            "wide_lug_at is not where one of the 10 lugs stands, which are 36.00 deg apart");
  check_one(plate + "wide_lug_width = \"115 mm\"\n", 12, "the widest 115.00 mm");
  check_one(plate + "step_from = \"168 mm\"\n", 2, "needs step_depth");
  check_one(plate + "step_from = \"168 mm\"\nstep_depth = \"2 mm\"\n", 14,
            "step_depth (2.00 mm) must be less than thickness (1.50 mm)");
  check_one(plate + "step_from = \"140 mm\"\nstep_depth = \"0.5 mm\"\n", 7,
            "must be less than step_from");
  check_one(plate + "dot = \"lower face\"\ndot_diameter = \"60 mm\"\n", 13, "does not fit");
  const std::string wave =
      part_of("wave plate", "bore = \"146 mm\"\noutside = \"190 mm\"\n"
                            "flat_height = \"1.8 mm\"\nfree_height = \"1.8 mm\"\n"
                            "waves = 3\n");
  check_one(wave, 8, "flat_height (1.80 mm) must be less than free_height (1.80 mm)");
}

TEST_CASE("frictions that cannot be made") {
  const std::string friction = part_of(
      "friction plate", "teeth_tip = \"129.7 mm\"\nteeth_root = \"134.2 mm\"\nteeth = 42\n"
                        "tooth_width = \"3.98 deg\"\noutside = \"174 mm\"\n"
                        "lining_bore = \"146 mm\"\nthickness = \"1.6 mm\"\n"
                        "core_thickness = \"0.9 mm\"\ngrooves = 24\ngroove_width = \"2 mm\"\n");
  CHECK(complaints_of(friction).empty());
  check_one(with(friction, "129.7", "134.7"), 6,
            "teeth_tip (134.70 mm) must be less than teeth_root");
  check_one(with(friction, "3.98 deg", "9 deg"), 9,
            "is not between nothing and the 8.57 deg pitch");
  check_one(with(friction, "0.9 mm", "1.6 mm"), 13, "core_thickness (1.60 mm) must be less");
  check_one(with(friction, "146 mm", "130 mm"), 11, "inside the root of the teeth");
  check_one(with(friction, "\"2 mm\"", "\"25 mm\""), 15, "leaves no lining between the grooves");
  const std::string outward =
      part_of("friction plate", "teeth_tip = \"121.6 mm\"\nteeth_root = \"117.6 mm\"\nteeth = 18\n"
                                "tooth_width = \"7 deg\"\nbore = \"90 mm\"\n"
                                "lining_bore = \"92 mm\"\nthickness = \"2 mm\"\n"
                                "core_thickness = \"1 mm\"\nlining_outside = \"116 mm\"\n");
  CHECK(complaints_of(outward).empty());
  check_one(with(outward, "121.6", "117"), 7, "teeth_root (117.60 mm) must be less than teeth_tip");
  check_one(with(outward, "116 mm", "119 mm"), 14, "beyond the plate's outside");
  check_one(with(outward, "92 mm", "88 mm"), 11, "inside the core's bore");
  check_one(friction + "groove_offset = \"80 mm\"\n", 16, "past the lining's bore");
  check_one(friction + "lining_outside = \"180 mm\"\n", 16, "beyond the plate's outside");
}

TEST_CASE("snap rings that cannot be made") {
  const std::string ring =
      part_of("snap ring", "springs = \"outward\"\nbore = \"182.6 mm\"\noutside = \"199 mm\"\n"
                           "thickness = \"2 mm\"\nfree_outside = \"203 mm\"\n"
                           "squeezed_outside = \"191.4 mm\"\ngap = \"16 deg\"\n");
  CHECK(complaints_of(ring).empty());
  check_one(with(ring, "outward", "outwards"), 6, "springs is one of outward, inward", "outward");
  check_one(with(ring, "191.4", "199.5"), 11,
            "squeezed_outside (199.50 mm) must be less than outside");
  check_one(with(ring, "203 mm", "198 mm"), 8, "must be less than free_outside (198.00 mm)");
  check_one(with(ring, "16 deg", "200 deg"), 12, "is not between nothing and half a turn");
  check_one(with(ring, "16 deg", "5 deg"), 11, "needs a gap of 23.88 mm");
  check_one(ring + "bevel = \"15 deg\"\nbevel_width = \"9 mm\"\nreversed_play = \"0.3 mm\"\n", 14,
            "bevel_width (9.00 mm) must be less than the ring's width");
  check_one(ring + "bevel = \"60 deg\"\nbevel_width = \"3 mm\"\nreversed_play = \"0.3 mm\"\n", 13,
            "leaves no edge");
}

TEST_CASE("turned bodies that cannot be made") {
  const std::string drum = part_of(
      "drum",
      "[[part.section]]\nbore = \"156 mm\"\noutside = \"168 mm\"\nfrom = \"0 mm\"\nto = \"30 mm\"\n"
      "[[part.slots]]\nland = \"152 mm\"\nbottom = \"156 mm\"\nfrom = \"0 mm\"\nto = \"20 mm\"\n"
      "slots = 12\nslot_width = \"9 mm\"\n"
      "[[part.groove]]\nid = \"ring\"\nin = \"bore\"\nland = \"156 mm\"\nbottom = \"158 mm\"\n"
      "from = \"22 mm\"\nto = \"24 mm\"\nloads = \"up\"\n");
  CHECK(complaints_of(drum).empty());
  const std::size_t groove = drum.find("[[part.groove]]");
  check_one(drum.substr(0, groove), 2, "groove is missing: this recipe needs at least one");
  check_one(with(drum, "to = \"30 mm\"", "to = \"-30 mm\""), 9,
            "from (0.00 mm) must be less than to");
  check_one(with(drum, "bore = \"156 mm\"", "bore = \"169 mm\""), 7,
            "bore (169.00 mm) must be less");
  check_one(with(drum, "\"9 mm\"", "\"50 mm\""), 17, "slot_width leaves no room: 12 slots");
  check_one(with(drum, "bottom = \"158 mm\"", "bottom = \"150 mm\""), 21,
            "land (156.00 mm) must be less than bottom (150.00 mm)");
  check_one(with(drum, "in = \"bore\"", "in = \"hole\""), 20, "in is one of bore, shaft");
  check_one(drum + drum.substr(groove), 27, "names another groove of this part");
  check_one(with(drum, "\"152 mm\"", "\"152 mm\"\ncolour = \"red\""), 13,
            "a set of slots has no figure \"colour\"");
  const std::string twice = drum.substr(0, drum.find("[[part.slots]]")) +
                            "[[part.section]]\nfeature = \"rim\"\nbore = \"160 mm\"\n"
                            "outside = \"170 mm\"\nfrom = \"10 mm\"\nto = \"40 mm\"\n" +
                            drum.substr(drum.find("[[part.slots]]"));
  check_one(twice, 6, "a ring and the rim take up the same room");
}

TEST_CASE("small parts that cannot be made") {
  const std::string springs =
      part_of("spring set", "coils = 12\ncircle = \"142 mm\"\ncoil_outside = \"5 mm\"\n"
                            "wire = \"0.72 mm\"\nturns = 7.6\nfree_height = \"16 mm\"\n"
                            "solid_height = \"5.5 mm\"\nrate_of_each = \"6 N/mm\"\n");
  CHECK(complaints_of(springs).empty());
  check_one(with(springs, "7.6", "9"), 10, "more than the solid_height (5.50 mm)");
  check_one(with(springs, "7.6", "\"many\""), 10, "turns is a number of turns");
  check_one(with(springs, "142 mm", "15 mm"), 6, "do not fit side by side");
  check_one(with(springs, "\"16 mm\"", "\"5 mm\""), 12, "must be less than free_height");
  check_one(with(springs, "6 N/mm", "6 mm"), 13, "rate_of_each: ");

  const std::string washer = part_of(
      "thrust washer", "bore = \"60 mm\"\noutside = \"76 mm\"\nthickness = \"1.6 mm\"\ntabs = 4\n"
                       "over_tabs = \"80 mm\"\ntab_width = \"8 mm\"\ntab_drop = \"1.2 mm\"\n");
  CHECK(complaints_of(washer).empty());
  check_one(with(washer, "\"8 mm\"", "\"70 mm\""), 11, "tab_width leaves no room: 4 tabs");
  check_one(with(washer, "80 mm", "70 mm"), 7, "must be less than over_tabs");

  const std::string band = part_of(
      "band",
      "applied_bore = \"168 mm\"\nrelaxed_bore = \"168.4 mm\"\nspread_bore = \"171 mm\"\n"
      "width = \"32 mm\"\nthickness = \"3.5 mm\"\nlining = \"1.7 mm\"\nwrap = \"310 deg\"\n"
      "anchor_at = \"120 deg\"\npin = \"10 mm\"\near_post = \"4 mm\"\near_height = \"5.8 mm\"\n"
      "leaning_down = \"6 mm\"\nleaning_in = \"1.5 mm\"\n");
  CHECK(complaints_of(band).empty());
  check_one(with(band, "1.7 mm", "3.5 mm"), 11, "lining (3.50 mm) must be less than thickness");
  check_one(with(band, "171 mm", "160 mm"), 8, "spread_bore is less than the bore before it");
  check_one(with(band, "310 deg", "370 deg"), 12, "is not between a quarter turn and a whole one");
  check_one(with(band, "310 deg", "355 deg"), 12, "leaves no room between the ears");
  check_one(with(band, "\"10 mm\"", "\"25 mm\""), 15, "leaves no hole for a pin");

  const std::string piston = part_of(
      "piston",
      "bore = \"78 mm\"\noutside = \"139 mm\"\nweb_thickness = \"7 mm\"\nheight = \"14 mm\"\n"
      "face_bore = \"128 mm\"\n");
  CHECK(complaints_of(piston).empty());
  check_one(with(piston, "14 mm", "6 mm"), 8, "web_thickness (7.00 mm) must be less than height");
  check_one(with(piston, "128 mm", "70 mm"), 10, "is not within bore to outside");
  check_one(piston +
                "recess_bore = \"100 mm\"\nrecess_outside = \"104 mm\"\nrecess_depth = \"8 mm\"\n",
            13, "recess_depth (8.00 mm) must be less than web_thickness");
}

} // namespace lugline::test
