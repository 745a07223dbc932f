// What the two files say about each other.
#include "tests/load/unit_folder.h"

#include <catch2/catch.hpp>

using namespace lugline;
using namespace lugline::test;

namespace {

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

void sequence_question(const std::string& was, const std::string& now, const std::string& at,
                       const std::string& words, int below = 0) {
  UnitFolder folder;
  folder.change_sequence(was, now);
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit != nullptr);
  CHECK(found(report.questions, "sequence.toml", line_of(folder.sequence, at) + below, words));
}

} // namespace

TEST_CASE("a misspelt id is told wherever it stands, with the nearest") {
  unit_complaint("piston = \"PST\"", "piston = \"PTS\"", "PTS", "'PST'");
  unit_complaint("plates = [\"ST1\", \"FR1\"", "plates = [\"ST1\", \"FR9\"", "FR9", "did you mean");
  unit_complaint("ring = \"RG\"", "ring = \"RGG\"", "RGG", "'RG'");
  unit_complaint("groove = \"HUB/ring groove\"", "groove = \"HUBB/ring groove\"", "HUBB", "'HUB'");
  unit_complaint("groove = \"HUB/ring groove\"", "groove = \"HUB/ring grove\"", "grove",
                 "'ring groove'");
  unit_complaint("groove = \"HUB/ring groove\"", "groove = \"HUB\"", "groove = \"HUB\"",
                 "COMPONENT/GROOVE");
  unit_complaint("selective = [\"BP\"]", "selective = [\"BPP\"]", "BPP", "'BP'");
  unit_complaint("moving = [\"PST\"]", "moving = [\"PSTN\"]", "PSTN", "'PST'");
  unit_complaint("after = \"piston\"", "after = \"pistn\"", "pistn", "'piston'");
  sequence_complaint("base = \"HUB\"", "base = \"HUBE\"", "HUBE", "'HUB'");
  sequence_complaint("place = \"bench\"\npart = \"PST\"", "place = \"bnch\"\npart = \"PST\"",
                     "bnch", "'bench'");
  sequence_complaint("part = \"PST\"", "part = \"PSTT\"", "PSTT", "'PST'");
  sequence_complaint("seat = \"FR2\"", "seat = \"FR22\"", "FR22", "'FR2'");
  sequence_complaint("parts = [\"FR1\", \"FR2\"]", "parts = [\"FR1\", \"FRR2\"]", "FRR2", "'FR2'");
  sequence_complaint("key = \"ST1/lug\"", "key = \"ST1/lugs\"", "lugs", "'lug'");
  sequence_complaint("groove = \"HUB/ring groove\"", "groove = \"HUB/rng groove\"", "rng",
                     "'ring groove'");
  sequence_complaint("lets_go = [\"BP\"]", "lets_go = [\"BPX\"]", "BPX", "'BP'");
  sequence_complaint("to = \"HUB\"", "to = \"HUBS\"", "HUBS", "'HUB'");
  sequence_complaint("brings = \"bench\"", "brings = \"benc\"", "benc\"", "'bench'");
  sequence_complaint("clearance:CC", "clearance:CD", "clearance:CD", "no such pack");
  sequence_complaint("depth:HUB@45 mm", "depth:HUBB@45 mm", "HUBB", "'HUB'");
  sequence_complaint("depth:HUB@45 mm", "width:HUB", "width:HUB", "is not known");
  sequence_complaint("depth:HUB@45 mm", "rest", "\"rest\"", "is not known");
}

TEST_CASE("a depth is read at a radius at which there is something") {
  sequence_complaint("depth:HUB@45 mm", "depth:HUB", "depth:HUB\"", "read at a radius");
  sequence_complaint("depth:HUB@45 mm", "depth:HUB@45", "depth:HUB@45", "radius of the depth");
  sequence_complaint("depth:HUB@45 mm", "depth:HUB@90 mm", "depth:HUB@90",
                     "at a radius of 90.00 mm");
  sequence_complaint("depth:HUB@45 mm", "height:HUB", "height:HUB\"", "a height is read");
  sequence_complaint("depth:HUB@45 mm", "height:HUBB@45 mm", "HUBB", "'HUB'");
}

TEST_CASE("a line of several pieces is not a piece") {
  sequence_complaint("part = \"ST2\"", "part = \"ST\"", "part = \"ST\"", "ST1 and ST2");
}

