#include "viewer/stage/flat.h"

#include <algorithm>
#include <array>

namespace lugline {

namespace {

// How far letters reach beyond capitals and below the baseline, in sizes.
constexpr double above_capitals = 0.06;
constexpr double below_baseline = 0.24;
constexpr double hair_px = 0.01;

constexpr std::array<std::string_view, 9> units = {"mm",  "in",  "deg", "N", "N m",
                                                   "kPa", "psi", "lbf", "%"};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// The word that begins at a place, without what is written after it.
std::string_view word_at(std::string_view words, std::size_t from) {
  const std::string_view word = words.substr(from, words.find_first_of(" \n,;.:)", from) - from);
  return word;
}

TextShape shape_of(const std::string& words, const Lettering& type, double width_px) {
  TextShape text;
  text.words = kept_together(words);
  text.size_px = type.size_px;
  text.weight = type.weight;
  text.colour = type.colour;
  text.line_step = type.line_step;
  text.even_digits = type.even_digits;
  text.wrap_px = width_px;
  return text;
}

} // namespace

std::string kept_together(const std::string& words) {
  constexpr const char* no_break = "\u00a0";
  std::string kept;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool between = words[i] == ' ' && i > 0 && i + 1 < words.size();
    const std::string_view next = between ? word_at(words, i + 1) : std::string_view();
    const bool unit =
        between && is_digit(words[i - 1]) && std::ranges::find(units, next) != units.end();
    const bool number = !next.empty() && next.size() <= 2 && std::ranges::all_of(next, is_digit);
    if (unit || number) {
      kept += no_break;
    } else {
      kept += words[i];
    }
  }
  return kept;
}

Box shrunk(const Box& box, double by_px) {
  return {box.x_px + by_px, box.y_px + by_px, std::max(box.width_px - 2 * by_px, 0.0),
          std::max(box.height_px - 2 * by_px, 0.0)};
}

bool overlap(const Box& one, const Box& other) {
  return one.x_px + hair_px < other.right_px() && other.x_px + hair_px < one.right_px() &&
         one.y_px + hair_px < other.bottom_px() && other.y_px + hair_px < one.bottom_px();
}

Box text_box(const TextShape& text, const TextRuler& ruler) {
  const TextExtent extent = extent_of(text, ruler);
  const double capital_px = ruler.capital_px(text.size_px, text.weight);
  Box box;
  box.width_px = extent.width_px;
  box.x_px = text.at.x_px - (text.align == TextAlign::right    ? extent.width_px
                             : text.align == TextAlign::centre ? extent.width_px / 2
                                                               : 0);
  box.y_px = text.at.y_px - capital_px - above_capitals * text.size_px;
  box.height_px = extent.height_px + (above_capitals + below_baseline) * text.size_px;
  return box;
}

double put_words(Drawing2d& drawing, const TextRuler& ruler, const std::string& words,
                 const Lettering& type, double x_px, double y_px, double width_px,
                 TextAlign align) {
  if (words.empty()) {
    return y_px;
  }
  TextShape text = shape_of(words, type, width_px);
  text.align = align;
  text.at = {x_px,
             y_px + above_capitals * type.size_px + ruler.capital_px(type.size_px, type.weight)};
  const double bottom_px = text_box(text, ruler).bottom_px();
  drawing.add(std::move(text));
  return bottom_px;
}

double words_height(const TextRuler& ruler, const std::string& words, const Lettering& type,
                    double width_px) {
  return words.empty() ? 0 : text_box(shape_of(words, type, width_px), ruler).height_px;
}

double words_width(const TextRuler& ruler, const std::string& words, const Lettering& type,
                   double width_px) {
  return extent_of(shape_of(words, type, width_px), ruler).width_px;
}

bool words_fit(const TextRuler& ruler, const std::string& words, const Lettering& type,
               double width_px) {
  return words_width(ruler, words, type, width_px) <= width_px + hair_px;
}

void put_level(Drawing2d& drawing, const TextRuler& ruler, const std::string& words,
               const Lettering& type, double x_px, double y_px, TextAlign align) {
  if (words.empty()) {
    return;
  }
  TextShape text = shape_of(words, type, 0);
  text.align = align;
  text.at = {x_px, y_px + ruler.capital_px(type.size_px, type.weight) / 2};
  drawing.add(std::move(text));
}

RectShape plain_rect(const Box& box, std::optional<Colour> fill, std::optional<Stroke> stroke) {
  RectShape rect;
  rect.x_px = box.x_px;
  rect.y_px = box.y_px;
  rect.width_px = box.width_px;
  rect.height_px = box.height_px;
  rect.fill = fill;
  rect.stroke = stroke;
  return rect;
}

LineShape line(double from_x_px, double from_y_px, double to_x_px, double to_y_px,
               const Stroke& stroke) {
  return {{from_x_px, from_y_px}, {to_x_px, to_y_px}, stroke};
}

} // namespace lugline
