// What is wrong in the two files by themselves.
#include "tests/load/unit_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline;
using namespace lugline::test;

namespace {

/// The unit spoiled in one place: one complaint, there, with those words.
void unit_complaint(const std::string& was, const std::string& now, const std::string& at,
                    const std::string& words, int below = 0) {
  UnitFolder folder;
  folder.change_unit(was, now);
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", line_of(folder.unit, at) + below, words));
}

void sequence_complaint(const std::string& was, const std::string& now, const std::string& at,
                        const std::string& words, int below = 0) {
  UnitFolder folder;
  folder.change_sequence(was, now);
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "sequence.toml", line_of(folder.sequence, at) + below, words));
}

} // namespace

TEST_CASE("a missing folder is told") {
  const LoadReport report = load_unit("/no/such/folder/anywhere");
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "/no/such/folder/anywhere", 0, "there is no such folder"));
}

TEST_CASE("a file in the folder's place is told") {
  UnitFolder folder;
  folder.write_file("x", "");
  const LoadReport report = load_unit(folder.path() / "x");
  CHECK(report.unit == nullptr);
  REQUIRE(report.complaints.size() == 1);
  CHECK(report.complaints.front().message.find("not a folder") != std::string::npos);
}

TEST_CASE("each missing file is told, and the other is still read") {
  UnitFolder folder;
  folder.write_file("sequence.toml", "schema = 2\n");
  const LoadReport report = load_unit(folder.path());
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", 0, "no such file"));
  CHECK(found(report.complaints, "sequence.toml", 1, "schema 1"));
}

TEST_CASE("a TOML slip is told with its line and column") {
  UnitFolder folder;
  folder.change_unit("label = \"hub\"", "label = hub");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  REQUIRE(report.complaints.size() == 1);
  CHECK(report.complaints[0].line == line_of(folder.unit, "label = hub"));
  CHECK(report.complaints[0].column > 1);
  CHECK(report.complaints[0].message.find("not TOML") != std::string::npos);
}

TEST_CASE("another schema is refused with the one that is understood") {
  unit_complaint("schema = 1", "schema = 2", "schema", "understands schema 1");
  sequence_complaint("schema = 1", "schema = \"1\"", "schema", "a whole number was expected");
  unit_complaint("schema = 1", "schema = nan", "schema", "a whole number was expected");
  unit_complaint("schema = 1", "schema = 99999999999", "schema", "99999999999");
  UnitFolder folder;
  folder.change_unit("schema = 1\n", "");
  const LoadReport report = folder.load();
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", 0, "write schema = 1"));
}

TEST_CASE("an unknown key is told with the nearest one") {
  unit_complaint("thickness = \"2.0 mm\"", "thicknes = \"2.0 mm\"", "thicknes", "'thickness'");
  unit_complaint("notice =", "notise =", "notise", "'notice'");
  unit_complaint("  high = \"10 mm\"", "  high = \"10 mm\"\n  hihg = \"1 mm\"", "hihg", "'high'");
  unit_complaint("wave = \"flat\"", "waves = \"flat\"", "waves", "'wave'");
  unit_complaint("moving = [", "movin = [", "movin =", "'moving'");
  sequence_complaint("seen_from =", "seen_form =", "seen_form", "'seen_from'");
  sequence_complaint("places = 3", "place = 3", "place = 3", "'places'");
  sequence_complaint("closeness = 2", "closenes = 2", "closenes", "'closeness'");
  sequence_complaint("name = \"Tray\"", "nam = \"Tray\"", "nam =", "'name'");
  sequence_complaint("wrong_way =", "wrong =", "wrong =", "unknown key 'wrong'");
}

TEST_CASE("a complaint points at the very column") {
  UnitFolder folder;
  folder.change_unit("thickness = \"2.0 mm\"", "thickness = 2.0");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  REQUIRE(report.complaints.size() == 1);
  CHECK(report.complaints[0].column == 13);
}

