// The program run as a real process.
#pragma once

#include <nlohmann/json.hpp>

#include <filesystem>
#include <string>
#include <vector>

namespace lugline::test {

struct Run {
  int status = -1; ///< exit status; -1: it did not exit by itself
  std::string out;
  std::string err;
};

/// Runs the program with these arguments.
Run run_lugline(const std::vector<std::string>& arguments);

/// The one JSON document on standard output; fails the test where it is not one.
nlohmann::json document_of(const Run& run);

std::string demo_path();

/// A folder of its own, gone at the end.
class TempFolder {
public:
  TempFolder();
  ~TempFolder();
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  void write(const std::string& name, const std::string& content) const;
  /// A copy of the demo in it, with one text replaced (it must be there).
  [[nodiscard]] std::string demo_with(const std::string& file, const std::string& text,
                                      const std::string& other) const;

private:
  std::filesystem::path path_;
};

} // namespace lugline::test
