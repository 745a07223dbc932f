// The page on a framebuffer: paper, the 3D picture, and everything drawn flat.
//
// The window and the draw command share it, so a file shows what the window
// shows. Needs a current OpenGL 3.3 context from create() to its end, and owns
// a renderer, a painter and the fonts. Sizes are pixels of the framebuffer.
#pragma once

#include "scene/quantity/outcome.h"
#include "viewer/draw/painter.h"
#include "viewer/draw/renderer.h"
#include "viewer/draw/text.h"
#include "viewer/stage/figures.h"
#include "viewer/stage/page.h"

#include <cstdint>
#include <memory>

namespace lugline {

class PageArtist {
public:
  static Outcome<PageArtist> create();

  /// The picture must have been made for the layout's own aspect (aspect_of).
  void draw(unsigned framebuffer, const PageInput& page, const PageLayout& layout,
            const Picture& picture, const DrawOptions& options);
  /// Only paper, as large as the page.
  void draw_paper(unsigned framebuffer, const PageInput& page, const PageLayout& layout);
  /// A flat drawing over what is there; counted from the page's corner.
  void paint(unsigned framebuffer, const PageInput& page, const PageLayout& layout,
             const Drawing2d& drawing);

  /// What was picked in the last picture at a pixel of the page; 0: nothing.
  [[nodiscard]] std::uint32_t pick(const PageLayout& layout, double x_px, double y_px) const;

  [[nodiscard]] const Fonts& fonts() const { return *fonts_; }

private:
  PageArtist(std::shared_ptr<Fonts> fonts, Renderer renderer, Painter painter);

  /// Paper is drawn once for each size, and copied from then on.
  struct Paper {
    Viewport sheet;
    int width_px = 0;
    int height_px = 0;
    bool print_look = false;
    std::unique_ptr<OffscreenTarget> target;
  };

  std::shared_ptr<Fonts> fonts_;
  Renderer renderer_;
  Painter painter_;
  Paper paper_;
};

/// Width by height of the layout's picture.
double aspect_of(const PageLayout& layout);

/// The whole page of a view, off screen.
Image page_image(PageArtist& artist, const Stage& stage, const ViewState& view, int width_px,
                 int height_px, double scale);

/// A view of figures as a page of its own, off screen.
Image figures_image(PageArtist& artist, const Stage& stage, const ViewState& view, FiguresKind kind,
                    int width_px, int height_px, double scale);

} // namespace lugline
