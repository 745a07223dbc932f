// Parts that stand off the unit's axis, crosswise to it: servo pistons and pins.
//
// Such a part is drawn upright about an axis of its own, and then laid down:
//   from_axis, at, height, [aside]
// Its own axis then points outward, level, at the angle `at` and at that height;
// `from_axis` from the unit's axis along it stands its own zero, and `aside` is how
// far it passes the unit's axis, positive counter-clockwise. Where from_axis is not
// written the part stands upright. Lengths metres, angles radians.
#pragma once

#include "scene/mesh/mesh.h"
#include "scene/part/solid.h"
#include "scene/recipe/figure_reader.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

struct Aside {
  double from_axis_m = 0;
  double at_rad = 0;
  double height_m = 0;
  double aside_m = 0;

  [[nodiscard]] Placement placement() const;
};

std::optional<Aside> read_aside(FigureReader& f);

/// A round body about the part's own axis, between two of its own heights. Its bore
/// (0: none) is there for what goes through it.
struct AsideBody {
  double low_m = 0;
  double high_m = 0;
  double diameter_m = 0;
  double bore_m = 0;
  std::string feature;
};

/// The sectors that hold such a body: a square bar about it, with a square channel as
/// wide as its bore. It must not reach back past the unit's axis (asserted).
std::vector<SectorRing> held_aside(const Aside& aside, const AsideBody& body);
/// Empty, or why it cannot be held.
std::string aside_problem(const Aside& aside, const AsideBody& body);

/// Sectors that hold a mesh beside the axis, about the angle at_rad: one for each
/// step of radius, each over all of the mesh's height.
std::vector<SectorRing> holding_sectors(const Mesh& mesh, double at_rad,
                                        const std::string& feature);

} // namespace lugline
