// What stays whole where the cut passes, after the practice of ISO 128-3: shafts, bolts, pins,
// balls, rollers and springs are not cut along their axis.
//
// Decided by what a part is, never by its id. A shaft stays whole if its axis runs in metal; one
// that is bored through, or ends in a cup, holds something inside or feeds oil, and is cut to
// show it. Of a part that consists of several bodies (a set of bolts, a bearing with its rollers)
// each body is looked at for itself: one that lies round the axis, a race or a cage, is cut; any
// other stands whole where its middle is left standing, and is gone where its middle is taken
// out, so that nothing hangs in the air. Metres, radians; nothing here fails.
#pragma once

#include "scene/part/component.h"
#include "viewer/stage/picture.h"

#include <map>
#include <memory>
#include <utility>
#include <vector>

namespace lugline {

enum class InCut {
  cut,
  whole,       ///< as one
  round_bodies ///< body by body, those round the axis being cut
};
InCut in_cut(const Component& part);

/// A part's mesh as the cut leaves it; either may be null.
struct CutShares {
  std::shared_ptr<const Mesh> cut;   ///< what is to be cut
  std::shared_ptr<const Mesh> whole; ///< what stands whole
};

/// Sorts meshes body by body, and keeps what it made: the same bodies standing, the same mesh.
class BodySorter {
public:
  CutShares shares(const std::shared_ptr<const Mesh>& mesh, const Pose& pose, const Cut& cut);

private:
  struct Body {
    Vec3 low_m;
    Vec3 high_m;
    std::vector<std::uint32_t> triangles;
    bool round = false; ///< lies round the part's axis
  };
  struct Sorted {
    std::shared_ptr<const Mesh> source; ///< kept, so that its address stays its own
    std::vector<Body> bodies;
    std::shared_ptr<const Mesh> cut;
    std::map<std::vector<bool>, std::shared_ptr<const Mesh>> whole; ///< by which bodies stand
  };
  static Sorted sorted(const std::shared_ptr<const Mesh>& mesh);

  std::map<const Mesh*, Sorted> sorted_;
};

/// Where a point of a part is in its place.
Vec3 placed_point(const Pose& pose, const Vec3& point_m);
/// How deep a point is inside the wedge that is taken out; below 0 outside it.
double depth_in_wedge_m(const Cut& cut, const Vec3& point_m);

} // namespace lugline
