#include "scene/quantity/complaint.h"

#include <catch2/catch.hpp>

using lugline::Complaint;
using lugline::nearest_name;
using lugline::printable;
using lugline::text_of;

TEST_CASE("a complaint says where, what and what to do") {
  CHECK(text_of({"unit.toml", 12, 9, "no part is called \"drun\"", "drum?"}) ==
        "unit.toml:12:9: no part is called \"drun\" (drum?)");
}

TEST_CASE("a complaint leaves out what it does not know") {
  CHECK(text_of({"unit.toml", 12, 0, "is wrong", ""}) == "unit.toml:12: is wrong");
  CHECK(text_of({"unit.toml", 0, 0, "is missing", ""}) == "unit.toml: is missing");
  // A column means nothing without its line.
  CHECK(text_of({"unit.toml", 0, 7, "is missing", ""}) == "unit.toml: is missing");
  CHECK(text_of({"", 0, 0, "no folder was given", "give one"}) == "no folder was given (give one)");
}

TEST_CASE("a complaint stands on one line, and no terminal obeys what a stranger wrote") {
  CHECK(text_of({"a\nb", 1, 2, "there is no '\x1b[2J'", "\x7f\r"}) ==
        "a\\u000ab:1:2: there is no '\\u001b[2J' (\\u007f\\u000d)");
  // The second set of controls is two bytes in UTF-8; letters with marks are left alone.
  CHECK(printable("\xc2\x9b"
                  "2J") == "\\u009b2J");
  CHECK(printable("gr\xc3\xb6\xc3\x9f"
                  "er \xc2\xb1 0.02 mm") == "gr\xc3\xb6\xc3\x9f"
                                            "er \xc2\xb1 0.02 mm");
  CHECK(printable(std::string("a\0b", 3)) == "a\\u0000b");
  CHECK(printable("\xc2") == "\xc2");
}

TEST_CASE("the nearest name is found through one slip of each kind") {
  const std::vector<std::string> known = {"forward-drum", "forward-hub", "reverse-drum", "case"};
  CHECK(nearest_name("forward-drun", known) == "forward-drum");
  CHECK(nearest_name("forwrd-drum", known) == "forward-drum");
  CHECK(nearest_name("forwaard-drum", known) == "forward-drum");
  CHECK(nearest_name("fowrard-drum", known) == "forward-drum");
  CHECK(nearest_name("Forward-Drum", known) == "forward-drum");
  CHECK(nearest_name("CASE", known) == "case");
}

TEST_CASE("a neighbour swapped is one slip and not two") {
  // Two slips would be too many in four letters.
  CHECK(nearest_name("csae", {"case"}) == "case");
  CHECK(nearest_name("cxye", {"case"}).empty());
}

TEST_CASE("another word is no slip") {
  const std::vector<std::string> known = {"forward-drum", "case"};
  CHECK(nearest_name("pump", known).empty());
  CHECK(nearest_name("", known).empty());
  CHECK(nearest_name("case", known).empty()); // known as it stands
  CHECK(nearest_name("anything", {}).empty());
  CHECK(nearest_name("x", {"y"}).empty());
}

TEST_CASE("of two equally near names the first is given") {
  CHECK(nearest_name("steel-3", {"steel-2", "steel-1"}) == "steel-2");
  CHECK(nearest_name("steel-3", {"steel-1", "steel-2"}) == "steel-1");
}

TEST_CASE("a pasted page is not compared") {
  const std::string page(1'000'000, 'a');
  CHECK(nearest_name(page, {page + "b", "a"}).empty());
}
