// Units that are wrong, through the program: one message each with its place,
// status 1, nothing half loaded, no crash.

#include "tests/cli/process.h"

#include <catch2/catch.hpp>

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
