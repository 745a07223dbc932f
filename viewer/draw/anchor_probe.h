// Asks the depth buffer which anchors can be seen.
//
// One small draw and one read back of a few pixels, so a frame without anchors
// pays nothing. Owns its program and target.
#pragma once

#include "viewer/draw/frame.h"
#include "viewer/draw/gl.h"
#include "viewer/draw/marks.h"

#include <vector>

namespace lugline {

class AnchorProbe {
public:
  static Outcome<AnchorProbe> create();

  /// Sets visible in each anchor that is on screen and before everything else.
  void judge(const Frame& frame, const SceneBuffers& scene, const GlVertexArray& empty,
             std::vector<PlacedAnchor>& anchors);

private:
  Program program_;
  GlTexture texture_;
  GlFramebuffer framebuffer_;
};

} // namespace lugline
