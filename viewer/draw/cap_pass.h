// Cut faces into the scene's buffers: filled, hatched by material.
//
// Two draws for each part that is cut, one for each side of the wedge. Draws
// into the framebuffer that is bound, with depth test on. Owns its programs; the
// faces belong to the store.
#pragma once

#include "viewer/draw/cap_store.h"
#include "viewer/draw/frame.h"
#include "viewer/draw/gl.h"

#include <string>
#include <vector>

namespace lugline {

class CapPass {
public:
  static Outcome<CapPass> create();

  /// unclosed gets the ids of items whose mesh is open where the cut passes.
  void draw(const Frame& frame, CapStore& caps, std::vector<std::string>& unclosed);

private:
  struct Side;
  void draw_item(const Frame& frame, const FrameItem& item, const Side& side, const StoredCap& cap);

  Program plain_;
  Program keyed_;
};

} // namespace lugline
