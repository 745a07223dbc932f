#include "viewer/app/hint.h"

#include "viewer/app/reduce.h"

namespace lugline {

std::string hint_for(const AppState& state, const Facts& facts) {
  if (facts.steps.empty()) {
    return {};
  }
  const StepFacts& step = facts.steps[state.view.step];
  const bool last = state.view.step + 1 == facts.steps.size();
  if (state.playing || state.falling) {
    return {};
  }
  if (state.picked_up) {
    return "Picked up: the wheel turns it, U turns it over, Space lets it go.";
  }
  if (state.view.hand.let_go) {
    return "The arrows turn it where it lies, Space takes it up again, Page Down puts it right.";
  }
  if (holds(state, facts)) {
    return "Page Down: it goes in. Space: it falls as it is held.";
  }
  if (step.seconds > 0 && state.view.moment < 1) {
    return "Page Down shows it.";
  }
  return last ? "This was the last step." : "Page Down: the next step.";
}

} // namespace lugline
