// The settings between sittings, as JSON that a person can read.
#pragma once

#include "scene/quantity/outcome.h"
#include "viewer/stage/stage.h"

#include <filesystem>
#include <string>

namespace lugline {

std::string text_of(const Settings& settings);
/// Whatever is missing or makes no sense keeps its usual value.
Settings settings_from(const std::string& text);

/// Usual settings where there is no file.
Settings read_settings(const std::filesystem::path& file);
/// Written beside and moved into place, so that it is never half there.
Outcome<bool> write_settings(const std::filesystem::path& file, const Settings& settings);

} // namespace lugline
