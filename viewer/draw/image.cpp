#include "viewer/draw/image.h"

#include <algorithm>
#include <cassert>
#include <cstdio>
#include <cstdlib>
#include <fstream>

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wpragmas"
#pragma GCC diagnostic ignored "-Wunused-function"
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wpedantic"
#define STB_IMAGE_WRITE_STATIC
#define STB_IMAGE_WRITE_IMPLEMENTATION
#include <stb/stb_image_write.h>
#define STB_IMAGE_STATIC
#define STB_IMAGE_IMPLEMENTATION
#define STBI_ONLY_PNG
#include <stb/stb_image.h>
#pragma GCC diagnostic pop

namespace lugline {

std::array<std::uint8_t, 4> Image::at(int x_px, int y_px) const {
  assert(x_px >= 0 && y_px >= 0 && x_px < width_px && y_px < height_px);
  const std::size_t i = (static_cast<std::size_t>(y_px) * static_cast<std::size_t>(width_px) +
                         static_cast<std::size_t>(x_px)) *
                        4;
  return {rgba[i], rgba[i + 1], rgba[i + 2], rgba[i + 3]};
}

std::vector<std::uint8_t> png_of(const Image& image) {
  std::vector<std::uint8_t> bytes;
  const auto take = [](void* context, void* data, int size) {
    auto& out = *static_cast<std::vector<std::uint8_t>*>(context);
    const auto* first = static_cast<const std::uint8_t*>(data);
    out.insert(out.end(), first, first + size);
  };
  stbi_write_png_to_func(take, &bytes, image.width_px, image.height_px, 4, image.rgba.data(),
                         image.width_px * 4);
  return bytes;
}

Outcome<std::size_t> write_png(const Image& image, const std::filesystem::path& file) {
  const std::vector<std::uint8_t> bytes = png_of(image);
  std::ofstream out(file, std::ios::binary);
  out.write(reinterpret_cast<const char*>(bytes.data()),
            static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (!out)
    return Problem{"the picture could not be written to " + file.string() +
                   " (is the folder there, and may it be written to?)"};
  return bytes.size();
}

Outcome<Image> read_png(const std::filesystem::path& file) {
  Image image;
  int channels = 0;
  stbi_uc* data = stbi_load(file.string().c_str(), &image.width_px, &image.height_px, &channels, 4);
  if (data == nullptr)
    return Problem{"no PNG picture could be read from " + file.string()};
  image.rgba.assign(data, data + static_cast<std::size_t>(image.width_px) *
                                     static_cast<std::size_t>(image.height_px) * 4);
  stbi_image_free(data);
  return image;
}

ImageDifference compare(const Image& one, const Image& other) {
  ImageDifference result;
  result.same_size = one.width_px == other.width_px && one.height_px == other.height_px;
  if (!result.same_size)
    return result;
  double sum = 0;
  std::vector<WorstPixel> found;
  int least_kept = 1;
  for (int y = 0; y < one.height_px; ++y) {
    for (int x = 0; x < one.width_px; ++x) {
      const auto a = one.at(x, y);
      const auto b = other.at(x, y);
      int most = std::abs(int{a[3]} - int{b[3]});
      for (std::size_t c = 0; c < 3; ++c) {
        const int d = std::abs(int{a[c]} - int{b[c]});
        sum += d;
        most = std::max(most, d);
      }
      result.most = std::max(result.most, most);
      if (most >= least_kept) {
        found.push_back({x, y, most});
        if (found.size() >= 256) {
          std::stable_sort(found.begin(), found.end(), [](const auto& p, const auto& q) {
            return p.difference > q.difference;
          });
          found.resize(8);
          least_kept = found.back().difference + 1;
        }
      }
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& p, const auto& q) { return p.difference > q.difference; });
  found.resize(std::min<std::size_t>(found.size(), 8));
  result.worst = std::move(found);
  const double values = 3.0 * one.width_px * one.height_px;
  result.mean = values > 0 ? sum / values : 0;
  return result;
}

std::string text_of(const ImageDifference& difference) {
  if (!difference.same_size)
    return "the pictures differ in size";
  char words[96];
  std::snprintf(words, sizeof words, "max %d, mean %.3f", difference.most, difference.mean);
  std::string text = words;
  for (const WorstPixel& pixel : difference.worst) {
    std::snprintf(words, sizeof words, ", %d at (%d, %d)", pixel.difference, pixel.x_px,
                  pixel.y_px);
    text += words;
  }
  return text;
}

} // namespace lugline
