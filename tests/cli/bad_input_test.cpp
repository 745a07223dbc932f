// Units that are wrong, through the program: one message each with its place,
// status 1, nothing half loaded, no crash.

#include "tests/cli/process.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>

using namespace lugline::test;

namespace {

/// Refused, with these words somewhere and a place in that file.
void refused(const std::string& unit, const std::string& file, const std::string& words) {
  const Run run = run_lugline({"check", unit, "--json"});
  INFO(run.out);
  INFO(run.err);
  CHECK(run.status == 1);
  const auto document = document_of(run);
  CHECK(document["sound"] == false);
  CHECK(document["steps"].empty()); // never half loaded
  bool told = false;
  for (const auto& complaint : document["complaints"]) {
    const std::string message =
        complaint["message"].get<std::string>() + " " + complaint.value("hint", "");
    told = told || (complaint["file"].get<std::string>().find(file) != std::string::npos &&
                    message.find(words) != std::string::npos);
  }
  INFO(file << ": " << words);
  CHECK(told);
}

} // namespace

TEST_CASE("a folder that is not there, and one with nothing in it") {
  refused("/no/such/folder", "", "");
  const TempFolder folder;
  refused(folder.path(), "unit.toml", "");
}

TEST_CASE("slips of the pen in the demo's own files") {
  const TempFolder folder;
  refused(folder.demo_with("unit.toml", "\"1.5 mm\"", "1.5"), "unit.toml", "1.5");
  refused(folder.demo_with("unit.toml", "\"1.5 mm\"", "\"60 mm\""), "unit.toml", "60");
  refused(folder.demo_with("unit.toml", "\"1.5 mm\"", "\"1,5 mm\""), "unit.toml", "1,5 mm");
  refused(folder.demo_with("unit.toml", "\"1.5 mm\"", "\"1.5 psi\""), "unit.toml", "psi");
  refused(folder.demo_with("unit.toml", "parts/CC-S.glb", "parts/CC-X.glb"), "unit.toml", "CC-X");
  refused(folder.demo_with("unit.toml", "parts/CC-S.glb", "../../../etc/passwd"), "unit.toml",
          "folder");
  refused(folder.demo_with("unit.toml", "parts/CC-S.glb", "/etc/passwd"), "unit.toml", "");
  refused(folder.demo_with("unit.toml", "schema = 1", "schema = 7"), "unit.toml", "schema");
  refused(folder.demo_with("sequence.toml", "seat = \"CC-PIST\"", "seat = \"CC-PISTT\""),
          "sequence.toml", "CC-PIST");
  refused(folder.demo_with("sequence.toml", "kind = \"place\"", "kind = \"plaec\""),
          "sequence.toml", "place");
  refused(folder.demo_with("unit.toml", "schema = 1", "schema = = 1"), "unit.toml", "");
}

TEST_CASE("a truncated model, an empty one, and one that is a link out of the folder") {
  const TempFolder folder;
  const std::string unit = folder.demo_with("unit.toml", "schema = 1", "schema = 1");
  const std::filesystem::path model = std::filesystem::path(unit) / "parts" / "CC-S.glb";
  std::filesystem::resize_file(model, std::filesystem::file_size(model) / 2);
  refused(unit, "", "CC-S");
  std::filesystem::resize_file(model, 0);
  refused(unit, "", "CC-S");
  std::filesystem::remove(model);
  std::filesystem::create_symlink("/etc/hostname", model);
  refused(unit, "", "CC-S");
}

TEST_CASE("a unit with no steps") {
  const TempFolder folder;
  const std::string unit = folder.demo_with("unit.toml", "schema = 1", "schema = 1");
  std::ofstream(unit + "/sequence.toml") << "schema = 1\n";
  refused(unit, "sequence.toml", "step");
}

namespace {

/// The sequence holds no more: status 1, and these words among the complaints.
void not_sound(const std::string& unit, const std::string& words) {
  const Run run = run_lugline({"check", unit, "--json"});
  INFO(run.out);
  CHECK(run.status == 1);
  const auto document = document_of(run);
  bool told = false;
  for (const auto& complaint : document["complaints"]) {
    told = told || complaint["message"].get<std::string>().find(words) != std::string::npos;
    CHECK(complaint["line"] > 0);
  }
  INFO(words);
  CHECK(told);
}

} // namespace

