// What hides the part in hand seen through, and its hidden edges dashed.
#include "tests/draw/drawing_board.h"
#include "tests/draw/shapes.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace lugline;
using namespace lugline::shapes;

namespace {

constexpr int size_px = 200;

Renderer& renderer() {
  return DrawingBoard::get().renderer();
}

/// A shaft in hand in a wider tube that hides its lower half, seen from the side: 1 mm a pixel.
Picture tube_about_shaft() {
  Picture picture;
  picture.items.push_back(item_of("shaft", mesh_of_blocks({ring(0, 0.020, -0.060, 0.060)}, 120)));
  picture.items.push_back(item_of("tube", mesh_of_blocks({ring(0.040, 0.050, -0.070, 0)}, 120)));
  picture.items[0].role = Role::in_hand;
  picture.items[0].pick = 1;
  picture.items[1].pick = 2;
  picture.camera = side_view(0, 0, 0.200);
  return picture;
}

/// Where two pictures differ by more than a shade, in rows from one to another.
int differing(const Image& one, const Image& other, int from_y, int to_y, int from_x = 0,
              int to_x = size_px) {
  int count = 0;
  for (int y = from_y; y < to_y; ++y)
    for (int x = from_x; x < to_x; ++x)
      count += std::abs(brightness(one, x, y) - brightness(other, x, y)) > 8 ? 1 : 0;
  return count;
}

} // namespace

TEST_CASE("hidden edges are dashed where another part stands before them, and only there",
          "[draw][hidden]") {
  Picture picture = tube_about_shaft();
  const Image plain = renderer().draw(picture, size_px, size_px);
  picture.hidden_edges = true;
  const Image dashed = renderer().draw(picture, size_px, size_px);
  // Both flanks of the shaft behind the tube, 80 and 120 pixels from the left.
  const int left = differing(plain, dashed, 104, 158, 77, 83);
  const int right = differing(plain, dashed, 104, 158, 117, 123);
  CHECK(left > 25);
  CHECK(right > 25);
  // Broken: some rows of the flank have nothing.
  int empty = 0;
  for (int y = 104; y < 158; ++y)
    empty += differing(plain, dashed, y, y + 1, 77, 83) == 0 ? 1 : 0;
  CHECK(empty > 8);
  CHECK(empty < 40);
  // Nothing where the shaft itself is seen, nor beside it.
  CHECK(differing(plain, dashed, 0, 98) == 0);
  CHECK(differing(plain, dashed, 0, size_px, 0, 76) == 0);
  CHECK(renderer().pick(100, 140) == 2);

  // With nothing before it no line is hidden by the part itself: the same bytes.
  picture.items.pop_back();
  const Image alone = renderer().draw(picture, size_px, size_px);
  picture.hidden_edges = false;
  CHECK(alone == renderer().draw(picture, size_px, size_px));
}

TEST_CASE("what is seen through leaves its outline and the part behind it", "[draw][hidden]") {
  Picture picture = tube_about_shaft();
  const Image solid = renderer().draw(picture, size_px, size_px);
  CHECK(renderer().pick(100, 140) == 2);
  picture.items[1].outline = true;
  const Image through = renderer().draw(picture, size_px, size_px);
  CHECK(renderer().pick(100, 140) == 1); // the shaft
  CHECK(renderer().pick(60, 140) == 0);  // where only the tube was
  CHECK(differing(solid, through, 105, 155, 82, 118) > 1000);
  // The tube's flanks and its rim are still drawn, lightly.
  Picture without = picture;
  without.items.pop_back();
  const Image bare = renderer().draw(without, size_px, size_px);
  CHECK(differing(bare, through, 105, 155, 47, 53) > 40);
  CHECK(differing(bare, through, 105, 155, 147, 153) > 40);
  CHECK(differing(bare, through, 105, 155, 56, 76) == 0); // its walls are clear
  CHECK(through == renderer().draw(picture, size_px, size_px));
}
