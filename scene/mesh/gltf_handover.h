// The checked document, handed to tinygltf.
//
// Used inside this room alone. tinygltf is given only what was checked and is
// used: its images, extras and whatever else it would follow are left out, its
// file callbacks know the checked buffers and nothing else. tinygltf's header
// stays out of the room's other headers: it is large.
#pragma once

#include "scene/mesh/gltf_check.h"

#include <optional>

namespace tinygltf {
class Model;
}

namespace lugline::gltf {

/// Loads the model into `model`; false, with a problem added, where tinygltf does not agree.
bool hand_over(const nlohmann::json& document, const std::vector<BufferFigures>& buffers,
               tinygltf::Model& model, Problems& problems);

} // namespace lugline::gltf
