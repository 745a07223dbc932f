// The models that unit.toml names, and the figures it puts to them.
#include "tests/load/unit_folder.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace lugline;
using namespace lugline::test;
namespace fs = std::filesystem;

namespace {

void complains(UnitFolder& folder, const std::string& at, const std::string& words) {
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", line_of(folder.unit, at), words));
}

void asks(UnitFolder& folder, const std::string& at, const std::string& words) {
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit != nullptr);
  CHECK(found(report.questions, "unit.toml", line_of(folder.unit, at), words));
}

} // namespace

TEST_CASE("a missing model is told with the nearest file") {
  UnitFolder folder;
  folder.change_unit("parts/HUB.glb", "parts/HUBB.glb");
  complains(folder, "HUBB", "'parts/HUB.glb'");
}

TEST_CASE("a model outside the folder is refused before it is read") {
  UnitFolder folder;
  const auto with = [&](const std::string& name, const std::string& words) {
    UnitFolder own;
    own.change_unit("parts/HUB.glb", name);
    complains(own, name, words);
  };
  with("/etc/passwd", "absolute path");
  with("../HUB.glb", "climbs out");
  with("parts/../../HUB.glb", "climbs out");
  with("C:HUB.glb", "'\\' or a ':'");
  with("parts", "not a plain file");
}

TEST_CASE("a link that leads out of the folder is refused") {
  UnitFolder folder;
  UnitFolder elsewhere;
  SECTION("the file itself") {
    fs::create_symlink(elsewhere.path() / "parts" / "HUB.glb", folder.path() / "parts" / "out.glb");
    folder.change_unit("parts/HUB.glb", "parts/out.glb");
    complains(folder, "out.glb", "leads out");
  }
  SECTION("a folder on the way") {
    fs::create_directory_symlink(elsewhere.path() / "parts", folder.path() / "other");
    folder.change_unit("parts/HUB.glb", "other/HUB.glb");
    complains(folder, "other/HUB.glb", "leads out");
  }
  SECTION("unit.toml") {
    elsewhere.write_file("unit.toml", elsewhere.unit);
    folder.write_file("sequence.toml", folder.sequence);
    fs::create_symlink(elsewhere.path() / "unit.toml", folder.path() / "unit.toml");
    const LoadReport report = load_unit(folder.path());
    CHECK(report.unit == nullptr);
    CHECK(found(report.complaints, "unit.toml", 0, "leads out"));
  }
  SECTION("a link that stays inside is followed") {
    fs::create_symlink("HUB.glb", folder.path() / "parts" / "in.glb");
    folder.change_unit("parts/HUB.glb", "parts/in.glb");
    CHECK(folder.load().unit != nullptr);
  }
}

TEST_CASE("a model over the size limit is refused unread") {
  UnitFolder folder;
  fs::resize_file(folder.path() / "parts" / "HUB.glb", (std::uintmax_t{64} << 20U) + 1);
  complains(folder, "HUB.glb", "bytes large");
}

TEST_CASE("a model that is none is told") {
  UnitFolder folder;
  folder.write_file("parts/HUB.glb", "no model at all");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  REQUIRE_FALSE(report.complaints.empty());
  CHECK(report.complaints[0].line == line_of(folder.unit, "HUB.glb"));
}

TEST_CASE("the node of several is the one of the line's id") {
  UnitFolder folder;
  folder.write_model("both.glb", {steel(), hub()});
  folder.change_unit("parts/HUB.glb", "parts/both.glb");
  folder.change_unit("parts/ST.glb", "parts/both.glb");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  REQUIRE(report.unit != nullptr);
  CHECK(report.unit->component("HUB")->part.kind == ComponentKind::support);
  CHECK(report.unit->component("ST1")->part.kind == ComponentKind::steel);
  CHECK(report.questions.empty());
}

TEST_CASE("a node that is missing or not clear is told with what there is") {
  UnitFolder folder;
  Component other = hub();
  other.id = "OTHER";
  SECTION("named, and missing") {
    folder.change_unit("file = \"parts/HUB.glb\"", "file = \"parts/HUB.glb\"\nnode = \"HUUB\"");
    complains(folder, "HUUB", "has 'HUB'");
  }
  SECTION("several, and none of the id") {
    Component third = other;
    third.id = "THIRD";
    folder.write_model("HUB.glb", {other, third});
    complains(folder, "HUB.glb", "'OTHER' and 'THIRD'");
  }
  SECTION("two of one name") {
    folder.write_model("HUB.glb", {other, other});
    folder.change_unit("file = \"parts/HUB.glb\"", "file = \"parts/HUB.glb\"\nnode = \"OTHER\"");
    const LoadReport report = folder.load();
    INFO(text_of(report));
    CHECK(report.unit == nullptr);
  }
}

TEST_CASE("features that are wrong are told with file and node") {
  UnitFolder folder;
  Component bad = hub();
  bad.solid.rings[0].high_m = bad.solid.rings[0].low_m;
  Component drawn = hub();
  // The mesh is of a sound solid, the features of the bad one.
  folder.write_model("HUB.glb", {drawn});
  std::ifstream in(folder.path() / "parts" / "HUB.glb", std::ios::binary);
  std::string bytes((std::istreambuf_iterator<char>(in)), {});
  const std::size_t at = bytes.find("\"inner_mm\":10");
  REQUIRE(at != std::string::npos);
  bytes.replace(at, 13, "\"inner_mm\":99");
  folder.write_file("parts/HUB.glb", bytes);
  complains(folder, "HUB.glb", "node 'HUB': its features are wrong");
}

