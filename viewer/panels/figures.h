// The choices of a view of figures, beside its sheet: which pack, which range, which element, what
// torque, what pressure, the watch.
//
// All that is shown is given; each press and each key typed comes back as a wish.
#pragma once

#include "viewer/panels/style.h"
#include "viewer/panels/wish.h"
#include "viewer/stage/figures.h"

namespace lugline {

Wishes figures_panel(const FiguresPage& page, const FiguresChoice& choice, const PanelArea& area,
                     const PanelStyle& style);

} // namespace lugline
