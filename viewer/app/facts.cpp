#include "viewer/app/state.h"

namespace lugline {

Facts facts_of(const Stage& stage) {
  Facts facts;
  for (std::size_t i = 0; i < stage.step_count(); ++i) {
    const Step& step = stage.unit().steps[i];
    StepFacts known;
    known.id = step.id;
    known.part = step.part;
    known.seconds = stage.seconds(i);
    known.in_hand = stage.simulation().outcomes[i].hand != nullptr && known.seconds > 0;
    known.caution = !step.caution_text.empty();
    facts.steps.push_back(known);
  }
  facts.rest_m = [&stage](const ViewState& view) -> std::optional<double> {
    const std::optional<Lowered> lowered = stage.held_drop(view);
    return lowered ? lowered->rest_m : std::nullopt;
  };
  facts.figures = figures_lists(stage.unit());
  if (stage.unit().drive) {
    for (const DriveRange& range : stage.unit().drive->ranges) {
      facts.on_in_range[range.id] = range.on;
    }
  }
  return facts;
}

} // namespace lugline
