// Glyphs on the GPU: one page, filled in rows as glyphs are first met.
//
// Owns its texture; shares the fonts. Where the page is full it says so, and
// the caller draws what it has, empties the page and asks again.
#pragma once

#include "viewer/draw/gl.h"
#include "viewer/draw/text.h"

#include <array>
#include <map>
#include <memory>
#include <optional>

namespace lugline {

struct StoredGlyph {
  int left_px = 0; ///< of its first column, from the pen's whole pixel
  int top_px = 0;  ///< of its first row, above the baseline
  int width_px = 0;
  int height_px = 0;
  glm::vec4 uv{0}; ///< left, top, right, bottom on the page
};

class GlyphPage {
public:
  explicit GlyphPage(std::shared_ptr<const Fonts> fonts);

  /// Nothing where the page has no room left. fraction: quarters of a pixel, 0 to 3.
  std::optional<StoredGlyph> at(int face, std::uint32_t glyph, double size_px, int fraction);
  void empty();

  [[nodiscard]] const GlTexture& texture() const { return texture_; }
  [[nodiscard]] const Fonts& fonts() const { return *fonts_; }

private:
  std::shared_ptr<const Fonts> fonts_;
  GlTexture texture_;
  /// Face, glyph, size in 64ths of a pixel, quarter.
  std::map<std::array<std::uint32_t, 4>, StoredGlyph> stored_;
  int row_top_ = 0;
  int row_height_ = 0;
  int next_left_ = 0;
};

} // namespace lugline