TEST_CASE("a bare number is refused where a figure with its unit is meant") {
  unit_complaint("thickness = \"2.0 mm\"", "thickness = 2.0", "thickness", "\"2.0 mm\"");
  unit_complaint("thickness = \"2.0 mm\"", "thickness = \"2.0\"", "thickness", "thickness");
  unit_complaint("clearance = [\"0.50 mm\"", "clearance = [0.5", "clearance", "bare number, 0.5");
  unit_complaint("options = [\"4.8 mm\"", "options = [4.8", "options", "bare number, 4.8");
  sequence_complaint("turn = \"90 deg\"", "turn = 90", "turn = 90", "\"90 deg\"");
  sequence_complaint("press_to = \"17.0 mm\"", "press_to = 17", "press_to", "\"17 mm\"");
}

TEST_CASE("a figure of another dimension is refused") {
  unit_complaint("thickness = \"2.0 mm\"", "thickness = \"2.0 kPa\"", "thickness", "kPa");
  sequence_complaint("turn = \"90 deg\"", "turn = \"90 mm\"", "turn = \"90 mm\"", "mm");
}

TEST_CASE("a tolerance that would be lost is refused") {
  unit_complaint("thickness = \"2.0 mm\"", "thickness = \"2.0 +/- 0.02 mm\"", "thickness",
                 "tolerance");
}

TEST_CASE("a value of another type is refused") {
  unit_complaint("count = 2\nthickness", "count = \"2\"\nthickness", "count = \"2\"",
                 "a whole number was expected");
  unit_complaint("count = 2\nthickness", "count = 0\nthickness", "count = 0", "1 to 99");
  unit_complaint("count = 2\nthickness", "count = 1000000000000\nthickness", "count = 10",
                 "1 to 99");
  unit_complaint("invented = true", "invented = \"yes\"", "invented =", "true or false");
  unit_complaint("plates = [\"ST1\"", "plates = [1", "plates", "is a number");
  unit_complaint("name = \"Small unit\"", "name = 5", "name", "text in quotes");
  sequence_complaint("joint = { kind = \"sprung\" }", "joint = \"sprung\"", "joint = \"sprung\"",
                     "a table, { … }");
  sequence_complaint("closeness = 2", "closeness = -1", "closeness", "outside");
  sequence_complaint("closeness = 2", "closeness = nan", "closeness", "outside");
}

TEST_CASE("single brackets where double ones are meant are told") {
  UnitFolder folder;
  folder.unit = "schema = 1\nname = \"x\"\nlabel = \"y\"\n[component]\nid = \"A\"\n";
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(found(report.complaints, "unit.toml", 4, "two brackets"));
}

TEST_CASE("what a unit cannot do without is told") {
  unit_complaint("name = \"Small unit\"\n", "", "# A small", "name is missing");
  unit_complaint("id = \"PST\"\n", "", "name = \"Piston\"", "id is missing", -1);
  unit_complaint("piston = \"PST\"\n", "", "[[pack]]", "piston is missing");
  unit_complaint("groove = \"HUB/ring groove\"\n", "", "[[pack]]", "where does its ring sit");
  unit_complaint("clearance = [\"0.50 mm\", \"1.10 mm\"]\n", "", "[[pack]]",
                 "clearance is missing");
  unit_complaint("after = \"piston\"\n", "", "[[play]]", "after which step");
  sequence_complaint("kind = \"soak\"\n", "", "id = \"soak\"", "kind is missing", -1);
  sequence_complaint("do = \"Put the piston in.\"\n", "", "id = \"piston\"", "do is missing", -1);
  sequence_complaint("base = \"TRAY\"\n", "", "id = \"tray place\"", "base is missing", -1);
}

