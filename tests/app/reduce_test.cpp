// The reducer alone: steps, the part in hand, figures, undo. No unit, no window.
#include "viewer/app/reduce.h"

#include <catch2/catch.hpp>

#include <numbers>

using namespace lugline;

namespace {

constexpr double degree_rad = std::numbers::pi / 180;

// case (moves), a check (does not), drum (moves, can hurt), end (does not).
Facts facts() {
  Facts facts;
  facts.steps = {{"case", "CASE", 1.0, false, false},
                 {"look", "", 0, false, false},
                 {"drum", "DRUM", 2.0, true, true},
                 {"end", "", 0, false, false}};
  facts.rest_m = [](const ViewState& view) {
    return std::optional<double>(view.hand.over ? 0.120 : 0.104);
  };
  return facts;
}

AppState after(const std::vector<Wish>& wishes, AppState state = {}) {
  const Facts known = facts();
  for (const Wish& wish : wishes) {
    state = reduce(state, wish, known);
  }
  return state;
}

AppState without_motion() {
  AppState state;
  state.view.settings.motion = false;
  return state;
}

AppState at_drum() {
  return after({wish::GoOn{}, wish::GoOn{}, wish::GoOn{}}, without_motion());
}

} // namespace

TEST_CASE("going on lets the part in, and then brings the next step") {
  AppState state = after({wish::GoOn{}});
  CHECK(state.playing);
  CHECK(state.view.step == 0);
  REQUIRE(state.actions.size() == 1);
  CHECK(state.actions[0].step == "case");
  CHECK(state.actions[0].done);

  state = after({wish::PassTime{0.25}}, state);
  CHECK(state.view.moment == Approx(0.25));
  state = after({wish::PassTime{2}}, state);
  CHECK(state.view.moment == 1);
  CHECK_FALSE(moves(state));

  state = after({wish::GoOn{}}, state);
  CHECK(state.view.step == 1);
  CHECK(state.view.moment == 0);
  CHECK(state.actions.back().step == "look");
  CHECK_FALSE(state.actions.back().done);
}

TEST_CASE("a step with nothing that moves takes one press") {
  AppState state = at_drum();
  CHECK(state.view.step == 2);
  CHECK(state.view.moment == 0);
}

TEST_CASE("going on while the part moves skips to its end") {
  AppState state = after({wish::GoOn{}, wish::PassTime{0.1}, wish::GoOn{}});
  CHECK(state.view.step == 0);
  CHECK(state.view.moment == 1);
  CHECK_FALSE(state.playing);
  CHECK(state.actions.size() == 1);
}

TEST_CASE("with motion switched off a part is in at once") {
  AppState state = after({wish::GoOn{}}, without_motion());
  CHECK(state.view.moment == 1);
  CHECK_FALSE(moves(state));
}

TEST_CASE("switching motion off ends what moves") {
  AppState state = after({wish::GoOn{}, wish::PassTime{0.1}, wish::SetMotion{false}});
  CHECK(state.view.moment == 1);
  CHECK_FALSE(moves(state));
}

TEST_CASE("the last step is the last") {
  AppState state = after({wish::GoOn{}, wish::GoOn{}, wish::GoOn{}}, at_drum());
  CHECK(state.view.step == 3);
  const std::size_t logged = state.actions.size();
  state = after({wish::GoOn{}}, state);
  CHECK(state.view.step == 3);
  CHECK(state.actions.size() == logged);
}

TEST_CASE("going back takes the part out, and then goes to the step before") {
  AppState state = after({wish::GoOn{}, wish::GoBack{}}, at_drum());
  CHECK(state.view.step == 2);
  CHECK(state.view.moment == 0);
  CHECK_FALSE(state.actions.back().done);
  state = after({wish::GoBack{}}, state);
  CHECK(state.view.step == 1);
  state = after({wish::GoBack{}, wish::GoBack{}, wish::GoBack{}}, state);
  CHECK(state.view.step == 0);
}

TEST_CASE("showing the step again runs it from its beginning") {
  AppState state = after({wish::GoOn{}, wish::PassTime{5}, wish::ShowAgain{}});
  CHECK(state.view.moment == 0);
  CHECK(state.playing);
  state = after({wish::ShowAgain{}}, at_drum());
  CHECK_FALSE(state.playing);
  CHECK(state.view.moment == 0);
}

TEST_CASE("skipping ends the fall, or puts the part in at once") {
  AppState state = at_drum();
  state.view.settings.motion = true;
  state = after({wish::LetGo{}, wish::SkipMotion{}}, state);
  CHECK(state.view.hand.fall == 1);
  CHECK(state.view.hand.let_go);
  state = after({wish::SkipMotion{}}, state);
  CHECK(state.view.moment == 1);
  CHECK(state.actions.back().done);
}

