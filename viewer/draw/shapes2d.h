// Flat shapes to triangles with soft edges: no OpenGL.
//
// Every edge carries a ramp one pixel wide, so that shapes are smooth at any
// place without multisampling. Pixels, y down. A Triangles2d only grows; the caller
// owns it and hands its vertices on.
#pragma once

#include "viewer/stage/sheet2d.h"

#include <glm/glm.hpp>

#include <array>
#include <cstdint>
#include <vector>

namespace lugline {

struct Vertex2d {
  float x = 0;
  float y = 0;
  float u = -1; ///< of the glyph page; below 0: no glyph
  float v = -1;
  std::uint8_t rgba[4] = {0, 0, 0, 255};
};
static_assert(sizeof(Vertex2d) == 20);

class Triangles2d {
public:
  /// A simple polygon, convex or not, whichever way it runs.
  void fill(const std::vector<glm::dvec2>& points, const Colour& colour);
  /// A run of lines with mitred corners and square ends.
  void line(const std::vector<glm::dvec2>& points, bool closed, const Stroke& stroke,
            double scale = 1);
  /// A part of the glyph page.
  void glyph(double left, double top, double right, double bottom, const glm::vec4& uv,
             const Colour& colour);

  [[nodiscard]] const std::vector<Vertex2d>& vertices() const { return vertices_; }
  void clear() { vertices_.clear(); }

private:
  void triangle(const Vertex2d& a, const Vertex2d& b, const Vertex2d& c);
  void solid_line(const std::vector<glm::dvec2>& points, bool closed, double width,
                  const Colour& colour);
  std::vector<Vertex2d> vertices_;
};

/// Corners of a rectangle with rounded corners, or of a circle.
std::vector<glm::dvec2> rounded_rect(double left, double top, double right, double bottom,
                                     double corner);
std::vector<glm::dvec2> circle_points(const glm::dvec2& centre, double radius);

/// The pieces of a run that its dashes leave; a whole number of them.
std::vector<std::vector<glm::dvec2>> dashes_of(const std::vector<glm::dvec2>& points, bool closed,
                                               double dash, double gap);

/// Ear by ear: indices of triangles of a simple polygon. Empty for fewer than three corners.
std::vector<std::array<std::size_t, 3>> triangulated(const std::vector<glm::dvec2>& points);

} // namespace lugline