TEST_CASE("figures that no bench has are refused, and printed as they were written") {
  const TempFolder folder;
  refused(folder.demo_with("unit.toml", "\"1.5 mm\"", "\"1e300 mm\""), "unit.toml", "1e300 mm");
  refused(folder.demo_with("unit.toml", "\"1.25 mm\"", "\"1e300 mm\""), "unit.toml", "1e300 mm");
  refused(folder.demo_with("unit.toml", "\"1.5 mm\"", "\"nan mm\""), "unit.toml", "nan mm");
  refused(folder.demo_with("unit.toml", "\"1.5 mm\"", "\"-2 mm\""), "unit.toml", "nothing at all");
  refused(folder.demo_with("unit.toml", "\"1.5 mm\"", "\"0.06 mm\""), "unit.toml", "\"0.06 in\"");
  refused(folder.demo_with("unit.toml", "count = 4", "count = 100"), "unit.toml", "1 to 99");
  refused(folder.demo_with("sequence.toml", "\"18.4 mm\"", "\"1e300 mm\""), "sequence.toml",
          "1e300 mm");
}

TEST_CASE("a key without end, a folder for a file, and a link to nowhere") {
  const TempFolder folder;
  const std::string unit = folder.demo_with("unit.toml", "schema = 1", "schema = 1");
  std::string key = "a";
  for (int i = 0; i < 100000; ++i) {
    key += ".a";
  }
  std::ofstream(unit + "/unit.toml") << key << " = 1\n";
  refused(unit, "unit.toml", "parts");
  std::filesystem::remove(unit + "/unit.toml");
  std::filesystem::create_directory(unit + "/unit.toml");
  refused(unit, "unit.toml", "not a plain file");
  std::filesystem::remove(unit + "/unit.toml");
  std::filesystem::create_symlink("nowhere", unit + "/unit.toml");
  refused(unit, "unit.toml", "no such file");
}

TEST_CASE("a folder's name may hold anything, and is printed on one line") {
  const TempFolder folder;
  const std::string unit = folder.demo_with("unit.toml", "schema = 1", "schema = 1");
  for (const char* name : {"two words",
                           "gr\xc3\xb6\xc3\x9f"
                           "e",
                           "two\nlines", "\x1b[2J", "\xff\xfe"}) {
    const std::filesystem::path other = folder.path() / name;
    std::filesystem::rename(unit, other);
    CHECK(run_lugline({"check", other.string()}).status == 0);
    CHECK(run_lugline({"check", other.string(), "--json"}).status == 0);
    std::filesystem::rename(other, unit);
    const Run missing = run_lugline({"check", other.string()});
    CHECK(missing.status == 1);
    CHECK(missing.err.find('\x1b') == std::string::npos);
    CHECK(std::count(missing.err.begin(), missing.err.end(), '\n') == 1);
  }
}

TEST_CASE("steps in an order in which they cannot be done") {
  const TempFolder folder;
  not_sound(folder.demo_with("sequence.toml", "press_to = \"18.4 mm\"", "press_to = \"3 mm\""),
            "beyond solid");
  not_sound(folder.demo_with("sequence.toml", "kind = \"turn over\"", "kind = \"note\""), "");
  not_sound(folder.demo_with("sequence.toml", "band_state = \"spread\"",
                             "band_state = \"spread\"\nturn = \"90 deg\""),
            "90.0 deg away");
  not_sound(folder.demo_with("sequence.toml", "band_state = \"spread\"",
                             "band_state = \"spread\"\nway_up = \"turned over\""),
            "does not hang on");
  not_sound(folder.demo_with("unit.toml", "\"CC-S1\", \"CC-F1\"", "\"CC-F1\", \"CC-S1\""),
            "the steps lay it above");
  refused(folder.demo_with("unit.toml", "plates = [\"MC-AP\"", "plates = [\"CC-S1\", \"MC-AP\""),
          "unit.toml", "as well");
  refused(folder.demo_with("sequence.toml", "kind = \"take out\"", "kind = \"refit\""),
          "sequence.toml", "is in already");
}

TEST_CASE("every command with --json prints its one document, of a wrong unit too") {
  const TempFolder folder;
  const std::string unit = folder.demo_with("unit.toml", "schema = 1", "schema = 7");
  for (const std::vector<std::string>& command : {std::vector<std::string>{"check", unit},
                                                  {"drop", unit, "--part", "CC-BP"},
                                                  {"pack", unit}}) {
    std::vector<std::string> arguments = command;
    arguments.push_back("--json");
    const Run run = run_lugline(arguments);
    CHECK(run.status == 1);
    CHECK(document_of(run)["complaints"].size() >= 1);
  }
}

