// The page: everything that stands around the 3D picture, laid out and drawn
// flat. One page for the window and for files.
//
// The sentence that says what to do, how one knows that it is right, the
// caution, where the part stands; the gap column; the parts that wait; the
// rule of steps. lay_out() says where the picture goes, draw_page() what is
// drawn about it. Pure functions: the same page in, the same drawing out. Sizes
// of the page are pixels of the picture; everything else is pixels at scale 1,
// as in sheet2d.h. Nothing here fails: where room is short, first the type of
// the words grows smaller, then the column and the tray fold.
#pragma once

#include "viewer/stage/flat.h"
#include "viewer/stage/stage.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// A part that waits, as it is drawn: seen from the side and a little from above.
struct TrayPart {
  std::string words;
  double outer_m = 0;
  double inner_m = 0; ///< 0: no hole
  double height_m = 0;
  std::string material;
  bool next = false;
};
/// The waiting parts with the holes that their components have.
std::vector<TrayPart> tray_of(const Unit& unit, const std::vector<Waiting>& waiting);

enum class AnchorSort { key, up_arrow, label, turn_arc };

/// Where in the picture words belong: pixels at scale 1 from the page's corner.
struct PageAnchor {
  AnchorSort sort = AnchorSort::label;
  std::string words;
  int number = 0; ///< the pair, for a key
  Colour colour;  ///< the pair's
  PointPx at;
  bool visible = true; ///< nothing stands before it
};

/// A line told beneath the words: where a picture was saved, why a log is not kept.
struct PageNote {
  std::string words;
  bool wrong = false;
};

struct PageInput {
  double width_px = 1366;
  double height_px = 768;
  double scale = 1; ///< of everything
  Words words;
  std::optional<Column> column;
  std::vector<RuleTick> rule;
  std::vector<TrayPart> tray;
  std::vector<PageNote> notes;
  std::size_t step = 0;
  double moment = 0;
  LengthUnit unit = LengthUnit::millimetre;
  std::string hint;           ///< what can be done with the part now; may be empty
  double foot_buttons_px = 0; ///< width kept free at the foot's right, at scale 1
  bool covered = false;       ///< a panel lies over the words: they are not drawn
  bool slider = false;        ///< room is kept beneath the picture for the slider
  bool print_look = false;
};

enum class PageForm {
  wide,   ///< words, picture, column and tray side by side
  narrow, ///< the column without its labels
  folded  ///< words and picture; the column a line beneath the words
};

struct PageLayout {
  PageForm form = PageForm::wide;
  double scale = 1;    ///< pixels of the picture for one of these
  double width_px = 0; ///< of the page, at scale 1, as all that follows
  double height_px = 0;
  Box words;
  Box picture;
  Box column; ///< empty where folded, or where there is none
  Box tray;
  Box slider;
  Box rule;
  Box label;   ///< who decides
  Box buttons; ///< at the foot

  /// The step whose tick is nearest to a place on the rule.
  [[nodiscard]] std::optional<std::size_t> step_at(PointPx point, std::size_t steps) const;
};

/// What the stage says for a view, on a page of that size; hint, notes, buttons
/// and panels are the window's to add.
PageInput page_of(const Stage& stage, const ViewState& view, double width_px, double height_px,
                  double scale);

/// The scale that a page of that size is laid out at: as asked, and up to a
/// third more where the page is larger than a small laptop's.
double page_scale(double width_px, double height_px, double scale);

PageLayout lay_out(const PageInput& page);

/// The part in hand, where it is on the page: labels keep off it.
struct PageMarks {
  std::vector<PageAnchor> anchors;
  std::optional<Box> hand;
};

/// Everything but the picture itself; painted over it.
Drawing2d draw_page(const PageInput& page, const PageLayout& layout, const PageMarks& marks,
                    const TextRuler& ruler);

} // namespace lugline
