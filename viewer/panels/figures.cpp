#include "viewer/panels/figures.h"

#include "viewer/panels/controls.h"

#include <imgui_stdlib.h>

#include <algorithm>
#include <array>

namespace lugline {

namespace {

class FiguresPanel {
public:
  FiguresPanel(const FiguresPage& page, const FiguresChoice& choice, const PanelStyle& style)
      : page_(page), choice_(choice), style_(style) {}

  Wishes show() {
    views();
    options();
    if (page_.air) {
      watch();
    }
    field();
    switches();
    selectives();
    if (page_.air || page_.train || page_.column) {
      ImGui::Dummy({0, style_.gap() / 2});
      if (panels::button(page_.working ? "the picture" : "the working", "W", style_, 0, false)) {
        wishes_.push_back(wish::SwapWorking{});
      }
    }
    return std::move(wishes_);
  }

private:
  void views() {
    struct View {
      const char* words;
      const char* key;
      FiguresKind kind;
    };
    constexpr std::array<View, 4> views = {{{"pack", "P", FiguresKind::pack},
                                            {"play", "E", FiguresKind::play},
                                            {"train", "G", FiguresKind::train},
                                            {"air", "A", FiguresKind::air}}};
    const float each = (ImGui::GetContentRegionAvail().x - 3 * style_.gap()) / 4;
    const float right = ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x;
    for (std::size_t i = 0; i < views.size(); ++i) {
      if (i > 0 && ImGui::GetItemRectMax().x + style_.gap() + each <= right + 1) {
        ImGui::SameLine();
      }
      const bool here = views[i].kind == page_.kind;
      if (panels::button(views[i].words, views[i].key, style_, each, here) && !here) {
        wishes_.push_back(wish::Show{panel_of(views[i].kind)});
      }
    }
  }

  void options() {
    if (page_.options.empty()) {
      return;
    }
    panels::heading(page_.choose, style_);
    int chosen = -1;
    std::vector<std::string> words;
    for (const FiguresOption& option : page_.options) {
      chosen = option.chosen && !page_.by_hand ? static_cast<int>(words.size()) : chosen;
      words.push_back(option.words);
    }
    const int pressed = panels::choices("options", words, chosen, style_);
    if (pressed >= 0) {
      wishes_.push_back(
          wish::ChooseFigures{page_.kind, page_.options[static_cast<std::size_t>(pressed)].id});
    }
  }

  void switches() {
    if (page_.switches.empty()) {
      return;
    }
    panels::heading(page_.by_hand ? "applied, by hand" : "applied", style_);
    for (std::size_t i = 0; i < page_.switches.size(); ++i) {
      const FiguresOption& one = page_.switches[i];
      const float right = ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x;
      const float wide = ImGui::CalcTextSize(one.words.c_str()).x + 24 * style_.scale;
      if (i > 0 && ImGui::GetItemRectMax().x + style_.gap() + wide <= right) {
        ImGui::SameLine();
      }
      ImGui::PushID(static_cast<int>(i));
      if (panels::button(one.words, "", style_, 0, one.chosen)) {
        wishes_.push_back(wish::SwitchElement{one.id});
      }
      ImGui::PopID();
    }
  }

  void field() {
    if (page_.asked.empty()) {
      return;
    }
    panels::heading(page_.asked, style_);
    std::string text = page_.typed.text;
    const float pad = std::max((style_.target() - ImGui::GetFontSize()) / 2, 0.0f);
    const float wide = ImGui::GetContentRegionAvail().x;
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {10 * style_.scale, pad});
    ImGui::PushStyleVar(ImGuiStyleVar_FrameBorderSize, style_.scale);
    ImGui::PushStyleColor(ImGuiCol_Border, colours_.ink);
    ImGui::SetNextItemWidth(std::min(wide, 190 * style_.scale));
    if (ImGui::InputTextWithHint("##figure", page_.asked_figure.c_str(), &text,
                                 ImGuiInputTextFlags_AutoSelectAll)) {
      wishes_.push_back(wish::TypeFigure{page_.kind, text});
    }
    ImGui::PopStyleColor();
    ImGui::PopStyleVar(2);
    if (page_.kind == FiguresKind::train) {
      const char* words = choice_.coasting ? "engine brakes" : "engine drives";
      ImGui::SameLine();
      if (ImGui::GetContentRegionAvail().x < 120 * style_.scale) {
        ImGui::NewLine();
      }
      if (panels::button(words, "B", style_)) {
        wishes_.push_back(wish::SwapCoasting{});
      }
    }
    const bool wrong = !page_.typed.problem.empty();
    if (!wrong && page_.typed.text.empty()) {
      return; // the field itself says what is taken
    }
    panels::paragraph(wrong ? page_.typed.problem : page_.asked_figure, style_.fonts.small,
                      wrong ? colours_.wrong : colours_.quiet);
  }

  void watch() {
    panels::heading("watch", style_);
    const float wide = (ImGui::GetContentRegionAvail().x - style_.gap()) / 2;
    if (panels::button(choice_.watch_runs ? "stop" : "start", "T", style_, wide,
                       choice_.watch_runs)) {
      wishes_.push_back(wish::StartStop{});
    }
    ImGui::SameLine();
    if (panels::button("nought", "Shift+T", style_, wide)) {
      wishes_.push_back(wish::ZeroWatch{});
    }
  }

  void selectives() {
    for (const MeasuringRow& row : page_.selectives) {
      panels::heading(row.label, style_);
      std::vector<std::string> words;
      int fitted = -1;
      for (const MeasuringOption& option : row.options) {
        fitted = option.fitted ? static_cast<int>(words.size()) : fitted;
        words.push_back(option.words);
      }
      const int pressed = panels::choices(row.part.c_str(), words, fitted, style_);
      if (pressed >= 0) {
        wishes_.push_back(
            wish::Choose{row.part, row.options[static_cast<std::size_t>(pressed)].thickness_m});
      }
    }
  }

  const FiguresPage& page_;
  const FiguresChoice& choice_;
  const PanelStyle& style_;
  const PanelColours colours_ = panel_colours();
  Wishes wishes_;
};

} // namespace

Wishes figures_panel(const FiguresPage& page, const FiguresChoice& choice, const PanelArea& area,
                     const PanelStyle& style) {
  const bool left = panels::begin_sheet("figures", "Figures", area, style);
  Wishes wishes = FiguresPanel(page, choice, style).show();
  panels::end_sheet();
  if (left) {
    wishes.push_back(wish::Leave{});
  }
  return wishes;
}

} // namespace lugline
