// Where a unit's files come from: a folder, or memory.
//
// Names are as written in the unit's files: relative to its folder, "/" between.
// Nothing outside the folder is opened: a name that is absolute or climbs out
// is refused before it is looked at, and a link that leads out before it is
// read. Sizes are checked before a file is read.
#pragma once

#include "scene/mesh/gltf.h"
#include "scene/quantity/outcome.h"

#include <cstdint>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace lugline {

inline constexpr std::uintmax_t largest_text_bytes = std::uintmax_t{1} << 20U;
inline constexpr std::uintmax_t largest_model_bytes = std::uintmax_t{64} << 20U;
inline constexpr std::uintmax_t largest_unit_bytes = std::uintmax_t{512} << 20U; ///< all models

/// The name itself, where it stays inside the folder by its look alone.
Outcome<std::string> inside_name(const std::string& name);

/// The words for a file larger than may be read.
Problem too_large(std::uintmax_t bytes, std::uintmax_t most_bytes);

class FileSource {
public:
  FileSource() = default;
  FileSource(const FileSource&) = delete;
  FileSource& operator=(const FileSource&) = delete;
  virtual ~FileSource() = default;

  /// How large the file is; a problem where it is missing, not a plain file,
  /// or leads out of the folder.
  [[nodiscard]] virtual Outcome<std::uintmax_t> size_of(const std::string& name) const = 0;
  /// Its bytes; a problem also where there are more than `most_bytes`.
  [[nodiscard]] virtual Outcome<std::string> bytes(const std::string& name,
                                                   std::uintmax_t most_bytes) const = 0;
  [[nodiscard]] virtual ModelReport model(const std::string& name) const = 0;
  /// Files that are there, for hints; by name, and not more than 1000.
  [[nodiscard]] virtual std::vector<std::string> names() const = 0;
};

class FolderSource : public FileSource {
public:
  /// A problem where the folder is missing or is not one.
  static Outcome<std::filesystem::path> folder_at(const std::filesystem::path& folder);
  /// root: as folder_at gives it.
  explicit FolderSource(std::filesystem::path root) : root_(std::move(root)) {}

  [[nodiscard]] Outcome<std::uintmax_t> size_of(const std::string& name) const override;
  [[nodiscard]] Outcome<std::string> bytes(const std::string& name,
                                           std::uintmax_t most_bytes) const override;
  [[nodiscard]] ModelReport model(const std::string& name) const override;
  [[nodiscard]] std::vector<std::string> names() const override;

private:
  /// The file's true path, inside the folder.
  [[nodiscard]] Outcome<std::filesystem::path> find(const std::string& name) const;

  std::filesystem::path root_; ///< canonical
};

} // namespace lugline
