#include "viewer/cli/film_sink.h"

#include "viewer/cli/ffmpeg.h"
#include "viewer/cli/whole_file.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdio>
#include <string>
#include <system_error>

namespace lugline::cli {

namespace {

std::string ending_of(const std::filesystem::path& output) {
  std::string ending = output.extension().string();
  std::ranges::transform(ending, ending.begin(),
                         [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return ending;
}

class Pictures : public FilmSink {
public:
  explicit Pictures(std::filesystem::path folder) : folder_(std::move(folder)) {}

  Outcome<bool> take(const Image& image, std::size_t times) override {
    const std::vector<std::uint8_t> bytes = png_of(image);
    for (std::size_t i = 0; i < times; ++i) {
      std::array<char, 32> name{};
      std::snprintf(name.data(), name.size(), "frame-%06zu.png", ++count_);
      const auto written = write_whole(folder_ / name.data(), bytes);
      if (!written) {
        return written;
      }
    }
    return true;
  }
  Outcome<bool> finish() override { return true; }

private:
  std::filesystem::path folder_;
  std::size_t count_ = 0;
};

Outcome<std::unique_ptr<FilmSink>> pictures_in(const std::filesystem::path& folder) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (!std::filesystem::is_directory(folder, error)) {
    return Problem{folder.string() + " is no folder, and none could be made there"};
  }
  for (auto file = std::filesystem::directory_iterator(folder, error);
       !error && file != std::filesystem::directory_iterator(); file.increment(error)) {
    const std::string name = file->path().filename().string();
    if (name.starts_with("frame-") && name.ends_with(".png")) {
      return Problem{folder.string() + " already has numbered pictures (" + name +
                     "), which would be mixed with these: name an empty folder"};
    }
  }
  if (error) {
    return Problem{folder.string() + " cannot be read: " + error.message()};
  }
  return std::unique_ptr<FilmSink>(std::make_unique<Pictures>(folder));
}

class FilmFile : public FilmSink {
public:
  FilmFile(std::filesystem::path file, std::unique_ptr<Ffmpeg> encoder)
      : file_(std::move(file)), encoder_(std::move(encoder)) {}
  ~FilmFile() override {
    encoder_.reset(); // it writes no more
    std::error_code ignored;
    std::filesystem::remove(beside(file_), ignored);
  }
  FilmFile(const FilmFile&) = delete;
  FilmFile& operator=(const FilmFile&) = delete;

  Outcome<bool> take(const Image& image, std::size_t times) override {
    // Three bytes a pixel: a film has no holes to see through.
    std::vector<std::uint8_t> rgb;
    rgb.reserve(image.rgba.size() / 4 * 3);
    for (std::size_t i = 0; i + 3 < image.rgba.size(); i += 4) {
      rgb.insert(rgb.end(), image.rgba.begin() + static_cast<std::ptrdiff_t>(i),
                 image.rgba.begin() + static_cast<std::ptrdiff_t>(i) + 3);
    }
    for (std::size_t i = 0; i < times; ++i) {
      auto written = encoder_->write(rgb);
      if (!written) {
        return written;
      }
    }
    return true;
  }

  Outcome<bool> finish() override {
    auto ended = encoder_->finish();
    if (!ended) {
      return ended;
    }
    std::error_code error;
    if (std::filesystem::file_size(beside(file_), error) == 0 || error) {
      return Problem{"ffmpeg ended well and made no film"};
    }
    std::filesystem::rename(beside(file_), file_, error);
    if (error) {
      return Problem{file_.string() + " could not be put in place: " + error.message()};
    }
    return true;
  }

private:
  std::filesystem::path file_;
  std::unique_ptr<Ffmpeg> encoder_;
};

std::vector<std::string> encoding(const std::string& ending) {
  if (ending == ".mp4") {
    // An index at the front, so that it plays while it still loads.
    return {"-c:v", "libx264",   "-preset",    "medium", "-crf",
            "18",   "-movflags", "+faststart", "-f",     "mp4"};
  }
  return {"-c:v", "libvpx-vp9", "-crf", "28", "-b:v", "0", "-row-mt", "1", "-f", "webm"};
}

Outcome<std::unique_ptr<FilmSink>> film_in(const std::filesystem::path& file,
                                           const FilmFormat& format, StopAsked stop) {
  if (format.width_px % 2 != 0 || format.height_px % 2 != 0) {
    return Problem{"a film's width and height are even numbers: " +
                   std::to_string(format.width_px) + "x" + std::to_string(format.height_px)};
  }
  std::error_code error;
  const std::filesystem::path part = std::filesystem::absolute(beside(file), error);
  if (error || !std::filesystem::is_directory(part.parent_path(), error)) {
    return Problem{"there is no folder for " + file.string()};
  }
  const auto program = ffmpeg_on_path();
  if (!program) {
    return Problem{"ffmpeg is not installed, which makes films of pictures: install it, or name a "
                   "folder instead of " +
                   file.filename().string() + " for numbered pictures"};
  }
  std::vector<std::string> arguments{
      "-hide_banner", "-nostdin", "-loglevel", "error", "-y", "-f", "rawvideo", "-pix_fmt", "rgb24",
      "-s", std::to_string(format.width_px) + "x" + std::to_string(format.height_px), "-r",
      std::to_string(format.rate), "-i", "pipe:0", "-an",
      // The colours that players take a film of this size to have.
      "-vf", "scale=out_color_matrix=bt709:out_range=tv", "-colorspace", "bt709",
      "-color_primaries", "bt709", "-color_trc", "bt709", "-color_range", "tv", "-pix_fmt",
      "yuv420p"};
  for (std::string& word : encoding(ending_of(file))) {
    arguments.push_back(std::move(word));
  }
  // "file:" so that no name is taken for an option, an address or a pipe.
  arguments.push_back("file:" + part.string());
  auto encoder = Ffmpeg::start(*program, arguments, stop);
  if (!encoder) {
    return Problem{encoder.problem()};
  }
  return std::unique_ptr<FilmSink>(std::make_unique<FilmFile>(file, std::move(encoder).value()));
}

} // namespace

Outcome<std::unique_ptr<FilmSink>> film_sink(const std::filesystem::path& output,
                                             const FilmFormat& format, StopAsked stop) {
  std::error_code ignored;
  const std::string ending = ending_of(output);
  if (!std::filesystem::is_directory(output, ignored)) {
    if (ending == ".mp4" || ending == ".webm") {
      return film_in(output, format, stop);
    }
    constexpr std::array<const char*, 10> others{".mov", ".avi", ".mkv", ".gif", ".m4v",
                                                 ".ogv", ".png", ".jpg", ".mpg", ".wmv"};
    if (std::ranges::find(others, ending) != others.end()) {
      return Problem{output.string() + ": a film ends in .mp4 or .webm, and numbered pictures "
                                       "take a folder's name"};
    }
  }
  return pictures_in(output);
}

} // namespace lugline::cli
