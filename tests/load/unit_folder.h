// A small sound unit in a folder of its own, for tests to spoil.
//
// The folder is made under the system's temporary folder and removed with the
// object. The two TOML texts are public: a test changes them and loads.
#pragma once

#include "scene/load/load.h"
#include "scene/part/component.h"

#include <filesystem>
#include <string>
#include <vector>

namespace lugline::test {

class UnitFolder {
public:
  UnitFolder();
  ~UnitFolder();
  UnitFolder(const UnitFolder&) = delete;
  UnitFolder& operator=(const UnitFolder&) = delete;

  std::string unit;
  std::string sequence;

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  /// Puts `now` where `was` stands, which must be there exactly once.
  void change_unit(const std::string& was, const std::string& now);
  void change_sequence(const std::string& was, const std::string& now);
  /// Adds a part's model, parts/<file>, of the given components.
  void write_model(const std::string& file, const std::vector<Component>& components,
                   bool with_features = true, double scale = 1);
  void write_file(const std::string& name, const std::string& bytes);

  /// Writes the two texts and loads.
  [[nodiscard]] LoadReport load();

private:
  std::filesystem::path path_;
};

/// The parts that the small unit has models of.
Component hub();   ///< "HUB": groove "ring groove", key "slot", features "floor" and "tower"
Component steel(); ///< "ST": 2.0 mm, key "lug" that fits HUB/slot

/// The line, from 1, on which `needle` first stands.
int line_of(const std::string& text, const std::string& needle);

/// Whether there is exactly one finding at that place that holds the words in
/// its message or hint. Line 0: any line.
bool found(const std::vector<Complaint>& all, const std::string& file, int line,
           const std::string& words);

/// All of them, a line each, for INFO.
std::string text_of(const std::vector<Complaint>& all);
std::string text_of(const LoadReport& report);

} // namespace lugline::test
