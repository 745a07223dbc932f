// The animated model as a command writes it.

#include "tests/cli/process.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

using namespace lugline::test;

namespace {

nlohmann::json document_in(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  const std::string bytes = text.str();
  REQUIRE(bytes.size() > 20);
  REQUIRE(bytes.substr(0, 4) == "glTF");
  const auto size = static_cast<unsigned char>(bytes[12]) |
                    static_cast<unsigned char>(bytes[13]) << 8 |
                    static_cast<unsigned char>(bytes[14]) << 16;
  return nlohmann::json::parse(bytes.substr(20, static_cast<std::size_t>(size)));
}

} // namespace

TEST_CASE("animate writes the sequence, or a span of it at a pace") {
  const TempFolder folder;
  const auto file = folder.path() / "-span.glb";
  const Run run = run_lugline({"animate", demo_path(), "-o", file, "--from", "middle friction 2",
                               "--to", "middle friction 2", "--seconds", "3"});
  INFO(run.err);
  REQUIRE(run.status == 0);
  CHECK(run.out.find("2 animations, 3.0 s, ") != std::string::npos);
  CHECK(run.out.find("invented practice data") != std::string::npos);
  const auto document = document_in(file);
  CHECK(document["animations"].size() == 2);
  CHECK(document["scenes"][0]["extras"]["steps"].size() == 1);
  CHECK(document["scenes"][0]["extras"]["seconds"] == 3.0);
  CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}

TEST_CASE("animate refuses what it cannot do") {
  const TempFolder folder;
  const std::string file = folder.path() / "x.glb";
  const struct {
    std::vector<std::string> arguments;
    int status;
    std::string says;
  } cases[] = {
      {{"-o", file, "--from", "middle frction 2"}, 2, "did you mean"},
      {{"-o", file, "--from", "middle friction 2", "--to", "case piston laid"}, 2, "before it"},
      {{"-o", file, "--seconds", "0"}, 2, "--seconds"},
      {{"-o", file, "--seconds", "nan"}, 2, "--seconds"},
      {{"-o", folder.path() / "none/x.glb"}, 1, "could not be written"},
      {{"-o", folder.path()}, 1, "could not be written"},
  };
  for (const auto& one : cases) {
    std::vector<std::string> arguments{"animate", demo_path()};
    arguments.insert(arguments.end(), one.arguments.begin(), one.arguments.end());
    const Run run = run_lugline(arguments);
    INFO(one.says << " in " << run.err);
    CHECK(run.status == one.status);
    CHECK(run.err.find(one.says) != std::string::npos);
  }
  CHECK(std::filesystem::is_empty(folder.path()));
}
