#include "scene/quantity/toml_keys.h"

namespace lugline {

namespace {

class KeyScan {
public:
  explicit KeyScan(std::string_view toml) : toml_(toml) {}

  std::optional<TextPlace> first_beyond(std::size_t most) {
    while (at_ < toml_.size()) {
      const char c = toml_[at_];
      if (c == '"' || c == '\'') {
        skip_text(c);
        continue;
      }
      if (c == '#') {
        skip_line();
        continue;
      }
      if (c == '.' && ++dots_ >= most) {
        return TextPlace{line_, static_cast<int>(at_ - line_begins_) + 1};
      }
      if (c == '.' || c == ' ' || c == '\t' || is_key(c)) {
        ++at_;
      } else {
        dots_ = 0;
        step();
      }
    }
    return std::nullopt;
  }

private:
  static bool is_key(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-' || static_cast<unsigned char>(c) >= 0x80U;
  }

  void step() {
    if (toml_[at_++] == '\n') {
      ++line_;
      line_begins_ = at_;
    }
  }

  void skip_line() {
    while (at_ < toml_.size() && toml_[at_] != '\n') {
      ++at_;
    }
  }

  /// A text in one or three quotes; one that is never closed ends with its line.
  void skip_text(char quote) {
    const std::string_view three = quote == '"' ? R"(""")" : "'''";
    const bool long_text = toml_.substr(at_, 3) == three;
    at_ += long_text ? 3 : 1;
    while (at_ < toml_.size()) {
      if (long_text ? toml_.substr(at_, 3) == three : toml_[at_] == quote) {
        at_ += long_text ? 3 : 1;
        return;
      }
      if (!long_text && toml_[at_] == '\n') {
        return;
      }
      if (quote == '"' && toml_[at_] == '\\' && at_ + 1 < toml_.size()) {
        step();
      }
      step();
    }
  }

  std::string_view toml_;
  std::size_t at_ = 0;
  std::size_t dots_ = 0;
  int line_ = 1;
  std::size_t line_begins_ = 0;
};

} // namespace

std::optional<TextPlace> first_long_key(std::string_view toml, std::size_t most) {
  return KeyScan(toml).first_beyond(most);
}

} // namespace lugline