TEST_CASE("a model with no features loads with a question") {
  UnitFolder folder;
  folder.write_model("TRAY.glb", {hub()}, false);
  folder.change_unit("label = \"tray\"\n  [[component.ring]]\n  inner_diameter = \"0 mm\"\n"
                     "  outer_diameter = \"120 mm\"\n  low = \"-5 mm\"\n  high = \"0 mm\"\n"
                     "  feature = \"top\"\n",
                     "file = \"parts/TRAY.glb\"\n");
  asks(folder, "TRAY.glb", "states no features");
}

TEST_CASE("a kind that the model does not agree with is told") {
  UnitFolder folder;
  folder.change_unit("file = \"parts/HUB.glb\"", "file = \"parts/HUB.glb\"\nkind = \"drum\"");
  complains(folder, "kind = \"drum\"", "'parts/HUB.glb' says 'support'");
}

TEST_CASE("a model that calls itself something else is asked about") {
  UnitFolder folder;
  Component other = hub();
  other.id = "DRUM";
  folder.write_model("HUB.glb", {other});
  asks(folder, "HUB.glb", "calls itself 'DRUM'");
}

TEST_CASE("a model of an odd size is asked about") {
  UnitFolder folder;
  SECTION("millimetres as metres") {
    folder.write_model("HUB.glb", {hub()}, true, 1000);
    const LoadReport report = folder.load();
    INFO(text_of(report));
    CHECK(report.unit != nullptr);
    CHECK(found(report.questions, "unit.toml", line_of(folder.unit, "HUB.glb"),
                "100 m wide: millimetres?"));
  }
  SECTION("far too small") {
    folder.write_model("HUB.glb", {hub()}, true, 1e-3);
    const LoadReport report = folder.load();
    CHECK(found(report.questions, "unit.toml", line_of(folder.unit, "HUB.glb"), "another unit?"));
  }
  SECTION("mesh and features of two parts") {
    folder.write_model("HUB.glb", {hub()}, true, 1.2);
    asks(folder, "HUB.glb", "do mesh and features belong together?");
  }
}

TEST_CASE("an absurd plate is refused") {
  UnitFolder folder;
  SECTION("60 mm") {
    folder.change_unit("thickness = \"2.0 mm\"", "thickness = \"60 mm\"");
    complains(folder, "60 mm", "between 0.10 mm and 25.00 mm");
  }
  SECTION("next to nothing") {
    folder.change_unit("thickness = \"2.0 mm\"", "thickness = \"0.05 mm\"");
    complains(folder, "0.05 mm", "between 0.10 mm and 25.00 mm");
  }
  SECTION("below nothing") {
    folder.change_unit("thickness = \"2.0 mm\"", "thickness = \"-2 mm\"");
    complains(folder, "-2 mm", "nothing at all");
  }
  SECTION("among the options") {
    folder.change_unit("\"5.2 mm\"", "\"52 mm\"");
    complains(folder, "52 mm", "between 0.10 mm and 25.00 mm");
  }
  SECTION("in the model itself") {
    folder.change_unit("  high = \"5.0 mm\"", "  high = \"50 mm\"");
    folder.change_unit("options = [\"4.8 mm\", \"5.0 mm\", \"5.2 mm\"]\n", "");
    const LoadReport report = folder.load();
    INFO(text_of(report));
    CHECK(report.unit == nullptr);
    CHECK(found(report.complaints, "unit.toml", 0, "thickness 50.00 mm"));
  }
}

TEST_CASE("a slip of unit is told") {
  UnitFolder folder;
  SECTION("inches written as mm, and absurd") {
    folder.change_unit("thickness = \"2.0 mm\"", "thickness = \"0.079 mm\"");
    complains(folder, "0.079 mm", "inches written as mm? \"0.079 in\"");
  }
  SECTION("inches written as mm, and not absurd by itself") {
    folder.change_unit("\"4.8 mm\", \"5.0 mm\"", "\"0.197 mm\", \"5.0 mm\"");
    complains(folder, "0.197 mm", "inches written as mm? \"0.197 in\"");
  }
  SECTION("mm written as inches") {
    folder.change_unit("thickness = \"2.0 mm\"", "thickness = \"2.0 in\"");
    complains(folder, "2.0 in", "millimetres written as inches? \"2 mm\"");
  }
  SECTION("far off, but no slip of unit: a question") {
    folder.change_unit("thickness = \"2.0 mm\"", "thickness = \"8.0 mm\"");
    asks(folder, "8.0 mm", "is it the right model?");
  }
}

TEST_CASE("options rise, and the fitted one is among them") {
  UnitFolder folder;
  SECTION("twice the same") {
    folder.change_unit("\"4.8 mm\", \"5.0 mm\"", "\"5.0 mm\", \"5.0 mm\"");
    complains(folder, "\"5.0 mm\", \"5.0 mm\"", "does not rise");
  }
  SECTION("the fitted one is not there") {
    folder.change_unit("\"4.8 mm\", \"5.0 mm\"", "\"4.8 mm\", \"4.9 mm\"");
    asks(folder, "\"4.9 mm\"", "not among its options");
  }
}

TEST_CASE("a thickness that nothing can take is told") {
  UnitFolder folder;
  folder.change_unit("file = \"parts/HUB.glb\"", "file = \"parts/HUB.glb\"\nthickness = \"3 mm\"");
  complains(folder, "\"3 mm\"\n", "no figure 'thickness'");
}
