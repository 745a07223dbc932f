#include "viewer/draw/glyph_page.h"

#include <algorithm>
#include <cmath>

namespace lugline {
namespace {

constexpr int page_px = 1024;
constexpr int apart_px = 1; // so that no glyph bleeds into the next

} // namespace

GlyphPage::GlyphPage(std::shared_ptr<const Fonts> fonts)
    : fonts_(std::move(fonts)), texture_(make_texture(TexelKind::r8, page_px, page_px, false)) {}

void GlyphPage::empty() {
  stored_.clear();
  row_top_ = 0;
  row_height_ = 0;
  next_left_ = 0;
}

std::optional<StoredGlyph> GlyphPage::at(int face, std::uint32_t glyph, double size_px,
                                         int fraction) {
  const std::array<std::uint32_t, 4> key = {static_cast<std::uint32_t>(face), glyph,
                                            static_cast<std::uint32_t>(std::lround(size_px * 64)),
                                            static_cast<std::uint32_t>(fraction)};
  const auto found = stored_.find(key);
  if (found != stored_.end())
    return found->second;
  const GlyphImage image = fonts_->image_of(face, glyph, size_px, fraction * 0.25);
  StoredGlyph made{image.left_px, image.top_px, image.width_px, image.height_px, glm::vec4(0)};
  if (image.width_px > 0 && image.height_px > 0) {
    if (next_left_ + image.width_px > page_px) {
      row_top_ += row_height_ + apart_px;
      row_height_ = 0;
      next_left_ = 0;
    }
    if (image.width_px > page_px || row_top_ + image.height_px > page_px)
      return std::nullopt;
    glBindTexture(GL_TEXTURE_2D, texture_.name());
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexSubImage2D(GL_TEXTURE_2D, 0, next_left_, row_top_, image.width_px, image.height_px, GL_RED,
                    GL_UNSIGNED_BYTE, image.cover.data());
    glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
    made.uv =
        glm::vec4(next_left_, row_top_, next_left_ + image.width_px, row_top_ + image.height_px) /
        static_cast<float>(page_px);
    next_left_ += image.width_px + apart_px;
    row_height_ = std::max(row_height_, image.height_px);
  }
  return stored_.emplace(key, made).first->second;
}

} // namespace lugline
