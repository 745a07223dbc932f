// Films, with an ffmpeg that the tests wrote, and numbered pictures.

#include "tests/cli/process.h"
#include "viewer/draw/image.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <thread>

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace lugline::test;
using lugline::Image;

namespace {

namespace fs = std::filesystem;

const std::vector<std::string> small{
    "--from", "middle friction 2", "--to", "middle friction 2", "--size", "480x360", "--rate",
    "4",      "--speed",           "2"};

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// PATH as a test wants it, and as it was at the end.
class Path {
public:
  explicit Path(const std::string& path) : before_(std::getenv("PATH")) {
    ::setenv("PATH", path.c_str(), 1);
  }
  ~Path() { ::setenv("PATH", before_.c_str(), 1); }
  Path(const Path&) = delete;
  Path& operator=(const Path&) = delete;

private:
  std::string before_;
};

/// An ffmpeg in a folder of its own, which does what the lines say.
std::string fake_ffmpeg(const TempFolder& folder, const std::string& lines) {
  folder.write("bin/ffmpeg", "#!/bin/sh\n" + lines);
  fs::permissions(folder.path() / "bin/ffmpeg", fs::perms::owner_all);
  return folder.path() / "bin";
}

/// Keeps its arguments, and the frames as they came.
std::string keeping(const TempFolder& folder) {
  return "printf '%s\\n' \"$@\" > '" + (folder.path() / "arguments").string() +
         "'\nfor last; do :; done\nexec /bin/cat > \"${last#file:}\"\n";
}

std::vector<std::string> film(const fs::path& output) {
  std::vector<std::string> arguments{"film", demo_path(), "-o", output.string()};
  arguments.insert(arguments.end(), small.begin(), small.end());
  return arguments;
}

Image drawn(const TempFolder& folder, const std::string& moment) {
  const std::string file = folder.path() / "drawn.png";
  const Run run = run_lugline({"draw", demo_path(), "-o", file, "--step", "middle friction 2",
                               "--moment", moment, "--size", "480x360"});
  INFO(run.err);
  REQUIRE(run.status == 0);
  const auto image = lugline::read_png(file);
  REQUIRE(image.ok());
  return image.value();
}

/// A raw frame of a film, with nothing to see through.
Image frame_of(const std::string& film, std::size_t number) {
  Image image;
  image.width_px = 480;
  image.height_px = 360;
  const std::size_t pixels = 480 * 360;
  for (std::size_t i = 0; i < pixels; ++i) {
    for (std::size_t c = 0; c < 3; ++c) {
      image.rgba.push_back(static_cast<std::uint8_t>(film[(number * pixels + i) * 3 + c]));
    }
    image.rgba.push_back(255);
  }
  return image;
}

/// Nothing but these in the folder, hidden things too.
std::vector<std::string> names_in(const fs::path& folder) {
  std::vector<std::string> names;
  for (const auto& file : fs::directory_iterator(folder)) {
    names.push_back(file.path().filename());
  }
  std::sort(names.begin(), names.end());
  return names;
}

} // namespace

TEST_CASE("a film's frames go to ffmpeg whole, and are what draw draws") {
  const TempFolder folder;
  const Path path(fake_ffmpeg(folder, keeping(folder)));
  // A name that a shell would run, and ffmpeg would take for an option or an address.
  const fs::path out = folder.path() / "out";
  fs::create_directories(out);
  const std::string name = "-y http: $(touch pwned) 'a\" b;c.MP4";
  const Run run = run_lugline(film(out / name));
  INFO(run.err);
  REQUIRE(run.status == 0);
  CHECK(names_in(out) == std::vector<std::string>{name});
  const std::string raw = text_of(out / name);
  const std::size_t frame_bytes = 480 * 360 * 3;
  REQUIRE(raw.size() % frame_bytes == 0);
  const std::size_t frames = raw.size() / frame_bytes;
  CHECK(run.out.find(": " + std::to_string(frames) + " frames, ") != std::string::npos);
  CHECK(run.out.find("invented practice data") != std::string::npos);
  CHECK(run.err.find(std::to_string(frames) + " of " + std::to_string(frames) +
                     " frames, about 0 s left") != std::string::npos);
  // Last come two at a third and two thirds of the way (1.3 s at 4 a second, twice as fast), and
  // two at the end (0.9 s).
  REQUIRE(frames > 6);
  CHECK(frame_of(raw, 0) == drawn(folder, "0"));
  CHECK(frame_of(raw, frames - 5) == drawn(folder, "0"));
  CHECK(frame_of(raw, frames - 4) == drawn(folder, "0.33333333333333333"));
  CHECK(frame_of(raw, frames - 3) == drawn(folder, "0.66666666666666667"));
  CHECK(frame_of(raw, frames - 1) == drawn(folder, "1"));
  CHECK_FALSE(frame_of(raw, frames - 1) == drawn(folder, "0"));
  const std::string arguments = text_of(folder.path() / "arguments");
  CHECK(arguments.find("\n480x360\n") != std::string::npos);
  CHECK(arguments.find("\nrgb24\n") != std::string::npos);
  CHECK(arguments.find("\n-r\n4\n") != std::string::npos);
  CHECK(arguments.find("\nmp4\n") != std::string::npos);
  CHECK(arguments.find("\nfile:" + out.string() + "/.-y http:") != std::string::npos);
}

