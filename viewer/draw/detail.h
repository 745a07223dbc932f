// Fewer triangles for the same part: coarser ones while things move, and none that the cut takes
// out.
//
// Levels are made by meshoptimizer, each within a stated distance of the mesh that it came from,
// over the mesh's own vertices. The cut sorts a level's triangles by where they are: those wholly
// taken out are not drawn, those wholly left need no shader that cuts, and only those that the
// cut's planes pass through do. Both are made once and kept while they are asked for. Making
// levels costs time, so that a frame makes only so many: until then the mesh itself is drawn.
// Owns its OpenGL names and must die with its context current. Metres.
#pragma once

#include "viewer/draw/frame.h"
#include "viewer/draw/gl.h"

#include <array>
#include <cstdint>
#include <map>
#include <memory>
#include <span>
#include <vector>

namespace lugline {

/// Triangles as threes of vertex indices.
struct DetailLevel {
  std::vector<std::uint32_t> indices;
  double error_m = 0; ///< farthest from the mesh
};

/// Coarser and coarser levels of a mesh, without the mesh itself; those that would save little
/// are left out.
std::vector<DetailLevel> levels_of(std::span<const glm::vec3> points_m,
                                   std::span<const std::uint32_t> indices);

/// Indices sorted by the cut: the first `whole` of them are of triangles wholly left standing, the
/// rest of those that a plane of the cut passes through.
struct SortedByCut {
  std::vector<std::uint32_t> indices;
  std::size_t whole = 0;
};
/// place_m: the points' x and y in the place's frame.
SortedByCut sorted_by_cut(std::span<const glm::dvec2> place_m,
                          std::span<const std::uint32_t> indices, const WedgePlanes& wedge);

/// What to draw of a part: its first `whole` indices without cutting, `rest` more with.
struct Detail {
  GLuint vertices = 0; ///< vertex array
  GLsizei whole = 0;
  GLsizei rest = 0;
};

class DetailStore {
public:
  void begin_frame();
  /// coarse: how far the triangles may be from the mesh; 0: the mesh itself.
  Detail at(const FrameItem& item, const Cut& cut, double coarse_m);
  void sweep();

private:
  struct Levels {
    std::weak_ptr<const Mesh> source;
    std::vector<DetailLevel> levels;
  };
  struct Stored {
    GlVertexArray vertices;
    GlBuffer index_data;
    GLsizei whole = 0;
    GLsizei rest = 0;
    std::weak_ptr<const Mesh> source;
    int last_frame = 0;
  };
  /// Mesh, level (0 the mesh itself), turn, turned over, aside, the cut's two angles.
  using Key = std::tuple<const Mesh*, std::size_t, std::array<double, 5>>;

  const Levels* levels_for(const FrameItem& item);
  std::size_t level_for(const FrameItem& item, double coarse_m);
  [[nodiscard]] const std::vector<std::uint32_t>&
  indices_of(const FrameItem& item, std::size_t level, std::vector<std::uint32_t>& room);

  std::map<const Mesh*, Levels> levels_;
  std::map<Key, Stored> stored_;
  std::size_t room_ = 0; ///< triangles that this frame may still make levels of
  int frame_ = 0;
};

} // namespace lugline
