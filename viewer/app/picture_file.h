// A name for a saved picture that no file has yet.
#pragma once

#include <filesystem>
#include <string>

namespace lugline {

/// "FOLDER/UNIT-12-case-piston.png", or with -2, -3 … where that is taken. Only
/// letters, digits, dots, dashes and underscores of the names are kept.
std::filesystem::path free_picture_file(const std::filesystem::path& folder,
                                        const std::string& unit, std::size_t step,
                                        const std::string& step_id);

} // namespace lugline
