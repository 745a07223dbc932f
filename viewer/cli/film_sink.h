// Where a film's frames go: to ffmpeg, which makes one file of them, or to numbered pictures.
//
// Either is there whole or not at all: a file is made under another name and put in place at the
// end. ffmpeg is a program of its own, looked for on PATH and started with its arguments as they
// are, never through a shell. Failures are words for people.
#pragma once

#include "scene/quantity/outcome.h"
#include "viewer/draw/image.h"

#include <filesystem>
#include <memory>

namespace lugline::cli {

/// Asked again and again while something may last: true to stop.
using StopAsked = bool (*)();

class FilmSink {
public:
  FilmSink() = default;
  FilmSink(const FilmSink&) = delete;
  FilmSink& operator=(const FilmSink&) = delete;
  /// Without finish() nothing half made is left.
  virtual ~FilmSink() = default;

  /// The image, so many times over. A problem where it cannot be taken, or a stop is asked for.
  virtual Outcome<bool> take(const Image& image, std::size_t times) = 0;
  virtual Outcome<bool> finish() = 0;
};

struct FilmFormat {
  int width_px = 0;
  int height_px = 0;
  int rate = 30;
};

/// By the output's ending: .mp4 and .webm are files, what has none of a film's is a folder. Refused
/// before anything is drawn: no ffmpeg, other endings, odd sizes, a folder with numbered pictures.
Outcome<std::unique_ptr<FilmSink>> film_sink(const std::filesystem::path& output,
                                             const FilmFormat& format, StopAsked stop);

} // namespace lugline::cli
