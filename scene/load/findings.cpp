#include "scene/load/findings.h"

#include "scene/load/draft.h"

#include <algorithm>
#include <tuple>

namespace lugline {

namespace {

constexpr std::size_t longest_shown = 60;

std::vector<Complaint> in_order(std::vector<Complaint> all) {
  // What it is made of before how it goes together: a slip in the first has
  // followers in the second.
  const auto key = [](const Complaint& complaint) {
    return std::tuple(complaint.file == sequence_file, complaint.file, complaint.line,
                      complaint.column);
  };
  std::ranges::stable_sort(all,
                           [&](const Complaint& a, const Complaint& b) { return key(a) < key(b); });
  return all;
}

} // namespace

void Findings::complain(const SourcePlace& at, std::string message, std::string hint) {
  complaints_.push_back({at.file, at.line, at.column, std::move(message), std::move(hint)});
}

void Findings::ask(const SourcePlace& at, std::string message, std::string hint) {
  questions_.push_back({at.file, at.line, at.column, std::move(message), std::move(hint)});
}

std::string Findings::nearest(const std::string& written, const std::vector<std::string>& known) {
  if (hints_left_ == 0 || written.size() > longest_shown) {
    return {};
  }
  --hints_left_;
  const std::string name = nearest_name(written, known);
  return name.empty() ? name : "did you mean " + in_quotes(name) + "?";
}

std::vector<Complaint> Findings::complaints() const {
  return in_order(complaints_);
}
std::vector<Complaint> Findings::questions() const {
  return in_order(questions_);
}

std::string in_quotes(const std::string& written) {
  std::string shown;
  for (const char c : written) {
    if (shown.size() >= longest_shown && (static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
      shown += "…";
      break;
    }
    const auto byte = static_cast<unsigned char>(c);
    shown += byte < 0x20U || byte == 0x7FU ? '?' : c;
  }
  return "'" + shown + "'";
}

std::string listed(const std::vector<std::string>& names, std::size_t most) {
  std::string text;
  const std::size_t shown = names.size() > most ? most : names.size();
  for (std::size_t i = 0; i < shown; ++i) {
    const bool last = i + 1 == names.size();
    text += i == 0 ? "" : last ? " and " : ", ";
    text += names[i];
  }
  if (names.size() > shown) {
    text += " and " + std::to_string(names.size() - shown) + " more";
  }
  return text;
}

} // namespace lugline
