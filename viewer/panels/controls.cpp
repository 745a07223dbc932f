#include "viewer/panels/controls.h"

#include <algorithm>

namespace lugline::panels {

namespace {

ImU32 packed(const ImVec4& colour) {
  return ImGui::ColorConvertFloat4ToU32(colour);
}

/// Under the mouse, a frame of ink; where the keyboard is, Dear ImGui draws its own.
void weigh_last_item(const PanelStyle& style) {
  if (!ImGui::IsItemHovered()) {
    return;
  }
  const float thick = 2 * style.scale;
  const float in = thick / 2;
  const ImVec2 low = ImGui::GetItemRectMin();
  const ImVec2 high = ImGui::GetItemRectMax();
  ImGui::GetWindowDrawList()->AddRect({low.x + in, low.y + in}, {high.x - in, high.y - in},
                                      packed(panel_colours().ink), ImGui::GetStyle().FrameRounding,
                                      0, thick);
}

const ImFont& used(const ImFont* font) {
  return font != nullptr ? *font : *ImGui::GetFont();
}

ImVec2 size_of(const std::string& words, ImFont* font) {
  ImGui::PushFont(font);
  const ImVec2 size = ImGui::CalcTextSize(words.c_str());
  ImGui::PopFont();
  return size;
}

/// Broken at spaces only: Dear ImGui would also break a figure at its point.
std::string wrapped(const std::string& words, ImFont* font, float width) {
  std::string all;
  std::string line;
  std::string word;
  const auto place_word = [&] {
    const std::string joined = line.empty() ? word : line + " " + word;
    if (!line.empty() && size_of(joined, font).x > width) {
      all += line + "\n";
      line = word;
    } else {
      line = joined;
    }
    word.clear();
  };
  for (const char c : words) {
    if (c == ' ') {
      place_word();
    } else {
      word += c;
    }
  }
  place_word();
  return all + line;
}

void draw_text(ImVec2 at, const std::string& words, ImFont* font, const ImVec4& colour) {
  ImFont* with = font != nullptr ? font : ImGui::GetFont();
  ImGui::GetWindowDrawList()->AddText(with, with->FontSize * ImGui::GetIO().FontGlobalScale, at,
                                      packed(colour), words.c_str());
}

} // namespace

bool begin_sheet(const char* id, const std::string& title, const PanelArea& area,
                 const PanelStyle& style, bool can_leave) {
  ImGui::SetNextWindowPos({area.x, area.y});
  ImGui::SetNextWindowSize({area.width, area.height});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, style.scale);
  ImGui::Begin(id, nullptr,
               ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoSavedSettings |
                   ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoScrollbar |
                   ImGuiWindowFlags_NoScrollWithMouse);
  ImGui::PopStyleVar();
  const std::string words = "leave";
  const std::string key = "Esc";
  const float leave_width = size_of(words, style.fonts.body).x + size_of(key, style.fonts.small).x +
                            style.gap() + 24 * style.scale;
  const float wrap = area.width - 2 * style.margin() - (can_leave ? leave_width + style.gap() : 0);
  const ImVec2 at = ImGui::GetCursorPos();
  paragraph(title, style.fonts.title, panel_colours().ink, std::max(wrap, style.target()));
  const float below = ImGui::GetCursorPosY();
  bool left = false;
  if (can_leave) {
    ImGui::SetCursorPos({area.width - style.margin() - leave_width, at.y - 4 * style.scale});
    left = button(words, key, style, leave_width);
  }
  ImGui::SetCursorPos({at.x, std::max(below, ImGui::GetCursorPosY()) + style.gap() / 2});
  ImGui::BeginChild("sheet", {0, 0}, false, ImGuiWindowFlags_NavFlattened);
  return left;
}

void end_sheet() {
  ImGui::EndChild();
  ImGui::End();
}

void text(const std::string& words, ImFont* font, const ImVec4& colour) {
  ImGui::PushFont(font);
  ImGui::PushStyleColor(ImGuiCol_Text, colour);
  ImGui::TextUnformatted(words.c_str(), words.c_str() + words.size());
  ImGui::PopStyleColor();
  ImGui::PopFont();
}

void paragraph(const std::string& words, ImFont* font, const ImVec4& colour, float width) {
  text(wrapped(words, font, width > 0 ? width : ImGui::GetContentRegionAvail().x), font, colour);
}

