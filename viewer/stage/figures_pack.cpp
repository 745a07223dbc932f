// The pack's working, and end play's.
#include "viewer/stage/figures_parts.h"

#include <algorithm>

namespace lugline::figures {

void fill_pack(FiguresPage& page, const Stage& stage, const ViewState& view) {
  (void)view;
  page.view = "The pack's working";
  page.choose = "pack";
  if (stage.unit().packs.empty()) {
    page.report = refused_report("The pack's working", "This unit has no packs.");
  }
}

void fill_play(FiguresPage& page, const Stage& stage, const ViewState& view) {
  (void)view;
  page.view = "End play's working";
  page.choose = "play";
  if (stage.unit().plays.empty()) {
    page.report = refused_report("End play's working", "This unit states no play.");
  }
}

} // namespace lugline::figures
