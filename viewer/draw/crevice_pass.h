// Soft dark where surfaces close in on each other, from depth and normals.
//
// Reads the solid pass's buffers and the edge marks, works at the finished
// picture's size (a quarter of the fine pixels), and leaves openness in the red
// of result(), 1 in the open, and in its alpha how crowded the marks are there.
// Owns its programs and textures.
#pragma once

#include "viewer/draw/frame.h"
#include "viewer/draw/gl.h"

namespace lugline {

class CrevicePass {
public:
  static Outcome<CrevicePass> create();

  void draw(const Frame& frame, const SceneBuffers& scene, const GlTexture& marks,
            const GlVertexArray& empty);
  [[nodiscard]] const GlTexture& result() const { return textures_[0]; }

private:
  void fit(const Frame& frame);

  Program gather_;
  Program soften_;
  GlTexture textures_[2];
  GlFramebuffer framebuffers_[2];
  int width_ = 0;
  int height_ = 0;
};

} // namespace lugline
