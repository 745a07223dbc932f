#include "scene/quantity/complaint.h"

#include <algorithm>
#include <cstddef>
#include <string_view>

namespace lugline {

namespace {

// A longer name was not mistyped, it was pasted; files come from strangers.
constexpr std::size_t longest_name_compared = 100;

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

std::string lowered(std::string_view text) {
  std::string result(text);
  std::transform(result.begin(), result.end(), result.begin(), lower);
  return result;
}

// Letters left out, put in, changed or swapped with their neighbour, each counting one.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before_last(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j)
    last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, changed});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped)
        row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
    std::swap(before_last, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

} // namespace

std::string text_of(const Complaint& complaint) {
  std::string text;
  if (!complaint.file.empty()) {
    text = complaint.file;
    if (complaint.line > 0) {
      text += ':' + std::to_string(complaint.line);
      if (complaint.column > 0)
        text += ':' + std::to_string(complaint.column);
    }
    text += ": ";
  }
  text += complaint.message;
  if (!complaint.hint.empty())
    text += " (" + complaint.hint + ')';
  return printable(text);
}

std::string printable(const std::string& text) {
  constexpr char digits[] = "0123456789abcdef";
  std::string shown;
  shown.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const auto next = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0U;
    // U+0080 to U+009F, the second set of controls, are two bytes in UTF-8.
    const bool second_set = byte == 0xC2U && next >= 0x80U && next <= 0x9FU;
    if (byte >= 0x20U && byte != 0x7FU && !second_set) {
      shown += text[i];
      continue;
    }
    const unsigned code = second_set ? next : byte;
    shown += "\\u00";
    shown += digits[code >> 4U];
    shown += digits[code & 0xFU];
    i += second_set ? 1 : 0;
  }
  return shown;
}

std::string nearest_name(const std::string& written, const std::vector<std::string>& known) {
  if (written.empty() || written.size() > longest_name_compared)
    return {};
  const std::string written_low = lowered(written);
  const std::string* nearest = nullptr;
  std::size_t least = 0;
  for (const std::string& name : known) {
    if (name == written || name.size() > longest_name_compared)
      continue;
    // One slip in three letters: more, and it is another word.
    const std::size_t allowed = std::max(written.size(), name.size()) / 3;
    const std::size_t distance = edit_distance(written_low, lowered(name));
    if (distance > allowed)
      continue;
    if (nearest == nullptr || distance < least) {
      nearest = &name;
      least = distance;
    }
  }
  return nearest == nullptr ? std::string() : *nearest;
}

} // namespace lugline
