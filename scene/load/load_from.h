// The loader proper, apart from where the files come from.
#pragma once

#include "scene/load/file_source.h"
#include "scene/load/load.h"

#include <string>

namespace lugline {

/// folder: what Unit::folder says; nothing is opened by it.
LoadReport load_unit_from(const FileSource& files, const std::string& folder);

} // namespace lugline