TEST_CASE("doubled ids of components, pieces, places, packs and steps are told") {
  const auto doubled = [](UnitFolder& folder, const std::string& words) {
    const LoadReport report = folder.load();
    INFO(text_of(report));
    CHECK(report.unit == nullptr);
    CHECK(found(report.complaints, "unit.toml", 0, words) !=
          found(report.complaints, "sequence.toml", 0, words));
  };
  UnitFolder folder;
  SECTION("two components") {
    folder.change_unit("id = \"TL\"", "id = \"PST\"");
    doubled(folder, "'PST' is there already, on line " +
                        std::to_string(line_of(folder.unit, "id = \"PST\"")));
  }
  SECTION("a component and a piece") {
    folder.change_unit("id = \"TL\"", "id = \"ST2\"");
    doubled(folder, "'ST2' is there already");
  }
  SECTION("two packs") {
    folder.unit += folder.unit.substr(folder.unit.find("[[pack]]"),
                                      folder.unit.find("[[play]]") - folder.unit.find("[[pack]]"));
    doubled(folder, "'CC' is there already");
  }
  SECTION("two places") {
    folder.change_sequence("id = \"tray place\"", "id = \"bench\"");
    doubled(folder, "'bench' is there already");
  }
  SECTION("two steps") {
    folder.change_sequence("id = \"steel 2\"", "id = \"steel 1\"");
    doubled(folder, "'steel 1' is there already");
  }
}

TEST_CASE("one missing model is one complaint, not one for each mention of it") {
  UnitFolder folder;
  folder.change_unit("parts/HUB.glb", "parts/HUBB.glb");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.complaints.size() == 1);
}

TEST_CASE("a pack lists each plate once, and closes with a snap ring") {
  unit_complaint("\"ST2\", \"FR2\", \"BP\"]", "\"ST1\", \"FR2\", \"BP\"]",
                 "plates =", "'ST1' is listed twice");
  unit_complaint("ring = \"RG\"", "ring = \"TL\"", "ring = \"TL\"", "a snap ring was expected");
  unit_complaint("ring = \"RG\"", "ring = \"BP\"", "ring = \"BP\"", "among its plates as well");
  unit_complaint("selective = [\"BP\"]", "selective = [\"ST1\"]", "selective", "states no options");
  unit_complaint("\"FR2\", \"BP\"]", "\"FR2\"]", "selective", "neither one of its plates");
}

TEST_CASE("two packs share no plate and no ring") {
  const std::string other = "[[pack]]\nid = \"CD\"\npiston = \"PST\"\nplates = [\"ST2\"]\n"
                            "ring = \"RG\"\ngroove = \"HUB/ring groove\"\n"
                            "clearance = [\"0.5 mm\", \"1 mm\"]\n";
  UnitFolder folder;
  folder.change_unit("[[play]]\n", other + "[[play]]\n");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", line_of(folder.unit, "plates = [\"ST2\"]"),
              "'ST2' is in pack 'CC' as well"));
  CHECK(found(report.complaints, "unit.toml", line_of(folder.unit, "plates = [\"ST2\"]") + 1,
              "'RG' is in pack 'CC' as well"));
}

TEST_CASE("a pack's ring goes into the groove that the pack is closed in") {
  UnitFolder folder;
  Component two = hub();
  two.grooves.push_back(two.grooves.front());
  two.grooves.back().id = "other groove";
  folder.write_model("HUB.glb", {two});
  folder.change_sequence("groove = \"HUB/ring groove\"", "groove = \"HUB/other groove\"");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "sequence.toml", line_of(folder.sequence, "HUB/other groove"),
              "pack 'CC' is closed in 'HUB/ring groove'"));
}

TEST_CASE("a count that is refused is one complaint, not one for each piece") {
  for (const char* count : {"count = 0", "count = 100", "count = 2.0", "count = \"2\""}) {
    UnitFolder folder;
    folder.change_unit("file = \"parts/ST.glb\"\ncount = 2",
                       std::string("file = \"parts/ST.glb\"\n") + count);
    const LoadReport report = folder.load();
    INFO(text_of(report));
    CHECK(report.unit == nullptr);
    CHECK(report.complaints.size() == 1);
    CHECK(found(report.complaints, "unit.toml", line_of(folder.unit, count), "count is"));
  }
}

TEST_CASE("seats in a circle are told") {
  UnitFolder folder;
  folder.change_sequence("part = \"ST1\"\nseat = \"PST\"", "part = \"ST1\"\nseat = \"FR1\"");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(report.complaints.size() == 1);
  CHECK(found(report.complaints, "sequence.toml", 0, "FR1 rests on ST1 rests on FR1"));
}

TEST_CASE("a part on itself is a circle too") {
  sequence_complaint("seat = \"FR2\"", "seat = \"BP\"", "seat = \"BP\"", "BP rests on BP");
}

