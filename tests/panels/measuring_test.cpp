// Typing into the measuring panel, a key at a time.
#include "tests/panels/hand.h"

#include "viewer/panels/measuring.h"

#include <catch2/catch.hpp>

using namespace lugline;
using namespace lugline::test;

namespace {

std::vector<MeasuringSheet> sheets() {
  MeasuringSheet sheet;
  sheet.pack = "CC";
  sheet.name = "Case clutch";
  sheet.result = "0.90 mm (0.035 in), inside limits; limits 0.75 to 1.25 mm";
  sheet.rows = {{"S1", "steel 1", "1.50 mm", "1.50 mm (0.059 in), nominal", false, false, "", {}},
                {"F1", "friction 1", "1.60 mm", "1.60 mm (0.063 in), nominal", false, true, "", {}},
                {"BP",
                 "backing plate",
                 "5.00 mm",
                 "5.00 mm (0.197 in), nominal",
                 false,
                 false,
                 "",
                 {{0.0048, "4.80 mm", false}, {0.005, "5.00 mm", true}}}};
  return {sheet};
}

struct Bench {
  Hand hand;
  MeasuringDraft draft;
  Wishes all;

  Hand::Panel panel() {
    return [this] {
      Wishes wishes =
          measuring_panel(sheets(), draft, LengthUnit::millimetre, hand.area(), hand.style());
      for (const Wish& wish : wishes) {
        // What the reducer would do with the draft.
        if (const auto* typed = std::get_if<wish::Type>(&wish)) {
          draft = {typed->part, typed->text, {}};
        } else if (std::holds_alternative<wish::LeaveField>(wish)) {
          draft = {};
        }
        all.push_back(wish);
      }
      return wishes;
    };
  }

  [[nodiscard]] std::vector<wish::Type> typed() const {
    std::vector<wish::Type> found;
    for (const Wish& wish : all) {
      if (const auto* one = std::get_if<wish::Type>(&wish)) {
        found.push_back(*one);
      }
    }
    return found;
  }
};

} // namespace

TEST_CASE("the panel opens with the keyboard in the step's own plate") {
  Bench bench;
  bench.hand.frame(bench.panel());
  bench.hand.frame(bench.panel());
  bench.hand.frame(bench.panel());
  bench.hand.type("1.58", bench.panel());
  const std::vector<wish::Type> typed = bench.typed();
  REQUIRE(typed.size() == 4);
  CHECK(typed[0].part == "F1");
  CHECK(typed[0].text == "1");
  CHECK(typed[3].text == "1.58");
}

TEST_CASE("every digit comes back as it lands, and enter goes to the next plate") {
  Bench bench;
  for (int i = 0; i < 3; ++i) {
    bench.hand.frame(bench.panel());
  }
  bench.hand.type("1.6", bench.panel());
  bench.hand.press_key(ImGuiKey_Enter, bench.panel());
  bench.hand.frame(bench.panel());
  bench.hand.frame(bench.panel());
  bench.hand.type("4.8", bench.panel());
  const std::vector<wish::Type> typed = bench.typed();
  REQUIRE(typed.size() == 6);
  CHECK(typed[2].text == "1.6");
  CHECK(typed[5].part == "BP");
  CHECK(typed[5].text == "4.8");
}

TEST_CASE("a selective is taken by pressing its thickness") {
  Bench bench;
  bench.hand.frame(bench.panel());
  const std::vector<wish::Choose> chosen =
      bench.hand.all_by_clicking<wish::Choose>(bench.panel(), 16);
  REQUIRE_FALSE(chosen.empty());
  bool thin = false;
  for (const wish::Choose& one : chosen) {
    CHECK(one.part == "BP");
    thin = thin || one.thickness_m == Approx(0.0048);
  }
  CHECK(thin);
}

TEST_CASE("the panel is left by its button") {
  Bench bench;
  bench.hand.frame(bench.panel());
  CHECK_FALSE(bench.hand.all_by_clicking<wish::Leave>(bench.panel(), 16).empty());
}

TEST_CASE("a unit without packs says so and has no field") {
  Hand hand;
  const Hand::Panel panel = [&hand] {
    return measuring_panel({}, {}, LengthUnit::inch, hand.area(), hand.style());
  };
  for (int i = 0; i < 3; ++i) {
    CHECK(hand.frame(panel).empty());
  }
  CHECK(hand.type("1.9", panel).empty());
}
