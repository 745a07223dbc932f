#include "tests/cli/process.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

namespace lugline::test {

namespace {

std::string all_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

} // namespace

Run run_lugline(const std::vector<std::string>& arguments) {
  const TempFolder folder;
  const std::string out = folder.path() / "out";
  const std::string err = folder.path() / "err";
  std::vector<std::string> words{LUGLINE_PROGRAM};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  for (std::string& word : words) {
    argv.push_back(word.data());
  }
  argv.push_back(nullptr);
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    const int out_file = ::open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    const int err_file = ::open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    ::dup2(out_file, STDOUT_FILENO);
    ::dup2(err_file, STDERR_FILENO);
    ::execv(argv[0], argv.data());
    ::_exit(127);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  Run run;
  run.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  run.out = all_of(out);
  run.err = all_of(err);
  return run;
}

nlohmann::json document_of(const Run& run) {
  INFO(run.out);
  INFO(run.err);
  auto document = nlohmann::json::parse(run.out, nullptr, false);
  REQUIRE_FALSE(document.is_discarded());
  return document;
}

std::string demo_path() {
  return std::string(LUGLINE_ROOT) + "/assets-demo/hobspindle-three";
}

TempFolder::TempFolder() {
  static int count = 0;
  path_ = std::filesystem::temp_directory_path() /
          ("lugline-test-" + std::to_string(::getpid()) + "-" + std::to_string(++count));
  std::filesystem::create_directories(path_);
}

TempFolder::~TempFolder() {
  std::error_code error;
  std::filesystem::remove_all(path_, error);
}

void TempFolder::write(const std::string& name, const std::string& content) const {
  std::filesystem::create_directories((path_ / name).parent_path());
  std::ofstream(path_ / name, std::ios::binary) << content;
}

std::string TempFolder::demo_with(const std::string& file, const std::string& text,
                                  const std::string& other) const {
  const auto unit = path_ / "unit";
  std::filesystem::remove_all(unit);
  std::filesystem::copy(demo_path(), unit, std::filesystem::copy_options::recursive);
  std::string content = all_of(unit / file);
  const auto at = content.find(text);
  INFO(text << " in " << file);
  REQUIRE(at != std::string::npos);
  content.replace(at, text.size(), other);
  std::ofstream(unit / file, std::ios::binary) << content;
  return unit;
}

} // namespace lugline::test
