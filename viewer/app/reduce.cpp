#include "viewer/app/reduce.h"

#include "viewer/stage/typed.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double fall_seconds = 0.7;
constexpr double whole_turn_rad = 2 * std::numbers::pi;
constexpr double most_zoom = 12;
constexpr double longest_watch_s = 600; ///< a watch that was forgotten stops

class Reducer {
public:
  Reducer(AppState& state, const Facts& facts) : state_(state), facts_(facts) {}

  // ------------------------------------------------ going through the steps

  void operator()(const wish::GoOn&) {
    if (back_from_figures()) {
      return;
    }
    if (state_.playing) {
      to_the_end();
    } else if (facts().seconds > 0 && state_.view.moment < 1) {
      state_.view.hand = {};
      state_.falling = state_.picked_up = false;
      if (state_.view.settings.motion) {
        state_.playing = true;
      } else {
        state_.view.moment = 1;
      }
      stand(true);
    } else if (state_.view.step + 1 < facts_.steps.size()) {
      bring(state_.view.step + 1);
    }
  }

  void operator()(const wish::GoBack&) {
    if (back_from_figures()) {
      return;
    }
    if (state_.view.moment > 0 || state_.playing) {
      bring(state_.view.step);
    } else if (state_.view.step > 0) {
      bring(state_.view.step - 1);
    }
  }

  void operator()(const wish::ShowAgain&) {
    if (back_from_figures()) {
      return;
    }
    const OwnView kept = state_.view.view;
    bring(state_.view.step);
    state_.view.view = kept;
    if (facts().seconds > 0 && state_.view.settings.motion) {
      state_.playing = true;
      stand(true);
    }
  }

  void operator()(const wish::SkipMotion&) {
    if (back_from_figures()) {
      return;
    }
    if (state_.falling) {
      state_.falling = false;
      state_.view.hand.fall = 1;
    } else if (facts().seconds > 0 && state_.view.moment < 1) {
      state_.view.hand = {};
      state_.picked_up = false;
      to_the_end();
      stand(true);
    }
  }

  void operator()(const wish::GoTo& wish) {
    back_from_figures();
    if (wish.step < facts_.steps.size()) {
      bring(wish.step);
    }
  }

  // ------------------------------------------------ the part in hand

  void operator()(const wish::TurnOver&) {
    if (back_from_figures()) {
      return;
    }
    if (holds(state_, facts_)) {
      take_up();
      state_.view.hand.over = !state_.view.hand.over;
    }
  }

  void operator()(const wish::Turn& wish) {
    if (holds(state_, facts_)) {
      state_.view.hand.turn_rad =
          std::remainder(state_.view.hand.turn_rad + wish.by_rad, whole_turn_rad);
    }
  }

  void operator()(const wish::Lift&) {
    if (holds(state_, facts_)) {
      take_up();
    }
  }

  void operator()(const wish::LetGo&) {
    if (!holds(state_, facts_)) {
      return;
    }
    if (state_.view.hand.let_go) {
      take_up();
      return;
    }
    Action attempt;
    attempt.kind = ActionKind::attempt;
    attempt.step = facts().id;
    attempt.part = facts().part;
    attempt.turn_rad = state_.view.hand.turn_rad;
    attempt.over = state_.view.hand.over;
    if (facts_.rest_m) {
      attempt.rest_m = facts_.rest_m(state_.view).value_or(0);
    }
    state_.actions.push_back(attempt);
    state_.entry.logged = false;
    state_.picked_up = false;
    state_.view.hand.let_go = true;
    state_.falling = state_.view.settings.motion;
    state_.view.hand.fall = state_.falling ? 0 : 1;
  }

  void operator()(const wish::PickUp&) {
    if (holds(state_, facts_)) {
      take_up();
      state_.picked_up = !state_.picked_up;
    }
  }

  void operator()(const wish::Undo&) {
    if (!can_undo(state_.actions)) {
      return;
    }
    Action undo;
    undo.kind = ActionKind::undo;
    state_.actions.push_back(undo);
    const OwnView kept = state_.view.view;
    const std::size_t was = state_.view.step;
    stand_there();
    if (state_.view.step == was) {
      state_.view.view = kept;
    }
  }

  // ------------------------------------------------ panels and settings

  void operator()(const wish::Show& wish) {
    leave_field();
    state_.panel = state_.panel == wish.panel ? PanelKind::none : wish.panel;
  }
  void operator()(const wish::Leave&) {
    if (state_.panel != PanelKind::none) {
      leave_field();
      state_.panel = PanelKind::none;
    } else if (state_.picked_up) {
      state_.picked_up = false;
    } else if (holds(state_, facts_)) {
      state_.view.hand = {};
      state_.falling = false;
    }
  }

