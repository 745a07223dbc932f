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

/// A round bar along +z from the origin, both ends flat, smooth round it.
Mesh round_bar(double diameter_m, double low_m, double high_m, const std::string& material);

/// A corner of an outline that is turned about the axis.
struct ProfileCorner {
  double r_m = 0;
  double z_m = 0;
};

/// An outline turned once round the axis, flat-shaded: counter-clockwise with r
/// to the right and z up. Two corners beside each other may lie on the axis.
Mesh turned_outline(const std::vector<ProfileCorner>& outline, int segments,
                    const std::string& material);

/// Into how many chords a circle must go to stay within the tolerance; even, at least 12.
int chords_round(double radius_m, double tolerance_m);

} // namespace lugline
