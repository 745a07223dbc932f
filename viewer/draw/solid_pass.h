// The first pass: parts and cut faces into colour, normal, depth and id.
//
// Drawn at the fine size, a draw call or two for each part and two for
// its cut faces. Owns its programs and buffers; the meshes and caps belong to the
// stores. See frame.h for what the buffers hold.
#pragma once

#include "viewer/draw/cap_pass.h"
#include "viewer/draw/detail.h"
#include "viewer/draw/frame.h"
#include "viewer/draw/gl.h"

#include <map>

namespace lugline {

class SolidPass {
public:
  static Outcome<SolidPass> create();

  /// Fills the buffers for the frame; unclosed gets the ids of items whose mesh
  /// is open where the cut passes.
  void draw(const Frame& frame, CapStore& caps, DetailStore& details,
            std::vector<std::string>& unclosed);
  /// The depth of some items alone, for their hidden lines.
  void draw_ghost_depth(const Frame& frame, bool (*of)(const PictureItem&));

  [[nodiscard]] const SceneBuffers& buffers() const { return buffers_; }
  [[nodiscard]] const GlTexture& ghost_depth() const { return ghost_depth_; }

private:
  /// What a part asks of its shader: one program for each mixture, so that a
  /// plain part pays for nothing else.
  enum Needs { cut_need = 1, keyed_need = 2, woven_need = 4 };
  static Outcome<Program> link(int needs);
  Program& program(int needs);

  void fit(const Frame& frame);
  void draw_items(const Frame& frame, DetailStore& details);
  void set_up(const Frame& frame, const FrameItem& item, int needs, double weave_m);
  void draw_arrow(const Frame& frame);

  std::map<int, Program> programs_; ///< by needs
  Program depth_only_;
  CapPass cap_pass_;
  SceneBuffers buffers_;
  GlFramebuffer ghost_framebuffer_;
  GlTexture ghost_depth_;
  int ghost_width_ = 0;
  int ghost_height_ = 0;
  std::shared_ptr<const Mesh> arrow_mesh_;
  MeshStore arrow_store_;
};

} // namespace lugline
