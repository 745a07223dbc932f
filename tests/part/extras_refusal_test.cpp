// Hostile and mistaken extras: each slip has its own words and its own place.
#include "scene/part/extras.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <functional>
#include <limits>

using namespace lugline;
using nlohmann::json;

namespace {

json sound() {
  return json::parse(R"({
    "schema": 1, "id": "P1", "name": "plate", "kind": "steel", "material": "steel", "mass_kg": 0.2,
    "solid": {"rings": [
      {"inner_mm": 60, "outer_mm": 80, "low_mm": 0, "high_mm": 2},
      {"inner_mm": 80, "outer_mm": 84, "low_mm": 0, "high_mm": 2, "feature": "lug",
       "sectors": [{"from_deg": 0, "to_deg": 10}, {"from_deg": 90, "from_mm": -2, "to_deg": 90, "to_mm": 2}]},
      {"inner_mm": 84, "outer_mm": 86, "low_mm": 0, "high_mm": 2,
       "sectors": {"count": 6, "first_deg": 5, "span_deg": 20}}]},
    "figures": [{"name": "thickness", "value_mm": 2, "zone_low_mm": 0, "zone_high_mm": 2},
                {"name": "step", "value_mm": 1, "zone_low_mm": 0, "zone_high_mm": 1}],
    "wave": {"free_mm": 2.8, "flat_mm": 1.6, "waves": 3},
    "springs": {"free_mm": 30, "solid_mm": 18, "rate_N_per_mm": 45},
    "ring": {"in_bore": true, "free_mm": 80, "squeezed_mm": 76, "thickness_mm": 2, "width_mm": 4,
             "gap_deg": 12, "bevelled": true, "reversed_play_mm": 0.2},
    "grooves": [{"id": "g", "in_bore": true, "low_mm": 5, "high_mm": 7, "bottom_mm": 82, "land_mm": 80, "loads_up": true},
                {"id": "h", "in_bore": false, "low_mm": 5, "high_mm": 7, "bottom_mm": 20, "land_mm": 22, "loads_up": false}],
    "keys": [{"id": "k", "fits": "CASE/slot", "angle_deg": 0, "inner_mm": 80, "outer_mm": 84, "low_mm": 0, "high_mm": 2, "width_mm": 16},
             {"id": "l", "angle_deg": 36, "inner_mm": 80, "outer_mm": 84, "low_mm": 0, "high_mm": 2, "width_mm": 8}],
    "marks": [{"words": "the step faces up", "radius_mm": 70, "angle_deg": 0, "height_mm": 2}],
    "band_states": [{"id": "spread", "solid": {"rings": []}}, {"id": "relaxed", "solid": {"rings": []}}]
  })");
}

struct Slip {
  const char* what;
  std::function<void(json&)> make;
  const char* message;
};

json& ring(json& top, int index) {
  return top["solid"]["rings"][static_cast<std::size_t>(index)];
}

const double nan = std::numeric_limits<double>::quiet_NaN();
const double inf = std::numeric_limits<double>::infinity();

