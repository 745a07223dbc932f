// What hides the part in hand: how much of it, and who.
//
// Lines of sight from places spread evenly over the part's surface, towards the eye, against the
// other parts' sector rings, without what the cut takes out of them. The same picture gives the
// same answer. Whole parts are seen through, never pieces of them, so that nothing has to be
// sorted; and a part that was seen through stays so a little longer than it takes to become so,
// so that nothing flickers while the eye or the part moves. Metres; nothing here fails.
#pragma once

#include "scene/mesh/mesh.h"
#include "scene/part/solid.h"
#include "viewer/stage/picture.h"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace lugline {

/// When parts are seen through.
enum class SeeThrough {
  off,
  automatic, ///< where more than half of the part in hand is covered
  always     ///< whatever covers some of it
};

/// A part that may stand before the one in hand.
struct Cover {
  std::string id;
  const Solid* solid = nullptr; ///< as it lies: already turned over
  double height_m = 0;
  double turn_rad = 0;
  double aside_m = 0;
  bool cut = false;
};

struct CoverShares {
  double covered = 0;         ///< of the faces of the part in hand that look at the eye
  std::vector<double> shares; ///< of each cover, in their order; what two hide counts for both
};

/// Places on a mesh's surface, evenly by area; the first few are as even as all of them.
class SurfacePlaces {
public:
  struct Place {
    Vec3 point_m;
    Vec3 normal;
  };
  const std::vector<Place>& of(const std::shared_ptr<const Mesh>& mesh);

private:
  struct Made {
    std::shared_ptr<const Mesh> source; ///< kept, so that its address stays its own
    std::vector<Place> places;
  };
  std::map<const Mesh*, Made> made_;
};

/// Where the eye of a camera is.
Vec3 eye_of(const Camera& camera);

CoverShares cover_of_hand(const Picture& picture, const std::vector<Cover>& covers,
                          SurfacePlaces& places);

/// Who is seen through now, rising by name, given who was before.
std::vector<std::string> seen_through(const CoverShares& shares, const std::vector<Cover>& covers,
                                      SeeThrough when, const std::vector<std::string>& before);

} // namespace lugline
