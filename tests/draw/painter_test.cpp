// The flat painter: crisp where it should be, smooth where it should be, and
// as large as it was told.
#include "tests/draw/drawing_board.h"
#include "viewer/draw/gl.h"
#include "viewer/draw/shapes2d.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace lugline;
using namespace lugline::shapes;

namespace {

/// Black on white, 100 by 100: how much of each pixel is covered.
struct Sheet {
  explicit Sheet(const Drawing2d& drawing, double scale = 1) {
    DrawingBoard& board = DrawingBoard::get();
    const OffscreenTarget target(100, 100);
    glBindFramebuffer(GL_FRAMEBUFFER, target.framebuffer());
    glClearColor(1, 1, 1, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    board.painter().paint(drawing, target.framebuffer(), target.viewport(), scale);
    image = target.read();
  }
  [[nodiscard]] double cover(int x, int y) const { return 1 - brightness(image, x, y) / 255; }
  [[nodiscard]] double area() const {
    double sum = 0;
    for (int y = 0; y < 100; ++y)
      for (int x = 0; x < 100; ++x)
        sum += cover(x, y);
    return sum;
  }
  Image image;
};

constexpr Colour black = colour_of(0x000000);

Drawing2d one(FlatShape shape) {
  Drawing2d drawing;
  drawing.add(std::move(shape));
  return drawing;
}

} // namespace

TEST_CASE("a rectangle fills its pixels and no others", "[painter]") {
  RectShape rect;
  rect.x_px = 10;
  rect.y_px = 20;
  rect.width_px = 30;
  rect.height_px = 1;
  rect.fill = black;
  const Sheet sheet(one(rect));
  CHECK(sheet.area() == Approx(30).margin(0.1));
  CHECK(sheet.cover(10, 20) == Approx(1).margin(0.01));
  CHECK(sheet.cover(39, 20) == Approx(1).margin(0.01));
  CHECK(sheet.cover(9, 20) == Approx(0).margin(0.01));
  CHECK(sheet.cover(10, 21) == Approx(0).margin(0.01));
  // Off the pixels it is drawn on them, since the drawing snaps.
  rect.y_px = 20.4;
  CHECK(Sheet(one(rect)).cover(15, 20) == Approx(1).margin(0.01));
}

TEST_CASE("a level line is crisp at any place and scale", "[painter]") {
  for (const double scale : {1.0, 1.25, 2.0}) {
    LineShape line;
    line.from = {5, 20.3};
    line.to = {35, 20.3};
    line.stroke = {black, 1, 0, 0};
    const Sheet sheet(one(line), scale);
    int full = 0;
    int partly = 0;
    for (int y = 0; y < 100; ++y) {
      const double c = sheet.cover(static_cast<int>(20 * scale), y);
      full += c > 0.98 ? 1 : 0;
      partly += c > 0.02 && c < 0.98 ? 1 : 0;
    }
    CHECK(full == std::max(1, static_cast<int>(std::round(scale))));
    CHECK(partly == 0);
  }
}

TEST_CASE("slanting lines, circles and polygons cover what they should", "[painter]") {
  Drawing2d drawing;
  drawing.snap = false;
  LineShape slant;
  slant.from = {10, 15};
  slant.to = {80, 62};
  slant.stroke = {black, 3, 0, 0};
  drawing.add(slant);
  CHECK(Sheet(drawing).area() == Approx(3 * std::hypot(70, 47)).epsilon(0.02));

  CircleShape circle;
  circle.centre = {50.3, 49.6};
  circle.radius_px = 30;
  circle.fill = black;
  CHECK(Sheet(one(circle)).area() == Approx(std::numbers::pi * 900).epsilon(0.01));

  // A concave one, given clockwise and counter-clockwise.
  PolygonShape arrow;
  arrow.points = {{20, 20}, {80, 50}, {20, 80}, {40, 50}};
  arrow.fill = black;
  const double area = 0.5 * 60 * 60 - 0.5 * 60 * 20;
  CHECK(Sheet(one(arrow)).area() == Approx(area).epsilon(0.01));
  std::reverse(arrow.points.begin(), arrow.points.end());
  CHECK(Sheet(one(arrow)).area() == Approx(area).epsilon(0.01));
  CHECK(Sheet(one(arrow)).cover(26, 50) == Approx(0).margin(0.02));
}

TEST_CASE("dashes start and end with a dash", "[painter]") {
  const auto pieces = dashes_of({{0, 0}, {100, 0}}, false, 9, 5);
  CHECK(pieces.size() == 8); // 9 + 7 * 14 = 107, drawn together to 100
  CHECK(pieces.front().front().x == Approx(0));
  CHECK(pieces.back().back().x == Approx(100));
  double drawn = 0;
  for (const auto& piece : pieces)
    drawn += piece.back().x - piece.front().x;
  CHECK(drawn == Approx(100.0 * 72 / 107).epsilon(1e-9));
  // Round a corner, and round a closed run.
  const auto corner = dashes_of({{0, 0}, {10, 0}, {10, 10}}, false, 30, 5);
  REQUIRE(corner.size() == 1);
  CHECK(corner[0].size() == 3);
  CHECK(dashes_of({{0, 0}, {10, 0}, {10, 10}, {0, 10}}, true, 5, 5).size() == 4);
}

TEST_CASE("any simple polygon is cut in triangles of its own area", "[painter][property]") {
  // Stars of many shapes: concave at every other corner.
  for (int corners = 3; corners < 24; ++corners) {
    std::vector<glm::dvec2> points;
    double area = 0;
    for (int i = 0; i < 2 * corners; ++i) {
      const double r = i % 2 == 0 ? 10 : 2 + 0.3 * corners;
      const double a = std::numbers::pi * i / corners;
      points.push_back({r * std::cos(a), r * std::sin(a)});
    }
    for (std::size_t i = 0; i < points.size(); ++i) {
      const auto& p = points[i];
      const auto& q = points[(i + 1) % points.size()];
      area += 0.5 * (p.x * q.y - p.y * q.x);
    }
    const auto triangles = triangulated(points);
    CHECK(triangles.size() == points.size() - 2);
    double sum = 0;
    for (const auto& t : triangles) {
      const glm::dvec2 u = points[t[1]] - points[t[0]];
      const glm::dvec2 v = points[t[2]] - points[t[0]];
      const double twice = u.x * v.y - u.y * v.x;
      CHECK(twice > 0);
      sum += 0.5 * twice;
    }
    CHECK(sum == Approx(area));
  }
}

TEST_CASE("hatching stays in its box and tells materials apart", "[painter]") {
  std::vector<double> inks;
  for (const HatchStyle style :
       {HatchStyle::steel, HatchStyle::aluminium, HatchStyle::lining, HatchStyle::rubber}) {
    HatchShape hatch;
    hatch.x_px = 20;
    hatch.y_px = 20;
    hatch.width_px = 60;
    hatch.height_px = 60;
    hatch.style = style;
    hatch.ground = colour_of(0xffffff);
    hatch.line = black;
    const Sheet sheet(one(hatch));
    double outside = 0;
    for (int i = 0; i < 100; ++i)
      for (const int k : {0, 17, 83, 99})
        outside += sheet.cover(i, k) + sheet.cover(k, i);
    CHECK(outside == Approx(0).margin(0.01));
    inks.push_back(sheet.area());
  }
  // One line a pixel wide each seven: 3600 / 7.
  CHECK(inks[0] == Approx(3600.0 / 7).epsilon(0.06));
  CHECK(inks[1] < 0.7 * inks[0]);
  CHECK(inks[2] > 1.8 * inks[0]);
  CHECK(inks[3] > 1.5 * inks[2]);
}

TEST_CASE("more glyphs than a page holds are still all drawn", "[painter][text]") {
  Drawing2d drawing;
  for (int i = 0; i < 26; ++i) {
    TextShape text;
    text.words = std::string(1, static_cast<char>('A' + i));
    text.at = {5, 90};
    text.size_px = 120 + i; // each its own glyph, about a hundred pixels large
    text.colour = black;
    drawing.add(text);
  }
  // The last over all others: what was drawn before the page was emptied stays.
  const Sheet all(drawing);
  Drawing2d last;
  last.add(drawing.shapes.back());
  const Sheet alone(last);
  CHECK(all.area() > alone.area());
  for (int y = 0; y < 100; y += 7)
    for (int x = 0; x < 100; x += 7)
      CHECK(all.cover(x, y) >= alone.cover(x, y) - 0.01);
  CHECK(gl_is_well());
}
