// A solid of sector rings seen along the axis: circles, the cells between them,
// and at which heights each cell is full.
//
// The plan is cut by every radius of the solid into bands and, within a band,
// by every flank into cells. Cells share their corners, so a surface built on
// them has no gaps. Lengths metres, angles radians; vertices and cells are
// owned by the Plan and named by their index.
#pragma once

#include "scene/part/solid.h"
#include "scene/recipe/recipe.h"

#include <string>
#include <vector>

namespace lugline {

/// Lines that a mesh is wanted to have besides those of its solid, so that it
/// can be bent there afterwards.
struct ExtraCuts {
  std::vector<double> radii_m;
  std::vector<double> heights_m;
};

struct PlanVertex {
  double x_m = 0;
  double y_m = 0;
  double r_m = 0;
};

/// Full between two levels (indices into Plan::heights_m).
struct PlanSlab {
  int low = 0;
  int high = 0;
  int material = 0; ///< index into Plan::materials
  friend bool operator==(const PlanSlab&, const PlanSlab&) = default;
};

/// A piece of a band. Its corners, by rising angle, along its inner and its
/// outer circle; the first corners of both lie on one flank and the last on
/// the next. A band without flanks is one cell, whose chains end where they begin.
struct PlanCell {
  std::vector<int> inner;
  std::vector<int> outer;
  std::vector<PlanSlab> slabs; ///< rising; touching slabs of one material are one
  int band = 0;                ///< from the innermost on; a band's cells follow each other by angle
};

/// A straight line between two cells; `left` is on the left of a to b. -1: nothing there.
struct PlanEdge {
  int a = 0;
  int b = 0;
  int left = -1;
  int right = -1;
  bool on_circle = false; ///< runs by rising angle, its left inside the circle
};

struct Plan {
  std::vector<double> heights_m;      ///< every face's, rising
  std::vector<std::string> materials; ///< the solid's own first
  std::vector<PlanVertex> vertices;
  std::vector<PlanCell> cells;
  std::vector<PlanEdge> edges;
};

/// Radii, angles and heights nearer than this to one another are one, so that
/// nothing is thinner than a 32-bit figure can tell.
inline constexpr double merge_m = 5e-8;

Plan plan_of(const Solid& solid, const std::string& material, const MeshOptions& options,
             const ExtraCuts& cuts);

} // namespace lugline
