// The pieces of the page, each drawn into its own box. Inside viewer/stage only.
#pragma once

#include "viewer/stage/page.h"

namespace lugline::page {

inline constexpr double gap_px = 8;
inline constexpr Colour wrong = colour_of(0xa32a10);
inline constexpr Colour rule_ground = colour_of(0xe9e6db);
inline constexpr Colour know_bar = colour_of(0x0072b2);

/// The words at the left, as large as the box lets them be, and the waiting
/// parts beneath them, drawn or in words. up: which face goes up, in words; may
/// be empty. with_column: the column's figures as well, where there is no room
/// to draw it.
void draw_words(Drawing2d& drawing, const PageInput& page, const std::string& up, const Box& box,
                bool with_column, const TextRuler& ruler);

/// The gap column with its figures; labels: plates are named beside it.
void draw_column(Drawing2d& drawing, const Column& column, const Box& box, LengthUnit unit,
                 bool labels, const TextRuler& ruler);

/// What is named beside the column.
struct ColumnLabel {
  std::string name;
  std::string figure;  ///< its thickness; may be empty
  bool strong = false; ///< the step's own
  bool measured = false;
  double at_px = 0; ///< y of what it names
  double to_px = 0; ///< x that its leader runs to
};
/// Set flush right in the box, pushed apart where they crowd, with leaders.
void draw_column_labels(Drawing2d& drawing, std::vector<ColumnLabel> labels, const Box& box,
                        const TextRuler& ruler);

void draw_rule(Drawing2d& drawing, const PageInput& page, const Box& box, const TextRuler& ruler);
/// x of a step's tick on a rule; between ticks while its part goes in.
double tick_x(const Box& rule, std::size_t steps, double step);

void draw_tray(Drawing2d& drawing, const std::vector<TrayPart>& tray, const Box& box,
               const TextRuler& ruler);

void draw_labels(Drawing2d& drawing, const Box& picture, const PageMarks& marks,
                 const TextRuler& ruler);

/// The ground that a material is drawn on; strong: the part in hand.
Colour ground_of(const std::string& material, bool strong);

} // namespace lugline::page