const std::vector<Slip> slips{
    {"no object", [](json& j) { j = 3; }, "lugline: an object was expected, read 3"},
    {"no schema", [](json& j) { j.erase("schema"); },
     "lugline: \"schema\" is missing; schema 1 is understood"},
    {"another schema", [](json& j) { j["schema"] = 2; },
     "lugline.schema: read 2, only schema 1 is understood"},
    {"a schema that is text", [](json& j) { j["schema"] = "1"; },
     "lugline.schema: read \"1\", only schema 1 is understood"},
    {"a schema that is no whole number", [](json& j) { j["schema"] = 1.0; },
     "lugline.schema: read 1.0, only schema 1 is understood"},
    {"an unknown member", [](json& j) { j["grooved"] = 1; },
     "lugline: unknown member \"grooved\" (did you mean \"grooves\"?)"},
    {"a missing member", [](json& j) { j.erase("id"); }, "lugline: \"id\" is missing"},
    {"an empty id", [](json& j) { j["id"] = ""; },
     "lugline.id: an empty name; each needs one of its own"},
    {"a number for a name", [](json& j) { j["name"] = 7; },
     "lugline.name: text was expected, read 7"},
    {"a name that a terminal would obey", [](json& j) { j["name"] = "plate\x1b[2J"; },
     "lugline.name: text with a control character or a line's end in it"},
    {"a name of two lines", [](json& j) { j["name"] = "plate\nsound"; },
     "lugline.name: text with a control character or a line's end in it"},
    {"a very long name", [](json& j) { j["name"] = std::string(5000, 'x'); },
     "lugline.name: text of 5000 bytes, at most 1024 are read"},
    {"an unknown kind", [](json& j) { j["kind"] = "frictoin"; },
     "lugline.kind: unknown kind \"frictoin\" (did you mean \"friction\"?)"},
    {"a mass below nothing", [](json& j) { j["mass_kg"] = -1; },
     "lugline.mass_kg: read -1, expected no less than 0 kg"},
    {"a mass that is not finite", [](json& j) { j["mass_kg"] = nan; },
     "lugline.mass_kg: a number that is not finite"},
    {"text for a number", [](json& j) { j["mass_kg"] = "heavy"; },
     "lugline.mass_kg: a number was expected, read \"heavy\""},
    {"no solid", [](json& j) { j.erase("solid"); }, "lugline: \"solid\" is missing"},
    {"rings that are no list", [](json& j) { j["solid"]["rings"] = json::object(); },
     "lugline.solid.rings: a list was expected, read an object"},
    {"a ring that is no object", [](json& j) { ring(j, 0) = json::array(); },
     "lugline.solid.rings[0]: an object was expected, read a list"},
    {"a ring with no thickness", [](json& j) { ring(j, 0)["high_mm"] = 0; },
     "lugline.solid.rings[0]: high_mm (0) must be more than low_mm (0)"},
    {"a ring with no width", [](json& j) { ring(j, 0)["outer_mm"] = 60; },
     "lugline.solid.rings[0]: outer_mm (60) must be more than inner_mm (60)"},
    {"a radius below nothing", [](json& j) { ring(j, 0)["inner_mm"] = -1; },
     "lugline.solid.rings[0].inner_mm: read -1, expected no less than 0 mm"},
    {"a length that is not finite", [](json& j) { ring(j, 0)["outer_mm"] = inf; },
     "lugline.solid.rings[0].outer_mm: a number that is not finite"},
    {"a length beyond all sense", [](json& j) { ring(j, 0)["outer_mm"] = 1e9; },
     "lugline.solid.rings[0].outer_mm: read 1000000000.0, expected within 1000000.0 mm either way"},
    {"an angle beyond all sense", [](json& j) { ring(j, 1)["sectors"][0]["to_deg"] = 1e9; },
     "lugline.solid.rings[1].sectors[0].to_deg: read 1000000000.0, expected within 36000.0 deg "
     "either way"},
    {"no sectors at all", [](json& j) { ring(j, 1)["sectors"] = json::array(); },
     "lugline.solid.rings[1].sectors: an empty list; leave \"sectors\" out where the ring goes all "
     "round"},
    {"sectors that are neither", [](json& j) { ring(j, 1)["sectors"] = 4; },
     "lugline.solid.rings[1].sectors: a list of sectors, or one repeated sector, was expected, "
     "read 4"},
    {"a sector that ends before it begins",
     [](json& j) { ring(j, 1)["sectors"][0]["to_deg"] = -1; },
     "lugline.solid.rings[1].sectors[0]: at the inner radius the sector ends before it begins"},
    {"a sector of a full turn", [](json& j) { ring(j, 1)["sectors"][0]["to_deg"] = 360; },
     "lugline.solid.rings[1].sectors[0]: at the inner radius the sector is a full turn or more"},
    {"sectors that overlap", [](json& j) { ring(j, 1)["sectors"][0]["to_deg"] = 89; },
     "lugline.solid.rings[1].sectors[0]: at the inner radius it runs into the next sector; sectors "
     "stand "
     "apart, by rising angle"},
    {"sectors that overlap at their tips alone",
     [](json& j) {
       // Flanks that lean towards each other: 2 degrees apart at the inner radius, crossed at the
       // outer.
       ring(j, 1)["outer_mm"] = 200;
       ring(j, 1)["sectors"] = json::parse(
           R"([{"from_deg": 0, "to_deg": 60, "to_mm": -40}, {"from_deg": 32, "to_deg": 70}])");
     },
     "lugline.solid.rings[1].sectors[0]: at the outer radius it runs into the next sector; sectors "
     "stand "
     "apart, by rising angle"},
    {"sectors that overlap across 12 o'clock",
     [](json& j) { ring(j, 1)["sectors"][0]["from_deg"] = -300; },
     "lugline.solid.rings[1].sectors[1]: at the inner radius it runs into the first sector, a turn "
     "on; "
     "sectors stand apart, by rising angle"},
    {"a flank that misses the ring", [](json& j) { ring(j, 1)["sectors"][1]["to_mm"] = 81; },
     "lugline.solid.rings[1].sectors[1]: a flank 81.0 mm off its centre line never reaches the "
     "inner "
     "radius of 80.0 mm"},
    {"a repeated sector that overlaps itself",
     [](json& j) { ring(j, 2)["sectors"]["span_deg"] = 61; },
     "lugline.solid.rings[2].sectors[0]: at the inner radius it runs into the next sector; sectors "
     "stand "
     "apart, by rising angle"},
    {"a repeated sector of none", [](json& j) { ring(j, 2)["sectors"]["count"] = 0; },
     "lugline.solid.rings[2].sectors.count: read 0, expected 1 to 4096"},
    {"a repeated sector of far too many",
     [](json& j) { ring(j, 2)["sectors"]["count"] = 18446744073709551615u; },
     "lugline.solid.rings[2].sectors.count: read 18446744073709551615, expected 1 to 4096"},
    {"half a sector", [](json& j) { ring(j, 2)["sectors"]["count"] = 2.5; },
     "lugline.solid.rings[2].sectors.count: a whole number was expected, read 2.5"},
    {"a figure's zone upside down", [](json& j) { j["figures"][0]["zone_low_mm"] = 3; },
     "lugline.figures[0]: zone_high_mm (2) must be no less than zone_low_mm (3)"},
    {"a figure named twice", [](json& j) { j["figures"][1]["name"] = "thickness"; },
     "lugline.figures[1]: the name \"thickness\" stands twice"},
    {"figures that are no list", [](json& j) { j["figures"] = 1; },
     "lugline.figures: a list was expected, read 1"},
    {"a wave flat above its free height", [](json& j) { j["wave"]["flat_mm"] = 3; },
     "lugline.wave: free_mm (2.8) must be no less than flat_mm (3)"},
    {"waves below nothing", [](json& j) { j["wave"]["waves"] = -1; },
     "lugline.wave.waves: read -1, expected 0 to 1024"},
    {"a wave of no height", [](json& j) { j["wave"]["flat_mm"] = 0; },
     "lugline.wave.flat_mm: read 0, expected more than 0 mm"},
    {"springs longer solid than free", [](json& j) { j["springs"]["solid_mm"] = 40; },
     "lugline.springs: free_mm (30) must be no less than solid_mm (40)"},
    {"springs of no rate", [](json& j) { j["springs"]["rate_N_per_mm"] = 0; },
     "lugline.springs.rate_N_per_mm: read 0, expected more than 0 N/mm"},
    {"springs of a boundless rate", [](json& j) { j["springs"]["rate_N_per_mm"] = 1e308; },
     "lugline.springs.rate_N_per_mm: read 1e+308, expected more than 0 N/mm"},
    {"a bore ring larger squeezed", [](json& j) { j["ring"]["squeezed_mm"] = 81; },
     "lugline.ring: free_mm (80) must be no less than squeezed_mm (81)"},
    {"a shaft ring smaller spread", [](json& j) { j["ring"]["in_bore"] = false; },
     "lugline.ring: squeezed_mm (76) must be no less than free_mm (80)"},
    {"a ring that is all gap", [](json& j) { j["ring"]["gap_deg"] = 360; },
     "lugline.ring.gap_deg: read 360, expected from 0 to below 360 deg"},
    {"a waved ring lower than it is thick",
     [](json& j) {
       j["ring"]["bevelled"] = false;
       j["ring"]["free_height_mm"] = 1.5;
     },
     "lugline.ring: free_height_mm (1.5) must be no less than thickness_mm (2)"},
    {"a ring both bevelled and waved", [](json& j) { j["ring"]["free_height_mm"] = 2.6; },
     "lugline.ring.free_height_mm: a ring is bevelled or waved, not both"},
    {"a word for yes", [](json& j) { j["ring"]["bevelled"] = "yes"; },
     "lugline.ring.bevelled: true or false was expected, read \"yes\""},
    {"a groove of no height", [](json& j) { j["grooves"][0]["high_mm"] = 5; },
     "lugline.grooves[0]: high_mm (5) must be more than low_mm (5)"},
    {"a bore's groove cut inward", [](json& j) { j["grooves"][0]["bottom_mm"] = 79; },
     "lugline.grooves[0]: bottom_mm (79) must be more than land_mm (80)"},
    {"a shaft's groove cut outward", [](json& j) { j["grooves"][1]["bottom_mm"] = 23; },
     "lugline.grooves[1]: land_mm (22) must be more than bottom_mm (23)"},
    {"a groove named twice", [](json& j) { j["grooves"][1]["id"] = "g"; },
     "lugline.grooves[1]: the name \"g\" stands twice"},
    {"a key of no width", [](json& j) { j["keys"][0]["width_mm"] = 0; },
     "lugline.keys[0].width_mm: read 0, expected more than 0 mm"},
    {"a key named twice", [](json& j) { j["keys"][1]["id"] = "k"; },
     "lugline.keys[1]: the name \"k\" stands twice"},
    {"a mark without words", [](json& j) { j["marks"][0].erase("words"); },
     "lugline.marks[0]: \"words\" is missing"},
    {"a band state named twice", [](json& j) { j["band_states"][1]["id"] = "spread"; },
     "lugline.band_states[1]: the name \"spread\" stands twice"},
    {"a bad ring in a band state",
     [](json& j) { j["band_states"][1]["solid"]["rings"] = json::parse(R"([{"inner_mm": 1}])"); },
     "lugline.band_states[1].solid.rings[0]: \"outer_mm\" is missing"},
    {"too many keys",
     [](json& j) {
       const json one = j["keys"][0];
       j["keys"] = json(2000, one);
     },
     "lugline.keys: 2000 entries, at most 1024 are read"},
    {"too many rings",
     [](json& j) {
       const json one = ring(j, 0);
       j["solid"]["rings"] = json(5000, one);
     },
     "lugline.solid.rings[4096]: more than 4096 rings in one component"},
    {"too many listed sectors",
     [](json& j) {
       const json one = ring(j, 1)["sectors"][0];
       ring(j, 1)["sectors"] = json(5000, one);
     },
     "lugline.solid.rings[1].sectors: 5000 sectors in one ring, at most 4096 are read"},
    {"a small file that asks for a great many sectors",
     [](json& j) {
       json one = ring(j, 2);
       one["sectors"] = {{"count", 4096}, {"first_deg", 0}, {"span_deg", 0.05}};
       j["solid"]["rings"] = json(4000, one);
     },
     "lugline.solid.rings[16].sectors: more than 65536 sectors in one component"},
};

} // namespace

