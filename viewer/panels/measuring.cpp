#include "viewer/panels/measuring.h"

#include "viewer/panels/controls.h"

#include <imgui_stdlib.h>

#include <algorithm>

namespace lugline {

namespace {

class Measuring {
public:
  Measuring(const MeasuringDraft& draft, const PanelStyle& style) : draft_(draft), style_(style) {}

  void sheet(const MeasuringSheet& sheet) {
    panels::heading(sheet.name, style_);
    if (!sheet.result.empty()) {
      panels::paragraph(sheet.result, style_.fonts.body,
                        sheet.wrong ? colours_.wrong : colours_.ink);
    }
    if (!sheet.advice.empty()) {
      panels::paragraph(sheet.advice, style_.fonts.small, colours_.quiet);
    }
    for (const MeasuringRow& row : sheet.rows) {
      ImGui::PushID(row.part.c_str());
      plate(row);
      ImGui::PopID();
    }
  }

  /// The field that gets the keyboard when the panel appears.
  void begin_at(const std::string& part) { begin_at_ = part; }
  [[nodiscard]] Wishes take() { return std::move(wishes_); }

private:
  void plate(const MeasuringRow& row) {
    const float wide = ImGui::GetContentRegionAvail().x;
    const float field_wide = std::clamp(wide * 0.38f, 96 * style_.scale, 170 * style_.scale);
    const ImVec2 at = ImGui::GetCursorPos();
    words_wide_ = wide - field_wide - style_.gap();
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {style_.gap(), 0});
    panels::paragraph(row.label, row.now ? style_.fonts.strong : style_.fonts.body, colours_.ink,
                      words_wide_);
    say_back(row);
    ImGui::PopStyleVar();
    const float below_words = ImGui::GetCursorPosY();
    ImGui::SetCursorPos({at.x + wide - field_wide, at.y});
    field(row, field_wide);
    ImGui::SetCursorPos({at.x, std::max(below_words, at.y + style_.target()) + style_.gap() / 2});
    selectives(row);
  }

  void field(const MeasuringRow& row, float wide) {
    const bool typed = draft_.part == row.part;
    std::string text = typed ? draft_.text : row.measured ? row.figure : std::string();
    const float pad = std::max((style_.target() - ImGui::GetFontSize()) / 2, 0.0f);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {10 * style_.scale, pad});
    ImGui::PushStyleVar(ImGuiStyleVar_FrameBorderSize, style_.scale);
    ImGui::PushStyleColor(ImGuiCol_Border, colours_.ink);
    ImGui::SetNextItemWidth(wide);
    if (next_ || (row.part == begin_at_ && ImGui::IsWindowAppearing())) {
      ImGui::SetKeyboardFocusHere();
      next_ = false;
    }
    if (ImGui::InputTextWithHint("##figure", row.figure.c_str(), &text,
                                 ImGuiInputTextFlags_AutoSelectAll)) {
      wishes_.push_back(wish::Type{row.part, text});
    }
    ImGui::PopStyleColor();
    ImGui::PopStyleVar(2);
    if (ImGui::IsItemDeactivated()) {
      wishes_.push_back(wish::LeaveField{});
      // Enter goes to the next plate, as the hand does.
      next_ = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Enter), false) ||
              ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_KeyPadEnter), false);
    }
  }

  void say_back(const MeasuringRow& row) {
    if (draft_.part == row.part && !draft_.problem.empty()) {
      panels::paragraph(draft_.problem, style_.fonts.small, colours_.wrong, words_wide_);
    } else if (!row.refused.empty()) {
      panels::paragraph(row.refused, style_.fonts.small, colours_.wrong, words_wide_);
    } else {
      panels::paragraph(row.said_back, style_.fonts.small,
                        row.measured ? colours_.ink : colours_.quiet, words_wide_);
    }
  }

  void selectives(const MeasuringRow& row) {
    if (row.options.empty()) {
      return;
    }
    std::vector<std::string> words;
    int fitted = -1;
    for (const MeasuringOption& option : row.options) {
      fitted = option.fitted ? static_cast<int>(words.size()) : fitted;
      words.push_back(option.words);
    }
    const int pressed = panels::choices("selective", words, fitted, style_);
    if (pressed >= 0) {
      wishes_.push_back(
          wish::Choose{row.part, row.options[static_cast<std::size_t>(pressed)].thickness_m});
    }
  }

  const MeasuringDraft& draft_;
  const PanelStyle& style_;
  const PanelColours colours_ = panel_colours();
  std::string begin_at_;
  bool next_ = false;
  float words_wide_ = 0; ///< what a row's words may take up
  Wishes wishes_;
};

} // namespace

Wishes measuring_panel(const std::vector<MeasuringSheet>& sheets, const MeasuringDraft& draft,
                       LengthUnit unit, const PanelArea& area, const PanelStyle& style) {
  Measuring measuring(draft, style);
  const bool left = panels::begin_sheet("measuring", "Measuring", area, style);
  if (sheets.empty()) {
    panels::paragraph("This unit has no packs to measure.", style.fonts.body, panel_colours().ink);
  } else {
    panels::paragraph(unit == LengthUnit::inch
                          ? "Type what the micrometer shows. A bare number is in inches."
                          : "Type what the micrometer shows. A bare number is in millimetres.",
                      style.fonts.body, panel_colours().quiet);
    // The step's own plate, or the first.
    for (const MeasuringRow& row : sheets.front().rows) {
      if (row.now || &row == &sheets.front().rows.front()) {
        measuring.begin_at(row.part);
      }
    }
  }
  for (const MeasuringSheet& sheet : sheets) {
    ImGui::PushID(sheet.pack.c_str());
    measuring.sheet(sheet);
    ImGui::PopID();
  }
  panels::end_sheet();
  Wishes wishes = measuring.take();
  if (left) {
    wishes.push_back(wish::Leave{});
  }
  return wishes;
}

} // namespace lugline
