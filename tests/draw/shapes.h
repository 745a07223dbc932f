// Meshes for the drawing's tests, made here and owing nothing to the recipes.
//
// A part is a heap of polar blocks; the mesh is the surface of their union, on
// a grid of all their ends, so it is closed. Lengths metres, angles radians,
// 0 at 12 o'clock, counter-clockwise from the +z end.
#pragma once

#include "scene/mesh/mesh.h"

#include <functional>
#include <string>
#include <vector>

namespace lugline::shapes {

struct Block {
  double inner_m = 0;
  double outer_m = 0;
  double low_m = 0;
  double high_m = 0;
  double from_rad = 0; ///< counter-clockwise to to_rad; a full circle where they are 2 pi apart
  double to_rad = 6.283185307179586;
  std::string material = "steel";
};

/// A full ring.
Block ring(double inner_m, double outer_m, double low_m, double high_m,
           const std::string& material = "steel");

/// count equal blocks of width_rad, the first centred on first_rad.
std::vector<Block> repeated(const Block& block, int count, double width_rad, double first_rad = 0);

/// What blocks leave when gaps of width_rad are taken out of a full ring.
std::vector<Block> slotted(const Block& full, int count, double width_rad, double first_rad = 0);

/// Later blocks have their material where blocks overlap.
Mesh mesh_of_blocks(const std::vector<Block>& blocks, int segments = 120);

/// The same mesh moved in its own frame.
Mesh moved(Mesh mesh, double x_m, double y_m, double z_m);

/// Without the triangles of which the judge says so, told a corner and its normal: an open mesh.
Mesh without_triangles(Mesh mesh,
                       const std::function<bool(const Vec3& corner_m, const Vec3& normal)>& judge);

} // namespace lugline::shapes
