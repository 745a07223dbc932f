// Every source file held to the table of rooms.
#include "tests/rooms/rules.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

using namespace lugline::rooms;

namespace {

namespace fs = std::filesystem;

struct Source {
  std::string path; ///< from the top of the tree
  std::string text;
};

std::vector<Source> sources_under(const std::string& folder) {
  const fs::path root = LUGLINE_ROOT;
  std::vector<Source> found;
  if (!fs::exists(root / folder))
    return found;
  for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
    const std::string ending = entry.path().extension().string();
    if (!entry.is_regular_file() || (ending != ".h" && ending != ".cpp" && ending != ".hpp"))
      continue;
    std::ifstream file(entry.path(), std::ios::binary);
    found.push_back({fs::relative(entry.path(), root).generic_string(),
                     {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()}});
  }
  std::sort(found.begin(), found.end(),
            [](const Source& a, const Source& b) { return a.path < b.path; });
  return found;
}

template <class Rule>
void hold(const std::vector<Source>& sources, Rule rule) {
  for (const Source& source : sources)
    for (const std::string& complaint : rule(source.path, source.text))
      FAIL_CHECK(complaint);
}

} // namespace

TEST_CASE("the sources are there to be read") {
  CHECK(sources_under("scene").size() >= 15);
  for (const Source& source : sources_under("scene"))
    CHECK_FALSE(source.text.empty());
}

TEST_CASE("every include points up the table of rooms") {
  hold(sources_under("scene"), wrong_includes);
  hold(sources_under("viewer"), wrong_includes);
}

TEST_CASE("scene knows no clock, locale, environment or chance") {
  hold(sources_under("scene"), outside_influences);
}

TEST_CASE("panels hold no state of their own") {
  hold(sources_under("viewer/panels"), lasting_state);
}

TEST_CASE("neither scene nor stage holds state of its own") {
  hold(sources_under("scene"), lasting_state);
  hold(sources_under("viewer/stage"), lasting_state);
}
