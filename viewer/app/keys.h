// What each key does: one table, from which the keys act and the list of keys
// (F1) is written, so that the two cannot differ.
//
// Key numbers and modifiers are GLFW's. Nothing here fails.
#pragma once

#include "viewer/panels/keys.h"
#include "viewer/panels/wish.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// Where a key keeps its meaning.
enum class KeyReach {
  always,     ///< even while a figure is typed
  not_typing, ///< while a panel is open, but not in a field
  bench,      ///< only while no panel is open: panels need these themselves
  figures     ///< only in a view of figures, and not in its field
};

struct KeyBinding {
  int key = 0;
  int mods = 0; ///< exactly these of Shift, Ctrl and Alt
  KeyReach reach = KeyReach::always;
  bool repeats = false; ///< held down it goes on
  std::string name;     ///< "Page Down"
  std::string words;    ///< what it does, for the list; empty: not listed by itself
  std::string group;    ///< heading, where a group starts
  Wish wish;
};

const std::vector<KeyBinding>& key_bindings();

struct KeyPress {
  int key = 0;
  int mods = 0;
  bool repeat = false;
  char letter = 0; ///< what the keyboard's own layout writes on it, 'a' to 'z'; 0: no letter
};

struct KeySituation {
  bool typing = false; ///< in a field
  bool panel_open = false;
  bool figures = false; ///< the panel is a view of figures
};

/// Nothing where the key means nothing now.
std::optional<Wish> wish_for(const KeyPress& press, const KeySituation& situation);

/// The list for F1, the mouse's part included.
std::vector<KeyLine> key_lines();

} // namespace lugline
