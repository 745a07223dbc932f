#include "scene/mesh/gltf_uri.h"

#include "scene/mesh/gltf_problems.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <optional>
#include <system_error>

namespace lugline::gltf {

namespace {

namespace fs = std::filesystem;

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// "http:", "file:", and a drive's "C:" alike.
bool has_scheme(std::string_view uri) {
  const std::size_t colon = uri.find(':');
  if (colon == std::string_view::npos || colon == 0 || !is_letter(uri[0])) {
    return false;
  }
  return std::all_of(uri.begin(), uri.begin() + static_cast<std::ptrdiff_t>(colon), [](char c) {
    return is_letter(c) || is_digit(c) || c == '+' || c == '-' || c == '.';
  });
}

std::optional<int> hex_value(char c) {
  if (is_digit(c)) {
    return c - '0';
  }
  const char lower = static_cast<char>(c | 0x20);
  if (lower >= 'a' && lower <= 'f') {
    return lower - 'a' + 10;
  }
  return std::nullopt;
}

std::optional<std::string> percent_decoded(std::string_view text) {
  std::string decoded;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '%') {
      decoded += text[i];
      continue;
    }
    if (i + 2 >= text.size()) {
      return std::nullopt;
    }
    const auto high = hex_value(text[i + 1]);
    const auto low = hex_value(text[i + 2]);
    if (!high || !low) {
      return std::nullopt;
    }
    decoded += static_cast<char>(*high * 16 + *low);
    i += 2;
  }
  return decoded;
}

/// How many bytes the UTF-8 sequence at i has; 0 where there is none.
std::size_t utf8_length(std::string_view text, std::size_t i) {
  const auto byte = [&](std::size_t k) {
    return i + k < text.size() ? static_cast<unsigned char>(text[i + k]) : 0u;
  };
  const auto follows = [&](std::size_t k) { return (byte(k) & 0xc0u) == 0x80u; };
  const unsigned lead = byte(0);
  if (lead < 0x80) {
    return 1;
  }
  if (lead >= 0xc2 && lead <= 0xdf) {
    return follows(1) ? 2 : 0;
  }
  if (lead >= 0xe0 && lead <= 0xef) {
    const bool overlong = lead == 0xe0 && byte(1) < 0xa0;
    const bool surrogate = lead == 0xed && byte(1) >= 0xa0;
    return follows(1) && follows(2) && !overlong && !surrogate ? 3 : 0;
  }
  if (lead >= 0xf0 && lead <= 0xf4) {
    const bool outside = (lead == 0xf0 && byte(1) < 0x90) || (lead == 0xf4 && byte(1) >= 0x90);
    return follows(1) && follows(2) && follows(3) && !outside ? 4 : 0;
  }
  return 0;
}

bool is_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = utf8_length(text, i);
    if (length == 0) {
      return false;
    }
    i += length;
  }
  return true;
}

bool climbs(std::string_view path) {
  for (std::size_t from = 0; from <= path.size();) {
    const std::size_t to = std::min(path.find('/', from), path.size());
    if (path.substr(from, to - from) == "..") {
      return true;
    }
    from = to + 1;
  }
  return false;
}

constexpr std::array<signed char, 256> base64_values() {
  std::array<signed char, 256> values{};
  values.fill(-1);
  constexpr std::string_view alphabet =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  for (std::size_t i = 0; i < alphabet.size(); ++i) {
    values[static_cast<unsigned char>(alphabet[i])] = static_cast<signed char>(i);
  }
  return values;
}

std::optional<std::vector<unsigned char>> base64_decoded(std::string_view text) {
  static constexpr auto values = base64_values();
  if (text.size() % 4 == 0 && text.ends_with('=')) {
    text.remove_suffix(1);
    if (text.ends_with('=')) {
      text.remove_suffix(1);
    }
  }
  if (text.size() % 4 == 1) {
    return std::nullopt;
  }
  std::vector<unsigned char> bytes;
  bytes.reserve(text.size() / 4 * 3 + 2);
  std::uint32_t pending = 0;
  int bits = 0;
  for (const char c : text) {
    const int value = values[static_cast<unsigned char>(c)];
    if (value < 0) {
      return std::nullopt;
    }
    pending = (pending << 6 | static_cast<std::uint32_t>(value)) & 0xffffffu;
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      bytes.push_back(static_cast<unsigned char>(pending >> bits));
    }
  }
  return bytes;
}