  void operator()(const wish::SwapLengthUnit&) {
    LengthUnit& unit = settings().unit;
    unit = unit == LengthUnit::inch ? LengthUnit::millimetre : LengthUnit::inch;
    leave_field();
    forget_texts();
  }
  void operator()(const wish::SetLengthUnit& wish) {
    settings().unit = wish.unit;
    leave_field();
    forget_texts();
  }
  void operator()(const wish::SetScale& wish) {
    settings().scale = std::clamp(wish.scale, scales().front(), scales().back());
  }
  void operator()(const wish::ChangeScale& wish) {
    const std::vector<double> all = scales();
    const double now = settings().scale;
    if (wish.by > 0) {
      const auto next = std::ranges::find_if(all, [&](double scale) { return scale > now + 0.01; });
      settings().scale = next == all.end() ? all.back() : *next;
    } else {
      const auto next =
          std::find_if(all.rbegin(), all.rend(), [&](double scale) { return scale < now - 0.01; });
      settings().scale = next == all.rend() ? all.front() : *next;
    }
  }
  void operator()(const wish::SetMotion& wish) {
    settings().motion = wish.on;
    if (!wish.on && state_.playing) {
      to_the_end();
    }
    if (!wish.on && state_.falling) {
      state_.falling = false;
      state_.view.hand.fall = 1;
    }
  }
  void operator()(const wish::SetCut& wish) { settings().cut = wish.on; }
  void operator()(const wish::SwapCut&) { settings().cut = !settings().cut; }
  void operator()(const wish::SwapHiddenEdges&) {
    settings().hidden_edges = !settings().hidden_edges;
  }
  void operator()(const wish::NextSeeThrough&) {
    SeeThrough& now = settings().see_through;
    now = now == SeeThrough::automatic ? SeeThrough::always
          : now == SeeThrough::always  ? SeeThrough::off
                                       : SeeThrough::automatic;
  }
  void operator()(const wish::SetPrintLook& wish) { settings().print_look = wish.on; }
  void operator()(const wish::Explode& wish) {
    state_.view.explode = std::clamp(wish.apart, 0.0, 1.0);
  }
  void operator()(const wish::SwapApart&) { state_.view.explode = state_.view.explode > 0 ? 0 : 1; }

  // ------------------------------------------------ the eye

  void operator()(const wish::LookRound& wish) {
    OwnView& view = state_.view.view;
    view.turn_rad = std::remainder(view.turn_rad + wish.turn_rad, whole_turn_rad);
    view.rise_rad = std::clamp(view.rise_rad + wish.rise_rad, -std::numbers::pi, std::numbers::pi);
  }
  void operator()(const wish::Zoom& wish) {
    OwnView& view = state_.view.view;
    view.zoom = std::clamp(view.zoom * wish.factor, 1 / most_zoom, most_zoom);
  }
  void operator()(const wish::Pan& wish) {
    state_.view.view.pan_x_m += wish.x_m;
    state_.view.view.pan_y_m += wish.y_m;
  }
  void operator()(const wish::OwnViewAgain&) { state_.view.view = {}; }

  // ------------------------------------------------ figures

  void operator()(const wish::Type& wish) {
    Entry& entry = state_.entry;
    if (entry.part != wish.part) {
      entry = {};
      entry.part = wish.part;
    }
    entry.text = wish.text;
    if (entry.logged) {
      push(ActionKind::undo, {});
      entry.logged = false;
    }
    entry.problem.clear();
    if (is_blank(wish.text)) {
      if (fold(state_.actions).readings.contains(wish.part)) {
        push(ActionKind::unread, wish.part);
        entry.logged = true;
      }
      return;
    }
    const Outcome<Quantity> typed = typed_length(wish.text, settings().unit);
    if (!typed) {
      entry.problem = typed.problem();
    } else if (typed.value().si <= 0) {
      entry.problem = "a plate has some thickness";
    } else {
      Action& read = push(ActionKind::read, wish.part);
      read.thickness_m = typed.value().si;
      read.plus_minus_m = typed.value().plus_minus_si;
      entry.logged = true;
    }
  }
  void operator()(const wish::LeaveField&) { leave_field(); }
  void operator()(const wish::Choose& wish) {
    leave_field();
    push(ActionKind::read, wish.part).thickness_m = wish.thickness_m;
  }
  void operator()(const wish::Withdraw& wish) {
    leave_field();
    if (fold(state_.actions).readings.contains(wish.part)) {
      push(ActionKind::unread, wish.part);
    }
  }

