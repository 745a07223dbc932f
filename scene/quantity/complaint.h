// What is wrong with what a person wrote, and where.
//
// A complaint is outside data's failure, for people: file, line, column, what
// was read, what was expected, and the nearest known name where it looks like
// a slip. Plain values; all complaints of a unit are given in one go.
#pragma once

#include <string>
#include <vector>

namespace lugline {

struct Complaint {
  std::string file; ///< as the person would name it: relative to the unit's folder
  int line = 0;     ///< from 1; 0: the whole file
  int column = 0;   ///< from 1; 0: the whole line
  std::string message;
  std::string hint; ///< what to do, or the nearest known name; may be empty
};

/// "unit.toml:12:9: … (…)", on one line: what a stranger wrote is made printable.
std::string text_of(const Complaint& complaint);

/// Control characters as "\u001b", so that no terminal obeys them; all else as it is.
std::string printable(const std::string& text);

/// The known name nearest to what was written, by edit distance, where it is
/// near enough to be a slip; empty otherwise.
std::string nearest_name(const std::string& written, const std::vector<std::string>& known);

} // namespace lugline
