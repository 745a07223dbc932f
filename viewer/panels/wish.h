// What a person wants: a key, a button, a figure typed. Small plain values.
//
// Panels and the keyboard return wishes; one function (viewer/app/reduce.h)
// turns a state and a wish into the next state. Lengths metres, angles radians,
// seconds. Nothing here can fail.
#pragma once

#include "scene/quantity/quantity.h"
#include "viewer/stage/figures_choice.h"

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace lugline {

/// What lies over the words at the left; one at a time.
/// Beside a view of figures the picture gives way to its sheet.
enum class PanelKind { none, steps, measuring, settings, keys, faults, pack, play, train, air };
/// The view of figures that a panel belongs to; none where it is none.
std::optional<FiguresKind> figures_of(PanelKind panel);
PanelKind panel_of(FiguresKind kind);

namespace wish {

/// The part in hand goes in; where it is in, the next step is brought.
struct GoOn {};
struct GoBack {};
/// The step from its beginning.
struct ShowAgain {};
/// To the end of what moves.
struct SkipMotion {};
struct GoTo {
  std::size_t step = 0;
};

struct TurnOver {};
struct Turn {
  double by_rad = 0; ///< counter-clockwise seen from above
};
/// Taken up again after it was let go.
struct Lift {};
/// Let go; taken up again where it lies let go already.
struct LetGo {};
/// With the mouse: picked up, so that the wheel turns it, or put back.
struct PickUp {};

struct Undo {};

/// Shows a panel; the one that shows already is left.
struct Show {
  PanelKind panel = PanelKind::none;
};
struct Leave {};

struct SwapLengthUnit {};
struct SetLengthUnit {
  LengthUnit unit = LengthUnit::millimetre;
};
struct SetScale {
  double scale = 1;
};
/// To the next larger (1) or smaller (-1) scale.
struct ChangeScale {
  int by = 1;
};
struct SetMotion {
  bool on = true;
};
struct SetCut {
  bool on = true;
};
struct SwapCut {};
/// The hidden edges of the part in hand, dashed, or not.
struct SwapHiddenEdges {};
/// What hides the part in hand in outline: from whenever it hides much, to always, to never.
struct NextSeeThrough {};
struct SetPrintLook {
  bool on = false;
};
struct Explode {
  double apart = 0; ///< 0 together, 1 apart
};
/// Apart, or together where it is apart.
struct SwapApart {};

struct LookRound {
  double turn_rad = 0;
  double rise_rad = 0;
};
struct Zoom {
  double factor = 1;
};
struct Pan {
  double x_m = 0;
  double y_m = 0;
};
/// The step's own view again.
struct OwnViewAgain {};

/// The text in a plate's field, as it stands after each key.
struct Type {
  std::string part;
  std::string text;
};
/// The field is left: the next key in it begins a new reading.
struct LeaveField {};
/// A selective of that thickness is taken.
struct Choose {
  std::string part;
  double thickness_m = 0;
};
struct Withdraw {
  std::string part;
};

/// In a view of figures: that pack, play, range or element. A range chosen again puts its own
/// elements on.
struct ChooseFigures {
  FiguresKind kind = FiguresKind::pack;
  std::string id;
};
/// The nth from 0 of what the open view offers.
struct ChooseNth {
  std::size_t nth = 0;
};
/// Gear train: an element on or off by hand.
struct SwitchElement {
  std::string id;
};
struct SwitchNth {
  std::size_t nth = 0;
};
/// Gear train: the engine drives, or the output drives it.
struct SwapCoasting {};
/// Gear train and air check: the working in place of the picture, and back.
struct SwapWorking {};
/// The text in the open view's field: torque at the input, pressure of the air.
struct TypeFigure {
  FiguresKind kind = FiguresKind::train;
  std::string text;
};
/// The air check's watch: starts, or stops where it is.
struct StartStop {};
struct ZeroWatch {};

struct TryAgain {};    ///< read the unit's folder again
struct SavePicture {}; ///< the window as it is, to a file
struct Close {};
struct PassTime {
  double seconds = 0;
  std::optional<double> watch_s = {}; ///< what a watch sees, where motion is slowed; none: the same
};

} // namespace wish

using Wish =
    std::variant<wish::GoOn, wish::GoBack, wish::ShowAgain, wish::SkipMotion, wish::GoTo,
                 wish::TurnOver, wish::Turn, wish::Lift, wish::LetGo, wish::PickUp, wish::Undo,
                 wish::Show, wish::Leave, wish::SwapLengthUnit, wish::SetLengthUnit, wish::SetScale,
                 wish::ChangeScale, wish::SetMotion, wish::SetCut, wish::SwapCut,
                 wish::SwapHiddenEdges, wish::NextSeeThrough, wish::SetPrintLook, wish::Explode,
                 wish::SwapApart, wish::LookRound, wish::Zoom, wish::Pan, wish::OwnViewAgain,
                 wish::Type, wish::LeaveField, wish::Choose, wish::Withdraw, wish::ChooseFigures,
                 wish::ChooseNth, wish::SwitchElement, wish::SwitchNth, wish::SwapCoasting,
                 wish::SwapWorking, wish::TypeFigure, wish::StartStop, wish::ZeroWatch,
                 wish::TryAgain, wish::SavePicture, wish::Close, wish::PassTime>;
using Wishes = std::vector<Wish>;

/// The scales that can be had, rising: 1.0 to 2.5.
std::vector<double> scales();

} // namespace lugline
