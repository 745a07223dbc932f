// The up arrow as a solid: a small turned body one metre long along +z.
//
// Drawn at a size in pixels, so the caller scales it. Plain value.
#pragma once

#include "viewer/draw/frame.h"

#include "scene/mesh/mesh.h"

namespace lugline {

Mesh arrow_mesh();

/// Where the arrow stands: from its own frame (one metre long) into the
/// place's. It leaves the face that it marks: upward in the part's frame from
/// the part's upper half, downward from its lower half. item may be null: then
/// the arrow's figures are the place's.
glm::dmat4 arrow_place(const UpArrow& arrow, const FrameItem* item, const Frame& frame);

/// The item that an id names; null where none does.
const FrameItem* item_named(const Frame& frame, const std::string& id);

} // namespace lugline
