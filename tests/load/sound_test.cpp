// A sound unit, and what of it reaches the Unit.
#include "tests/load/unit_folder.h"

#include "scene/load/load_from.h"
#include "scene/load/memory_source.h"

#include <catch2/catch.hpp>

#include <fstream>

using namespace lugline;
using namespace lugline::test;

namespace {
constexpr double degree_rad = 3.14159265358979323846 / 180;
}

TEST_CASE("a sound unit loads with no complaints and no questions") {
  UnitFolder folder;
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.complaints.empty());
  CHECK(report.questions.empty());
  REQUIRE(report.unit != nullptr);
  CHECK(report.unit->name == "Small unit");
  CHECK(report.unit->label == "invented practice data");
  CHECK(report.unit->notice == "The unit's service manual decides.");
  CHECK(report.unit->invented);
  CHECK(report.unit->folder == folder.path().generic_string());
}

TEST_CASE("a line of several pieces gives each its id, label and name") {
  UnitFolder folder;
  const LoadReport report = folder.load();
  REQUIRE(report.unit != nullptr);
  const UnitComponent* second = report.unit->component("ST2");
  REQUIRE(second != nullptr);
  CHECK(second->line == "ST");
  CHECK(second->label == "steel 2");
  CHECK(second->part.name == "Steel 2");
  CHECK(second->part.id == "ST2");
  CHECK(second->mesh == report.unit->component("ST1")->mesh);
  CHECK(report.unit->component("ST") == nullptr);
  CHECK(report.unit->component("RG")->line == "RG");
  CHECK(second->source.file == "unit.toml");
  CHECK(second->source.line == line_of(folder.unit, "id = \"ST\"") - 1);
}

TEST_CASE("a thickness replaces the model's, and the mesh's is kept") {
  UnitFolder folder;
  folder.change_unit("thickness = \"2.0 mm\"", "thickness = \"2.3 mm\"");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  REQUIRE(report.unit != nullptr);
  const UnitComponent& steel_1 = *report.unit->component("ST1");
  CHECK(steel_1.part.solid.high_m() == Approx(0.0023));
  CHECK(steel_1.part.figure("thickness")->value_m == Approx(0.0023));
  CHECK(steel_1.part.keys.at(0).high_m == Approx(0.0023));
  REQUIRE(steel_1.model_thickness_m.has_value());
  CHECK(*steel_1.model_thickness_m == Approx(0.002));
}

TEST_CASE("a thickness may be in inches") {
  UnitFolder folder;
  folder.change_unit("thickness = \"2.0 mm\"", "thickness = \"0.080 in\"");
  const LoadReport report = folder.load();
  REQUIRE(report.unit != nullptr);
  CHECK(report.unit->component("ST1")->part.solid.high_m() == Approx(0.002032).epsilon(1e-12));
}

TEST_CASE("packs and plays reach the unit whole") {
  UnitFolder folder;
  const LoadReport report = folder.load();
  REQUIRE(report.unit != nullptr);
  const Pack& pack = *report.unit->pack("CC");
  CHECK(pack.name == "Clutch");
  CHECK(pack.piston == "PST");
  CHECK(pack.plates == std::vector<std::string>{"ST1", "FR1", "ST2", "FR2", "BP"});
  CHECK(pack.ring == "RG");
  CHECK(pack.ring_host == "HUB");
  CHECK(pack.ring_groove == "ring groove");
  CHECK(pack.selective == std::vector<std::string>{"BP"});
  CHECK(pack.clearance.low_m == Approx(0.0005));
  CHECK(pack.clearance.high_m == Approx(0.0011));
  CHECK_FALSE(pack.wave_free);
  const std::vector<double>& options = report.unit->component("BP")->thickness_options_m;
  REQUIRE(options.size() == 3);
  CHECK(options[2] == Approx(0.0052));
  REQUIRE(report.unit->plays.size() == 1);
  const Play& play = report.unit->plays.front();
  CHECK(play.name == "Piston float");
  CHECK(play.moving == std::vector<std::string>{"PST"});
  CHECK(play.after_step == "piston");
  CHECK(play.limits.high_m == Approx(0.0004));
}

