// How panels look: warm paper, ink, one blue; sizes from the scale.
//
// Plain values, and one function that puts them into Dear ImGui's style. Sizes
// are pixels of Dear ImGui's own coordinates. Every pair of text and ground
// here meets WCAG AA (a test holds it to that).
#pragma once

#include <imgui.h>

namespace lugline {

/// The panel's corner of the window.
struct PanelArea {
  float x = 0;
  float y = 0;
  float width = 0;
  float height = 0;
};

/// Owned by Dear ImGui's font atlas; null: its default font.
struct PanelFonts {
  ImFont* body = nullptr;
  ImFont* strong = nullptr;
  ImFont* small = nullptr;
  ImFont* title = nullptr;
};

struct PanelStyle {
  PanelFonts fonts;
  float scale = 1;

  [[nodiscard]] float target() const { return 40 * scale; } ///< least side of what is pressed
  [[nodiscard]] float gap() const { return 8 * scale; }
  [[nodiscard]] float margin() const { return 24 * scale; }
};

/// sRGB, 0 to 1.
struct PanelColours {
  ImVec4 paper{0.988f, 0.976f, 0.949f, 1};
  ImVec4 field{1, 1, 1, 1};
  ImVec4 button{0.937f, 0.910f, 0.863f, 1};
  ImVec4 pressed{0.871f, 0.831f, 0.761f, 1};
  ImVec4 chosen{0.129f, 0.122f, 0.114f, 1}; ///< its text is paper
  ImVec4 ink{0.106f, 0.098f, 0.094f, 1};
  ImVec4 quiet{0.345f, 0.325f, 0.302f, 1}; ///< text that is not read first
  ImVec4 line{0.106f, 0.098f, 0.094f, 0.28f};
  ImVec4 blue{0.000f, 0.376f, 0.600f, 1};
  ImVec4 wrong{0.690f, 0.150f, 0.075f, 1};
  ImVec4 caution{1.000f, 0.941f, 0.741f, 1};
};
inline PanelColours panel_colours() {
  return {};
}

/// Sets Dear ImGui's style; its current context must be there.
void apply_style(const PanelStyle& style);

} // namespace lugline
