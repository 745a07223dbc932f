// The views of figures in the state: what is chosen, what is typed, the watch; and that none of it
// is a build's.
#include "viewer/app/keys.h"
#include "viewer/app/reduce.h"

#include <GLFW/glfw3.h>

#include <catch2/catch.hpp>

using namespace lugline;

namespace {

Facts facts() {
  Facts facts;
  facts.steps = {{"case", "CASE", 1.0, false, false}, {"drum", "DRUM", 2.0, true, true}};
  facts.figures.packs = {"CC", "MC"};
  facts.figures.plays = {"front"};
  facts.figures.ranges = {"N", "1", "2"};
  facts.figures.switches = {"UC", "CC", "LB"};
  facts.figures.air = {"UC", "LB"};
  facts.on_in_range = {{"N", {}}, {"1", {"UC"}}, {"2", {"UC", "CC"}}};
  return facts;
}

AppState after(const std::vector<Wish>& wishes, AppState state = {}) {
  const Facts known = facts();
  for (const Wish& wish : wishes) {
    state = reduce(state, wish, known);
  }
  return state;
}

std::optional<Wish> press(int key, int mods, KeySituation situation) {
  return wish_for({key, mods, false, 0}, situation);
}

} // namespace

TEST_CASE("a view of figures is chosen in, and nothing of it is logged") {
  const AppState state = after(
      {wish::Show{PanelKind::train}, wish::ChooseNth{2}, wish::SwitchElement{"LB"},
       wish::TypeFigure{FiguresKind::train, "90"}, wish::SwapCoasting{}, wish::SwapWorking{}});
  CHECK(state.view.figures.range == "2");
  CHECK(state.view.figures.on == std::vector<std::string>{"UC", "CC", "LB"});
  CHECK(state.view.figures.input_Nm.si == 90);
  CHECK(state.view.figures.coasting);
  CHECK(state.view.figures.working);
  CHECK(state.actions.empty());
}

TEST_CASE("a range chosen again puts its own elements on; an element is put off again") {
  AppState state = after({wish::Show{PanelKind::train},
                          wish::ChooseFigures{FiguresKind::train, "1"}, wish::SwitchNth{0}});
  CHECK(state.view.figures.on == std::vector<std::string>{});
  state = after({wish::ChooseFigures{FiguresKind::train, "1"}}, state);
  CHECK_FALSE(state.view.figures.on);
}

TEST_CASE("what there is not cannot be chosen") {
  const AppState state = after({wish::Show{PanelKind::pack}, wish::ChooseNth{7},
                                wish::ChooseFigures{FiguresKind::pack, "XX"},
                                wish::SwitchElement{"XX"}, wish::SwitchNth{1}});
  CHECK(state.view.figures == FiguresChoice{});
}

TEST_CASE("a figure that is none says why and leaves what was stated") {
  const auto typed = [](const std::string& text, FiguresKind kind) {
    const AppState state = after({wish::TypeFigure{kind, text}});
    return kind == FiguresKind::train ? state.view.figures.input_Nm : state.view.figures.air_Pa;
  };
  CHECK(typed("36 psi", FiguresKind::air).si == Approx(248211).epsilon(1e-4));
  for (const char* text : {"12 mm", "1,5 bar", "-3 kPa", "x"}) {
    CHECK_FALSE(typed(text, FiguresKind::air).si);
    CHECK_FALSE(typed(text, FiguresKind::air).problem.empty());
  }
  CHECK(typed("", FiguresKind::train) == TypedFigure{});
  CHECK_FALSE(typed("-90 N m", FiguresKind::train).problem.empty());
}

TEST_CASE("the watch runs by the time that passes, stops, and starts from nought") {
  AppState state = after({wish::StartStop{}});
  CHECK_FALSE(moves(state)); // there is no watch to start where none is seen
  state = after({wish::Show{PanelKind::air}, wish::StartStop{}, wish::PassTime{0.25, 0.4},
                 wish::PassTime{0.1}},
                state);
  CHECK(moves(state));
  CHECK_FALSE(part_moves(state));
  CHECK(state.view.figures.watch_s == Approx(0.5));
  state = after({wish::StartStop{}, wish::PassTime{3}}, state);
  CHECK_FALSE(moves(state));
  CHECK(state.view.figures.watch_s == Approx(0.5));
  CHECK(after({wish::StartStop{}}, state).view.figures.watch_s == 0);
  CHECK(after({wish::ZeroWatch{}}, state).view.figures.watch_s == 0);
  // One that was forgotten stops, so that the window comes to rest.
  state = after({wish::StartStop{}, wish::PassTime{0.25, 5000.0}}, state);
  CHECK_FALSE(moves(state));
  CHECK(state.view.figures.watch_s == 600);
}

TEST_CASE("another element begins another timing") {
  const AppState state = after({wish::Show{PanelKind::air}, wish::StartStop{}, wish::PassTime{2},
                                wish::ChooseFigures{FiguresKind::air, "LB"}});
  CHECK(state.view.figures.watch_s == 0);
  CHECK_FALSE(state.view.figures.watch_runs);
}

TEST_CASE("what would happen behind the sheet first brings the bench back") {
  for (const Wish& wish : {Wish(wish::GoOn{}), Wish(wish::GoBack{}), Wish(wish::ShowAgain{}),
                           Wish(wish::SkipMotion{}), Wish(wish::TurnOver{})}) {
    const AppState state = after({wish::Show{PanelKind::train}, wish});
    CHECK(state.panel == PanelKind::none);
    CHECK(state.actions.empty());
    CHECK(state.view.step == 0);
    CHECK_FALSE(state.playing);
  }
  const AppState state = after({wish::Show{PanelKind::train}, wish::GoTo{1}});
  CHECK(state.panel == PanelKind::none);
  CHECK(state.view.step == 1);
}

TEST_CASE("inches typed are not shown as millimetres after the units change") {
  const AppState state =
      after({wish::TypeFigure{FiguresKind::air, "30 psi"}, wish::SwapLengthUnit{}});
  CHECK(state.view.figures.air_Pa.text.empty());
  CHECK(state.view.figures.air_Pa.si == Approx(206843).epsilon(1e-4));
}

TEST_CASE("keys of the figures act in their views only, and never while typing") {
  const KeySituation bench{};
  const KeySituation view{false, true, true};
  const KeySituation field{true, true, true};
  CHECK(press(GLFW_KEY_G, 0, bench));
  CHECK(press(GLFW_KEY_P, 0, view));
  CHECK_FALSE(press(GLFW_KEY_A, 0, field));
  for (const auto& [key, mods] :
       {std::pair(GLFW_KEY_T, 0), std::pair(GLFW_KEY_W, 0), std::pair(GLFW_KEY_B, 0),
        std::pair(GLFW_KEY_3, 0), std::pair(GLFW_KEY_2, GLFW_MOD_SHIFT)}) {
    CHECK_FALSE(press(key, mods, bench));
    CHECK(press(key, mods, view));
    CHECK_FALSE(press(key, mods, field));
  }
}
