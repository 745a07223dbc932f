#include "viewer/panels/apart.h"

#include "viewer/panels/controls.h"

#include <algorithm>

namespace lugline {

namespace {

constexpr ImGuiWindowFlags bare =
    ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove |
    ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoSavedSettings |
    ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoScrollbar |
    ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NoFocusOnAppearing;

} // namespace

Wishes apart_panel(double apart, const PanelArea& area, const PanelStyle& style) {
  Wishes wishes;
  const PanelColours colours = panel_colours();
  ImGui::SetNextWindowPos({area.x, area.y});
  ImGui::SetNextWindowSize({area.width, area.height});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {style.gap(), 0});
  ImGui::PushStyleColor(ImGuiCol_WindowBg, {0, 0, 0, 0});
  ImGui::Begin("apart", nullptr, bare);
  const float pad = std::max((style.target() - ImGui::GetFontSize()) / 2, 0.0f);
  ImGui::SetCursorPosY(std::max((area.height - style.target()) / 2, 0.0f));
  ImGui::AlignTextToFramePadding();
  ImGui::SetNextItemWidth(area.width - 2 * style.gap());
  float value = static_cast<float>(apart);
  ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {style.gap(), pad});
  ImGui::PushStyleVar(ImGuiStyleVar_FrameBorderSize, style.scale);
  ImGui::PushStyleColor(ImGuiCol_FrameBg, colours.paper);
  ImGui::PushStyleColor(ImGuiCol_FrameBgHovered, colours.paper);
  ImGui::PushStyleColor(ImGuiCol_FrameBgActive, colours.paper);
  if (ImGui::SliderFloat("##apart", &value, 0, 1, "", ImGuiSliderFlags_AlwaysClamp)) {
    wishes.push_back(wish::Explode{static_cast<double>(value)});
  }
  const ImVec2 low = ImGui::GetItemRectMin();
  const ImVec2 high = ImGui::GetItemRectMax();
  ImGui::PopStyleColor(3);
  ImGui::PopStyleVar(2);
  // The words stand at the end that the grab is not at.
  const char* words = apart < 0.5 ? "apart" : "together";
  const ImVec2 size = ImGui::CalcTextSize(words);
  const float x = apart < 0.5 ? high.x - size.x - 2 * style.gap() : low.x + 2 * style.gap();
  ImGui::GetWindowDrawList()->AddText({x, (low.y + high.y - size.y) / 2},
                                      ImGui::ColorConvertFloat4ToU32(colours.ink), words);
  ImGui::End();
  ImGui::PopStyleColor();
  ImGui::PopStyleVar();
  return wishes;
}

} // namespace lugline