  // ------------------------------------------------ the views of figures

  void operator()(const wish::ChooseFigures& wish) {
    FiguresChoice& chosen = state_.view.figures;
    const std::vector<std::string>& known = offered(wish.kind);
    if (std::ranges::find(known, wish.id) == known.end()) {
      return;
    }
    switch (wish.kind) {
    case FiguresKind::pack:
      chosen.pack = wish.id;
      break;
    case FiguresKind::play:
      chosen.play = wish.id;
      break;
    case FiguresKind::train:
      chosen.range = wish.id;
      chosen.on.reset();
      break;
    case FiguresKind::air:
      // What was timed was another's.
      if (chosen.element != wish.id) {
        chosen.watch_s = 0;
        chosen.watch_runs = false;
      }
      chosen.element = wish.id;
      break;
    }
  }
  void operator()(const wish::ChooseNth& wish) {
    const auto kind = figures_of(state_.panel);
    if (kind && wish.nth < offered(*kind).size()) {
      (*this)(wish::ChooseFigures{*kind, offered(*kind)[wish.nth]});
    }
  }
  void operator()(const wish::SwitchElement& wish) {
    const std::vector<std::string>& known = facts_.figures.switches;
    if (std::ranges::find(known, wish.id) == known.end()) {
      return;
    }
    FiguresChoice& chosen = state_.view.figures;
    std::vector<std::string> on = chosen.on.value_or(range_applies());
    const auto found = std::ranges::find(on, wish.id);
    if (found == on.end()) {
      on.push_back(wish.id);
    } else {
      on.erase(found);
    }
    chosen.on = on;
  }
  void operator()(const wish::SwitchNth& wish) {
    if (state_.panel == PanelKind::train && wish.nth < facts_.figures.switches.size()) {
      (*this)(wish::SwitchElement{facts_.figures.switches[wish.nth]});
    }
  }
  void operator()(const wish::SwapCoasting&) {
    bool& coasting = state_.view.figures.coasting;
    coasting = state_.panel == PanelKind::train ? !coasting : coasting;
  }
  void operator()(const wish::SwapWorking&) {
    bool& working = state_.view.figures.working;
    working = figures_of(state_.panel) ? !working : working;
  }
  void operator()(const wish::TypeFigure& wish) {
    const bool torque = wish.kind == FiguresKind::train;
    TypedFigure& figure = torque ? state_.view.figures.input_Nm : state_.view.figures.air_Pa;
    figure = {wish.text, std::nullopt, {}};
    if (is_blank(wish.text)) {
      return;
    }
    const Outcome<Quantity> typed =
        typed_figure(wish.text, torque ? Dimension::torque : Dimension::pressure, settings().unit);
    if (!typed) {
      figure.problem = typed.problem();
    } else if (typed.value().si < 0) {
      figure.problem = torque ? "which way it goes is chosen beside it: drives or coasts"
                              : "bench air presses: no less than nothing";
    } else {
      figure.si = typed.value().si;
    }
  }
  void operator()(const wish::StartStop&) {
    FiguresChoice& chosen = state_.view.figures;
    if (state_.panel != PanelKind::air && !chosen.watch_runs) {
      return;
    }
    // Started again it times another hold.
    chosen.watch_s = chosen.watch_runs ? chosen.watch_s : 0;
    chosen.watch_runs = !chosen.watch_runs;
  }
  void operator()(const wish::ZeroWatch&) {
    state_.view.figures.watch_s = 0;
    state_.view.figures.watch_runs = false;
  }

  // ------------------------------------------------ outside, and time

  void operator()(const wish::TryAgain&) { state_.errands.push_back(Errand::try_again); }
  void operator()(const wish::SavePicture&) { state_.errands.push_back(Errand::save_picture); }
  void operator()(const wish::Close&) { state_.errands.push_back(Errand::close); }

  void operator()(const wish::PassTime& wish) {
    if (state_.playing) {
      const double seconds = std::max(facts().seconds, 1e-3);
      state_.view.moment = std::min(state_.view.moment + wish.seconds / seconds, 1.0);
      state_.playing = state_.view.moment < 1;
    }
    if (state_.falling) {
      double& fall = state_.view.hand.fall;
      fall = std::min(fall + wish.seconds / fall_seconds, 1.0);
      state_.falling = fall < 1;
    }
    FiguresChoice& figures = state_.view.figures;
    if (figures.watch_runs) {
      figures.watch_s =
          std::min(figures.watch_s + wish.watch_s.value_or(wish.seconds), longest_watch_s);
      figures.watch_runs = figures.watch_s < longest_watch_s;
    }
  }

