// Typing what the micrometer shows: a field for each plate of a pack.
//
// The field's text is the caller's draft; every key comes back as a wish. The
// unit stands beside the figure, whether it was typed or not.
#pragma once

#include "viewer/panels/style.h"
#include "viewer/panels/wish.h"
#include "viewer/stage/measuring.h"

#include <string>
#include <vector>

namespace lugline {

/// The figure being typed, owned by the app's state.
struct MeasuringDraft {
  std::string part; ///< empty: none
  std::string text;
  std::string problem; ///< why it gives no figure; empty where it does
};

/// sheets: the pack at hand first.
Wishes measuring_panel(const std::vector<MeasuringSheet>& sheets, const MeasuringDraft& draft,
                       LengthUnit unit, const PanelArea& area, const PanelStyle& style);

} // namespace lugline
