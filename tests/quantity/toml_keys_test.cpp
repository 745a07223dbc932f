#include "scene/quantity/toml_keys.h"

#include <catch2/catch.hpp>

#include <string>

using lugline::first_long_key;
using lugline::most_key_parts;

namespace {

std::string key_of(std::size_t parts) {
  std::string key = "a";
  for (std::size_t i = 1; i < parts; ++i) {
    key += ".a";
  }
  return key;
}

} // namespace

TEST_CASE("a key of too many parts is found where it stands") {
  const auto plain = first_long_key("x = 1\n" + key_of(100000) + " = 1\n");
  REQUIRE(plain);
  CHECK(plain->line == 2);
  CHECK(plain->column == static_cast<int>(2 * most_key_parts));
  CHECK(first_long_key("[" + key_of(17) + "]\n"));
  CHECK(first_long_key("[[" + key_of(17) + "]]\n"));
  CHECK(first_long_key("x = { " + key_of(17) + " = 1 }\n"));
  // Parts in quotes, and room about the dots.
  std::string quoted = "\"a\"";
  for (int i = 0; i < 16; ++i) {
    quoted += " . 'a b'";
  }
  CHECK(first_long_key(quoted + " = 1"));
}

TEST_CASE("sixteen parts, and dots elsewhere, are left alone") {
  const std::string dots(1000, '.');
  CHECK_FALSE(first_long_key(key_of(16) + " = 1\n" + key_of(16) + " = 2\n"));
  CHECK_FALSE(first_long_key("# " + dots + "\nx = \"" + dots + "\"\ny = '" + dots + "'\n"));
  CHECK_FALSE(first_long_key("x = \"\"\"\n" + dots + "\n\\\"\"\"" + dots + "\"\"\"\ny = 1\n"));
  CHECK_FALSE(first_long_key("x = \"a \\\" " + dots + "\"\n"));
  CHECK_FALSE(
      first_long_key("x = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 1.0, 2.0, 3.0, 4.0, "
                     "5.0, 6.0, 7.0, 8.0, 9.0]"));
  CHECK_FALSE(first_long_key(""));
  CHECK_FALSE(first_long_key("\"" + dots));
}

TEST_CASE("a text that is never closed hides no key on the next line") {
  CHECK(first_long_key("x = \"never closed\n" + key_of(17) + " = 1"));
}
