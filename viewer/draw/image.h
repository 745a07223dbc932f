// Pictures as bytes: PNG out and in, and comparing two of them.
//
// An Image is a plain value: 8-bit red, green, blue, alpha, rows from the top.
// Writing and reading fail as Outcomes that name the file. compare() is for
// reference pictures in tests: maximum and mean difference, and the worst
// pixels, so that a change can be looked at and not only counted.
#pragma once

#include "scene/quantity/outcome.h"

#include <array>
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace lugline {

struct Image {
  int width_px = 0;
  int height_px = 0;
  std::vector<std::uint8_t> rgba; ///< 4 bytes a pixel

  [[nodiscard]] std::array<std::uint8_t, 4> at(int x_px, int y_px) const;
  friend bool operator==(const Image&, const Image&) = default;
};

/// The bytes of a PNG; same image in, same bytes out.
std::vector<std::uint8_t> png_of(const Image& image);
/// The number of bytes written.
Outcome<std::size_t> write_png(const Image& image, const std::filesystem::path& file);
Outcome<Image> read_png(const std::filesystem::path& file);

struct WorstPixel {
  int x_px = 0;
  int y_px = 0;
  int difference = 0; ///< largest of the channels' differences, 0 to 255
};

struct ImageDifference {
  bool same_size = false;
  int most = 0;                  ///< largest difference of any channel of any pixel
  double mean = 0;               ///< over all pixels and the three colours
  std::vector<WorstPixel> worst; ///< at most eight, worst first
};

ImageDifference compare(const Image& one, const Image& other);

/// "max 12, mean 0.03, worst 12 at (40, 25), …".
std::string text_of(const ImageDifference& difference);

} // namespace lugline
