// Small reference pictures. They were looked at by a person when they were made;
// another driver may differ at edges, so the mean decides, and the worst pixels
// are told. Made anew with: test_draw "[.make-references]".
#include "tests/draw/drawing_board.h"
#include "tests/draw/mock_unit.h"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace lugline;
using namespace lugline::shapes;

namespace {

const std::filesystem::path folder = std::filesystem::path(LUGLINE_ROOT) / "tests" / "images";

Image mock_image(bool print_look) {
  Picture picture = mock_picture();
  picture.print_look = print_look;
  return DrawingBoard::get().renderer().draw(picture, 420, 320);
}

void judge(const char* name, const Image& drawn) {
  const auto reference = read_png(folder / name);
  REQUIRE(reference.ok());
  const ImageDifference difference = compare(reference.value(), drawn);
  INFO(name << ": " << text_of(difference));
  REQUIRE(difference.same_size);
  CHECK(difference.mean < 0.8);
}

} // namespace

TEST_CASE("the mock unit looks as it did", "[reference]") {
  judge("draw-mock.png", mock_image(false));
  judge("draw-mock-print.png", mock_image(true));
}

TEST_CASE("a picture that changed would be noticed", "[reference]") {
  // The same unit with its drum a little lower is another picture.
  Picture picture = mock_picture();
  for (PictureItem& item : picture.items)
    if (item.role == Role::in_hand)
      item.pose.height_m -= 0.012;
  const auto reference = read_png(folder / "draw-mock.png");
  REQUIRE(reference.ok());
  CHECK(compare(reference.value(), DrawingBoard::get().renderer().draw(picture, 420, 320)).mean >
        0.8);
}

TEST_CASE("make the reference pictures", "[.make-references]") {
  std::filesystem::create_directories(folder);
  REQUIRE(write_png(mock_image(false), folder / "draw-mock.png").ok());
  REQUIRE(write_png(mock_image(true), folder / "draw-mock-print.png").ok());
}
