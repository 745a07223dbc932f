// The choices beside a sheet of figures: each press and each key typed comes back as its wish.
#include "tests/panels/hand.h"

#include "viewer/panels/figures.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace lugline;
using namespace lugline::test;

namespace {

FiguresPage train() {
  FiguresPage page;
  page.kind = FiguresKind::train;
  page.choose = "range";
  page.options = {{"1", "First", true}, {"2", "Second", false}};
  page.switches = {{"UC", "Upper clutch", true}, {"LB", "Lower band", false}};
  page.asked = "torque at the input";
  page.asked_figure = "200 N m (148 lbf ft)";
  page.train = TrainPicture{};
  return page;
}

FiguresPage air() {
  FiguresPage page;
  page.kind = FiguresKind::air;
  page.choose = "element";
  page.options = {{"MC", "Middle clutch", true}};
  page.asked = "pressure at the regulator";
  page.asked_figure = "250 kPa (36.3 psi)";
  page.air = AirPicture{};
  return page;
}

template <class W>
std::vector<W> pressed(const FiguresPage& page, float scale) {
  Hand hand(scale, 460 * scale, 640 * scale);
  const FiguresChoice choice;
  const Hand::Panel panel = [&] { return figures_panel(page, choice, hand.area(), hand.style()); };
  hand.frame(panel);
  return hand.all_by_clicking<W>(panel, 20 * scale);
}

} // namespace

TEST_CASE("each range, element and way can be pressed at every scale") {
  for (const float scale : {1.0f, 2.0f}) {
    std::set<std::string> ranges;
    for (const auto& one : pressed<wish::ChooseFigures>(train(), scale)) {
      CHECK(one.kind == FiguresKind::train);
      ranges.insert(one.id);
    }
    CHECK(ranges == std::set<std::string>{"1", "2"});
    std::set<std::string> elements;
    for (const auto& one : pressed<wish::SwitchElement>(train(), scale)) {
      elements.insert(one.id);
    }
    CHECK(elements == std::set<std::string>{"UC", "LB"});
    CHECK_FALSE(pressed<wish::SwapCoasting>(train(), scale).empty());
    CHECK_FALSE(pressed<wish::SwapWorking>(train(), scale).empty());
    CHECK_FALSE(pressed<wish::Leave>(train(), scale).empty());
  }
}

TEST_CASE("the other views are a press away, and the open one is not asked for again") {
  std::set<PanelKind> views;
  for (const auto& one : pressed<wish::Show>(train(), 1)) {
    views.insert(one.panel);
  }
  CHECK(views == std::set<PanelKind>{PanelKind::pack, PanelKind::play, PanelKind::air});
}

TEST_CASE("the watch has its two presses") {
  CHECK_FALSE(pressed<wish::StartStop>(air(), 1).empty());
  CHECK_FALSE(pressed<wish::ZeroWatch>(air(), 1).empty());
  CHECK(pressed<wish::SwapCoasting>(air(), 1).empty());
}

TEST_CASE("a torque comes back a key at a time, with the view that it is for") {
  Hand hand;
  FiguresPage page = train();
  FiguresChoice choice;
  std::vector<wish::TypeFigure> typed;
  const Hand::Panel panel = [&] {
    Wishes wishes = figures_panel(page, choice, hand.area(), hand.style());
    for (const Wish& wish : wishes) {
      if (const auto* one = std::get_if<wish::TypeFigure>(&wish)) {
        typed.push_back(*one);
        page.typed.text = one->text; // as the reducer would
      }
    }
    return wishes;
  };
  hand.frame(panel);
  // Somewhere in the panel there is the field.
  for (float y = 10; y < 600 && !ImGui::GetIO().WantTextInput; y += 12) {
    hand.click({60, y}, panel);
  }
  REQUIRE(ImGui::GetIO().WantTextInput);
  hand.type("90 N m", panel);
  REQUIRE(typed.size() == 6);
  CHECK(typed.back().text == "90 N m");
  CHECK(typed.back().kind == FiguresKind::train);
}

TEST_CASE("a selective is chosen beside its pack") {
  FiguresPage page;
  page.kind = FiguresKind::pack;
  page.options = {{"CC", "Case clutch", true}};
  MeasuringRow row;
  row.part = "CC-BP";
  row.label = "backing plate";
  row.options = {{0.0048, "4.80 mm", false}, {0.005, "5.00 mm", true}};
  page.selectives = {row};
  const auto chosen = pressed<wish::Choose>(page, 1);
  REQUIRE_FALSE(chosen.empty());
  CHECK(std::ranges::any_of(chosen, [](const wish::Choose& one) {
    return one.part == "CC-BP" && one.thickness_m == 0.0048;
  }));
}
