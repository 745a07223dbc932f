#include "viewer/panels/faults.h"

#include "viewer/panels/controls.h"

namespace lugline {

namespace {

std::string place_of(const Complaint& complaint) {
  std::string place = complaint.file;
  if (complaint.line > 0) {
    place += ":" + std::to_string(complaint.line);
    if (complaint.column > 0) {
      place += ":" + std::to_string(complaint.column);
    }
  }
  return place;
}

} // namespace

Wishes faults_panel(const std::vector<Complaint>& complaints, const std::string& folder,
                    bool can_leave, const PanelArea& area, const PanelStyle& style) {
  Wishes wishes;
  const PanelColours colours = panel_colours();
  const std::string title = "This unit does not load";
  if (panels::begin_sheet("faults", title, area, style, can_leave)) {
    wishes.push_back(wish::Leave{});
  }
  const std::string count = complaints.size() == 1
                                ? "One thing is wrong"
                                : std::to_string(complaints.size()) + " things are wrong";
  panels::paragraph(count + " in " + folder + ". Put it right, then try again.", style.fonts.body,
                    colours.ink);
  if (panels::button("try again", "R", style)) {
    wishes.push_back(wish::TryAgain{});
  }
  ImGui::SameLine();
  if (!can_leave && panels::button("close", "Ctrl+Q", style)) {
    wishes.push_back(wish::Close{});
  }
  ImGui::NewLine();
  for (const Complaint& complaint : complaints) {
    ImGui::Dummy({0, style.gap() / 2});
    panels::paragraph(place_of(complaint), style.fonts.strong, colours.blue);
    panels::paragraph(complaint.message, style.fonts.body, colours.ink);
    if (!complaint.hint.empty()) {
      panels::paragraph(complaint.hint, style.fonts.body, colours.quiet);
    }
  }
  panels::end_sheet();
  return wishes;
}

} // namespace lugline
