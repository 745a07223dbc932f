// What every band has, however it is wrapped. Lengths metres.
#pragma once

#include "scene/recipe/recipe.h"

namespace lugline {

/// A band's solid in each of its stated states.
struct BandSolids {
  Solid spread; ///< sprung open, on its pins
  Solid relaxed;
  Solid leaning; ///< fallen on the side away from its anchor
};

/// Lies as it does relaxed, is drawn so, and has its width as a figure.
void make_band_of(BandSolids solids, double width_m, const MeshOptions& options, MadePart& part);

} // namespace lugline
