// The gear train of unit.toml: what is read, and what is refused where.
#include "tests/load/unit_folder.h"

#include <catch2/catch.hpp>

#include <numbers>

using namespace lugline;
using namespace lugline::test;

namespace {

/// Invented: a set with its carrier driven, its sun held by a band or a one-way clutch, and a
/// clutch that closes it to a block.
constexpr const char* small_train = R"(
[train]
input = "in"
output = "out"
seen_from = "pump end"
engine = "clockwise"
mesh_efficiency = 0.98
fluid_density = "0.85 kg/L"

[[member]]
id = "in"
name = "Input"
parts = ["HUB", "ST"]

[[member]]
id = "mid"
parts = ["FR1", "FR2"]

[[member]]
id = "out"

[[planetary]]
id = "gears"
kind = "single pinion"
sun = "mid"
carrier = "in"
ring = "out"
sun_teeth = 30
pinion_teeth = 20
ring_teeth = 70
pinions = 4

[[element]]
id = "C1"
name = "Clutch"
kind = "clutch"
of = "in"
to = "mid"
pack = "CC"
parts = ["PST", "ST"]
piston = { outer = "90 mm", inner = "44 mm" }
springs = { count = 10, rate = "5 N/mm", free = "20 mm", fitted = "14 mm", solid = "9 mm" }
most_stroke = "4 mm"
friction = 0.13
surfaces = 4
lining = { outer = "88 mm", inner = "50 mm" }
fluid_surface = "40 mm"
air_volume = "20 mL"
good_hold = "0.1 min"

[[element]]
id = "B1"
kind = "band"
of = "mid"
piston = { outer = "40 mm" }
spring_force = "100 N"
friction = 0.12
drum = "150 mm"
wrap = "330 deg"
lever = 1.5
stroke = "3 mm"
tightens = "counter-clockwise"

[[element]]
id = "F1"
kind = "one-way clutch"
of = "mid"
to = "case"
free = "clockwise"
rated_torque = "200 N m"

[[range]]
id = "N"
on = []
neutral = true

[[range]]
id = "low"
name = "Low"
on = ["B1"]
ratio = 0.7
  [[range.duty]]
  name = "stall"
  input_torque = "100 N m"
  line_pressure = "1 MPa"
  [[range.duty]]
  name = "coast"
  input_torque = "-20 N m"
  line_pressure = "0.5 MPa"

[[range]]
id = "high"
on = ["C1"]

[air]
test = "0.25 MPa"
limit = "0.3 MPa"
floor = "0.1 MPa"
)";

LoadReport load_train() {
  UnitFolder folder;
  folder.unit += small_train;
  return folder.load();
}

struct Spoilt {
  const char* was;
  const char* now;
  const char* at; ///< the line on which the finding must stand
  const char* words;
};

LoadReport spoil(const Spoilt& spoilt, std::string& unit) {
  UnitFolder folder;
  folder.unit += small_train;
  folder.change_unit(spoilt.was, spoilt.now);
  unit = folder.unit;
  return folder.load();
}

void complaints(const std::vector<Spoilt>& all) {
  for (const Spoilt& spoilt : all) {
    std::string unit;
    const LoadReport report = spoil(spoilt, unit);
    INFO(spoilt.was << " -> " << spoilt.now << "\n" << text_of(report));
    CHECK(report.unit == nullptr);
    CHECK(report.complaints.size() == 1);
    CHECK(found(report.complaints, "unit.toml", line_of(unit, spoilt.at), spoilt.words));
  }
}

void questions(const std::vector<Spoilt>& all) {
  for (const Spoilt& spoilt : all) {
    std::string unit;
    const LoadReport report = spoil(spoilt, unit);
    INFO(spoilt.was << " -> " << spoilt.now << "\n" << text_of(report));
    CHECK(report.unit != nullptr);
    CHECK(found(report.questions, "unit.toml", line_of(unit, spoilt.at), spoilt.words));
  }
}

} // namespace

TEST_CASE("a unit that states no gear train has none") {
  UnitFolder folder;
  const LoadReport report = folder.load();
  REQUIRE(report.unit != nullptr);
  CHECK_FALSE(report.unit->drive.has_value());
}

