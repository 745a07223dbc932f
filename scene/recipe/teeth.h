// One set of teeth round a body: [[part.teeth]] of turned parts.
//
//   form = "plain" (where none is named)
//     root, tip, from, to, teeth, tooth_width, [first_tooth_at, name, fits]
//     Radial flanks, as wide as the angle says.
//   form = "involute"
//     in ("shaft", "bore"), module or diametral_pitch, teeth, from, to, [pressure_angle
//     (20 deg), profile_shift (0), thinning, tip, root, first_tooth_at, name, fits]
//     A gear of the basic rack; tip and root are its own where none is written.
//   form = "spline"
//     in, module or diametral_pitch, teeth, from, to, [pressure_angle (30 deg, 37.5 deg,
//     45 deg), root_form ("flat", "fillet"), thinning, tip, root, …]
//     Side fit: by ISO 4156 where it has a module, by ANSI B92.1 where it has a pitch.
//
// in = "shaft" stands outward on a shaft, "bore" inward in a bore. thinning is the arc
// taken off each tooth at the pitch circle, for backlash or for a fit. A tooth (of teeth
// in a bore too) stands at first_tooth_at, 12 o'clock where none is written. Root radii
// are left out. Lengths metres, angles radians; tip and root are diameters.
#pragma once

#include "scene/recipe/figure_reader.h"
#include "scene/recipe/involute.h"
#include "scene/recipe/recipe.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

struct Teeth {
  std::vector<SectorRing> rings;
  Key key; ///< the first tooth
};

/// Reads all of the table and finishes it. Empty where it cannot be: a complaint tells.
std::optional<Teeth> read_teeth(FigureReader& t, const MeshOptions& options);

/// Reads `module` or `diametral_pitch`, of which one must stand there: the module.
double read_module(FigureReader& t);
/// Complains where gear_problem does.
bool check_gear(FigureReader& t, const Gear& gear);

} // namespace lugline