  /// To where the actions end.
  void stand_there() {
    const LogState log = fold(state_.actions);
    std::size_t step = 0;
    const auto found = std::ranges::find(facts_.steps, log.step, &StepFacts::id);
    const bool known = found != facts_.steps.end();
    if (known) {
      step = static_cast<std::size_t>(found - facts_.steps.begin());
    }
    face(step);
    state_.view.moment = known && log.done && facts().seconds > 0 ? 1 : 0;
    state_.entry = {};
  }

private:
  [[nodiscard]] const StepFacts& facts() const { return facts_.steps[state_.view.step]; }
  Settings& settings() { return state_.view.settings; }

  /// What would move or show behind a sheet of figures first brings the bench back.
  bool back_from_figures() {
    if (!figures_of(state_.panel)) {
      return false;
    }
    state_.panel = PanelKind::none;
    return true;
  }
  [[nodiscard]] const std::vector<std::string>& offered(FiguresKind kind) const {
    const FiguresLists& lists = facts_.figures;
    return kind == FiguresKind::pack    ? lists.packs
           : kind == FiguresKind::play  ? lists.plays
           : kind == FiguresKind::train ? lists.ranges
                                        : lists.air;
  }
  [[nodiscard]] std::vector<std::string> range_applies() const {
    const std::vector<std::string>& ranges = facts_.figures.ranges;
    std::string range = state_.view.figures.range;
    if (std::ranges::find(ranges, range) == ranges.end() && !ranges.empty()) {
      range = ranges.front();
    }
    const auto found = facts_.on_in_range.find(range);
    return found == facts_.on_in_range.end() ? std::vector<std::string>() : found->second;
  }
  /// A text typed in one unit does not stand beside figures of the other; its value stays.
  void forget_texts() {
    state_.view.figures.input_Nm.text.clear();
    state_.view.figures.air_Pa.text.clear();
  }

  Action& push(ActionKind kind, const std::string& part) {
    Action action;
    action.kind = kind;
    action.part = part;
    state_.actions.push_back(action);
    return state_.actions.back();
  }

  /// Where the bench stands now is told to the log, where that is new.
  void stand(bool done) {
    state_.entry.logged = false;
    const LogState log = fold(state_.actions);
    if (log.step == facts().id && log.done == done) {
      return;
    }
    Action action;
    action.kind = ActionKind::stand_at;
    action.step = facts().id;
    action.done = done;
    state_.actions.push_back(action);
  }

  void face(std::size_t step) {
    if (step != state_.view.step) {
      state_.view.view = {};
    }
    state_.view.step = step;
    state_.view.moment = 0;
    state_.view.hand = {};
    state_.playing = state_.falling = state_.picked_up = false;
  }

  void bring(std::size_t step) {
    face(step);
    stand(false);
    // A caution must never lie hidden beneath a panel.
    if (facts().caution) {
      leave_field();
      state_.panel = PanelKind::none;
    }
  }

  void to_the_end() {
    state_.view.moment = 1;
    state_.playing = false;
  }

  void take_up() {
    state_.view.hand.let_go = false;
    state_.view.hand.fall = 1;
    state_.falling = false;
  }

  void leave_field() { state_.entry = {}; }

  AppState& state_;
  const Facts& facts_;
};

/// What needs no unit to be open.
bool needs_no_unit(const Wish& wish) {
  return std::holds_alternative<wish::TryAgain>(wish) || std::holds_alternative<wish::Show>(wish) ||
         std::holds_alternative<wish::Leave>(wish) || std::holds_alternative<wish::Close>(wish) ||
         std::holds_alternative<wish::SavePicture>(wish) ||
         std::holds_alternative<wish::SetScale>(wish) ||
         std::holds_alternative<wish::ChangeScale>(wish);
}

} // namespace

bool holds(const AppState& state, const Facts& facts) {
  return state.view.step < facts.steps.size() && facts.steps[state.view.step].in_hand &&
         state.view.moment <= 0 && !state.playing;
}

AppState reduce(AppState state, const Wish& wish, const Facts& facts) {
  if (!facts.steps.empty() || needs_no_unit(wish)) {
    std::visit(Reducer(state, facts), wish);
  }
  return state;
}

AppState stand_where(const std::vector<Action>& actions, const Settings& settings,
                     const Facts& facts) {
  AppState state;
  state.view.settings = settings;
  state.actions = actions;
  if (!facts.steps.empty()) {
    Reducer(state, facts).stand_there();
  }
  return state;
}

} // namespace lugline