TEST_CASE("a gear train is read whole, in SI") {
  UnitFolder folder;
  folder.unit += small_train;
  const LoadReport report = folder.load();
  INFO(text_of(report));
  REQUIRE(report.unit != nullptr);
  CHECK(report.questions.empty());
  REQUIRE(report.unit->drive.has_value());
  const Drive& drive = *report.unit->drive;
  CHECK(drive.input == "in");
  CHECK(drive.output == "out");
  CHECK(drive.engine_clockwise);
  CHECK(drive.mesh_efficiency == 0.98);
  CHECK(drive.fluid_kg_per_m3 == 850);
  CHECK(drive.source.line == line_of(folder.unit, "[train]"));

  REQUIRE(drive.members.size() == 3);
  CHECK(drive.members[0].name == "Input");
  CHECK(drive.members[1].name == "mid");
  // A line of several pieces stands for all of them.
  CHECK(drive.members[0].parts == std::vector<std::string>{"HUB", "ST1", "ST2"});
  CHECK(drive.members[0].source.line == line_of(folder.unit, "id = \"in\"") - 1);

  REQUIRE(drive.sets.size() == 1);
  const PlanetarySet& set = drive.sets[0];
  CHECK(set.kind == PlanetaryKind::single_pinion);
  CHECK((set.sun == "mid" && set.carrier == "in" && set.ring == "out"));
  CHECK((set.sun_teeth == 30 && set.pinion_teeth == 20 && set.ring_teeth == 70));
  CHECK((set.outer_pinion_teeth == 0 && set.pinions == 4));
}

TEST_CASE("what holds a gear train is read whole, in SI") {
  const LoadReport report = load_train();
  REQUIRE(report.unit != nullptr);
  const Drive& drive = *report.unit->drive;
  REQUIRE(drive.elements.size() == 3);
  const DriveElement& clutch = drive.elements[0];
  CHECK(clutch.kind == ElementKind::clutch);
  CHECK((clutch.of == "in" && clutch.to == "mid" && clutch.pack == "CC"));
  CHECK(clutch.parts == std::vector<std::string>{"PST", "ST1", "ST2"});
  REQUIRE(clutch.piston.has_value());
  CHECK((clutch.piston->outer_m == Approx(0.09) && clutch.piston->inner_m == Approx(0.044)));
  REQUIRE(clutch.springs.has_value());
  CHECK((clutch.springs->count == 10 && clutch.springs->rate_N_per_m == 5000));
  CHECK(clutch.springs->free_m == Approx(0.02));
  CHECK(clutch.springs->fitted_m == Approx(0.014));
  CHECK(clutch.springs->solid_m == Approx(0.009));
  CHECK(clutch.spring_force_N == 0);
  CHECK(clutch.most_stroke_m == Approx(0.004));
  CHECK((clutch.friction == 0.13 && clutch.surfaces == 4));
  CHECK((clutch.lining_outer_m == Approx(0.088) && clutch.lining_inner_m == Approx(0.05)));
  CHECK(clutch.fluid_centre_m == Approx(0.04));
  CHECK(clutch.air_volume_m3 == Approx(20e-6));
  CHECK(clutch.good_hold_s == Approx(6));
  CHECK_FALSE(clutch.rated_Nm.has_value());

  const DriveElement& band = drive.elements[1];
  CHECK(band.kind == ElementKind::band);
  CHECK((band.of == "mid" && band.to == "case"));
  REQUIRE(band.piston.has_value());
  CHECK((band.piston->outer_m == Approx(0.04) && band.piston->inner_m == 0));
  CHECK(band.spring_force_N == 100);
  CHECK(band.drum_m == Approx(0.15));
  CHECK(band.wrap_rad == Approx(330 * std::numbers::pi / 180));
  CHECK(band.lever == 1.5);
  CHECK(band.stroke_m == Approx(0.003));
  CHECK_FALSE(band.tightens_clockwise);

  const DriveElement& one_way = drive.elements[2];
  CHECK(one_way.kind == ElementKind::one_way_clutch);
  CHECK(one_way.free_clockwise);
  CHECK(one_way.rated_Nm == 200.0);
}

TEST_CASE("ranges and bench air are read, in SI") {
  const LoadReport report = load_train();
  REQUIRE(report.unit != nullptr);
  const Drive& drive = *report.unit->drive;
  REQUIRE(drive.ranges.size() == 3);
  CHECK((drive.ranges[0].neutral && !drive.ranges[0].ratio && drive.ranges[0].on.empty()));
  const DriveRange& low = drive.ranges[1];
  CHECK((low.name == "Low" && low.ratio == 0.7 && !low.neutral));
  CHECK(low.on == std::vector<std::string>{"B1"});
  REQUIRE(low.duties.size() == 2);
  CHECK((low.duties[0].name == "stall" && low.duties[0].input_Nm == 100));
  CHECK(low.duties[0].line_Pa == 1e6);
  CHECK(low.duties[1].input_Nm == -20);
  REQUIRE(drive.air.has_value());
  CHECK(drive.air->test_Pa == Approx(0.25e6));
  CHECK(drive.air->limit_Pa == Approx(0.3e6));
  CHECK(drive.air->floor_Pa == Approx(0.1e6));
}

