// A look at TOML text before it is parsed.
//
// The parser walks the parts of a dotted key ("a.b.c") by recursion and sets no
// limit of its own, so that a stranger's key of 100,000 parts would end the
// program. Nothing is owned; never fails: it finds such a key or it does not.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace lugline {

struct TextPlace {
  int line = 0;   ///< from 1
  int column = 0; ///< from 1, in bytes
};

/// More parts than any file of ours has a use for.
inline constexpr std::size_t most_key_parts = 16;

/// Where the first key of more than `most` parts begins to be too long. Dots in
/// texts and comments do not count.
std::optional<TextPlace> first_long_key(std::string_view toml, std::size_t most = most_key_parts);

} // namespace lugline
