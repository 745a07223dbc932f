// Cut faces on the GPU, made on the CPU once for each mesh, pose and cut.
//
// Keyed by mesh, pose, stretch and the half plane's angle; an entry not asked
// for during two frames is dropped. Owns its OpenGL names and must die with its
// context current.
#pragma once

#include "viewer/draw/gl.h"
#include "viewer/draw/section.h"

#include <array>
#include <map>
#include <memory>

namespace lugline {

struct StoredCap {
  GlVertexArray vertices;
  GlBuffer data;
  GLsizei vertex_count = 0;
  double middle_r_m = 0; ///< of its bounds, in the half plane
  double middle_z_m = 0;
  bool closed = true;
  double lining_m = 0; ///< how thick its linings are cut; 0 where it has none
  std::weak_ptr<const Mesh> source;
  int last_frame = 0;
};

class CapStore {
public:
  void begin_frame() { ++frame_; }
  const StoredCap& at(const PictureItem& item, double angle_rad, KeptSide kept);
  void sweep();
  [[nodiscard]] std::size_t size() const { return stored_.size(); }

private:
  /// Mesh address, pose (5), stretch (4, the first tells whether there is one), angle, side.
  using Key = std::pair<const Mesh*, std::array<double, 11>>;
  std::map<Key, StoredCap> stored_;
  int frame_ = 0;
};

} // namespace lugline