TEST_CASE("a misspelt member, element or pack of a train is told with the nearest") {
  complaints({
      {"input = \"in\"", "input = \"inn\"", "input = \"inn\"", "'in'"},
      {"output = \"out\"", "output = \"uot\"", "output = \"uot\"", "'out'"},
      {"sun = \"mid\"", "sun = \"mdi\"", "sun = \"mdi\"", "'mid'"},
      {"ring = \"out\"", "ring = \"outt\"", "ring = \"outt\"", "'out'"},
      {"carrier = \"in\"", "carrier = \"im\"", "carrier = \"im\"", "in, mid, out and case"},
      {"of = \"in\"", "of = \"ni\"", "of = \"ni\"", "no such member"},
      {"to = \"case\"\nfree", "to = \"csae\"\nfree", "csae", "'case'"},
      {"pack = \"CC\"", "pack = \"CD\"", "pack = \"CD\"", "the packs are CC"},
      {"on = [\"B1\"]", "on = [\"B2\"]", "on = [\"B2\"]", "C1, B1 and F1"},
      {"parts = [\"FR1\", \"FR2\"]\n\n[[member]]", "parts = [\"FR1\", \"FR9\"]\n\n[[member]]",
       "FR9", "no such component"},
  });
}

TEST_CASE("what a train's tables cannot do without is told") {
  complaints({
      {"input = \"in\"\n", "", "[train]", "input is missing"},
      {"output = \"out\"\n", "", "[train]", "output is missing"},
      {"output = \"out\"", "output = \"\"", "output = \"\"", "output is empty"},
      {"input = \"in\"", "input = 5", "input = 5", "a text in quotes"},
      {"seen_from = \"pump end\"\n", "", "[train]", "the end that it is seen from"},
      {"engine = \"clockwise\"\n", "", "[train]", "engine is missing"},
      {"kind = \"single pinion\"\n", "", "[[planetary]]", "kind is missing"},
      {"carrier = \"in\"\n", "", "[[planetary]]", "carrier is missing"},
      {"sun_teeth = 30\n", "", "[[planetary]]", "sun_teeth is missing"},
      {"ring_teeth = 70\n", "", "[[planetary]]", "ring_teeth is missing"},
      {"of = \"in\"\n", "", "[[element]]", "of is missing"},
      {"tightens = \"counter-clockwise\"\n", "", "[[element]]\nid = \"B1\"", "tightens is missing"},
      {"free = \"clockwise\"\n", "", "[[element]]\nid = \"F1\"", "free is missing"},
      {"on = []\n", "", "[[range]]\nid = \"N\"", "on = [] where none is"},
      {"  input_torque = \"100 N m\"\n", "", "[[range.duty]]\n  name = \"stall\"",
       "input_torque is missing"},
      {"  line_pressure = \"1 MPa\"\n", "", "[[range.duty]]\n  name = \"stall\"",
       "line_pressure is missing"},
      {"limit = \"0.3 MPa\"\n", "", "[air]", "limit is missing"},
      {"rate = \"5 N/mm\", ", "", "springs =", "rate is missing"},
      {"{ outer = \"40 mm\" }", "{ }", "piston = { }", "outer is missing"},
  });
}

TEST_CASE("a train without its own table is told once") {
  UnitFolder folder;
  folder.unit += "[[member]]\nid = \"in\"\n";
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(report.complaints.size() == 1);
  CHECK(found(report.complaints, "unit.toml", 0, "no [train]"));
}

