// Slips written into the unit: the check names the step that fails, and why.

#include "tests/build/demo.h"

#include <catch2/catch.hpp>

using namespace lugline;
using namespace lugline::test;

namespace {

CheckReport check_of(const LoadReport& loaded) {
  for (const Complaint& complaint : loaded.complaints) {
    UNSCOPED_INFO(text_of(complaint));
  }
  REQUIRE(loaded.unit != nullptr);
  Workshop workshop(*loaded.unit, {});
  return judge(workshop, simulate(workshop));
}

bool says(const CheckReport& report, const std::string& words) {
  for (const Complaint& complaint : report.complaints) {
    if (text_of(complaint).find(words) != std::string::npos) {
      return true;
    }
  }
  return false;
}

std::string all_words(const CheckReport& report) {
  std::string all;
  for (const Complaint& complaint : report.complaints) {
    all += text_of(complaint) + "\n";
  }
  return all;
}

} // namespace

TEST_CASE("steels a millimetre too thick leave no room for the ring, and the step says so") {
  const CheckReport report = check_of(demo_with("unit.toml", "\"1.5 mm\"", "\"2.5 mm\""));
  INFO(all_words(report));
  CHECK_FALSE(report.sound);
  // Four steels take 4.00 of the 0.90 that there was: 3.10 too high.
  CHECK(says(report, "3.10 mm too high"));
  CHECK(says(report, "sequence.toml:"));
}

TEST_CASE("frictions a millimetre too thin leave the pack loose") {
  const CheckReport report = check_of(demo_with("unit.toml", "count = 4\nthickness = \"1.6 mm\"",
                                                "count = 4\nthickness = \"0.6 mm\""));
  INFO(all_words(report));
  CHECK_FALSE(report.sound);
  CHECK(says(report, "too loose"));
}
