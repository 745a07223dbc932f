#include "viewer/panels/keys.h"

#include "viewer/panels/controls.h"

#include <algorithm>

namespace lugline {

Wishes keys_panel(const std::vector<KeyLine>& keys, const PanelArea& area,
                  const PanelStyle& style) {
  Wishes wishes;
  const PanelColours colours = panel_colours();
  if (panels::begin_sheet("keys", "Keys", area, style)) {
    wishes.push_back(wish::Leave{});
  }
  const float wide = ImGui::GetContentRegionAvail().x;
  float key_wide = 0;
  ImGui::PushFont(style.fonts.strong);
  for (const KeyLine& line : keys) {
    key_wide = std::max(key_wide, ImGui::CalcTextSize(line.key.c_str()).x);
  }
  ImGui::PopFont();
  const float words_at = std::min(key_wide + 2 * style.gap(), wide * 0.45f);
  for (const KeyLine& line : keys) {
    if (!line.group.empty()) {
      panels::heading(line.group, style);
    }
    const ImVec2 at = ImGui::GetCursorPos();
    panels::paragraph(line.key, style.fonts.strong, colours.ink, words_at - style.gap());
    const float below_key = ImGui::GetCursorPosY();
    ImGui::SetCursorPos({at.x + words_at, at.y});
    panels::paragraph(line.words, style.fonts.body, colours.ink);
    ImGui::SetCursorPos({at.x, std::max(below_key, ImGui::GetCursorPosY())});
  }
  panels::end_sheet();
  return wishes;
}

} // namespace lugline
