#include "viewer/app/places.h"

#include <cstdint>
#include <cstdio>
#include <cstdlib>

namespace lugline {

namespace {

std::filesystem::path from_environment(const char* name) {
  const char* value = std::getenv(name);
  const std::filesystem::path path = value != nullptr ? value : "";
  // The convention says that a relative path is to be ignored.
  return path.is_absolute() ? path : std::filesystem::path();
}

std::filesystem::path in_home(const char* variable, const char* below_home) {
  const std::filesystem::path named = from_environment(variable);
  if (!named.empty()) {
    return named;
  }
  const std::filesystem::path home = from_environment("HOME");
  return home.empty() ? home : home / below_home;
}

std::filesystem::path whole_path(const std::filesystem::path& path) {
  std::error_code failed;
  const std::filesystem::path found = std::filesystem::weakly_canonical(path, failed);
  return failed ? std::filesystem::absolute(path, failed) : found;
}

/// FNV-1a, 32 bits: the same for the same path everywhere.
std::string digits_of(const std::string& text) {
  std::uint32_t hash = 2166136261u;
  for (const char c : text) {
    hash = (hash ^ static_cast<unsigned char>(c)) * 16777619u;
  }
  char digits[9];
  std::snprintf(digits, sizeof digits, "%08x", hash);
  return digits;
}

} // namespace

std::string name_of_folder(const std::filesystem::path& folder) {
  std::filesystem::path whole = whole_path(folder);
  if (whole.filename().empty()) {
    whole = whole.parent_path();
  }
  return whole.filename().string();
}

std::filesystem::path log_place(const std::filesystem::path& unit_folder) {
  const std::filesystem::path state = in_home("XDG_STATE_HOME", ".local/state");
  if (state.empty()) {
    return state;
  }
  std::filesystem::path whole = whole_path(unit_folder);
  if (whole.filename().empty()) {
    whole = whole.parent_path();
  }
  return state / "lugline" /
         (name_of_folder(unit_folder) + "-" + digits_of(whole.generic_string()) + ".jsonl");
}

std::filesystem::path settings_place() {
  const std::filesystem::path config = in_home("XDG_CONFIG_HOME", ".config");
  return config.empty() ? config : config / "lugline" / "settings.json";
}

std::filesystem::path pictures_place() {
  const std::filesystem::path home = from_environment("HOME");
  std::error_code failed;
  if (!home.empty() && std::filesystem::is_directory(home / "Pictures", failed)) {
    return home / "Pictures";
  }
  if (!home.empty() && std::filesystem::is_directory(home, failed)) {
    return home;
  }
  return std::filesystem::current_path(failed);
}

} // namespace lugline
