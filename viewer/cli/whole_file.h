// A file that is there whole or not at all, and the steps that a command is asked for.
//
// Failures are words for people.
#pragma once

#include "scene/load/unit.h"
#include "scene/quantity/outcome.h"

#include <filesystem>
#include <string>
#include <vector>

namespace lugline::cli {

/// Where a file is written until it is whole: hidden, in the same folder.
std::filesystem::path beside(const std::filesystem::path& file);

/// Written beside, then put in the place of what was there.
Outcome<bool> write_whole(const std::filesystem::path& file,
                          const std::vector<unsigned char>& bytes);

/// Indices of the first and the last step, both in.
struct Span {
  std::size_t from = 0;
  std::size_t to = 0;
};
/// By step ids; an empty one is the unit's first or last.
Outcome<Span> span_of(const Unit& unit, const std::string& from, const std::string& to);

} // namespace lugline::cli
