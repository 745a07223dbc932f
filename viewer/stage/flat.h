// Boxes, and words in boxes: the small change of laying out a page.
//
// Lengths are pixels at scale 1, x right and y down, as in sheet2d.h. Plain
// values and free functions; nothing here fails.
#pragma once

#include "viewer/stage/sheet2d.h"

#include <string>

namespace lugline {

struct Box {
  double x_px = 0;
  double y_px = 0;
  double width_px = 0;
  double height_px = 0;

  [[nodiscard]] double right_px() const { return x_px + width_px; }
  [[nodiscard]] double bottom_px() const { return y_px + height_px; }
  [[nodiscard]] bool empty() const { return width_px <= 0 || height_px <= 0; }
  [[nodiscard]] bool holds(PointPx point) const {
    return point.x_px >= x_px && point.x_px < right_px() && point.y_px >= y_px &&
           point.y_px < bottom_px();
  }
  friend bool operator==(const Box&, const Box&) = default;
};

/// Less by so much on every side; never negative.
Box shrunk(const Box& box, double by_px);
/// Whether they share more than a hair.
bool overlap(const Box& one, const Box& other);

/// How words look.
struct Lettering {
  double size_px = 15;
  FontWeight weight = FontWeight::regular;
  Colour colour = ink::text;
  double line_step = 1.36;
  bool even_digits = false;
};

/// A figure and its unit, a name and its number, stay on one line: their space
/// becomes one that does not break. Done to all words that are put down here.
std::string kept_together(const std::string& words);

/// Where the ink of a text shape can be: from the tallest letters of its first
/// line to the deepest of its last.
Box text_box(const TextShape& text, const TextRuler& ruler);

/// Puts words, wrapped to width_px (0: one line), with the top of their box at
/// y_px. Adds nothing where there are no words. Returns the bottom of the box.
double put_words(Drawing2d& drawing, const TextRuler& ruler, const std::string& words,
                 const Lettering& type, double x_px, double y_px, double width_px,
                 TextAlign align = TextAlign::left);

/// The same without drawing: how high it would be.
double words_height(const TextRuler& ruler, const std::string& words, const Lettering& type,
                    double width_px);
/// How wide the widest line is; width_px 0: of one line.
double words_width(const TextRuler& ruler, const std::string& words, const Lettering& type,
                   double width_px = 0);
/// Whether every line, even of a single long word, is within the width.
bool words_fit(const TextRuler& ruler, const std::string& words, const Lettering& type,
               double width_px);

/// One line set level with y_px: the middle of its capitals is there.
void put_level(Drawing2d& drawing, const TextRuler& ruler, const std::string& words,
               const Lettering& type, double x_px, double y_px, TextAlign align = TextAlign::left);

/// A rectangle with no round corners.
RectShape plain_rect(const Box& box, std::optional<Colour> fill, std::optional<Stroke> stroke = {});
LineShape line(double from_x_px, double from_y_px, double to_x_px, double to_y_px,
               const Stroke& stroke);

} // namespace lugline
