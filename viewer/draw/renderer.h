// From a Picture to pixels: the drawing itself.
//
// Needs a current OpenGL 3.3 (or ES 3.0) context from create() to its end, and
// owns everything it makes there. A frame: solid parts and cut faces into
// colour, normal, depth and id buffers; crevice shading from depth; ink where
// ids change, depth jumps or the surface turns; then all of it onto paper, and
// thin things (ghosts, key outlines, paths) on top. The same picture at the
// same size gives the same bytes. No words are drawn here: anchors() says where
// they belong, and a painter (painter.h) puts them there.
//
// Leaves OpenGL with blending, depth test, culling and scissor off, program and
// vertex array 0, and the target framebuffer bound. Sizes are pixels.
#pragma once

#include "scene/quantity/outcome.h"
#include "viewer/draw/image.h"
#include "viewer/stage/picture.h"

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace lugline {

/// How much care a frame gets.
struct DrawQuality {
  int supersample = 2;         ///< 1 or 2: fine pixels along one pixel
  bool crevices = true;        ///< soft dark in corners, and lighter lines where they crowd
  bool rough_crevices = false; ///< … with half the pixels each way
  bool textures = true;        ///< linings' weave and the like
  bool half_pixels = false;    ///< drawn with half of them each way, and spread
  double coarse_px = 0; ///< how far triangles may be from the mesh, on screen; 0 the mesh itself
};

/// A still: everything. In motion: half the pixels' care, for a steady frame.
inline constexpr DrawQuality still_quality{2, true, false, true, false, 0};
inline constexpr DrawQuality motion_quality{1, true, true, false, false, 1.0};

struct DrawOptions {
  double scale = 1; ///< of line widths and hatching; 1 to 2.5
  DrawQuality quality;
  std::uint32_t emphasised_pick = 0; ///< what the mouse is over gains weight of line
  /// Told each pass's name and time once it is wholly drawn; waiting for that costs time itself.
  std::function<void(const char* pass, double ms)> time;
};

/// Part of a framebuffer, in pixels from its lower left corner as OpenGL counts.
struct Viewport {
  int x_px = 0;
  int y_px = 0;
  int width_px = 1;
  int height_px = 1;
};

enum class AnchorKind { key, up_arrow, label, fall_from, fall_to, turn_arc };

/// Where words belong: pixels from the viewport's top left corner.
struct ScreenAnchor {
  AnchorKind kind = AnchorKind::label;
  std::string item;
  int number = 0;    ///< the pair, for a key
  std::string words; ///< as the picture gave them
  double x_px = 0;
  double y_px = 0;
  bool on_screen = false; ///< inside the viewport
  bool visible = false;   ///< on screen, and nothing stands before it
};

class Renderer {
public:
  static Outcome<Renderer> create();

  Renderer(Renderer&&) noexcept;
  Renderer& operator=(Renderer&&) noexcept;
  ~Renderer();

  /// Off screen, into an image of its own.
  Image draw(const Picture& picture, int width_px, int height_px, const DrawOptions& options = {});

  /// Into a part of a framebuffer (0 is the window's); covers that part wholly.
  void draw_into(unsigned framebuffer, const Viewport& viewport, const Picture& picture,
                 const DrawOptions& options = {});

  /// Of the last frame: the pick number at a pixel from the viewport's top
  /// left; 0 where there is nothing to pick.
  [[nodiscard]] std::uint32_t pick(int x_px, int y_px) const;

  /// Of the last frame, in the picture's order: keys, up arrow, labels, fall, turn.
  [[nodiscard]] const std::vector<ScreenAnchor>& anchors() const;

  /// Items whose mesh is open where the last frame's cut passes, by id.
  [[nodiscard]] const std::vector<std::string>& unclosed() const;

private:
  struct Inner;
  void draw_half(unsigned framebuffer, const Viewport& viewport, const Picture& picture,
                 const DrawOptions& options);
  explicit Renderer(std::unique_ptr<Inner> inner);
  std::unique_ptr<Inner> inner_;
};

/// A framebuffer with a picture of its own, for drawing off screen and reading back.
class OffscreenTarget {
public:
  OffscreenTarget(int width_px, int height_px);
  OffscreenTarget(OffscreenTarget&&) noexcept;
  ~OffscreenTarget();

  [[nodiscard]] unsigned framebuffer() const;
  [[nodiscard]] Viewport viewport() const;
  [[nodiscard]] Image read() const;

private:
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

} // namespace lugline
