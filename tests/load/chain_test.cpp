// [[chain]] tables: read, judged, and refused with their place.
#include "tests/load/unit_folder.h"

#include <catch2/catch.hpp>

using namespace lugline;
using namespace lugline::test;

namespace {

constexpr const char* chain = R"(
[[chain]]
id = "travel"
name = "Travel"
gap = { name = "piston to ear", length = "8.0 mm" }
needs = ["PST"]
selective = ["BP"]
limits = ["0.50 mm", "1.50 mm"]
  [[chain.member]]
  part = "BP"
  [[chain.member]]
  name = "washer"
  part = "PST"
  length = "2.0 mm"
)";

/// The small unit with that chain, in which `was` reads `now`.
struct ChainFolder : UnitFolder {
  explicit ChainFolder(const std::string& was = {}, const std::string& now = {}) {
    std::string text = chain;
    if (!was.empty()) {
      const std::size_t at = text.find(was);
      REQUIRE(at != std::string::npos);
      text.replace(at, was.size(), now);
    }
    unit += text;
  }
};

void complaint(const std::string& was, const std::string& now, const std::string& at,
               const std::string& words, int below = 0) {
  ChainFolder folder(was, now);
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", line_of(folder.unit, at) + below, words));
}

} // namespace

TEST_CASE("a chain is read: its gap, what fills it, what it needs, what may be chosen") {
  ChainFolder folder;
  const LoadReport report = folder.load();
  INFO(text_of(report));
  REQUIRE(report.unit);
  REQUIRE(report.unit->chains.size() == 1);
  const Chain& read = report.unit->chains.front();
  CHECK(read.name == "Travel");
  CHECK(read.gap.name == "piston to ear");
  CHECK(read.gap.length_m == Approx(8e-3));
  REQUIRE(read.members.size() == 2);
  CHECK(read.members[0].part == "BP");
  CHECK(read.members[0].figure == "thickness");
  CHECK_FALSE(read.members[0].length_m);
  CHECK(read.members[1].length_m == Approx(2e-3));
  CHECK(read.members[1].figure.empty());
  CHECK(read.needs == std::vector<std::string>{"PST"});
  CHECK(read.selective == std::vector<std::string>{"BP"});
  CHECK(read.limits.high_m == Approx(1.5e-3));
  CHECK(read.source.line == line_of(folder.unit, "[[chain]]"));
  CHECK(report.unit->chain("travel") == &read);
  CHECK(report.unit->chain("travels") == nullptr);
}

TEST_CASE("a chain that says nothing sensible is refused, with its place") {
  complaint("part = \"BP\"", "part = \"BPP\"", "BPP", "no such component");
  complaint("part = \"BP\"", "part = \"ST\"", "part = \"ST\"", "which one?");
  complaint("needs = [\"PST\"]", "needs = [\"PSTT\"]", "PSTT", "no such component");
  complaint("part = \"BP\"", "part = \"BP\"\n  figure = \"length\"", "figure = \"length\"",
            "BP has thickness");
  complaint("part = \"BP\"", "part = \"HUB\"", "  part = \"HUB\"", "no figure 'thickness'");
  complaint("part = \"BP\"", "figure = \"thickness\"", "figure = \"thickness\"", "whose figure");
  complaint("  part = \"BP\"\n", "", "[[chain.member]]", "neither a part nor a length");
  complaint("  part = \"BP\"", "  length = \"5.0 mm\"", "[[chain.member]]", "name is missing");
  complaint("part = \"BP\"", "part = \"BP\"\n  figure = \"thickness\"\n  length = \"5.0 mm\"",
            "  length = \"5.0 mm\"", "which of the two");
  complaint("length = \"2.0 mm\"", "length = \"-2.0 mm\"", "-2.0 mm", "takes up no room");
  complaint("length = \"2.0 mm\"", "length = \"0 mm\"", "length = \"0 mm\"", "takes up no room");
  complaint("length = \"2.0 mm\"", "length = 2.0", "length = 2.0", "mm");
  complaint("length = \"8.0 mm\"", "length = \"-8.0 mm\"", "-8.0 mm", "takes up no room");
  complaint("gap = { name = \"piston to ear\", length = \"8.0 mm\" }\n", "", "[[chain]]",
            "gap is missing");
  complaint("gap = { name = \"piston to ear\", length = \"8.0 mm\" }", "gap = \"8.0 mm\"",
            "gap = \"8.0 mm\"", "table");
  complaint("limits = [\"0.50 mm\", \"1.50 mm\"]\n", "", "[[chain]]", "limits is missing");
  complaint("limits = [\"0.50 mm\"", "limits = [\"-0.50 mm\"", "-0.50", "below nothing");
  complaint("limits = [\"0.50 mm\"", "limits = [\"2.50 mm\"", "2.50 mm", "wrong way round");
  complaint("name = \"Travel\"", "name = \"Travel\"\ntravel = \"1 mm\"", "travel = \"1 mm\"",
            "travel");
}

TEST_CASE("a chain with nothing in it is refused") {
  UnitFolder folder;
  folder.unit += "\n[[chain]]\nid = \"empty\"\ngap = { name = \"slot\", length = \"8 mm\" }\n"
                 "limits = [\"1 mm\", \"2 mm\"]\n";
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", line_of(folder.unit, "[[chain]]"),
              "what fills the gap"));
}

TEST_CASE("a thickness counts once, and what is chosen counts and can be had") {
  complaint("  name = \"washer\"\n  part = \"PST\"\n  length = \"2.0 mm\"", "  part = \"BP\"",
            "name = \"Travel\"", "counts twice", 8);
  complaint("selective = [\"BP\"]", "selective = [\"BP\", \"BP\"]", "\"BP\", \"BP\"",
            "listed twice");
  complaint("selective = [\"BP\"]", "selective = [\"PST\"]", "selective = [\"PST\"]",
            "not one of its members");
}

TEST_CASE("a selective of a chain without options is refused") {
  ChainFolder folder("selective = [\"BP\"]", "selective = [\"ST1\"]");
  folder.unit.replace(folder.unit.rfind("part = \"BP\""), 11, "part = \"ST1\"");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", line_of(folder.unit, "selective = [\"ST1\"]"),
              "states no options"));
}

TEST_CASE("two chains of one id, and a reading of one that is not there, are refused") {
  ChainFolder folder;
  folder.unit += chain;
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit == nullptr);
  CHECK(found(report.complaints, "unit.toml", 0, "the id 'travel' is there already"));

  ChainFolder other;
  other.change_sequence("depth:HUB@45 mm", "chain:travl");
  const LoadReport read = other.load();
  INFO(text_of(read));
  CHECK(read.unit == nullptr);
  CHECK(found(read.complaints, "sequence.toml", line_of(other.sequence, "chain:travl"),
              "no such chain"));
}

TEST_CASE("members that do not go into their gap are asked about") {
  ChainFolder folder("length = \"8.0 mm\"", "length = \"6.0 mm\"");
  const LoadReport report = folder.load();
  INFO(text_of(report));
  CHECK(report.unit != nullptr);
  CHECK(found(report.questions, "unit.toml", line_of(folder.unit, "piston to ear"),
              "1.00 mm more than the gap"));
}
