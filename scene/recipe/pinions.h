// The pinions of a planetary carrier: where they stand, how they are drawn, and what
// of them a coaxial drop meets.
//
// Each pinion turns on its own pin. In the drop it is bounded by sector rings about
// the common axis: in the sun's zone (up to the sun's tip) and in the ring's (from the
// ring's tip on) by its real teeth, band by band and never beyond their true flanks;
// between the two by its tip circle. Its teeth are turned so that the carrier, as
// drawn, meshes with a sun that has the middle of a tooth at the first pinion, and with
// a ring that has the middle of a space there (of a tooth, where the pinions' count of
// teeth is even). A pinion turns freely, so what fits there fits at every pitch of the
// sun, and of the ring, alike. Lengths metres, angles radians.
#pragma once

#include "scene/mesh/mesh.h"
#include "scene/recipe/involute.h"
#include "scene/recipe/recipe.h"

#include <string>
#include <vector>

namespace lugline {

struct Pinions {
  Planets planets;
  Gear gear; ///< a pinion
  Gear sun;  ///< as the basic rack makes it
  Gear ring;
  double circle_m = 0; ///< diameter on which the pins stand
  double first_rad = 0;
  double low_m = 0; ///< of a pinion's faces
  double high_m = 0;
  double space_low_m = 0; ///< between the carrier's faces
  double space_high_m = 0;
  double washer_m = 0; ///< thickness; 0: none
  double washer_outside_m = 0;
  double pin_m = 0; ///< diameter
  double pin_low_m = 0;
  double pin_high_m = 0;
  std::string feature;

  [[nodiscard]] double at_rad(int pinion) const;
};

/// What the drop meets.
std::vector<SectorRing> pinion_rings(const Pinions& pinions);
/// The pins' holes, as regions to cut out of what is drawn.
std::vector<SectorRing> pin_holes(const Pinions& pinions);
/// Pinions, washers and pins, closed bodies each.
Mesh pinion_mesh(const Pinions& pinions, const std::string& material, const MeshOptions& options);

} // namespace lugline
