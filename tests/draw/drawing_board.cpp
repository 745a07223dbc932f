#include "tests/draw/drawing_board.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline::shapes {

DrawingBoard& DrawingBoard::get() {
  static DrawingBoard board;
  board.context_->make_current();
  return board;
}

DrawingBoard::DrawingBoard() {
  auto context = GlContext::make();
  if (!context)
    FAIL(context.problem());
  context_ = std::make_unique<GlContext>(std::move(context).value());
  auto renderer = Renderer::create();
  if (!renderer)
    FAIL(renderer.problem());
  renderer_ = std::make_unique<Renderer>(std::move(renderer).value());
  auto fonts = Fonts::load();
  if (!fonts)
    FAIL(fonts.problem());
  fonts_ = fonts.value();
  auto painter = Painter::create(fonts_);
  if (!painter)
    FAIL(painter.problem());
  painter_ = std::make_unique<Painter>(std::move(painter).value());
}

double brightness(const Image& image, int x_px, int y_px) {
  const auto c = image.at(x_px, y_px);
  return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
}

int colourfulness(const Image& image, int x_px, int y_px) {
  const auto c = image.at(x_px, y_px);
  return std::max({c[0], c[1], c[2]}) - std::min({c[0], c[1], c[2]});
}

double darkest_near(const Image& image, int x_px, int y_px, int reach_px) {
  double darkest = 255;
  for (int y = std::max(0, y_px - reach_px); y <= std::min(image.height_px - 1, y_px + reach_px);
       ++y)
    for (int x = std::max(0, x_px - reach_px); x <= std::min(image.width_px - 1, x_px + reach_px);
         ++x)
      darkest = std::min(darkest, brightness(image, x, y));
  return darkest;
}

PictureItem item_of(const std::string& id, Mesh mesh, const std::string& material) {
  PictureItem item;
  item.id = id;
  item.mesh = std::make_shared<const Mesh>(std::move(mesh));
  item.material = material;
  item.pick = 1;
  return item;
}

Camera side_view(double turn_rad, double middle_m, double height_m) {
  Camera camera;
  camera.turn_rad = turn_rad;
  camera.rise_rad = 0;
  camera.fov_rad = 0.01;
  camera.distance_m = 0.5 * height_m / std::tan(0.005);
  camera.look_at_m = middle_m;
  return camera;
}

Camera plan_view(double height_m) {
  Camera camera = side_view(0, 0, height_m);
  camera.rise_rad = 0.5 * std::numbers::pi;
  return camera;
}

} // namespace lugline::shapes
