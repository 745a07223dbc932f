#include "viewer/panels/style.h"

namespace lugline {

void apply_style(const PanelStyle& style) {
  const PanelColours colours = panel_colours();
  const float scale = style.scale;
  ImGuiStyle& to = ImGui::GetStyle();
  to = ImGuiStyle();
  to.WindowPadding = {style.margin(), style.margin()};
  to.WindowRounding = 0;
  to.WindowBorderSize = 0;
  to.ChildRounding = 0;
  to.ChildBorderSize = 0;
  to.PopupRounding = 0;
  to.FrameRounding = 2 * scale;
  to.FrameBorderSize = 0;
  to.GrabRounding = 2 * scale;
  to.ScrollbarRounding = 2 * scale;
  to.ItemSpacing = {style.gap(), style.gap()};
  to.ItemInnerSpacing = {style.gap(), style.gap()};
  to.FramePadding = {12 * scale, 9 * scale};
  to.ScrollbarSize = 16 * scale;
  to.GrabMinSize = style.target();
  to.ButtonTextAlign = {0.5f, 0.5f};
  to.AntiAliasedLines = to.AntiAliasedFill = true;

  ImVec4* colour = to.Colors;
  colour[ImGuiCol_Text] = colours.ink;
  colour[ImGuiCol_TextDisabled] = colours.quiet;
  colour[ImGuiCol_WindowBg] = colours.paper;
  colour[ImGuiCol_ChildBg] = {0, 0, 0, 0};
  colour[ImGuiCol_PopupBg] = colours.paper;
  colour[ImGuiCol_Border] = colours.line;
  colour[ImGuiCol_BorderShadow] = {0, 0, 0, 0};
  colour[ImGuiCol_FrameBg] = colours.field;
  colour[ImGuiCol_FrameBgHovered] = colours.field;
  colour[ImGuiCol_FrameBgActive] = colours.field;
  colour[ImGuiCol_Button] = colours.button;
  colour[ImGuiCol_ButtonHovered] = colours.button;
  colour[ImGuiCol_ButtonActive] = colours.pressed;
  colour[ImGuiCol_Header] = colours.button;
  colour[ImGuiCol_HeaderHovered] = colours.button;
  colour[ImGuiCol_HeaderActive] = colours.pressed;
  colour[ImGuiCol_SliderGrab] = colours.chosen;
  colour[ImGuiCol_SliderGrabActive] = colours.blue;
  colour[ImGuiCol_Separator] = colours.line;
  colour[ImGuiCol_ScrollbarBg] = {0, 0, 0, 0};
  colour[ImGuiCol_ScrollbarGrab] = colours.pressed;
  colour[ImGuiCol_ScrollbarGrabHovered] = colours.quiet;
  colour[ImGuiCol_ScrollbarGrabActive] = colours.ink;
  colour[ImGuiCol_TextSelectedBg] = {0.000f, 0.376f, 0.600f, 0.25f};
  colour[ImGuiCol_NavHighlight] = colours.blue;
  colour[ImGuiCol_CheckMark] = colours.ink;
  colour[ImGuiCol_TableBorderLight] = colours.line;
}

} // namespace lugline
