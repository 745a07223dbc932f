// Thin lines in space, drawn at an even width on screen: ghosts, key outlines,
// paths, arcs.
//
// A ribbon is a run of points in metres, widened to pixels on the CPU after
// projection, smooth at its edges, dashed by length on screen. Each pixel looks
// into the scene's depth: where the line is hidden it is fainter, or gone.
// Owns its program and a buffer that is refilled each frame.
#pragma once

#include "viewer/draw/frame.h"
#include "viewer/draw/gl.h"

#include <vector>

namespace lugline {

struct Ribbon {
  std::vector<glm::dvec3> points_m; ///< place frame
  bool closed = false;
  glm::vec3 colour{0};
  double width_px = 1.4; ///< at scale 1
  double dash_px = 0;    ///< 0: unbroken
  double gap_px = 0;
  double seen = 1;            ///< opacity where nothing stands before it
  double hidden = 0;          ///< opacity behind the scene's parts
  double hidden_by_ghost = 1; ///< factor behind the ghosts themselves
  double nearer_m = 0;        ///< drawn as if so much nearer to the eye
};

/// A filled face in space, flat, with the same rules.
struct Patch {
  std::vector<glm::dvec3> corners_m; ///< convex, in order
  glm::vec3 colour{0};
  double seen = 1;
  double hidden = 0;
  double nearer_m = 0;
};

class RibbonPass {
public:
  static Outcome<RibbonPass> create();

  /// Onto the bound framebuffer, in the viewport at origin_px. ghost_depth may be null.
  void draw(const Frame& frame, const std::vector<Ribbon>& ribbons,
            const std::vector<Patch>& patches, const SceneBuffers& scene,
            const GlTexture* ghost_depth, const glm::ivec2& origin_px);

private:
  Program program_;
  GlVertexArray vertices_;
  GlBuffer data_;
};

} // namespace lugline