bool button(const std::string& words, const std::string& key, const PanelStyle& style, float width,
            bool chosen) {
  const PanelColours colours = panel_colours();
  const ImVec2 words_size = size_of(words, style.fonts.body);
  const ImVec2 key_size = key.empty() ? ImVec2(0, 0) : size_of(key, style.fonts.small);
  const float between = key.empty() ? 0 : style.gap();
  const float content = words_size.x + between + key_size.x;
  const float wide = std::max({width, content + 24 * style.scale, style.target()});
  ImGui::PushStyleColor(ImGuiCol_Button, chosen ? colours.chosen : colours.button);
  ImGui::PushStyleColor(ImGuiCol_ButtonHovered, chosen ? colours.chosen : colours.button);
  ImGui::PushID(words.c_str());
  const bool pressed = ImGui::Button("##button", {wide, style.target()});
  ImGui::PopID();
  ImGui::PopStyleColor(2);
  const ImVec2 low = ImGui::GetItemRectMin();
  const ImVec2 high = ImGui::GetItemRectMax();
  const float x = low.x + (wide - content) / 2;
  const bool inked = !chosen || ImGui::IsItemActive();
  draw_text({x, (low.y + high.y - words_size.y) / 2}, words, style.fonts.body,
            inked ? colours.ink : colours.paper);
  if (!key.empty()) {
    const float drop = (used(style.fonts.body).Ascent - used(style.fonts.small).Ascent) *
                       ImGui::GetIO().FontGlobalScale;
    draw_text({x + words_size.x + between, (low.y + high.y - words_size.y) / 2 + drop}, key,
              style.fonts.small, inked ? colours.quiet : colours.paper);
  }
  weigh_last_item(style);
  return pressed;
}

int choices(const char* id, const std::vector<std::string>& words, int chosen,
            const PanelStyle& style) {
  ImGui::PushID(id);
  int pressed = -1;
  const float right = ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const float wide =
        std::max(size_of(words[i], style.fonts.body).x + 24 * style.scale, style.target());
    if (i > 0 && ImGui::GetItemRectMax().x + style.gap() + wide <= right) {
      ImGui::SameLine();
    }
    ImGui::PushID(static_cast<int>(i));
    if (button(words[i], "", style, wide, static_cast<int>(i) == chosen)) {
      pressed = static_cast<int>(i);
    }
    ImGui::PopID();
  }
  ImGui::PopID();
  return pressed;
}

bool row(const char* id, const std::string& figure, const std::string& words, bool here,
         bool faulty, const PanelStyle& style) {
  const PanelColours colours = panel_colours();
  const float wide = ImGui::GetContentRegionAvail().x;
  const float pad = 9 * style.scale;
  const float indent = std::max(44 * style.scale, size_of(figure, style.fonts.small).x + 2 * pad);
  const float wrap = std::max(wide - indent - pad, style.target());
  ImFont* font = here ? style.fonts.strong : style.fonts.body;
  const std::string lines = wrapped(words, font, wrap);
  const ImVec2 words_size = size_of(lines, font);
  const ImVec2 figure_size = size_of(figure, style.fonts.small);
  const float high = std::max(words_size.y + 2 * pad, style.target());
  ImGui::PushStyleColor(ImGuiCol_Button, here ? colours.button : ImVec4(0, 0, 0, 0));
  ImGui::PushStyleColor(ImGuiCol_ButtonHovered, here ? colours.button : ImVec4(0, 0, 0, 0));
  ImGui::PushID(id);
  const bool pressed = ImGui::Button("##row", {wide, high});
  ImGui::PopID();
  ImGui::PopStyleColor(2);
  const ImVec2 low = ImGui::GetItemRectMin();
  const float top = low.y + (high - words_size.y) / 2;
  const float line = size_of("0", font).y;
  draw_text({low.x + indent - pad - figure_size.x, top + (line - figure_size.y) / 2}, figure,
            style.fonts.small, faulty ? colours.wrong : colours.quiet);
  draw_text({low.x + indent, top}, lines, font, faulty ? colours.wrong : colours.ink);
  weigh_last_item(style);
  return pressed;
}

void heading(const std::string& words, const PanelStyle& style) {
  ImGui::Dummy({0, style.gap() / 2});
  paragraph(words, style.fonts.strong, panel_colours().ink);
}

} // namespace lugline::panels