TEST_CASE("only what is in hand can be turned, turned over and let go") {
  AppState state = after({wish::Turn{1}, wish::TurnOver{}, wish::LetGo{}, wish::PickUp{}});
  CHECK(state.view.hand.turn_rad == 0);
  CHECK_FALSE(state.view.hand.over);
  CHECK_FALSE(state.view.hand.let_go);
  CHECK_FALSE(state.picked_up);
  CHECK(state.actions.empty());

  state = after({wish::Turn{degree_rad}, wish::Turn{10 * degree_rad}, wish::TurnOver{}}, at_drum());
  CHECK(state.view.hand.turn_rad == Approx(11 * degree_rad));
  CHECK(state.view.hand.over);
}

TEST_CASE("turning goes round") {
  AppState state = after({wish::Turn{350 * degree_rad}, wish::Turn{30 * degree_rad}}, at_drum());
  CHECK(state.view.hand.turn_rad == Approx(20 * degree_rad));
}

TEST_CASE("letting go falls, goes to the log, and is taken up again") {
  AppState state = at_drum();
  state.view.settings.motion = true;
  state = after({wish::TurnOver{}, wish::Turn{2 * degree_rad}, wish::LetGo{}}, state);
  CHECK(state.falling);
  CHECK(state.view.hand.fall == 0);
  const Action& attempt = state.actions.back();
  CHECK(attempt.kind == ActionKind::attempt);
  CHECK(attempt.step == "drum");
  CHECK(attempt.part == "DRUM");
  CHECK(attempt.over);
  CHECK(attempt.turn_rad == Approx(2 * degree_rad));
  CHECK(attempt.rest_m == Approx(0.120));
  state = after({wish::PassTime{10}}, state);
  CHECK(state.view.hand.fall == 1);
  CHECK_FALSE(state.falling);
  state = after({wish::LetGo{}}, state);
  CHECK_FALSE(state.view.hand.let_go);
  CHECK(state.view.hand.over);
}

TEST_CASE("going on puts the part in the way the sequence says") {
  AppState state = after({wish::TurnOver{}, wish::Turn{1}, wish::LetGo{}, wish::GoOn{}}, at_drum());
  CHECK(state.view.moment == 1);
  CHECK_FALSE(state.view.hand.over);
  CHECK(state.view.hand.turn_rad == 0);
  CHECK_FALSE(state.view.hand.let_go);
}

TEST_CASE("undo takes back a step, a drop and a figure, one at a time") {
  AppState state = after({wish::LetGo{}, wish::GoOn{}}, at_drum());
  state = after({wish::Undo{}}, state);
  CHECK(state.view.step == 2);
  CHECK(state.view.moment == 0);
  CHECK(fold(state.actions).attempts.size() == 1);
  state = after({wish::Undo{}}, state);
  CHECK(fold(state.actions).attempts.empty());
  state = after({wish::Undo{}}, state);
  CHECK(state.view.step == 1);
  state = after({wish::Undo{}, wish::Undo{}}, state);
  CHECK(state.view.step == 0);
  CHECK(state.view.moment == 0);
  const std::size_t logged = state.actions.size();
  state = after({wish::Undo{}}, state);
  CHECK(state.actions.size() == logged);
}

TEST_CASE("each digit counts as it lands, and the figure is undone whole") {
  AppState state = after({wish::Type{"S1", "1"}});
  CHECK(fold(state.actions).readings.at("S1").thickness_m == Approx(0.001));
  state = after({wish::Type{"S1", "1."}, wish::Type{"S1", "1.9"}, wish::Type{"S1", "1.98"}}, state);
  CHECK(fold(state.actions).readings.at("S1").thickness_m == Approx(0.00198));
  state = after({wish::LeaveField{}, wish::Undo{}}, state);
  CHECK(fold(state.actions).readings.empty());
}

TEST_CASE("a figure typed over another gives the first one back when undone") {
  AppState state = after({wish::Type{"S1", "1.98"}, wish::LeaveField{}, wish::Type{"S1", "2"},
                          wish::Type{"S1", "2.0"}, wish::Undo{}});
  CHECK(fold(state.actions).readings.at("S1").thickness_m == Approx(0.00198));
}

TEST_CASE("a letting go between two digits is not undone by the second") {
  AppState state =
      after({wish::Type{"S1", "1"}, wish::LetGo{}, wish::Type{"S1", "1.5"}}, at_drum());
  CHECK(fold(state.actions).attempts.size() == 1);
  CHECK(fold(state.actions).readings.at("S1").thickness_m == Approx(0.0015));
}

TEST_CASE("text that gives no figure leaves what was read before") {
  AppState state =
      after({wish::Type{"S1", "1.98"}, wish::LeaveField{}, wish::Type{"S1", "1.98 psi"}});
  CHECK_FALSE(state.entry.problem.empty());
  CHECK(fold(state.actions).readings.at("S1").thickness_m == Approx(0.00198));
  state = after({wish::Type{"S1", "-1"}}, state);
  CHECK_FALSE(state.entry.problem.empty());
  CHECK(fold(state.actions).readings.at("S1").thickness_m == Approx(0.00198));
}

