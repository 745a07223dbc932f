// Paints a flat drawing (viewer/stage/sheet2d.h) over a picture or a window.
//
// Needs a current OpenGL 3.3 (or ES 3.0) context from create() to its end, and
// owns what it makes there: one program, one page of glyphs that fills as words
// are met. Shares the fonts with whoever measured the words. Blends over what
// is there; leaves OpenGL as the renderer does. The same drawing at the same
// scale gives the same bytes.
#pragma once

#include "scene/quantity/outcome.h"
#include "viewer/draw/renderer.h"
#include "viewer/draw/text.h"
#include "viewer/stage/sheet2d.h"

#include <memory>

namespace lugline {

class Painter {
public:
  static Outcome<Painter> create(std::shared_ptr<const Fonts> fonts);

  Painter(Painter&&) noexcept;
  Painter& operator=(Painter&&) noexcept;
  ~Painter();

  /// Into a part of a framebuffer; the drawing's pixels are multiplied by scale
  /// and counted from the viewport's top left corner.
  void paint(const Drawing2d& drawing, unsigned framebuffer, const Viewport& viewport,
             double scale = 1);

  [[nodiscard]] const Fonts& fonts() const;

private:
  struct Inner;
  explicit Painter(std::unique_ptr<Inner> inner);
  std::unique_ptr<Inner> inner_;
};

} // namespace lugline
