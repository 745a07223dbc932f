// lugline make, as a real process: what it prints, on a terminal and off it, and
// that Ctrl+C leaves nothing half done.

#include "tests/cli/process.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <fstream>
#include <sstream>

#include <pty.h>
#include <sys/wait.h>
#include <termios.h>
#include <unistd.h>

namespace lugline::test {

namespace {

namespace fs = std::filesystem;

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) {
    lines.push_back(line);
  }
  return lines;
}

/// One part of the demo's recipes, many times over.
std::string many_of(const std::string& id, int count) {
  std::ifstream in(demo_path() + "/recipes.toml");
  const std::string all{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  const auto named = all.find("id = \"" + id + "\"");
  REQUIRE(named != std::string::npos);
  const auto from = all.rfind("[[part]]", named);
  const std::string part = all.substr(from, all.find("\n[[part]]\n", named) - from);
  std::string text = "schema = 1\n";
  for (int k = 0; k < count; ++k) {
    std::string one = part;
    one.replace(one.find(id), id.size(), id + std::to_string(k));
    text += one + "\n";
  }
  return text;
}

/// The program on a terminal of its own; stop_at: words at which Ctrl+C is typed.
struct OnTerminal {
  std::string seen;
  int status = -1;
};

OnTerminal run_on_terminal(const std::vector<std::string>& arguments, const std::string& stop_at) {
  std::vector<std::string> words{LUGLINE_PROGRAM};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  for (std::string& word : words) {
    argv.push_back(word.data());
  }
  argv.push_back(nullptr);
  int terminal = -1;
  const pid_t child = ::forkpty(&terminal, nullptr, nullptr, nullptr);
  REQUIRE(child >= 0);
  if (child == 0) {
    // Ctrl+C has a terminal throw away what waits to be shown, and that may be the answer to it.
    termios settings{};
    ::tcgetattr(STDIN_FILENO, &settings);
    settings.c_lflag |= NOFLSH;
    ::tcsetattr(STDIN_FILENO, TCSANOW, &settings);
    ::execv(argv[0], argv.data());
    ::_exit(127);
  }
  OnTerminal run;
  std::array<char, 4096> bytes{};
  bool typed = stop_at.empty();
  for (ssize_t count = 0; (count = ::read(terminal, bytes.data(), bytes.size())) > 0;) {
    run.seen.append(bytes.data(), static_cast<std::size_t>(count));
    if (!typed && run.seen.find(stop_at) != std::string::npos) {
      typed = ::write(terminal, "\x03", 1) == 1;
    }
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  ::close(terminal);
  run.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return run;
}

} // namespace

TEST_CASE("make writes the demo's models, and does nothing the second time") {
  const TempFolder folder;
  const std::string out = folder.path() / "parts";
  const Run first = run_lugline({"make", demo_path() + "/recipes.toml", "-o", out});
  CHECK(first.status == 0);
  CHECK(first.err.empty()); // no progress where there is no terminal
  CHECK(first.out.find("written") != std::string::npos);
  const auto time = fs::last_write_time(out + "/CC-S.glb");
  const Run second = run_lugline({"make", demo_path() + "/recipes.toml", "-o", out});
  CHECK(second.status == 0);
  CHECK(second.out.find("written") == std::string::npos);
  CHECK(second.out.find("unchanged") != std::string::npos);
  CHECK(fs::last_write_time(out + "/CC-S.glb") == time);
}

TEST_CASE("make prints triangles, size and mass of each part, and their sum") {
  const TempFolder folder;
  const std::string out = folder.path() / "parts";
  const Run json = run_lugline({"make", demo_path() + "/recipes.toml", "-o", out, "--json"});
  CHECK(json.status == 0);
  CHECK(json.err.empty());
  const nlohmann::json document = document_of(json);
  CHECK(document["made"] == true);
  CHECK(document["stopped"] == false);
  std::size_t triangles = 0;
  std::size_t bytes = 0;
  for (const nlohmann::json& model : document["models"]) {
    triangles += model["triangles"].get<std::size_t>();
    bytes += model["bytes"].get<std::size_t>();
    CHECK(model["bytes"] == fs::file_size(fs::path(out) / model["file"].get<std::string>()));
    CHECK(model["mass_kg"] > 0);
    CHECK(model["size_mm"].size() == 3);
    CHECK(model["written"] == true);
  }
  const Run words = run_lugline({"make", demo_path() + "/recipes.toml", "-o", out});
  const std::vector<std::string> lines = lines_of(words.out);
  REQUIRE(lines.size() == document["models"].size() + 1);
  CHECK(lines.back().find(std::to_string(document["models"].size()) + " models, " +
                          std::to_string(triangles) + " triangles, " + std::to_string(bytes) +
                          " bytes, ") == 0);
  const auto steel = std::ranges::find_if(
      lines, [](const std::string& line) { return line.starts_with("CC-S "); });
  REQUIRE(steel != lines.end());
  CHECK(steel->find("1.5 mm") != std::string::npos);
  CHECK(steel->find("kg") != std::string::npos);
}

TEST_CASE("on a terminal make shows how far it is in one line, and takes it away again") {
  const TempFolder folder;
  const OnTerminal run =
      run_on_terminal({"make", demo_path() + "/recipes.toml", "-o", folder.path() / "parts"}, {});
  CHECK(run.status == 0);
  const auto parts = std::ranges::count_if(
      fs::directory_iterator(folder.path() / "parts"),
      [](const fs::directory_entry& entry) { return entry.path().extension() == ".glb"; });
  CHECK(parts > 30);
  const std::string all = std::to_string(parts);
  CHECK(run.seen.find("\r\033[K1 of " + all + "  CASE-01") != std::string::npos);
  CHECK(run.seen.find("\r\033[K" + all + " of " + all) != std::string::npos);
  const auto last = run.seen.rfind("\r\033[K");
  REQUIRE(last != std::string::npos);
  const std::string progress = run.seen.substr(0, last);
  CHECK(progress.find('\n') == std::string::npos);    // one line, written over
  CHECK(run.seen.find("CASE-01 ", last) == last + 4); // the table begins where it was
}

TEST_CASE("Ctrl+C stops make between parts, with nothing written and no half file") {
  const TempFolder folder;
  folder.write("recipes.toml", many_of("MC-DRUM", 500));
  const std::string out = folder.path() / "parts";
  const OnTerminal run =
      run_on_terminal({"make", folder.path() / "recipes.toml", "-o", out}, "2 of 500");
  CHECK(run.status == 1);
  CHECK(run.seen.find("stopped; nothing was written") != std::string::npos);
  CHECK(run.seen.find("500 of 500") == std::string::npos);
  CHECK_FALSE(fs::exists(out));
}

TEST_CASE("a make that was stopped says so in its JSON") {
  const TempFolder folder;
  folder.write("recipes.toml", many_of("MC-DRUM", 500));
  const OnTerminal run = run_on_terminal(
      {"make", folder.path() / "recipes.toml", "-o", folder.path() / "parts", "--json"},
      "2 of 500");
  CHECK(run.status == 1);
  const auto document = run.seen.find('{');
  REQUIRE(document != std::string::npos);
  const nlohmann::json report = nlohmann::json::parse(run.seen.substr(document));
  CHECK(report["made"] == false);
  CHECK(report["stopped"] == true);
  CHECK(report["models"].empty());
}

TEST_CASE("make leaves models and nothing else in its folder") {
  const TempFolder folder;
  folder.write("recipes.toml", many_of("CC-S", 3));
  const std::string out = folder.path() / "parts";
  REQUIRE(run_lugline({"make", folder.path() / "recipes.toml", "-o", out}).status == 0);
  int models = 0;
  for (const auto& entry : fs::directory_iterator(out)) {
    CHECK(entry.path().extension() == ".glb");
    ++models;
  }
  CHECK(models == 3);
}

TEST_CASE("recipes lists every recipe with its figures") {
  const Run run = run_lugline({"recipes"});
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  CHECK(run.out.find("recipe = \"friction plate\"\n    teeth_tip, teeth_root") !=
        std::string::npos);
  CHECK(run_lugline({"recipes", "more"}).status == 2);
}

} // namespace lugline::test
