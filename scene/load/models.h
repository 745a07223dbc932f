// The lines of unit.toml with their models: from ComponentLine to UnitComponent.
//
// Lengths are metres. Whatever is wrong with a line or its model is a
// complaint at the line's own key; the line then gives no component.
#pragma once

#include "scene/load/draft.h"
#include "scene/load/file_source.h"

#include <vector>

namespace lugline {

/// Every piece of every line that is sound, in the order of the file.
std::vector<UnitComponent> make_components(const std::vector<ComponentLine>& lines,
                                           const FileSource& files, Findings& findings);

} // namespace lugline
