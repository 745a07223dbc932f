// Inter for the panels, through Dear ImGui's FreeType builder.
#pragma once

#include "scene/quantity/outcome.h"
#include "viewer/panels/style.h"

namespace lugline {

/// Builds the current Dear ImGui context's atlas anew at `px` times the usual
/// sizes; coordinates_per_px is what one of its pixels is worth on screen. The
/// caller renews the texture. Fails where the font is not installed.
Outcome<PanelFonts> build_panel_fonts(double px, double coordinates_per_px);

} // namespace lugline
