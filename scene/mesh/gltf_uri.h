// Where a buffer's URI leads: into the file itself (data:), or to a file beside
// the model, and nowhere else.
//
// Used inside this room alone. Failures are words for people.
#pragma once

#include "scene/quantity/outcome.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace lugline::gltf {

/// The relative path that a URI stands for: percent escapes undone, and refused
/// where it is absolute, has a scheme, climbs with "..", or is not UTF-8.
Outcome<std::string> relative_path_of(std::string_view uri);

bool is_data_uri(std::string_view uri);

/// The bytes of a base64 data URI, of whatever media type.
Outcome<std::vector<unsigned char>> bytes_of_data_uri(std::string_view uri);

/// The first so many bytes of a regular file, or all where it has fewer. `file` may
/// be relative or pass through links, as long as it ends up inside root. `called`
/// is its name in problems.
Outcome<std::vector<unsigned char>> read_inside(const std::filesystem::path& file,
                                                const std::filesystem::path& root,
                                                const std::string& called,
                                                std::uint64_t first_bytes);

} // namespace lugline::gltf
