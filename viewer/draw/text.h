// Words in Inter: measuring them, and the glyphs that they are made of.
//
// Needs FreeType and the font's files, and no OpenGL: whoever lays out words
// measures them here, and the painter (painter.h) puts them on a picture. Owns
// the open font files. Sizes are pixels of an em; widths are the font's own,
// unhinted, so a line at twice the size is twice as wide. load() fails where
// the font is not there, with a word on what to install.
#pragma once

#include "scene/quantity/outcome.h"
#include "viewer/stage/sheet2d.h"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string_view>
#include <vector>

namespace lugline {

/// One glyph of a line, where the pen stands for it.
struct PlacedGlyph {
  int face = 0; ///< which open font file
  std::uint32_t glyph = 0;
  double x_px = 0; ///< from the line's start
};

/// A glyph's picture: how much of each pixel it covers, rows from the top.
struct GlyphImage {
  int width_px = 0;
  int height_px = 0;
  int left_px = 0; ///< of its first column, from the pen's whole pixel
  int top_px = 0;  ///< of its first row, above the baseline
  std::vector<std::uint8_t> cover;
};

/// Where ink falls, in pixels from the line's start on the baseline, y down.
struct InkBounds {
  double left_px = 0;
  double top_px = 0;
  double right_px = 0;
  double bottom_px = 0;
  [[nodiscard]] bool empty() const { return right_px <= left_px; }
};

class Fonts : public TextRuler {
public:
  /// From the folders where systems keep Inter, or from the one given.
  static Outcome<std::shared_ptr<Fonts>> load(const std::filesystem::path& folder = {});
  ~Fonts() override;

  [[nodiscard]] double width_px(std::string_view line, double size_px, FontWeight weight,
                                bool even_digits) const override;
  [[nodiscard]] double capital_px(double size_px, FontWeight weight) const override;
  /// Of the tallest letters above the baseline, and of the deepest below it.
  [[nodiscard]] double ascent_px(double size_px, FontWeight weight) const;
  [[nodiscard]] double descent_px(double size_px, FontWeight weight) const;
  [[nodiscard]] InkBounds ink_of(std::string_view line, double size_px, FontWeight weight,
                                 bool even_digits = false) const;

  /// The glyphs of one line. design_px picks between the cut for text and the
  /// one for display, so that words keep their shapes under a scale.
  [[nodiscard]] std::vector<PlacedGlyph> glyphs_of(std::string_view line, double size_px,
                                                   double design_px, FontWeight weight,
                                                   bool even_digits, double& width_px) const;
  /// A glyph's picture at a size, its pen a fraction of a pixel to the right.
  [[nodiscard]] GlyphImage image_of(int face, std::uint32_t glyph, double size_px,
                                    double fraction_px) const;

private:
  struct Inner;
  explicit Fonts(std::unique_ptr<Inner> inner);
  std::unique_ptr<Inner> inner_;
};

/// The code points of UTF-8 text; what is not UTF-8 becomes U+FFFD.
std::vector<char32_t> code_points_of(std::string_view text);

} // namespace lugline