bool is_inside(const fs::path& file, const fs::path& root) {
  const auto [root_end, file_at] =
      std::mismatch(root.begin(), root.end(), file.begin(), file.end());
  // A trailing separator leaves an empty last name in root.
  return root_end == root.end() || (root_end->empty() && std::next(root_end) == root.end());
}

} // namespace

bool is_data_uri(std::string_view uri) {
  return uri.starts_with("data:");
}

Outcome<std::string> relative_path_of(std::string_view uri) {
  const std::string shown = in_quotes(std::string(uri));
  if (uri.empty()) {
    return Problem{"an empty URI; a file beside the model was expected"};
  }
  if (has_scheme(uri)) {
    return Problem{"URI " + shown +
                   " names a scheme or a drive; only files beside the model are read"};
  }
  const auto decoded = percent_decoded(uri);
  if (!decoded) {
    return Problem{"URI " + shown + " has a % that is not followed by two hexadecimal digits"};
  }
  if (!is_utf8(*decoded)) {
    return Problem{"URI " + shown + " is not UTF-8 once its escapes are undone"};
  }
  const auto is_control = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; };
  if (std::ranges::any_of(*decoded, is_control)) {
    return Problem{"URI " + shown + " holds a control character"};
  }
  if (decoded->find('\\') != std::string::npos) {
    return Problem{"URI " + shown + " holds a backslash; folders are parted by /"};
  }
  if (decoded->front() == '/') {
    return Problem{"URI " + shown + " is absolute; only files beside the model are read"};
  }
  if (climbs(*decoded)) {
    return Problem{"URI " + shown + " climbs out by \"..\"; only files beside the model are read"};
  }
  return *decoded;
}

Outcome<std::vector<unsigned char>> bytes_of_data_uri(std::string_view uri) {
  const std::size_t comma = uri.find(',');
  if (comma == std::string_view::npos || !uri.substr(0, comma).ends_with(";base64")) {
    return Problem{"a data URI that is not base64"};
  }
  auto bytes = base64_decoded(uri.substr(comma + 1));
  if (!bytes) {
    return Problem{"a data URI with a character that is not base64, or cut short"};
  }
  return std::move(*bytes);
}

Outcome<std::vector<unsigned char>> read_inside(const fs::path& file, const fs::path& root,
                                                const std::string& called,
                                                std::uint64_t first_bytes) {
  const std::string shown = in_quotes(called);
  std::error_code error;
  const fs::path real_root = fs::canonical(root, error);
  if (error) {
    return Problem{"folder " + in_quotes(root.string()) + " is missing or cannot be opened"};
  }
  const fs::path real_file = fs::canonical(file, error);
  if (error) {
    return Problem{"file " + shown + " is missing"};
  }
  if (!is_inside(real_file, real_root)) {
    return Problem{"file " + shown + " leads out of the folder; nothing outside is read"};
  }
  // Before it is opened: a pipe would never end.
  if (!fs::is_regular_file(real_file, error)) {
    return Problem{"file " + shown + " is a folder or a device"};
  }
  const std::uintmax_t size = fs::file_size(real_file, error);
  std::ifstream stream(real_file, std::ios::binary);
  if (error || !stream) {
    return Problem{"file " + shown + " cannot be read"};
  }
  std::vector<unsigned char> bytes(std::min<std::uintmax_t>(size, first_bytes));
  stream.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  if (stream.gcount() != static_cast<std::streamsize>(bytes.size())) {
    return Problem{"file " + shown + " cannot be read"};
  }
  return bytes;
}

} // namespace lugline::gltf