TEST_CASE("the sound extras that the slips start from are read") {
  const Outcome<Component> read = component_from_extras(sound());
  INFO((read ? "" : read.problem()));
  REQUIRE(read.ok());
  CHECK(read.value().solid.rings.size() == 3);
  CHECK(read.value().solid.rings[2].sectors.size() == 6);
  CHECK(read.value().keys.size() == 2);
}

TEST_CASE("each slip in extras has its own words") {
  for (const Slip& slip : slips) {
    json extras = sound();
    slip.make(extras);
    const Outcome<Component> read = component_from_extras(extras);
    CAPTURE(slip.what);
    REQUIRE_FALSE(read.ok());
    CHECK(read.problem() == slip.message);
  }
}

TEST_CASE("every required member is missed by name") {
  const json whole = sound();
  const std::vector<std::string> optional{"figures", "wave",  "springs",     "ring",  "grooves",
                                          "keys",    "marks", "band_states", "schema"};
  for (const auto& [name, value] : whole.items()) {
    json extras = whole;
    extras.erase(name);
    const Outcome<Component> read = component_from_extras(extras);
    CAPTURE(name);
    if (std::find(optional.begin(), optional.end(), name) != optional.end() && name != "schema") {
      CHECK(read.ok());
    } else {
      REQUIRE_FALSE(read.ok());
      CHECK(read.problem().find("\"" + name + "\" is missing") != std::string::npos);
    }
  }
}

TEST_CASE("a name full of stray bytes is quoted safely") {
  json extras = sound();
  extras["kind"] = std::string("\xff\xfe\n<b>");
  const Outcome<Component> read = component_from_extras(extras);
  REQUIRE_FALSE(read.ok());
  for (const char c : read.problem()) {
    CHECK(static_cast<unsigned char>(c) >= 0x20);
    CHECK(static_cast<unsigned char>(c) < 0x7f);
  }
}

TEST_CASE("extras nested without end are refused and not followed") {
  const std::string deep = R"({"lugline":{"schema":1,"solid":)" + std::string(200000, '[') +
                           std::string(200000, ']') + "}}";
  const auto read = component_from_extras_text(deep);
  CHECK_FALSE(read.ok());
}