TEST_CASE("every field of a step reaches the unit") {
  UnitFolder folder;
  const LoadReport report = folder.load();
  REQUIRE(report.unit != nullptr);
  const Unit& unit = *report.unit;
  const Step& lay = *unit.step("steel 1");
  CHECK(lay.kind == StepKind::place);
  CHECK(lay.place == "bench");
  CHECK(lay.part == "ST1");
  CHECK(lay.seat == "PST");
  CHECK(lay.key == "ST1/lug");
  CHECK(lay.turn_rad == Approx(90 * degree_rad));
  CHECK(lay.way_up == WayUp::turned_over);
  CHECK(lay.joint.kind == JointKind::slides);
  CHECK(lay.joint.to == "HUB");
  CHECK(lay.do_text == "Lay the first steel in.");
  CHECK(lay.wrong_way_text == "It does not matter.");
  CHECK(lay.camera.turn_rad == Approx(30 * degree_rad));
  CHECK(lay.camera.rise_rad == Approx(40 * degree_rad));
  CHECK(lay.camera.closeness == Approx(2));
  CHECK(lay.source.line == line_of(folder.sequence, "id = \"steel 1\"") - 1);
  CHECK(unit.step("hub")->chapter == "The hub");
  CHECK(unit.step("piston")->know_text == "It turns by hand.");
  CHECK(unit.step("soak")->parts == std::vector<std::string>{"FR1", "FR2"});
  const Joint& one_way = unit.step("friction 2")->joint;
  CHECK(one_way.kind == JointKind::turns_one_way);
  CHECK(one_way.free_clockwise);
  CHECK(one_way.seen_from == "front end");
  CHECK(*unit.step("press")->press_to_m == Approx(0.017));
  CHECK(unit.step("press")->caution_text == "Keep your face out of line.");
  CHECK(unit.step("ring")->lets_go == std::vector<std::string>{"BP"});
  const Step& measure = *unit.step("clearance");
  CHECK(measure.by == CheckBy::gauge);
  REQUIRE(measure.reading.has_value());
  CHECK(measure.reading->of == "clearance:CC");
  CHECK(measure.reading->expect_m == Approx(0.0008));
  CHECK(measure.reading->places == 3);
  CHECK(unit.place("bench")->base == "HUB");
  CHECK(unit.step_index("soak") == 2);
  CHECK(unit.step_index("no such") == unit.steps.size());
}

TEST_CASE("what is brought is the base of its place, where it does not say") {
  UnitFolder folder;
  const LoadReport report = folder.load();
  REQUIRE(report.unit != nullptr);
  CHECK(report.unit->step("to the tray")->part == "HUB");
}

TEST_CASE("a band's state is one that its model has") {
  UnitFolder folder;
  Component band = steel();
  band.id = "BAND";
  band.kind = ComponentKind::band;
  band.keys.at(0).id = "ear";
  band.band_states = {{"spread", band.solid}, {"relaxed", band.solid}};
  folder.write_model("BAND.glb", {band});
  folder.change_unit("[[pack]]",
                     "[[component]]\nid = \"BAND\"\nfile = \"parts/BAND.glb\"\n[[pack]]");
  const std::string spread = "\n[[step]]\nid = \"band\"\nkind = \"spread\"\nplace = \"bench\"\n"
                             "part = \"BAND\"\nseat = \"HUB\"\nkey = \"BAND/ear\"\n"
                             "band_state = \"spread\"\ndo = \"x\"\n";
  SECTION("it reaches the step") {
    folder.sequence += spread;
    const LoadReport report = folder.load();
    INFO(text_of(report));
    REQUIRE(report.unit != nullptr);
    CHECK(report.unit->step("band")->band_state == "spread");
  }
  SECTION("another is refused") {
    folder.sequence += spread;
    folder.change_sequence("band_state = \"spread\"", "band_state = \"sprung\"");
    const LoadReport report = folder.load();
    INFO(text_of(report));
    CHECK(report.unit == nullptr);
    CHECK(found(report.complaints, "sequence.toml", line_of(folder.sequence, "band_state"),
                "BAND has spread and relaxed"));
  }
}

