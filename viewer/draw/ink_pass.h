// Ink and paper: finds edges in the buffers, then puts the picture together.
//
// Edges are marked between fine pixels, those crossed sideways and those
// crossed upward apart, and then widened with a soft round brush: the length of
// the two is the same whichever way the edge runs, so lines are even. Marks are
// strong (another part, a jump in depth, a cut face) or light (the surface
// turns, another material). Owns its programs and textures.
#pragma once

#include "viewer/draw/frame.h"
#include "viewer/draw/gl.h"

#include <map>

namespace lugline {

class InkPass {
public:
  static Outcome<InkPass> create();

  void mark_edges(const Frame& frame, const SceneBuffers& scene, const GlVertexArray& empty);
  [[nodiscard]] const GlTexture& marks() const { return marks_; }
  /// Onto the framebuffer that is bound, in the viewport that is set. open may be
  /// null: no crevice shading.
  void compose(const Frame& frame, const SceneBuffers& scene, const GlTexture* open,
               const glm::ivec2& origin_px, const GlVertexArray& empty);

private:
  static void set_paper(Program& program, const Frame& frame, const glm::ivec2& origin_px);
  Program& composer(std::size_t taps);

  Program edges_;
  Program bare_;
  std::map<std::size_t, Program> compose_; ///< by how many taps the brush has
  GlTexture marks_;
  GlTexture all_open_;
  GlFramebuffer framebuffer_;
  int width_ = 0;
  int height_ = 0;
};

} // namespace lugline
