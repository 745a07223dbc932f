#include "viewer/app/picture_file.h"

#include <cctype>
#include <cstdio>

namespace lugline {

namespace {

std::string safe(const std::string& words) {
  std::string kept;
  for (const char c : words) {
    const bool plain =
        std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.' || c == '_' || c == '-';
    kept += plain && static_cast<unsigned char>(c) < 128 ? c : '-';
  }
  return kept.substr(0, 80);
}

} // namespace

std::filesystem::path free_picture_file(const std::filesystem::path& folder,
                                        const std::string& unit, std::size_t step,
                                        const std::string& step_id) {
  char number[24];
  std::snprintf(number, sizeof number, "%02zu", step + 1);
  std::string name = safe(unit.empty() ? "lugline" : unit);
  if (!step_id.empty()) {
    name += "-" + std::string(number) + "-" + safe(step_id);
  }
  std::filesystem::path file = folder / (name + ".png");
  std::error_code ignored;
  for (int i = 2; std::filesystem::exists(file, ignored); ++i) {
    file = folder / (name + "-" + std::to_string(i) + ".png");
  }
  return file;
}

} // namespace lugline
