// What each panel gives back when it is pressed, and that it can be pressed at
// every scale.
#include "tests/panels/hand.h"

#include "viewer/panels/apart.h"
#include "viewer/panels/faults.h"
#include "viewer/panels/foot.h"
#include "viewer/panels/keys.h"
#include "viewer/panels/settings.h"
#include "viewer/panels/steps.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace lugline;
using namespace lugline::test;

namespace {

std::vector<StepLine> steps() {
  return {{"Case", "Stand the case on its rear end.", false},
          {"", "Lower the gear train.", false},
          {"Clutch", "Lay the first steel in.", true}};
}

} // namespace

TEST_CASE("pressing a step goes to it and leaves the list") {
  const float scale = GENERATE(1.0f, 1.5f, 2.5f);
  Hand hand(scale, 460 * scale, 640 * scale);
  const Hand::Panel panel = [&] { return steps_panel(steps(), 1, hand.area(), hand.style()); };
  hand.frame(panel);
  std::set<std::size_t> reached;
  for (const wish::GoTo& go : hand.all_by_clicking<wish::GoTo>(panel, 18 * scale)) {
    reached.insert(go.step);
  }
  CHECK(reached == std::set<std::size_t>{0, 1, 2});
}

TEST_CASE("the present step has the keyboard: enter goes there") {
  Hand hand;
  const Hand::Panel panel = [&] { return steps_panel(steps(), 1, hand.area(), hand.style()); };
  for (int i = 0; i < 4; ++i) {
    hand.frame(panel);
  }
  const Wishes wishes = hand.press_key(ImGuiKey_Space, panel);
  const auto go = std::find_if(wishes.begin(), wishes.end(), [](const Wish& wish) {
    return std::holds_alternative<wish::GoTo>(wish);
  });
  REQUIRE(go != wishes.end());
  CHECK(std::get<wish::GoTo>(*go).step == 1);
}

TEST_CASE("each setting can be set") {
  Hand hand(1, 460, 760);
  const Settings settings;
  const Hand::Panel panel = [&] {
    return settings_panel(settings, {"log: /somewhere"}, hand.area(), hand.style());
  };
  hand.frame(panel);
  std::set<int> scales_reached;
  std::set<bool> motion;
  bool inch = false;
  bool whole = false;
  bool lines = false;
  for (float y = 8; y < 760; y += 16) {
    for (float x = 8; x < 460; x += 16) {
      for (const Wish& wish : hand.click({x, y}, panel)) {
        if (const auto* scale = std::get_if<wish::SetScale>(&wish)) {
          scales_reached.insert(static_cast<int>(scale->scale * 100 + 0.5));
        } else if (const auto* moving = std::get_if<wish::SetMotion>(&wish)) {
          motion.insert(moving->on);
        } else if (const auto* unit = std::get_if<wish::SetLengthUnit>(&wish)) {
          inch = inch || unit->unit == LengthUnit::inch;
        } else if (const auto* cut = std::get_if<wish::SetCut>(&wish)) {
          whole = whole || !cut->on;
        } else if (const auto* print = std::get_if<wish::SetPrintLook>(&wish)) {
          lines = lines || print->on;
        }
      }
    }
  }
  CHECK(scales_reached == std::set<int>{100, 125, 150, 175, 200, 225, 250});
  CHECK(motion == std::set<bool>{false, true});
  CHECK(inch);
  CHECK(whole);
  CHECK(lines);
}

TEST_CASE("a unit that does not load is tried again by its button") {
  Hand hand;
  const std::vector<Complaint> complaints = {
      {"unit.toml", 12, 9, "read \"1.98\", a bare number", "write \"1.98 mm\" or \"1.98 in\""}};
  const Hand::Panel panel = [&] {
    return faults_panel(complaints, "units/mine", false, hand.area(), hand.style());
  };
  hand.frame(panel);
  CHECK_FALSE(hand.all_by_clicking<wish::TryAgain>(panel, 16).empty());
  CHECK_FALSE(hand.all_by_clicking<wish::Close>(panel, 16).empty());
  CHECK(hand.all_by_clicking<wish::Leave>(panel, 16).empty());
}

TEST_CASE("dragging the slider pulls the unit apart, to its very ends") {
  Hand hand(1, 400, 60);
  double apart = 0;
  const Hand::Panel panel = [&] {
    Wishes wishes = apart_panel(apart, {0, 0, 400, 60}, hand.style());
    for (const Wish& wish : wishes) {
      if (const auto* one = std::get_if<wish::Explode>(&wish)) {
        apart = one->apart;
      }
    }
    return wishes;
  };
  hand.frame(panel);
  ImGui::GetIO().MousePos = {60, 30};
  hand.frame(panel);
  ImGui::GetIO().MouseDown[0] = true;
  hand.frame(panel);
  ImGui::GetIO().MousePos = {220, 30};
  hand.frame(panel);
  CHECK(apart > 0.2);
  CHECK(apart < 0.8);
  ImGui::GetIO().MousePos = {399, 30};
  hand.frame(panel);
  CHECK(apart == Approx(1));
  ImGui::GetIO().MouseDown[0] = false;
  hand.frame(panel);
  CHECK(hand.frame(panel).empty());
}

TEST_CASE("the foot shows as many words as fit, the first ones") {
  Hand hand(1, 600, 60);
  const std::vector<FootWord> words = {{"keys", "F1", wish::Show{PanelKind::keys}, false},
                                       {"steps", "L", wish::Show{PanelKind::steps}, false},
                                       {"measuring", "M", wish::Show{PanelKind::measuring}, true}};
  const auto shown_at = [&](float width) {
    const Hand::Panel panel = [&] { return foot_panel(words, {0, 0, width, 60}, hand.style()); };
    hand.frame(panel);
    std::set<PanelKind> shown;
    for (const wish::Show& show : hand.all_by_clicking<wish::Show>(panel, 15)) {
      shown.insert(show.panel);
    }
    return shown;
  };
  CHECK(shown_at(590).size() == 3);
  CHECK(shown_at(120) == std::set<PanelKind>{PanelKind::keys});
}

TEST_CASE("the keys panel only lists") {
  Hand hand;
  const Hand::Panel panel = [&] {
    return keys_panel({{"Steps", "Page Down", "goes on"}, {"", "Page Up", "goes back"}},
                      hand.area(), hand.style());
  };
  hand.frame(panel);
  CHECK_FALSE(hand.all_by_clicking<wish::Leave>(panel, 16).empty());
}
