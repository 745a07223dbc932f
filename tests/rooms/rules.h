// What a source file may include and hold, by the room it lives in.
//
// Plain text checks on C++ as it is written here: no preprocessor, no macros that
// make includes or declarations. Each function returns complaints in words, empty
// where the text is sound; paths are from the top of the source tree.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace lugline::rooms {

/// The text with comments, the insides of literals, and preprocessor lines blanked out;
/// line breaks stay.
std::string code_of(std::string_view source);

struct Include {
  int line = 0; ///< from 1
  std::string path;
  bool quoted = false; ///< "…" and not <…>
};

std::vector<Include> includes_of(std::string_view source);

/// An include of a room below or beside, of a viewer's library where none may be, or by a path
/// that does not start at the top.
std::vector<std::string> wrong_includes(const std::string& path, std::string_view source);

/// A clock, a locale, the environment or a random device.
std::vector<std::string> outside_influences(const std::string& path, std::string_view source);

/// A variable that outlives a call and can change: static, thread_local or of a namespace.
std::vector<std::string> lasting_state(const std::string& path, std::string_view source);

} // namespace lugline::rooms
