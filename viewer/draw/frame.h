// One frame's worth of what the passes share, between a Picture and the GPU.
//
// Made by the renderer at the start of a frame and read by each pass. Lengths
// are metres, double, in the place's frame; pixels are of the finished picture
// unless a name says fine (the supersampled buffers). Pointers hold for the frame.
#pragma once

#include "viewer/draw/mesh_store.h"
#include "viewer/draw/renderer.h"
#include "viewer/draw/view.h"

#include <vector>

namespace lugline {

struct FrameItem {
  const PictureItem* item = nullptr;
  const StoredMesh* stored = nullptr;
  glm::dmat4 place{1};
  int id = 0;       ///< 1 up, in the surface buffer; 0 for what is thin
  bool cut = false; ///< the wedge is taken out of it
};

/// Drawn in thin ink alone: the wrong way, what was there, what is seen through.
inline bool thin(const PictureItem& item) {
  return item.role == Role::ghost || item.outline;
}

/// Where on screen anything solid can be, in pixels from the lower left.
struct TouchedArea {
  int left = 0;
  int low = 0;
  int right = 0;
  int high = 0;

  [[nodiscard]] bool empty() const { return right <= left || high <= low; }
  /// Keeps the next draws to it, in a buffer with so many fine pixels to one.
  void scissor(int fine, const glm::ivec2& origin_px = glm::ivec2(0)) const;
};

struct Frame {
  const Picture* picture = nullptr;
  DrawOptions options;
  View view;
  int fine = 2;                 ///< fine pixels along one pixel
  std::vector<FrameItem> items; ///< those in hand first
  int in_hand_count = 0;        ///< ids 1 to this are in hand
  int emphasised_id = 0;        ///< what the mouse is over; 0 none
  int arrow_id = 0;             ///< the up arrow's id; 0 none
  TouchedArea touched;

  [[nodiscard]] int fine_width() const { return view.width_px * fine; }
  [[nodiscard]] int fine_height() const { return view.height_px * fine; }
};

/// The surface buffer holds, in a pixel's last two bytes, id * 32 + cap * 16 + look.
inline constexpr int most_ids = 2047;
inline constexpr int code_step = 32;
inline constexpr int cap_bit = 16;

/// The buffers that the solid pass fills.
struct SceneBuffers {
  GlFramebuffer framebuffer;
  GlTexture colour;  ///< shaded, premultiplied; alpha is whether anything is there
  GlTexture surface; ///< normal (2 bytes), id and look (2 bytes)
  GlTexture depth;
  int width = 0;
  int height = 0;
};

/// A wedge as two half planes, for a shader: xy is the normal of each.
struct WedgePlanes {
  glm::vec4 planes{0}; ///< from's normal, to's normal; counter-clockwise is positive
  int kind = 0;        ///< 0 none, 1 where both hold, 2 where either holds
};
WedgePlanes wedge_of(const Cut& cut);
/// Whether a point is in the wedge that is taken out.
bool in_wedge(const Cut& cut, const glm::dvec3& point_m);

} // namespace lugline