TEST_CASE("a part with no seat is told, unless it is the base") {
  sequence_complaint("part = \"PST\"\nseat = \"HUB\"\n", "part = \"PST\"\n", "id = \"piston\"",
                     "there is no seat", -1);
  sequence_complaint("brings = \"bench\"\nseat = \"TRAY\"\n", "brings = \"bench\"\n",
                     "id = \"to the tray\"", "there is no seat", -1);
}

TEST_CASE("a seat that no step puts in is told") {
  sequence_complaint("seat = \"FR2\"", "seat = \"TL\"", "seat = \"TL\"",
                     "its seat, 'TL', is never put in");
}

TEST_CASE("a part put in twice without coming out is told") {
  sequence_complaint("part = \"ST2\"", "part = \"ST1\"", "id = \"steel 2\"\n",
                     "'ST1' is in already, since step 'steel 1'", 3);
}

TEST_CASE("a part may come out and go back") {
  UnitFolder folder;
  const std::string out = "\n[[step]]\nid = \"out\"\nkind = \"take out\"\nplace = \"bench\"\n"
                          "part = \"RG\"\ndo = \"x\"\ncaution = \"x\"\n";
  const std::string back = "\n[[step]]\nid = \"back\"\nkind = \"refit\"\nplace = \"bench\"\n"
                           "part = \"RG\"\ngroove = \"HUB/ring groove\"\ndo = \"x\"\n"
                           "caution = \"x\"\n";
  SECTION("out and back") {
    folder.sequence += out + back;
    const LoadReport report = folder.load();
    INFO(text_of(report));
    CHECK(report.unit != nullptr);
  }
  SECTION("back without having been out") {
    folder.sequence += back;
    const LoadReport report = folder.load();
    INFO(text_of(report));
    CHECK(found(report.complaints, "sequence.toml", 0, "'RG' is in already, since step 'ring'"));
  }
  SECTION("out twice") {
    folder.sequence += out;
    std::string again = out;
    folder.sequence += again.replace(again.find("\"out\""), 5, "\"out2\"");
    const LoadReport report = folder.load();
    INFO(text_of(report));
    CHECK(found(report.complaints, "sequence.toml", 0, "comes out, and no earlier step"));
  }
}

TEST_CASE("a sub-build is brought once, whole, and elsewhere") {
  sequence_complaint("brings = \"bench\"", "brings = \"tray place\"", "brings", "to itself");
  sequence_complaint("brings = \"bench\"\n", "brings = \"bench\"\npart = \"PST\"\n",
                     "id = \"to the tray\"", "the base of 'bench' is 'HUB'", 4);
}

TEST_CASE("two places on one base are told") {
  sequence_complaint("base = \"TRAY\"", "base = \"HUB\"", "name = \"Tray\"",
                     "the base of 'bench' as well", 1);
}

TEST_CASE("a unit with no steps, places or components is told") {
  UnitFolder folder;
  folder.unit = "schema = 1\nname = \"x\"\nlabel = \"y\"\n";
  folder.sequence = "schema = 1\n";
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", 0, "no [[component]]"));
  CHECK(found(report.complaints, "sequence.toml", 0, "no [[step]]"));
  CHECK(found(report.complaints, "sequence.toml", 0, "no [[place]]"));
}

TEST_CASE("a hazard without a caution is asked about") {
  sequence_question("caution = \"Keep your face out of line.\"\n", "", "id = \"press\"", "springs",
                    -1);
  sequence_question("caution = \"It flies.\"\n", "", "id = \"ring\"", "snap ring", -1);
  sequence_question("by = \"gauge\"", "by = \"air\"", "id = \"clearance\"", "compressed air", -1);
}

TEST_CASE("two parts of one label are asked about") {
  UnitFolder folder;
  folder.change_unit("label = \"tray\"", "label = \"hub\"");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit != nullptr);
  CHECK(found(report.questions, "unit.toml", line_of(folder.unit, "name = \"Tray\"") + 1,
              "is the label of 'HUB' as well"));
}

TEST_CASE("a key that fits nothing in the unit is asked about") {
  UnitFolder folder;
  Component other = steel();
  other.keys[0].fits = "DRUM/slot";
  folder.write_model("ST.glb", {other});
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit != nullptr);
  CHECK(found(report.questions, "unit.toml", line_of(folder.unit, "ST.glb"),
              "fits 'DRUM/slot', which is not in this unit"));
}

TEST_CASE("a groove whose part is never put in is told") {
  UnitFolder folder;
  folder.change_sequence("base = \"HUB\"", "base = \"TL\"");
  folder.change_sequence("part = \"HUB\"\n", "part = \"TL\"\n");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "sequence.toml", 0, "its groove, 'HUB', is never put in"));
}