TEST_CASE("gears that cannot be are told, and gears that seldom are, asked about") {
  complaints({
      {"sun = \"mid\"\ncarrier = \"in\"\nring = \"out\"\nsun_teeth = 30\npinion_teeth = "
       "20\nring_teeth = 70\n",
       "carrier = \"in\"\n", "[[planetary]]", "neither a sun nor a ring"},
      {"sun = \"mid\"", "sun = \"out\"", "ring = \"out\"", "are one member"},
      {"ring_teeth = 70", "ring_teeth = 30", "ring_teeth = 30", "would not go into it"},
      {"sun_teeth = 30", "sun_teeth = 4", "sun_teeth = 4", "5 to 500"},
      {"pinion_teeth = 20\nring", "outer_pinion_teeth = 20\nring", "outer_pinion_teeth",
       "of no use"},
      {"sun = \"mid\"\n", "", "sun_teeth = 30", "there is no sun"},
  });
  questions({
      {"ring_teeth = 70", "ring_teeth = 74", "ring_teeth = 74", "sun + 2 x pinion is 70"},
      {"pinions = 4", "pinions = 3", "pinions = 3", "no multiple of its 3"},
  });
}

TEST_CASE("double and stepped pinions are held to rules of their own") {
  std::string unit;
  // 70 - 30 = 40 teeth and 5 pinions: equal angles; 30 + 2 x 20 is no rule for them.
  const LoadReport two =
      spoil({"kind = \"single pinion\"\nsun = \"mid\"\ncarrier = \"in\"\nring = \"out\"\n"
             "sun_teeth = 30\npinion_teeth = 20\nring_teeth = 70\npinions = 4",
             "kind = \"double pinion\"\nsun = \"mid\"\ncarrier = \"in\"\nring = \"out\"\n"
             "sun_teeth = 30\npinion_teeth = 18\nring_teeth = 70\npinions = 5",
             "", ""},
            unit);
  INFO(text_of(two));
  CHECK(two.unit != nullptr);
  CHECK(two.questions.empty());
  const LoadReport uneven =
      spoil({"kind = \"single pinion\"\nsun = \"mid\"\ncarrier = \"in\"\nring = \"out\"\n"
             "sun_teeth = 30\npinion_teeth = 20\nring_teeth = 70\npinions = 4",
             "kind = \"double pinion\"\nsun = \"mid\"\ncarrier = \"in\"\nring = \"out\"\n"
             "sun_teeth = 30\nring_teeth = 70\npinions = 3",
             "", ""},
            unit);
  CHECK(found(uneven.questions, "unit.toml", line_of(unit, "pinions = 3"),
              "ring - sun, 40, is no multiple of its 3"));
  const LoadReport stepped =
      spoil({"kind = \"single pinion\"", "kind = \"stepped pinion\"", "", ""}, unit);
  INFO(text_of(stepped));
  CHECK(stepped.unit == nullptr);
  CHECK(found(stepped.complaints, "unit.toml", line_of(unit, "[[planetary]]"),
              "outer_pinion_teeth is missing"));
}

TEST_CASE("an element that holds nothing to nothing is told") {
  complaints({
      {"to = \"mid\"", "to = \"in\"", "to = \"in\"", "joins 'in' to itself"},
      {"of = \"mid\"\nto = \"case\"", "of = \"case\"\nto = \"mid\"", "of = \"case\"",
       "the direction is then that member's"},
      {"of = \"mid\"\npiston", "of = \"mid\"\nto = \"in\"\npiston", "to = \"in\"",
       "a band holds to the case"},
      {"id = \"mid\"\nparts", "id = \"mid\"\nname = \"\"\nparts = [\"HUB\"]\n#",
       "parts = [\"HUB\"]", "turns with member 'in'"},
  });
}

TEST_CASE("the case is never declared, drives nothing and is not driven") {
  complaints({
      {"[[member]]\nid = \"out\"\n", "[[member]]\nid = \"out\"\n[[member]]\nid = \"case\"\n",
       "id = \"case\"", "leave this [[member]] out"},
      {"input = \"in\"", "input = \"case\"", "input = \"case\"", "stands still"},
      {"output = \"out\"", "output = \"in\"", "output = \"in\"", "one member"},
  });
}

TEST_CASE("ids that stand twice in a train are told") {
  complaints({
      {"id = \"high\"", "id = \"low\"", "id = \"low\"\non = [\"C1\"]", "'low' is there already"},
      {"[[range]]\nid = \"N\"",
       "[[planetary]]\nid = \"gears\"\nkind = \"single pinion\"\nsun = "
       "\"mid\"\ncarrier = \"in\"\nsun_teeth = 30\n[[range]]\nid = \"N\"",
       "id = \"gears\"\nkind = \"single pinion\"\nsun = \"mid\"\ncarrier = \"in\"\nsun_teeth = "
       "30\n[[range]]",
       "'gears' is there already"},
      {"[[member]]\nid = \"out\"\n", "[[member]]\nid = \"out\"\n\n[[member]]\nid = \"mid\"\n",
       "id = \"mid\"\n\n[[planetary]]", "'mid' is there already"},
  });
}

