#include "viewer/cli/ffmpeg.h"

#include <cerrno>
#include <cstdlib>
#include <sstream>
#include <system_error>

#include <csignal>
#include <fcntl.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

namespace lugline::cli {

namespace {

constexpr int look_again_ms = 100;
constexpr std::size_t most_words = 600;
const char* const stopped = "stopped";

/// A file without a name, gone with the last that has it open.
int nameless_file() {
  std::error_code error;
  std::string name = (std::filesystem::temp_directory_path(error) / "lugline-XXXXXX").string();
  const int file = ::mkostemp(name.data(), O_CLOEXEC);
  if (file >= 0) {
    ::unlink(name.c_str());
  }
  return file;
}

/// In the child, between fork and exec: nothing but system calls.
[[noreturn]] void become(char* const* argv, int frames, int words, int nowhere) {
  ::setpgid(0, 0);
  ::dup2(frames, STDIN_FILENO);
  ::dup2(nowhere, STDOUT_FILENO);
  ::dup2(words, STDERR_FILENO);
  // What we ignore it would ignore as well.
  ::signal(SIGPIPE, SIG_DFL);
  ::signal(SIGINT, SIG_DFL);
  ::execv(argv[0], argv);
  ::_exit(127);
}

} // namespace

std::optional<std::filesystem::path> ffmpeg_on_path() {
  const char* path = std::getenv("PATH");
  std::istringstream folders(path == nullptr ? "" : path);
  for (std::string folder; std::getline(folders, folder, ':');) {
    const std::filesystem::path program = std::filesystem::path(folder) / "ffmpeg";
    std::error_code error;
    if (program.is_absolute() && std::filesystem::is_regular_file(program, error) &&
        ::access(program.c_str(), X_OK) == 0) {
      return program;
    }
  }
  return std::nullopt;
}

Ffmpeg::Ffmpeg(pid_t child, int frames, int words, StopAsked stop)
    : child_(child), frames_(frames), words_(words), stop_(stop) {}

Outcome<std::unique_ptr<Ffmpeg>> Ffmpeg::start(const std::filesystem::path& program,
                                               const std::vector<std::string>& arguments,
                                               StopAsked stop) {
  std::vector<std::string> words{program.string()};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  for (std::string& word : words) {
    argv.push_back(word.data());
  }
  argv.push_back(nullptr);
  int pipe_ends[2] = {-1, -1};
  const int said = nameless_file();
  const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
  if (said < 0 || nowhere < 0 || ::pipe2(pipe_ends, O_CLOEXEC) != 0) {
    ::close(said);
    ::close(nowhere);
    return Problem{"ffmpeg could not be started: " +
                   std::error_code(errno, std::generic_category()).message()};
  }
  // A child that ends early is told by write(), not by a signal that ends us.
  ::signal(SIGPIPE, SIG_IGN);
  const pid_t child = ::fork();
  if (child == 0) {
    become(argv.data(), pipe_ends[0], said, nowhere);
  }
  ::close(pipe_ends[0]);
  ::close(nowhere);
  if (child < 0) {
    ::close(pipe_ends[1]);
    ::close(said);
    return Problem{"ffmpeg could not be started: " +
                   std::error_code(errno, std::generic_category()).message()};
  }
  ::fcntl(pipe_ends[1], F_SETFL, O_NONBLOCK);
  return std::unique_ptr<Ffmpeg>(new Ffmpeg(child, pipe_ends[1], said, stop));
}

Ffmpeg::~Ffmpeg() {
  if (frames_ >= 0) {
    ::close(frames_);
  }
  if (child_ > 0) {
    ::kill(child_, SIGKILL);
    ::waitpid(child_, nullptr, 0);
  }
  ::close(words_);
}

Outcome<bool> Ffmpeg::write(const std::vector<std::uint8_t>& bytes) {
  std::size_t done = 0;
  while (done < bytes.size()) {
    if (stop_()) {
      return Problem{stopped};
    }
    pollfd ready{frames_, POLLOUT, 0};
    ::poll(&ready, 1, look_again_ms);
    const ssize_t written = ::write(frames_, bytes.data() + done, bytes.size() - done);
    if (written >= 0) {
      done += static_cast<std::size_t>(written);
    } else if (errno != EAGAIN && errno != EINTR) {
      return failed();
    }
  }
  return true;
}

Outcome<bool> Ffmpeg::finish() {
  ::close(frames_);
  frames_ = -1;
  int status = 0;
  while (::waitpid(child_, &status, WNOHANG) == 0) {
    if (stop_()) {
      return Problem{stopped};
    }
    ::poll(nullptr, 0, look_again_ms);
  }
  child_ = -1;
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) {
    return failed();
  }
  return true;
}

Problem Ffmpeg::failed() {
  if (child_ > 0) {
    // It has shut its end: what is left of it is what it has to say.
    bool ended = false;
    for (int i = 0; i < 20 && !ended; ++i) {
      ended = ::waitpid(child_, nullptr, WNOHANG) != 0;
      ::poll(nullptr, 0, ended ? 0 : look_again_ms);
    }
    if (!ended) {
      ::kill(child_, SIGKILL);
      ::waitpid(child_, nullptr, 0);
    }
    child_ = -1;
  }
  std::string said(most_words, '\0');
  const ssize_t read = ::pread(words_, said.data(), said.size(), 0);
  said.resize(read > 0 ? static_cast<std::size_t>(read) : 0);
  while (!said.empty() && (said.back() == '\n' || said.back() == ' ')) {
    said.pop_back();
  }
  return Problem{said.empty() ? std::string("ffmpeg failed, and said nothing")
                              : "ffmpeg failed: " + said};
}

} // namespace lugline::cli
