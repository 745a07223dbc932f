// PNG out and in, and comparing.
#include "viewer/draw/image.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace lugline;

namespace {

Image chequered(int width, int height) {
  Image image;
  image.width_px = width;
  image.height_px = height;
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x)
      for (int c = 0; c < 4; ++c)
        image.rgba.push_back(
            static_cast<std::uint8_t>(c == 3 ? 255 : (x * 7 + y * 13 + c * 31) % 256));
  return image;
}

} // namespace

TEST_CASE("a picture comes back from its PNG as it was", "[image]") {
  const auto folder = std::filesystem::temp_directory_path() / "lugline-image-test";
  std::filesystem::create_directories(folder);
  const auto file = folder / "picture.png";
  const Image image = chequered(37, 23);
  REQUIRE(write_png(image, file).ok());
  const auto back = read_png(file);
  REQUIRE(back.ok());
  CHECK(back.value() == image);
  CHECK(png_of(image) == png_of(image));
  std::filesystem::remove_all(folder);
}

TEST_CASE("what cannot be written or read is named", "[image]") {
  const auto written = write_png(chequered(2, 2), "/nowhere/at/all/picture.png");
  REQUIRE_FALSE(written.ok());
  CHECK(written.problem().find("/nowhere/at/all/picture.png") != std::string::npos);
  const auto missing = read_png("/nowhere/at/all/picture.png");
  REQUIRE_FALSE(missing.ok());
  CHECK(missing.problem().find("/nowhere/at/all/picture.png") != std::string::npos);
}

TEST_CASE("differences are counted and their places named", "[image]") {
  const Image one = chequered(40, 30);
  Image other = one;
  CHECK(compare(one, other).most == 0);
  CHECK(compare(one, other).worst.empty());
  const auto change = [&](int x, int y, int by) {
    std::uint8_t& value = other.rgba[static_cast<std::size_t>((y * 40 + x) * 4)];
    value = static_cast<std::uint8_t>(value < 128 ? value + by : value - by);
  };
  change(5, 6, 50);
  change(30, 20, 100);
  const ImageDifference difference = compare(one, other);
  CHECK(difference.most == 100);
  CHECK(difference.mean == Approx(150.0 / (3 * 40 * 30)));
  REQUIRE(difference.worst.size() == 2);
  CHECK(difference.worst[0].x_px == 30);
  CHECK(difference.worst[1].y_px == 6);
  CHECK(text_of(difference).find("100 at (30, 20)") != std::string::npos);
  CHECK_FALSE(compare(one, chequered(40, 31)).same_size);
}