TEST_CASE("a step that lacks what its kind needs is told") {
  sequence_complaint("press_to = \"17.0 mm\"\n", "", "id = \"press\"", "press_to is missing", -1);
  sequence_complaint("brings = \"bench\"\n", "", "id = \"to the tray\"", "brings is missing", -1);
  sequence_complaint("reading = { of = \"depth:HUB@45 mm\"", "camera = {}\n#", "id = \"depth\"",
                     "reading is missing", -1);
  sequence_complaint("kind = \"soak\"", "kind = \"check\"", "id = \"soak\"", "by is missing", -1);
  sequence_complaint("kind = \"soak\"", "kind = \"spread\"", "id = \"soak\"",
                     "band_state is missing", -1);
  sequence_complaint("kind = \"soak\"", "kind = \"attach\"", "id = \"soak\"", "groove is missing",
                     -1);
  sequence_complaint("id = \"steel 2\"\nkind = \"place\"",
                     "id = \"steel 2\"\nkind = \"place\"\npress_to = \"1 mm\"", "press_to",
                     "of no use");
}

TEST_CASE("a step puts one part in: further ones would be passed over in silence") {
  sequence_complaint("part = \"ST1\"\n", "part = \"ST1\"\nparts = [\"FR1\"]\n", "parts = [\"FR1\"]",
                     "parts is of no use to a step of kind 'place'");
}

TEST_CASE("only a part that goes in can be pushed in from the side") {
  sequence_complaint("press_to = \"17.0 mm\"", "press_to = \"17.0 mm\"\nside_to = \"1 mm\"",
                     "side_to", "of no use");
}

TEST_CASE("a word that is none is told with the nearest") {
  unit_complaint("kind = \"snap ring\"", "kind = \"snapring\"", "snapring", "'snap ring'");
  unit_complaint("wave = \"flat\"", "wave = \"level\"", "wave =", "\"free\" or \"flat\"");
  sequence_complaint("kind = \"soak\"", "kind = \"soack\"", "soack", "'soak'");
  sequence_complaint("way_up = \"turned over\"", "way_up = \"upside down\"", "upside",
                     "right way up");
  sequence_complaint("by = \"gauge\"", "by = \"guage\"", "guage", "'gauge'");
  sequence_complaint("kind = \"slides\"", "kind = \"slide\"", "\"slide\"", "'slides'");
  sequence_complaint("free = \"clockwise\"", "free = \"left\"", "left", "no direction");
}

TEST_CASE("a direction is always seen from a named end") {
  sequence_complaint(", seen_from = \"front end\"", "", "free =", "seen from");
  sequence_complaint("free = \"clockwise\", ", "", "seen_from", "which way does it turn");
  sequence_complaint("joint = { kind = \"turns\" }",
                     "joint = { kind = \"turns\", free = \"clockwise\" }", "free = \"clockwise\" }",
                     "for a joint that turns one way");
}

TEST_CASE("limits the wrong way round are told") {
  unit_complaint("[\"0.50 mm\", \"1.10 mm\"]", "[\"1.10 mm\", \"0.50 mm\"]", "clearance",
                 "the wrong way round");
  unit_complaint("[\"0.1 mm\", \"0.4 mm\"]", "[\"0.4 mm\", \"0.1 mm\"]", "limits",
                 "the wrong way round");
  unit_complaint("[\"0.1 mm\", \"0.4 mm\"]", "[\"0.4 mm\"]", "limits", "two were expected");
  sequence_complaint("low = \"0.50 mm\", high = \"1.10 mm\"",
                     "low = \"1.10 mm\", high = \"0.50 mm\"", "clearance:CC",
                     "the wrong way round");
  sequence_complaint("expect = \"0.80 mm\"", "expect = \"1.20 mm\"", "clearance:CC",
                     "outside its own limits");
}

