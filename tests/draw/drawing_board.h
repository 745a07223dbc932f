// What every drawing test needs: one context and one renderer for the process,
// and a few words about pixels.
#pragma once

#include "viewer/draw/gl_context.h"
#include "viewer/draw/painter.h"
#include "viewer/draw/renderer.h"

#include <memory>
#include <string>

namespace lugline::shapes {

class DrawingBoard {
public:
  /// Made at first use; a machine that cannot draw fails the test with the reason.
  static DrawingBoard& get();

  Renderer& renderer() { return *renderer_; }
  Painter& painter() { return *painter_; }
  const std::shared_ptr<Fonts>& fonts() const { return fonts_; }
  const GlContext& context() const { return *context_; }

private:
  DrawingBoard();
  std::unique_ptr<GlContext> context_;
  std::shared_ptr<Fonts> fonts_;
  std::unique_ptr<Renderer> renderer_;
  std::unique_ptr<Painter> painter_;
};

/// 0 black to 255 white.
double brightness(const Image& image, int x_px, int y_px);
/// How far the three colours stand apart, 0 to 255.
int colourfulness(const Image& image, int x_px, int y_px);
/// The darkest pixel within reach of a place.
double darkest_near(const Image& image, int x_px, int y_px, int reach_px);

/// An item in a picture, with its mesh.
PictureItem item_of(const std::string& id, Mesh mesh, const std::string& material = "steel");

/// Looking square at the axis from the side at turn_rad, from so far away that
/// perspective hardly shows: height_m of the scene fills the picture's height.
Camera side_view(double turn_rad, double middle_m, double height_m);
/// Looking straight down the axis from above, 12 o'clock at the foot.
Camera plan_view(double height_m);

} // namespace lugline::shapes
