#include "scene/load/file_source.h"

#include <algorithm>
#include <fstream>
#include <system_error>

namespace lugline {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_names = 1000;
constexpr std::size_t longest_name = 512;

bool is_inside(const fs::path& file, const fs::path& root) {
  const auto [in_root, in_file] = std::mismatch(root.begin(), root.end(), file.begin(), file.end());
  return in_root == root.end() && in_file != file.end();
}

} // namespace

Problem too_large(std::uintmax_t bytes, std::uintmax_t most_bytes) {
  return {"is " + std::to_string(bytes) + " bytes large, and at most " +
          std::to_string(most_bytes) + " are read"};
}

Outcome<std::string> inside_name(const std::string& name) {
  if (name.empty()) {
    return Problem{"is empty"};
  }
  if (name.size() > longest_name) {
    return Problem{"is too long a name"};
  }
  if (std::ranges::any_of(name, [](char c) { return static_cast<unsigned char>(c) < 0x20U; })) {
    return Problem{"holds a control character"};
  }
  // "C:x" and backslashes would be harmless here and lead out elsewhere.
  if (name.find('\\') != std::string::npos || name.find(':') != std::string::npos) {
    return Problem{"holds a '\\' or a ':'; write '/' between folders"};
  }
  const fs::path path(name);
  if (path.is_absolute()) {
    return Problem{"is an absolute path; only files inside the unit's folder are read"};
  }
  if (std::ranges::find(path, fs::path("..")) != path.end()) {
    return Problem{"climbs out with '..'; only files inside the unit's folder are read"};
  }
  return name;
}

Outcome<fs::path> FolderSource::folder_at(const fs::path& folder) {
  std::error_code error;
  fs::path root = fs::canonical(folder, error);
  if (error || !fs::exists(root, error)) {
    return Problem{"there is no such folder"};
  }
  if (!fs::is_directory(root, error)) {
    return Problem{"this is not a folder"};
  }
  return root;
}

Outcome<fs::path> FolderSource::find(const std::string& name) const {
  const Outcome<std::string> inside = inside_name(name);
  if (!inside) {
    return Problem{inside.problem()};
  }
  std::error_code error;
  const fs::path file = fs::canonical(root_ / name, error);
  if (error) {
    return Problem{"there is no such file in the unit's folder"};
  }
  if (!is_inside(file, root_)) {
    return Problem{"is a link that leads out of the unit's folder"};
  }
  if (!fs::is_regular_file(file, error)) {
    return Problem{"is not a plain file"};
  }
  return file;
}

Outcome<std::uintmax_t> FolderSource::size_of(const std::string& name) const {
  const Outcome<fs::path> file = find(name);
  if (!file) {
    return Problem{file.problem()};
  }
  std::error_code error;
  const std::uintmax_t size = fs::file_size(file.value(), error);
  if (error) {
    return Problem{"cannot be read: " + error.message()};
  }
  return size;
}

Outcome<std::string> FolderSource::bytes(const std::string& name, std::uintmax_t most_bytes) const {
  const Outcome<std::uintmax_t> size = size_of(name);
  if (!size) {
    return Problem{size.problem()};
  }
  if (size.value() > most_bytes) {
    return too_large(size.value(), most_bytes);
  }
  std::ifstream in(find(name).value(), std::ios::binary);
  std::string text(static_cast<std::size_t>(size.value()), '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (!in && !in.eof()) {
    return Problem{"cannot be read"};
  }
  text.resize(static_cast<std::size_t>(in.gcount()));
  return text;
}

ModelReport FolderSource::model(const std::string& name) const {
  const Outcome<fs::path> file = find(name);
  if (!file) {
    return {{}, {file.problem()}};
  }
  return read_model(file.value(), root_);
}

std::vector<std::string> FolderSource::names() const {
  std::vector<std::string> all;
  std::error_code error;
  fs::recursive_directory_iterator at(root_, fs::directory_options::skip_permission_denied, error);
  for (; !error && at != fs::recursive_directory_iterator() && all.size() < most_names;
       at.increment(error)) {
    std::error_code ignored;
    if (at->is_regular_file(ignored)) {
      all.push_back(at->path().lexically_relative(root_).generic_string());
    }
  }
  std::ranges::sort(all);
  return all;
}

} // namespace lugline