TEST_CASE("a range that applies what cannot be applied is told") {
  complaints({
      {"on = [\"C1\"]", "on = [\"F1\"]", "on = [\"F1\"]", "hold by themselves"},
      {"on = [\"C1\"]", "on = [\"C1\", \"C1\"]", "on = [\"C1\", \"C1\"]", "twice"},
      {"ratio = 0.7", "ratio = 0", "ratio = 0", "a ratio of nothing"},
      {"ratio = 0.7", "ratio = 0.7\nneutral = true", "neutral = true\n  [[range.duty]]",
       "that it is neutral"},
      {"name = \"coast\"", "name = \"stall\"", "name = \"stall\"\n  input_torque = \"-20 N m\"",
       "a duty of that name"},
  });
}

TEST_CASE("a figure of a train outside its bounds, or in no unit, is told") {
  complaints({
      {"outer = \"90 mm\", inner = \"44 mm\"", "outer = \"44 mm\", inner = \"90 mm\"",
       "inner = \"90 mm\"", "not smaller"},
      {"outer = \"90 mm\"", "outer = \"90 m\"", "90 m\"", "beyond"},
      {"outer = \"90 mm\"", "outer = 90", "outer = 90", "bare number"},
      {"outer = \"88 mm\"", "outer = \"0 mm\"", "outer = \"0 mm\"", "not above nothing"},
      {"fitted = \"14 mm\"", "fitted = \"24 mm\"", "24 mm", "longer than free"},
      {"solid = \"9 mm\"", "solid = \"15 mm\"", "15 mm", "would not go in"},
      {"most_stroke = \"4 mm\"", "most_stroke = \"6 mm\"", "most_stroke = ", "solid after 5.00 mm"},
      {"spring_force = \"100 N\"", "spring_force = \"-100 N\"", "-100 N", "is negative"},
      {"spring_force = \"100 N\"", "spring_force = \"100 N/mm\"", "100 N/mm", "force"},
      {"friction = 0.13", "friction = 13", "friction = 13", "outside"},
      {"fluid_surface = \"40 mm\"", "fluid_surface = \"95 mm\"", "95 mm", "not inside"},
      {"wrap = \"330 deg\"", "wrap = \"3300 deg\"", "3300", "beyond 5 turns"},
      {"lever = 1.5", "lever = 0", "lever = 0", "outside"},
      {"rated_torque = \"200 N m\"", "rated_torque = \"0 N m\"", "\"0 N m\"", "not above nothing"},
      {"air_volume = \"20 mL\"", "air_volume = \"20 mm\"", "20 mm\"\ngood", "volume"},
      {"air_volume = \"20 mL\"", "air_volume = \"200 L\"", "200 L", "beyond 20 L"},
      {"good_hold = \"0.1 min\"", "good_hold = \"6\"", "good_hold = \"6\"", "bare number"},
      {"fluid_density = \"0.85 kg/L\"", "fluid_density = \"0.85 kg/m3\"", "0.85 kg/m3",
       "another unit?"},
      {"line_pressure = \"1 MPa\"", "line_pressure = \"150 MPa\"", "150 MPa", "beyond 10 MPa"},
      {"input_torque = \"100 N m\"", "input_torque = \"1000 kN m\"", "1000 kN m", "another unit?"},
      {"test = \"0.25 MPa\"", "test = \"25 bar\"", "25 bar", "beyond 1 MPa"},
      {"mesh_efficiency = 0.98", "mesh_efficiency = 98", "mesh_efficiency", "outside"},
  });
}

TEST_CASE("a test pressure above the limit is refused") {
  complaints({
      {"test = \"0.25 MPa\"", "test = \"0.35 MPa\"", "0.35 MPa", "above the limit, 300 kPa"},
      {"floor = \"0.1 MPa\"", "floor = \"0.25 MPa\"", "floor = ", "not below the test pressure"},
  });
}