TEST_CASE("numbered pictures are the same frames, and are not mixed with others") {
  const TempFolder folder;
  const fs::path out = folder.path() / "new/pictures";
  const Run run = run_lugline(film(out));
  INFO(run.err);
  REQUIRE(run.status == 0);
  const auto names = names_in(out);
  REQUIRE(names.size() > 6);
  CHECK(names.front() == "frame-000001.png");
  CHECK(run.out.find(": " + std::to_string(names.size()) + " frames, ") != std::string::npos);
  CHECK(lugline::read_png(out / names.front()).value() == drawn(folder, "0"));
  CHECK(lugline::read_png(out / names.back()).value() == drawn(folder, "1"));
  const Run again = run_lugline(film(out));
  CHECK(again.status == 2);
  CHECK(again.err.find("already has numbered pictures") != std::string::npos);
  CHECK(names_in(out) == names);
}

TEST_CASE("where ffmpeg fails its words are told, and what was there stays") {
  const TempFolder folder;
  const std::string lines[] = {
      "echo 'Unknown encoder libx264' >&2\nexit 3\n",
      "/bin/cat > /dev/null\necho 'Unknown encoder libx264' >&2\nexit 1\n",
      "for last; do :; done\necho half > \"${last#file:}\"\necho 'Unknown encoder libx264' >&2\n"
      "kill -9 $$\n"};
  for (const std::string& line : lines) {
    INFO(line);
    const Path path(fake_ffmpeg(folder, line));
    folder.write("out/film.webm", "what was there");
    const Run run = run_lugline(film(folder.path() / "out/film.webm"));
    CHECK(run.status == 1);
    CHECK(run.err.find("ffmpeg failed: Unknown encoder libx264") != std::string::npos);
    CHECK(run.out.empty());
    CHECK(names_in(folder.path() / "out") == std::vector<std::string>{"film.webm"});
    CHECK(text_of(folder.path() / "out/film.webm") == "what was there");
  }
  const Path path(fake_ffmpeg(folder, "/bin/cat > /dev/null\n"));
  const Run run = run_lugline(film(folder.path() / "out/film.webm"));
  CHECK(run.status == 1);
  CHECK(run.err.find("made no film") != std::string::npos);
}

TEST_CASE("without ffmpeg a film says what to do instead") {
  const TempFolder folder;
  folder.write("bin/ffmpeg", "not a program");
  // Nor is one taken from where the command happens to be run.
  const Path path((folder.path() / "bin").string() + "::.");
  const Run run = run_lugline(film(folder.path() / "film.mp4"));
  CHECK(run.status == 2);
  CHECK(run.err.find("ffmpeg is not installed") != std::string::npos);
  CHECK(run.err.find("folder instead of film.mp4") != std::string::npos);
}

TEST_CASE("a film that cannot be is refused before anything is drawn") {
  const TempFolder folder;
  const Path path(fake_ffmpeg(folder, keeping(folder)));
  const std::string mp4 = folder.path() / "film.mp4";
  const struct {
    std::vector<std::string> arguments;
    std::string says;
  } cases[] = {
      {{"-o", folder.path() / "film.gif"}, "a film ends in .mp4 or .webm"},
      {{"-o", folder.path() / "none/film.mp4"}, "there is no folder"},
      {{"-o", mp4, "--size", "481x360"}, "even numbers"},
      {{"-o", mp4, "--from", "middle frction 2"}, "did you mean"},
      {{"-o", mp4, "--from", "middle friction 2", "--to", "case piston laid"}, "before it"},
      {{"-o", mp4, "--rate", "0"}, "--rate"},
      {{"-o", mp4, "--rate", "2.5"}, "--rate"},
      {{"-o", mp4, "--speed", "nan"}, "--speed"},
      {{"-o", mp4, "--speed", "0"}, "--speed"},
      {{"-o", ""}, "empty"},
  };
  for (const auto& one : cases) {
    std::vector<std::string> arguments{"film", demo_path()};
    arguments.insert(arguments.end(), one.arguments.begin(), one.arguments.end());
    const Run run = run_lugline(arguments);
    INFO(one.says << " in " << run.err);
    CHECK(run.status == 2);
    CHECK(run.err.find(one.says) != std::string::npos);
  }
  CHECK_FALSE(fs::exists(folder.path() / "arguments"));
}

TEST_CASE("a film that is stopped leaves nothing, and no ffmpeg running") {
  const TempFolder folder;
  const std::string pid_file = folder.path() / "pid";
  // Takes nothing and never ends: the frames pile up before it.
  const Path path(fake_ffmpeg(folder, "for last; do :; done\necho half > \"${last#file:}\"\n"
                                      "echo $$ > '" +
                                          pid_file + ".new'\n/bin/mv '" + pid_file + ".new' '" +
                                          pid_file + "'\nexec /bin/sleep 300\n"));
  fs::create_directories(folder.path() / "out");
  const std::string output = folder.path() / "out/film.mp4";
  const std::string err = folder.path() / "err";
  for (const int signal : {SIGINT, SIGTERM}) {
    fs::remove(pid_file);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      const int file = ::open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
      ::dup2(file, STDERR_FILENO);
      const std::string demo = demo_path();
      ::execl(LUGLINE_PROGRAM, "lugline", "film", demo.c_str(), "-o", output.c_str(), "--size",
              "480x360", nullptr);
      ::_exit(127);
    }
    const auto begun = std::chrono::steady_clock::now();
    while (!fs::exists(pid_file) &&
           std::chrono::steady_clock::now() - begun < std::chrono::seconds(60)) {
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
    REQUIRE(fs::exists(pid_file));
    ::kill(child, signal);
    int status = 0;
    ::waitpid(child, &status, 0);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 1);
    CHECK(text_of(err).find("lugline film: stopped") != std::string::npos);
    CHECK(names_in(folder.path() / "out").empty());
    CHECK(::kill(std::stoi(text_of(pid_file)), 0) == -1);
  }
}
