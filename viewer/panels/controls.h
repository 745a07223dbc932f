// The few things that panels are made of. Internal to viewer/panels.
//
// Each is at least the style's target high, gains weight of line under the
// mouse, and shows the keyboard's place by a blue frame. Dear ImGui keeps no
// value of ours: the caller owns what is shown.
#pragma once

#include "viewer/panels/style.h"

#include <string>
#include <vector>

namespace lugline::panels {

/// A sheet of paper with its title; ends with end_sheet() whatever this gives.
/// True where "leave" was pressed.
bool begin_sheet(const char* id, const std::string& title, const PanelArea& area,
                 const PanelStyle& style, bool can_leave = true);
void end_sheet();

void text(const std::string& words, ImFont* font, const ImVec4& colour);
/// Wrapped to that width; 0: to the right edge.
void paragraph(const std::string& words, ImFont* font, const ImVec4& colour, float width = 0);

/// width 0: as wide as its words. key: shown beside the words in quiet ink.
bool button(const std::string& words, const std::string& key, const PanelStyle& style,
            float width = 0, bool chosen = false);

/// A row of choices that wraps; the index pressed, or -1.
int choices(const char* id, const std::vector<std::string>& words, int chosen,
            const PanelStyle& style);

/// A row as wide as the sheet: a figure at the left, words wrapped beside it.
bool row(const char* id, const std::string& figure, const std::string& words, bool here,
         bool faulty, const PanelStyle& style);

void heading(const std::string& words, const PanelStyle& style);

} // namespace lugline::panels
