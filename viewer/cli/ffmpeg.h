// ffmpeg as a program of its own, fed with frames.
//
// Found on PATH, started with its arguments as they are (no shell), in a process group of its own
// so that Ctrl+C reaches us alone. It is ended, and waited for, when this goes. Failures tell what
// ffmpeg said.
#pragma once

#include "scene/quantity/outcome.h"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <sys/types.h>

namespace lugline::cli {

/// Only in folders that PATH names in full.
std::optional<std::filesystem::path> ffmpeg_on_path();

class Ffmpeg {
public:
  using StopAsked = bool (*)();
  static Outcome<std::unique_ptr<Ffmpeg>> start(const std::filesystem::path& program,
                                                const std::vector<std::string>& arguments,
                                                StopAsked stop);
  ~Ffmpeg();
  Ffmpeg(const Ffmpeg&) = delete;
  Ffmpeg& operator=(const Ffmpeg&) = delete;

  Outcome<bool> write(const std::vector<std::uint8_t>& bytes);
  /// No more comes: waits until it has ended, and tells whether it ended well.
  Outcome<bool> finish();

private:
  Ffmpeg(pid_t child, int frames, int words, StopAsked stop);
  /// What it said, and that it failed.
  Problem failed();

  pid_t child_;
  int frames_; ///< its standard input; -1 once closed
  int words_;  ///< a file of what it says
  StopAsked stop_;
};

} // namespace lugline::cli