TEST_CASE("rings in the line itself make a part with lugs") {
  UnitFolder folder;
  folder.change_unit("  inner_diameter = \"50 mm\"\n  outer_diameter = \"60 mm\"\n"
                     "  low = \"0 mm\"\n  high = \"3 mm\"\n",
                     "  inner_diameter = \"50 mm\"\n  outer_diameter = \"60 mm\"\n"
                     "  low = \"0 mm\"\n  high = \"3 mm\"\n"
                     "  [[component.ring]]\n  feature = \"lug\"\n"
                     "  inner_diameter = \"60 mm\"\n  outer_diameter = \"66 mm\"\n"
                     "  low = \"0 mm\"\n  high = \"3 mm\"\n"
                     "  lugs = { count = 3, width = \"8 mm\", first = \"30 deg\" }\n");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  REQUIRE(report.unit != nullptr);
  const UnitComponent& tool = *report.unit->component("TL");
  REQUIRE(tool.part.solid.rings.size() == 2);
  const SectorRing& lugs = tool.part.solid.rings[1];
  CHECK(lugs.feature == "lug");
  REQUIRE(lugs.sectors.size() == 3);
  CHECK(lugs.sectors[1].from.angle_rad == Approx(150 * degree_rad));
  CHECK(lugs.sectors[1].to.offset_m == Approx(0.004));
  CHECK(tool.part.figure("thickness")->value_m == Approx(0.003));
  REQUIRE(tool.mesh != nullptr);
  CHECK_FALSE(tool.mesh->triangles.empty());
}

TEST_CASE("every word that is written is read back") {
  for (const std::string& word : step_kind_words()) {
    REQUIRE(step_kind_from(word).has_value());
    CHECK(word_for(*step_kind_from(word)) == word);
  }
  for (const std::string& word : joint_kind_words()) {
    CHECK(word_for(joint_kind_from(word).value()) == word);
  }
  for (const std::string& word : way_up_words()) {
    CHECK(word_for(way_up_from(word).value()) == word);
  }
  for (const std::string& word : check_by_words()) {
    CHECK(word_for(check_by_from(word).value()) == word);
  }
  CHECK(step_kind_words().size() == 15);
  CHECK(joint_kind_words().size() == 8);
  CHECK_FALSE(step_kind_from("take_out").has_value());
}

TEST_CASE("a part that is pushed in from the side has its height stated") {
  UnitFolder folder;
  folder.change_sequence("part = \"PST\"\nseat", "part = \"PST\"\nside_to = \"2 mm\"\nseat");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  REQUIRE(report.unit != nullptr);
  REQUIRE(report.unit->step("piston")->side_to_m.has_value());
  CHECK(*report.unit->step("piston")->side_to_m == Approx(0.002));
  CHECK_FALSE(report.unit->step("hub")->side_to_m.has_value());
}

TEST_CASE("a unit loads from memory as it does from its folder") {
  UnitFolder folder;
  MemorySource files;
  files.put("unit.toml", folder.unit);
  files.put("sequence.toml", folder.sequence);
  for (const char* model : {"parts/HUB.glb", "parts/ST.glb"}) {
    std::ifstream in(folder.path() / model, std::ios::binary);
    files.put(model, {std::istreambuf_iterator<char>(in), {}});
  }
  const LoadReport from_memory = load_unit_from(files, "somewhere");
  const LoadReport from_folder = folder.load();
  INFO(text_of(from_memory));
  REQUIRE(from_memory.unit != nullptr);
  REQUIRE(from_folder.unit != nullptr);
  CHECK(from_memory.unit->folder == "somewhere");
  CHECK(from_memory.unit->component("ST2")->mesh->positions_m ==
        from_folder.unit->component("ST2")->mesh->positions_m);
  files.put("sequence.toml", "schema = 7");
  CHECK(load_unit_from(files, "somewhere").unit == nullptr);
}

TEST_CASE("what is stated of a pack's frictions reaches the unit, and is judged beside them") {
  UnitFolder folder;
  CHECK_FALSE(folder.load().unit->pack("CC")->each_friction);
  folder.change_unit("[[pack]]", "[[pack]]\neach_friction = [\"0.20 mm\", \"0.30 mm\"]\n"
                                 "friction_least = \"1.2 mm\"\nfriction_wet = \"0.02 mm\"");
  const LoadReport report = folder.load();
  REQUIRE(report.unit != nullptr);
  const Pack& pack = *report.unit->pack("CC");
  REQUIRE(pack.each_friction);
  CHECK(pack.each_friction->high_m == Approx(0.0003));
  CHECK(pack.friction_least_m == Approx(0.0012));
  CHECK(pack.friction_wet_m == Approx(0.00002));
  folder.change_unit("friction_least = \"1.2 mm\"", "friction_least = \"9 mm\"");
  CHECK(folder.load().unit == nullptr);
  folder.change_unit("friction_least = \"9 mm\"", "friction_least = \"1.2 mm\"");
  folder.change_unit("friction_wet = \"0.02 mm\"", "friction_wet = \"0.02 in\"");
  CHECK(folder.load().unit == nullptr);
}
