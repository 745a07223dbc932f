#include "viewer/panels/foot.h"

#include "viewer/panels/controls.h"

#include <algorithm>
#include <cfloat>

namespace lugline {

namespace {

constexpr ImGuiWindowFlags bare =
    ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove |
    ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoSavedSettings |
    ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoScrollbar |
    ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NoFocusOnAppearing |
    ImGuiWindowFlags_NoNav;

/// Outside of a frame as well.
float width_of(const std::string& words, ImFont* font) {
  const ImGuiIO& io = ImGui::GetIO();
  const ImFont* used = font != nullptr ? font : io.Fonts->Fonts[0];
  return used->CalcTextSizeA(used->FontSize * io.FontGlobalScale, FLT_MAX, 0, words.c_str()).x;
}

float width_of(const FootWord& word, const PanelStyle& style) {
  const float words = width_of(word.words, style.fonts.body);
  const float key = width_of(word.key, style.fonts.small);
  return std::max(words + style.gap() + key + 24 * style.scale, style.target());
}

} // namespace

float foot_width(const std::vector<FootWord>& words, std::size_t count, const PanelStyle& style) {
  float width = 0;
  for (std::size_t i = 0; i < std::min(count, words.size()); ++i) {
    width += width_of(words[i], style) + (i > 0 ? style.gap() : 0);
  }
  return width;
}

Wishes foot_panel(const std::vector<FootWord>& words, const PanelArea& area,
                  const PanelStyle& style) {
  Wishes wishes;
  std::size_t count = words.size();
  while (count > 1 && foot_width(words, count, style) > area.width) {
    --count;
  }
  ImGui::SetNextWindowPos({area.x, area.y});
  ImGui::SetNextWindowSize({area.width, area.height});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
  ImGui::PushStyleColor(ImGuiCol_WindowBg, {0, 0, 0, 0});
  ImGui::Begin("foot", nullptr, bare);
  ImGui::SetCursorPos({std::max(area.width - foot_width(words, count, style), 0.0f),
                       std::max((area.height - style.target()) / 2, 0.0f)});
  for (std::size_t i = 0; i < count; ++i) {
    if (i > 0) {
      ImGui::SameLine(0, style.gap());
    }
    if (panels::button(words[i].words, words[i].key, style, 0, words[i].shown)) {
      wishes.push_back(words[i].wish);
    }
  }
  ImGui::End();
  ImGui::PopStyleColor();
  ImGui::PopStyleVar();
  return wishes;
}

} // namespace lugline
