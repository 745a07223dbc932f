// What a mesh gets after its solid is meshed: bending, new normals, wires, blocks.
// Lengths metres, angles radians.
#pragma once

#include "scene/mesh/mesh.h"

#include <functional>
#include <string>
#include <vector>

namespace lugline {

/// Moves every position. The same position must always go to the same place,
/// or the surface would open.
void bend(Mesh& mesh, const std::function<Vec3(const Vec3&)>& to);

/// The same triangles with normals from their own facets, smooth where facets
/// lean apart by less than crease_rad.
Mesh smoothed(const Mesh& mesh, double crease_rad);

/// A round wire along a line of points, its ends closed flat. At least two
/// points, none twice; sides corners round the wire.
Mesh wire_along(const std::vector<Vec3>& line, double wire_m, int sides,
                const std::string& material);

/// A block over an outline between two heights. The outline is counter-clockwise
/// and a ladder: its first corner faces its last, its second the last but one, …
Mesh block_over(const std::vector<Vec3>& outline, double low_m, double high_m,
                const std::string& material);

} // namespace lugline