TEST_CASE("lists of measurements that are none, each in its own words") {
  const TempFolder folder;
  const auto told = [&](const std::string& content, const std::string& words) {
    folder.write("read.csv", content);
    const Run run = run_lugline({"pack", demo_path(), "--measured", folder.path() / "read.csv"});
    INFO(words << "\n" << run.err << run.out);
    CHECK(run.status == 1);
    CHECK(run.err.find("read.csv") == 0);
    CHECK(run.err.find(words) != std::string::npos);
    CHECK(run.out.empty());
    CHECK(run.err.size() < 500);
    for (const char c : run.err) {
      CHECK((static_cast<unsigned char>(c) >= 0x20U || c == '\n'));
    }
  };
  told("", "holds no measurement");
  told("# nothing yet\n\n", "holds no measurement");
  told(std::string("CC-S1\0,1.5 mm", 13), "is no text");
  told("\x1b[2JCC-S1,1.5 mm", "is no text");
  told("\xff\xfe"
       "C\0C\0",
       "UTF-16");
  told(std::string(2 * 1024 * 1024, 'x'), "bytes large");
  told("CC-S1,60 mm", "between 0.10 mm and 25.00 mm");
  told("CC-S1,0.059 mm", "\"0.059 in\"");
  told("CC-S1,1e300 mm", "beyond 10 m");
  told("CC-S1,1.5 mm +/- 1e300 mm", "beyond 10 m");
  told("CC-S1,1.5 mm +/- 1 mm", "is no reading");
  told("CC-S1,-1.5 mm", "not below nothing");
  told("CC-S1,0 mm", "nothing at all");
  told("CC-S1,5.6 mm", "is it another part's?");
  told("CC-S,1.5 mm", "CC-S1, CC-S2, CC-S3 and CC-S4");
  told("CASE-01,1.5 mm", "no thickness");
  told("CC-S1,1.5 mm,x", "read.csv:1:14: 'x' is neither a thickness nor an instrument");
  told("CC-S1,1.5 mm,dial,caliper", "read.csv:1:19: 'caliper' is neither");
  told("CC-S1,1.5 mm,0.059 mm", "read.csv:1:7: CC-S1: ");
  told("CC-S1,,", "read.csv:1:7: ");
  told("CC-S1,1.5 mm\nCC-S1,1.4 mm", "read.csv:2:1: CC-S1 is measured twice");
  told("CC-S1;1,5 mm", "decimal comma");
  told("thickness of CC-S1", "expected \"id,thickness\"");
  const Run folder_itself = run_lugline({"pack", demo_path(), "--measured", folder.path()});
  CHECK(folder_itself.status == 1);
  CHECK(folder_itself.err.find("cannot be read") != std::string::npos);
}

TEST_CASE("lists of measurements as other programs write them") {
  const TempFolder folder;
  for (const char* content :
       {"\xef\xbb\xbf"
        "CC-S1,1.4 mm\n",
        "\"CC-S1\",\"1.4 mm\"\r\n", "CC-S1;1.4 mm", "CC-S1\t1.4 mm", "id,thickness\nCC-S1,1.4 mm",
        "# read at the bench\r\rCC-S1 , 1.4 mm,\r"}) {
    folder.write("read.csv", content);
    const auto document = document_of(run_lugline(
        {"pack", demo_path(), "--pack", "CC", "--measured", folder.path() / "read.csv", "--json"}));
    INFO(content);
    CHECK(document["packs"][0]["clearance_mm"] == Approx(1.0));
  }
}

TEST_CASE("a pack that readings leave no room for says which step fails") {
  const TempFolder folder;
  folder.write("read.csv", "CC-S1,4.4 mm\nCC-S2,4.4 mm\n");
  const Run run =
      run_lugline({"pack", demo_path(), "--pack", "CC", "--measured", folder.path() / "read.csv"});
  CHECK(run.status == 1);
  CHECK(run.out.find("Case clutch is never whole: case clutch ring is not in") !=
        std::string::npos);
  CHECK(run.out.find("4.90 mm too high") != std::string::npos);
  CHECK(run.out.find("not closed yet by") == std::string::npos);
}