TEST_CASE("an emptied field withdraws the reading") {
  AppState state = after({wish::Type{"S1", "1.98"}, wish::LeaveField{}, wish::Type{"S1", ""}});
  CHECK(fold(state.actions).readings.empty());
  state = after({wish::Type{"S1", "2"}}, state);
  CHECK(fold(state.actions).readings.at("S1").thickness_m == Approx(0.002));
}

TEST_CASE("a bare number is in the unit that is shown, and a written unit is kept") {
  AppState state = after({wish::SwapLengthUnit{}, wish::Type{"S1", "0.078"}});
  CHECK(fold(state.actions).readings.at("S1").thickness_m == Approx(0.0019812));
  state = after({wish::Type{"S2", "1.98 mm"}, wish::Type{"S3", "1.98 mm +/- 0.02"}}, state);
  CHECK(fold(state.actions).readings.at("S2").thickness_m == Approx(0.00198));
}

TEST_CASE("a selective that is taken is a reading") {
  AppState state = after({wish::Choose{"BP", 0.0048}});
  CHECK(fold(state.actions).readings.at("BP").thickness_m == Approx(0.0048));
  state = after({wish::Withdraw{"BP"}}, state);
  CHECK(fold(state.actions).readings.empty());
}

TEST_CASE("panels are shown one at a time and left") {
  AppState state = after({wish::Show{PanelKind::keys}, wish::Show{PanelKind::steps}});
  CHECK(state.panel == PanelKind::steps);
  CHECK(after({wish::Show{PanelKind::steps}}, state).panel == PanelKind::none);
  CHECK(after({wish::Leave{}}, state).panel == PanelKind::none);
}

TEST_CASE("a caution never lies hidden beneath a panel") {
  AppState state =
      after({wish::GoOn{}, wish::GoOn{}, wish::Show{PanelKind::measuring}}, without_motion());
  state = after({wish::GoOn{}}, state);
  CHECK(state.view.step == 2);
  CHECK(state.panel == PanelKind::none);
}

TEST_CASE("leaving, with no panel, puts the part back as it came") {
  AppState state = after({wish::TurnOver{}, wish::LetGo{}, wish::Leave{}}, at_drum());
  CHECK_FALSE(state.view.hand.over);
  CHECK_FALSE(state.view.hand.let_go);
}

TEST_CASE("the scale goes by steps and stays within its ends") {
  AppState state = after({wish::ChangeScale{1}});
  CHECK(state.view.settings.scale == Approx(1.25));
  for (int i = 0; i < 20; ++i) {
    state = after({wish::ChangeScale{1}}, state);
  }
  CHECK(state.view.settings.scale == Approx(2.5));
  for (int i = 0; i < 20; ++i) {
    state = after({wish::ChangeScale{-1}}, state);
  }
  CHECK(state.view.settings.scale == Approx(1.0));
  CHECK(after({wish::SetScale{99}}).view.settings.scale == Approx(2.5));
}

TEST_CASE("a new step begins with its own view; the same step keeps one's own") {
  AppState state = after({wish::LookRound{0.3, 0.1}, wish::Zoom{2}, wish::Pan{0.01, 0}}, at_drum());
  CHECK(state.view.view.zoom == Approx(2));
  CHECK(after({wish::GoOn{}}, state).view.view == state.view.view);
  CHECK(after({wish::GoOn{}, wish::GoOn{}}, state).view.view == OwnView{});
  CHECK(after({wish::OwnViewAgain{}}, state).view.view == OwnView{});
}

TEST_CASE("a state is found again from its log") {
  AppState state = after({wish::Type{"S1", "1.98"}, wish::GoOn{}}, at_drum());
  const AppState again = stand_where(state.actions, state.view.settings, facts());
  CHECK(again.view.step == 2);
  CHECK(again.view.moment == 1);
  CHECK(fold(again.actions).readings.at("S1").thickness_m == Approx(0.00198));
}

TEST_CASE("a log of a step that is there no longer begins at the beginning") {
  Action action;
  action.step = "gone";
  action.done = true;
  const AppState state = stand_where({action}, {}, facts());
  CHECK(state.view.step == 0);
  CHECK(state.view.moment == 0);
}

TEST_CASE("with no unit open only trying again, leaving and size make sense") {
  const Facts none;
  AppState state = reduce({}, wish::GoOn{}, none);
  CHECK(state.actions.empty());
  state = reduce(state, wish::TryAgain{}, none);
  REQUIRE(state.errands.size() == 1);
  CHECK(state.errands[0] == Errand::try_again);
  CHECK(reduce({}, wish::ChangeScale{1}, none).view.settings.scale == Approx(1.25));
}
