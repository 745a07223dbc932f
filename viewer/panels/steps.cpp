#include "viewer/panels/steps.h"

#include "viewer/panels/controls.h"

namespace lugline {

Wishes steps_panel(const std::vector<StepLine>& steps, std::size_t here, const PanelArea& area,
                   const PanelStyle& style) {
  Wishes wishes;
  if (panels::begin_sheet("steps", "Steps", area, style)) {
    wishes.push_back(wish::Leave{});
  }
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {style.gap(), 2 * style.scale});
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const StepLine& step = steps[i];
    if (!step.chapter.empty()) {
      panels::heading(step.chapter, style);
    }
    ImGui::PushID(static_cast<int>(i));
    const std::string words = step.words + (step.fails ? " (does not hold)" : "");
    if (i == here && ImGui::IsWindowAppearing()) {
      ImGui::SetKeyboardFocusHere();
    }
    if (panels::row("step", std::to_string(i + 1), words, i == here, step.fails, style)) {
      wishes.push_back(wish::GoTo{i});
      wishes.push_back(wish::Leave{});
    }
    if (i == here && ImGui::IsWindowAppearing()) {
      ImGui::SetScrollHereY(0.4f);
    }
    ImGui::PopID();
  }
  ImGui::PopStyleVar();
  panels::end_sheet();
  return wishes;
}

} // namespace lugline
