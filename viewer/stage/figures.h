// The views of figures: from what the unit says and what is chosen to a page that can be drawn.
//
// Every figure is worked out in scene/; here it is only asked for, worded, and given its place.
// Panels and the drawing lay out what stands in a FiguresPage and compute nothing. Whatever is
// missing (no gear train stated, no pack) is a sentence, never an empty page. SI.
#pragma once

#include "scene/quantity/report.h"
#include "viewer/stage/air_drawing.h"
#include "viewer/stage/figures_choice.h"
#include "viewer/stage/measuring.h"
#include "viewer/stage/page.h"
#include "viewer/stage/stage.h"
#include "viewer/stage/train_drawing.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// Something to choose: a pack, a range, an element.
struct FiguresOption {
  std::string id;
  std::string words;
  bool chosen = false;
};

struct FiguresPage {
  FiguresKind kind = FiguresKind::pack;
  std::string view;   ///< "The pack's working"
  std::string about;  ///< "Case clutch"
  std::string choose; ///< what the options are: "pack", "range"
  std::vector<FiguresOption> options;
  std::vector<FiguresOption> switches; ///< elements that can be put on; chosen: it is on
  bool by_hand = false;                ///< they are not as the range has them
  std::string asked;        ///< what the field is for: "torque at the input"; may be empty
  std::string asked_figure; ///< what is taken: "360 N m (266 lbf ft)"
  TypedFigure typed;
  CalculationReport report; ///< the main one
  std::optional<CalculationReport> second;
  std::optional<TrainPicture> train;
  std::optional<AirPicture> air;
  std::optional<Column> column;
  std::vector<MeasuringRow> selectives; ///< those that can be chosen here
  bool working = false;                 ///< the report in place of the picture
};

/// The ids that there are to choose from, in the unit's order.
struct FiguresLists {
  std::vector<std::string> packs;
  std::vector<std::string> plays;
  std::vector<std::string> ranges;
  std::vector<std::string> switches; ///< clutches and bands
  std::vector<std::string> air;      ///< elements with a piston
};
FiguresLists figures_lists(const Unit& unit);

FiguresPage figures_page(const Stage& stage, const ViewState& view, FiguresKind kind);

/// Where the sheet lies on the page: beside the panel, or with no panel as wide as the page.
Box figures_sheet(const PageLayout& layout, bool beside_panel);
/// The page of a view without what belongs to a step: only the rule and who decides are left.
PageInput without_step(PageInput page);

/// What of the page the mouse can press.
struct DrawnFigures {
  Drawing2d drawing;
  std::vector<DrawnTrain::Place> places; ///< elements of the gear train
};
DrawnFigures draw_figures(const FiguresPage& page, const Box& sheet, LengthUnit unit,
                          const TextRuler& ruler);

/// As a page of its own, for a file: the sheet, and who decides at its foot.
Drawing2d figures_alone(const FiguresPage& figures, const PageInput& page, const PageLayout& layout,
                        const TextRuler& ruler);

} // namespace lugline