TEST_CASE("a key or a word that a train does not know is told with the nearest") {
  complaints({
      {"seen_from = \"pump end\"", "seen_from = \"rear end\"", "rear end", "pump end"},
      {"engine = \"clockwise\"", "engine = \"right\"", "right", "no direction"},
      {"kind = \"single pinion\"", "kind = \"single pinon\"", "pinon", "'single pinion'"},
      {"kind = \"one-way clutch\"", "kind = \"oneway clutch\"", "oneway", "'one-way clutch'"},
      {"drum = \"150 mm\"", "drumm = \"150 mm\"", "drumm", "'drum'"},
      {"tightens = \"counter-clockwise\"", "tightens = \"anticlockwise\"", "anticlockwise",
       "no direction"},
      {"surfaces = 4", "surfaces = 4\nwrap = \"300 deg\"", "wrap = \"300 deg\"",
       "of no use to a clutch"},
      {"drum = \"150 mm\"", "drum = \"150 mm\"\nsurfaces = 2", "surfaces = 2",
       "of no use to a band"},
      {"rated_torque = \"200 N m\"", "rated_torque = \"200 N m\"\npiston = { outer = \"9 mm\" }",
       "piston = { outer = \"9 mm\"", "of no use to a one-way clutch"},
      {"[air]\n", "[air]\nholds = \"1 s\"\n", "holds", "unknown key 'holds'"},
      {"spring_force = \"100 N\"",
       "spring_force = \"100 N\"\nsprings = { count = 1, rate = \"1 N/mm\", free = \"20 mm\", "
       "fitted = \"10 mm\" }",
       "spring_force = ", "which of them?"},
  });
}

TEST_CASE("what is odd in a train is asked about") {
  questions({
      {"surfaces = 4", "surfaces = 8", "surfaces = 8", "have 4 faces"},
      {"[[planetary]]", "[[member]]\nid = \"loose\"\n[[planetary]]", "id = \"loose\"",
       "no planetary set and no element touches it"},
  });
}

TEST_CASE("a check by air names elements that have pistons, and a unit that states its air") {
  const auto with_step = [](const std::string& keys, const std::string& train) {
    UnitFolder folder;
    folder.unit += train;
    folder.sequence += "\n[[step]]\nid = \"blow\"\nplace = \"bench\"\ndo = \"Blow.\"\n"
                       "caution = \"Air.\"\n" +
                       keys;
    return folder.load();
  };
  const std::string check = "kind = \"check\"\nby = \"air\"\n";
  const LoadReport sound = with_step(check + "elements = [\"C1\", \"B1\"]\n", small_train);
  INFO(text_of(sound));
  REQUIRE(sound.unit != nullptr);
  CHECK(sound.unit->step("blow")->elements == std::vector<std::string>{"C1", "B1"});
  const auto complaint = [&](const std::string& keys, const std::string& train,
                             const std::string& words) {
    const LoadReport report = with_step(keys, train);
    INFO(text_of(report));
    CHECK(report.unit == nullptr);
    CHECK(report.complaints.size() == 1);
    CHECK(found(report.complaints, "sequence.toml", 0, words));
  };
  complaint(check + "elements = [\"C9\"]\n", small_train, "the elements are C1, B1 and F1");
  complaint(check + "elements = [\"F1\"]\n", small_train, "no piston is stated");
  complaint(check + "elements = [\"C1\"]\n", "", "no such element");
  complaint("kind = \"check\"\nby = \"hand\"\nelements = [\"C1\"]\n", small_train,
            "for a check by air");
  complaint("kind = \"note\"\nelements = [\"C1\"]\n", small_train, "for a check by air");
  const std::string no_air =
      std::string(small_train).substr(0, std::string(small_train).find("[air]"));
  complaint(check + "elements = [\"C1\"]\n", no_air, "unit.toml states none");
}

TEST_CASE("two clutches with one pack are told") {
  std::string unit;
  const LoadReport report = spoil({"[[range]]\nid = \"N\"",
                                   "[[element]]\nid = \"C2\"\nkind = \"clutch\"\nof = \"in\"\nto = "
                                   "\"out\"\npack = \"CC\"\n[[range]]\nid = \"N\"",
                                   "", ""},
                                  unit);
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", line_of(unit, "id = \"C2\"") + 4,
              "that of element 'C1' as well"));
}

TEST_CASE("more tables than any train has are refused unread") {
  UnitFolder folder;
  folder.unit += small_train;
  for (int i = 0; i < 70; ++i) {
    folder.unit += "[[member]]\nid = \"m" + std::to_string(i) + "\"\n";
  }
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(report.complaints.size() == 1);
  CHECK(found(report.complaints, "unit.toml", 0, "at most 64, 16, 64 and 32"));
}
