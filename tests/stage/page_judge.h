// Judges a laid out page as a person would: is any word cut off, do two words
// run into one another, does a label cover the part in hand, do leaders cross?
#pragma once

#include "viewer/stage/page.h"

#include <string>
#include <vector>

namespace lugline::test {

/// As wide as any letter of Inter on average, and a little more: words that fit
/// by it fit in the font.
class WideRuler : public TextRuler {
public:
  [[nodiscard]] double width_px(std::string_view line, double size_px, FontWeight weight,
                                bool even_digits) const override;
  [[nodiscard]] double capital_px(double size_px, FontWeight weight) const override;
};

/// What is wrong with the page, in words; empty where nothing is.
std::vector<std::string> faults_of(const PageInput& page, const PageMarks& marks,
                                   const TextRuler& ruler);

/// The same of a drawing that should keep to a box: words that leave it, words that run into one
/// another, lines and shapes that leave it.
std::vector<std::string> faults_of(const Drawing2d& drawing, const Box& box,
                                   const TextRuler& ruler);

} // namespace lugline::test
