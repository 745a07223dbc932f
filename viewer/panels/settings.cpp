#include "viewer/panels/settings.h"

#include "viewer/panels/controls.h"

#include <cmath>

namespace lugline {

namespace {

/// A question with two answers; 1 where the second is pressed, 0 the first, -1 none.
int two(const char* id, const char* question, const char* first, const char* second, bool is_second,
        const PanelStyle& style) {
  panels::heading(question, style);
  return panels::choices(id, {first, second}, is_second ? 1 : 0, style);
}

} // namespace

Wishes settings_panel(const Settings& settings, const std::vector<std::string>& told,
                      const PanelArea& area, const PanelStyle& style) {
  Wishes wishes;
  if (panels::begin_sheet("settings", "Settings", area, style)) {
    wishes.push_back(wish::Leave{});
  }
  const int unit =
      two("unit", "Lengths", "millimetres", "inches", settings.unit == LengthUnit::inch, style);
  if (unit >= 0) {
    wishes.push_back(wish::SetLengthUnit{unit == 1 ? LengthUnit::inch : LengthUnit::millimetre});
  }
  panels::heading("Size of everything", style);
  const std::vector<double> all = scales();
  std::vector<std::string> words;
  int now = -1;
  for (const double scale : all) {
    now = std::abs(scale - settings.scale) < 0.01 ? static_cast<int>(words.size()) : now;
    words.push_back(std::to_string(std::lround(scale * 100)) + " %");
  }
  const int scale = panels::choices("scale", words, now, style);
  if (scale >= 0) {
    wishes.push_back(wish::SetScale{all[static_cast<std::size_t>(scale)]});
  }
  const int motion =
      two("motion", "Parts going in", "at once", "seen to move", settings.motion, style);
  if (motion >= 0) {
    wishes.push_back(wish::SetMotion{motion == 1});
  }
  const int cut = two("cut", "The unit", "whole", "a quarter cut out", settings.cut, style);
  if (cut >= 0) {
    wishes.push_back(wish::SetCut{cut == 1});
  }
  const int print =
      two("print", "The picture", "shaded", "plain lines", settings.print_look, style);
  if (print >= 0) {
    wishes.push_back(wish::SetPrintLook{print == 1});
  }
  ImGui::Dummy({0, style.gap()});
  for (const std::string& line : told) {
    panels::paragraph(line, style.fonts.small, panel_colours().quiet);
  }
  panels::end_sheet();
  return wishes;
}

} // namespace lugline