TEST_CASE("rings that make no part are told") {
  const std::string high = "  high = \"10 mm\"\n";
  unit_complaint(high, "  high = \"-1 mm\"\n", "-1 mm", "high is not above low");
  unit_complaint("\"44 mm\"", "\"94 mm\"", "outer_diameter = \"90 mm\"", "not larger");
  unit_complaint(high, high + "  lugs = { count = 3, width = \"50 mm\" }\n", "lugs",
                 "does not fit");
  unit_complaint(high, high + "  lugs = { count = 30, width = \"8 mm\" }\n", "lugs",
                 "meet one another");
  unit_complaint(high,
                 high + "  [[component.ring]]\n  inner_diameter = \"80 mm\"\n"
                        "  outer_diameter = \"92 mm\"\n  low = \"9 mm\"\n  high = \"12 mm\"\n",
                 "inner_diameter = \"80 mm\"", "overlaps");
  unit_complaint("file = \"parts/HUB.glb\"\n", "", "id = \"HUB\"", "neither a file nor a ring", -1);
}

TEST_CASE("a figure that no bench has is told, and not printed out") {
  unit_complaint("thickness = \"2.0 mm\"", "thickness = \"1e300 mm\"", "1e300", "beyond 10 m");
  unit_complaint("\"1.10 mm\"", "\"1e300 mm\"", "1e300", "beyond 10 m");
  sequence_complaint("press_to = \"17.0 mm\"", "press_to = \"-1e300 mm\"", "1e300", "beyond 10 m");
  sequence_complaint("turn = \"90 deg\"", "turn = \"1e300 deg\"", "1e300", "beyond 100 turns");
  sequence_complaint("HUB@45 mm", "HUB@1e300 mm", "1e300", "beyond 10 m");
}

TEST_CASE("a key of a hundred thousand parts is refused before it is followed") {
  std::string key = "a";
  for (int i = 0; i < 100000; ++i) {
    key += ".a";
  }
  for (const std::string& line : {key + " = 1\n", "[" + key + "]\n"}) {
    UnitFolder folder;
    folder.unit += line;
    folder.sequence += line;
    const LoadReport report = folder.load();
    CHECK(report.unit == nullptr);
    CHECK(found(report.complaints, "unit.toml", 0, "parts"));
    CHECK(found(report.complaints, "sequence.toml", 0, "parts"));
  }
}

TEST_CASE("a text that a terminal would obey, or that makes two lines of one, is told") {
  unit_complaint("label = \"hub\"", "label = \"hub\\u001b[2J\"", "u001b", "control character");
  unit_complaint("name = \"Piston\"", "name = \"Piston\\nSound\"", "Piston\\nSound", "on one line");
  unit_complaint("id = \"PST\"", "id = \"P\\u0000ST\"", "u0000", "control character");
  sequence_complaint("know = \"It turns by hand.\"", "know = \"It turns.\\u009b2J\"", "u009b",
                     "control character");
}

TEST_CASE("an id that cannot be referred to is told") {
  unit_complaint("id = \"PST\"", "id = \"P/ST\"", "P/ST", "holds no '/'");
  unit_complaint("id = \"PST\"", "id = \"\"", "id = \"\"", "id is empty");
}

TEST_CASE("all complaints come in one go, by file and line, the unit's own first") {
  UnitFolder folder;
  folder.change_unit("thickness = \"2.0 mm\"", "thickness = 2.0");
  folder.change_unit("wave = \"flat\"", "waves = \"flat\"");
  folder.change_unit("file = \"parts/HUB.glb\"", "file = \"parts/HUBB.glb\"");
  folder.change_sequence("seat = \"ST1\"", "seat = \"ST9\"");
  folder.change_sequence("kind = \"soak\"", "kind = \"soack\"");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  REQUIRE(report.complaints.size() == 5);
  CHECK(report.complaints[0].line == line_of(folder.unit, "HUBB"));
  CHECK(report.complaints[1].line == line_of(folder.unit, "thickness"));
  CHECK(report.complaints[2].line == line_of(folder.unit, "waves"));
  CHECK(report.complaints[3].line == line_of(folder.sequence, "soack"));
  CHECK(report.complaints[4].line == line_of(folder.sequence, "ST9"));
}

TEST_CASE("a file too large to have been written by hand is refused unread") {
  UnitFolder folder;
  folder.unit += "\n#" + std::string(std::size_t{1} << 20U, 'x');
  const LoadReport report = folder.load();
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", 0, "bytes large"));
}
