#include "viewer/app/keys.h"

#include <GLFW/glfw3.h>

#include <algorithm>
#include <numbers>

namespace lugline {

namespace {

constexpr double degree_rad = std::numbers::pi / 180;
constexpr int shift = GLFW_MOD_SHIFT;
constexpr int ctrl = GLFW_MOD_CONTROL;
constexpr int alt = GLFW_MOD_ALT;
constexpr double look_rad = 10 * degree_rad;
constexpr double nearer = 1.15;

using enum KeyReach;

std::vector<KeyBinding> step_keys() {
  return {
      {GLFW_KEY_PAGE_DOWN, 0, always, false, "Page Down",
       "goes on: the part goes in, then the next step is brought", "Steps", wish::GoOn{}},
      {GLFW_KEY_PAGE_UP, 0, always, false, "Page Up", "goes back", "", wish::GoBack{}},
      {GLFW_KEY_HOME, 0, not_typing, false, "Home", "shows the step again", "", wish::ShowAgain{}},
      {GLFW_KEY_END, 0, not_typing, false, "End", "skips to the end of what moves", "",
       wish::SkipMotion{}},
      {GLFW_KEY_L, 0, not_typing, false, "L", "lists the steps", "", wish::Show{PanelKind::steps}},
      {GLFW_KEY_Z, ctrl, not_typing, false, "Ctrl+Z", "undoes the last action", "", wish::Undo{}},
  };
}

std::vector<KeyBinding> hand_keys() {
  return {
      {GLFW_KEY_RIGHT, 0, bench, true, "Left, Right",
       "turn it by a degree; with Shift a tenth, with Ctrl ten", "The part in hand",
       wish::Turn{degree_rad}},
      {GLFW_KEY_LEFT, 0, bench, true, "Left", "", "", wish::Turn{-degree_rad}},
      {GLFW_KEY_RIGHT, shift, bench, true, "Shift+Right", "", "", wish::Turn{0.1 * degree_rad}},
      {GLFW_KEY_LEFT, shift, bench, true, "Shift+Left", "", "", wish::Turn{-0.1 * degree_rad}},
      {GLFW_KEY_RIGHT, ctrl, bench, true, "Ctrl+Right", "", "", wish::Turn{10 * degree_rad}},
      {GLFW_KEY_LEFT, ctrl, bench, true, "Ctrl+Left", "", "", wish::Turn{-10 * degree_rad}},
      {GLFW_KEY_U, 0, not_typing, false, "U", "turns it over", "", wish::TurnOver{}},
      {GLFW_KEY_SPACE, 0, bench, false, "Space", "lets it go as it is held, and takes it up again",
       "", wish::LetGo{}},
      {GLFW_KEY_UP, 0, bench, false, "Up", "takes it up again", "", wish::Lift{}},
  };
}

std::vector<KeyBinding> figure_keys() {
  return {
      {GLFW_KEY_M, 0, not_typing, false, "M", "measuring: type what the micrometer shows",
       "Figures", wish::Show{PanelKind::measuring}},
      {GLFW_KEY_I, 0, not_typing, false, "I", "inch or millimetre", "", wish::SwapLengthUnit{}},
  };
}

/// The digits, each for one of what a view offers.
void add_digits(std::vector<KeyBinding>& keys) {
  for (int digit = 1; digit <= 9; ++digit) {
    const auto nth = static_cast<std::size_t>(digit - 1);
    const bool first = digit == 1;
    keys.push_back({GLFW_KEY_0 + digit, 0, figures, false, first ? "1 to 9" : std::to_string(digit),
                    first ? "in a view of figures: that pack, play, range or element" : "", "",
                    wish::ChooseNth{nth}});
    keys.push_back({GLFW_KEY_0 + digit, shift, figures, false,
                    first ? "Shift+1 to 9" : "Shift+" + std::to_string(digit),
                    first ? "gear train: that element on or off" : "", "", wish::SwitchNth{nth}});
  }
}

std::vector<KeyBinding> sheet_keys() {
  std::vector<KeyBinding> keys = {
      {GLFW_KEY_P, 0, not_typing, false, "P", "the pack's working", "",
       wish::Show{PanelKind::pack}},
      {GLFW_KEY_E, 0, not_typing, false, "E", "end play's working", "",
       wish::Show{PanelKind::play}},
      {GLFW_KEY_G, 0, not_typing, false, "G", "the gear train", "", wish::Show{PanelKind::train}},
      {GLFW_KEY_A, 0, not_typing, false, "A", "the air check, with a watch", "",
       wish::Show{PanelKind::air}},
  };
  add_digits(keys);
  keys.push_back({GLFW_KEY_W, 0, figures, false, "W", "the working in place of the picture", "",
                  wish::SwapWorking{}});
  keys.push_back({GLFW_KEY_B, 0, figures, false, "B", "gear train: the engine drives, or brakes",
                  "", wish::SwapCoasting{}});
  keys.push_back({GLFW_KEY_T, 0, figures, false, "T", "air check: starts and stops the watch", "",
                  wish::StartStop{}});
  keys.push_back({GLFW_KEY_T, shift, figures, false, "Shift+T", "air check: the watch at nought",
                  "", wish::ZeroWatch{}});
  return keys;
}

std::vector<KeyBinding> view_keys() {
  return {
      {GLFW_KEY_C, 0, not_typing, false, "C", "cuts a quarter out, or shows the unit whole", "View",
       wish::SwapCut{}},
      {GLFW_KEY_H, 0, not_typing, false, "H", "dashes the hidden edges of the part in hand, or not",
       "", wish::SwapHiddenEdges{}},
      {GLFW_KEY_O, 0, not_typing, false, "O",
       "what hides the part: outlined if it hides much, always, never", "", wish::NextSeeThrough{}},
      {GLFW_KEY_X, 0, not_typing, false, "X", "pulls the unit apart, and together again", "",
       wish::SwapApart{}},
      {GLFW_KEY_RIGHT, alt, bench, true, "Alt+Left, Right", "look from further round", "",
       wish::LookRound{look_rad, 0}},
      {GLFW_KEY_LEFT, alt, bench, true, "Alt+Left", "", "", wish::LookRound{-look_rad, 0}},
      {GLFW_KEY_UP, alt, bench, true, "Alt+Up, Down", "look from higher or lower", "",
       wish::LookRound{0, look_rad}},
      {GLFW_KEY_DOWN, alt, bench, true, "Alt+Down", "", "", wish::LookRound{0, -look_rad}},
      {GLFW_KEY_PAGE_UP, alt, always, true, "Alt+Page Up, Page Down", "nearer, further off", "",
       wish::Zoom{nearer}},
      {GLFW_KEY_PAGE_DOWN, alt, always, true, "Alt+Page Down", "", "", wish::Zoom{1 / nearer}},
      {GLFW_KEY_V, 0, not_typing, false, "V", "the step's own view again", "",
       wish::OwnViewAgain{}},
  };
}

std::vector<KeyBinding> window_keys() {
  return {
      {GLFW_KEY_F1, 0, always, false, "F1", "lists the keys", "Window",
       wish::Show{PanelKind::keys}},
      {GLFW_KEY_F2, 0, always, false, "F2", "settings", "", wish::Show{PanelKind::settings}},
      {GLFW_KEY_F12, 0, always, false, "F12", "saves what the window shows as a picture", "",
       wish::SavePicture{}},
      {GLFW_KEY_ESCAPE, 0, always, false, "Esc",
       "leaves a panel; else takes the part up as it came", "", wish::Leave{}},
      {GLFW_KEY_EQUAL, ctrl, always, true, "Ctrl +, Ctrl -", "everything larger, smaller", "",
       wish::ChangeScale{1}},
      {GLFW_KEY_EQUAL, ctrl | shift, always, true, "Ctrl +", "", "", wish::ChangeScale{1}},
      {GLFW_KEY_KP_ADD, ctrl, always, true, "Ctrl +", "", "", wish::ChangeScale{1}},
      {GLFW_KEY_RIGHT_BRACKET, ctrl, always, true, "Ctrl +", "", "", wish::ChangeScale{1}},
      {GLFW_KEY_MINUS, ctrl, always, true, "Ctrl -", "", "", wish::ChangeScale{-1}},
      {GLFW_KEY_SLASH, ctrl, always, true, "Ctrl -", "", "", wish::ChangeScale{-1}},
      {GLFW_KEY_KP_SUBTRACT, ctrl, always, true, "Ctrl -", "", "", wish::ChangeScale{-1}},
      {GLFW_KEY_R, 0, not_typing, false, "R", "reads the unit's files again", "", wish::TryAgain{}},
      {GLFW_KEY_Q, ctrl, always, false, "Ctrl+Q", "closes the window; nothing is lost", "",
       wish::Close{}},
  };
}

std::vector<KeyBinding> all_keys() {
  std::vector<KeyBinding> all;
  for (const auto& keys :
       {step_keys(), hand_keys(), figure_keys(), sheet_keys(), view_keys(), window_keys()}) {
    all.insert(all.end(), keys.begin(), keys.end());
  }
  return all;
}

bool means(const KeyBinding& binding, const KeyPress& press) {
  // A letter is what the keyboard's layout says, wherever its key lies.
  const bool letter_key = binding.key >= GLFW_KEY_A && binding.key <= GLFW_KEY_Z;
  const bool same = letter_key && press.letter != 0
                        ? press.letter == static_cast<char>('a' + binding.key - GLFW_KEY_A)
                        : press.key == binding.key;
  return same && (press.mods & (shift | ctrl | alt)) == binding.mods;
}

bool reaches(KeyReach reach, const KeySituation& situation) {
  return reach == always || (reach == not_typing && !situation.typing) ||
         (reach == bench && !situation.typing && !situation.panel_open) ||
         (reach == figures && !situation.typing && situation.figures);
}

} // namespace

const std::vector<KeyBinding>& key_bindings() {
  static const std::vector<KeyBinding> all = all_keys();
  return all;
}

std::optional<Wish> wish_for(const KeyPress& press, const KeySituation& situation) {
  for (const KeyBinding& binding : key_bindings()) {
    if (means(binding, press)) {
      const bool now = reaches(binding.reach, situation) && (!press.repeat || binding.repeats);
      return now ? std::optional(binding.wish) : std::nullopt;
    }
  }
  return std::nullopt;
}

std::vector<KeyLine> key_lines() {
  std::vector<KeyLine> lines;
  for (const KeyBinding& binding : key_bindings()) {
    if (!binding.words.empty()) {
      lines.push_back({binding.group, binding.name, binding.words});
    }
  }
  lines.push_back({"Mouse", "drag", "turns the view about the unit's axis, and raises the eye"});
  lines.push_back({"", "wheel", "nearer, further off; turns the part that is picked up"});
  lines.push_back({"", "middle drag", "moves the view"});
  lines.push_back({"", "press the part in hand", "picks it up, and puts it back"});
  lines.push_back({"", "press the rule", "goes to that step"});
  return lines;
}

} // namespace lugline
