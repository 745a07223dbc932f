// Everything about the window that can change, in one value, and what the
// reducer has to know of the unit to change it.
//
// The log stands in the state as it stands on disk, or will before the next
// frame: `actions`. Where the bench stands and what was read follow from it.
// Lengths metres, angles radians, seconds.
#pragma once

#include "scene/build/log.h"
#include "viewer/panels/wish.h"
#include "viewer/stage/figures.h"
#include "viewer/stage/stage.h"

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// What the reducer knows of a step.
struct StepFacts {
  std::string id;
  std::string part;     ///< what goes in; may be empty
  double seconds = 0;   ///< of its motion; 0: nothing moves
  bool in_hand = false; ///< something is in hand before it moves
  bool caution = false; ///< somebody can be hurt
};

struct Facts {
  std::vector<StepFacts> steps;
  /// Where the part in hand would come to rest as it is held; none where
  /// nothing stops it.
  std::function<std::optional<double>(const ViewState&)> rest_m;
  FiguresLists figures;
  std::map<std::string, std::vector<std::string>> on_in_range; ///< elements that a range applies
};
/// The stage must outlive what is returned.
Facts facts_of(const Stage& stage);

/// A figure being typed. While it is, each key replaces what the one before it
/// gave, so that undo takes the whole figure back and not its last digit.
struct Entry {
  std::string part; ///< empty: no figure is being typed
  std::string text;
  std::string problem; ///< why the text gives no figure; empty where it does
  bool logged = false; ///< the last action is this entry's
};

/// What the app has to do outside the state.
enum class Errand { try_again, save_picture, close };

struct AppState {
  ViewState view;
  bool playing = false;   ///< the step's motion runs towards its end
  bool falling = false;   ///< the part that was let go falls
  bool picked_up = false; ///< with the mouse: the wheel turns the part
  PanelKind panel = PanelKind::none;
  Entry entry;
  std::vector<Action> actions;
  std::vector<Errand> errands;
};

/// Something moves, so that time has to pass.
inline bool moves(const AppState& state) {
  return state.playing || state.falling || state.view.figures.watch_runs;
}
/// A part moves: the picture is drawn with less care for each frame.
inline bool part_moves(const AppState& state) {
  return state.playing || state.falling;
}

} // namespace lugline
