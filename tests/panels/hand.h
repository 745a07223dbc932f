// A hand and an eye for panels with no window: moves the mouse, presses keys,
// and runs frames of Dear ImGui with nothing to draw on.
#pragma once

#include "viewer/panels/style.h"
#include "viewer/panels/wish.h"

#include <imgui.h>

#include <functional>
#include <string>

namespace lugline::test {

class Hand {
public:
  explicit Hand(float scale = 1, float width = 460, float height = 640);
  ~Hand();
  Hand(const Hand&) = delete;
  Hand& operator=(const Hand&) = delete;

  using Panel = std::function<Wishes()>;

  /// One frame; what the panel returned.
  Wishes frame(const Panel& panel);
  /// Frames until nothing new comes, then a press and a letting go at that place.
  Wishes click(ImVec2 at, const Panel& panel);
  Wishes press_key(ImGuiKey key, const Panel& panel);
  Wishes type(const std::string& text, const Panel& panel);

  /// Goes over the window in a grid until a press gives a wish that `wanted` takes.
  /// Nothing where there is none.
  template <class W>
  std::vector<W> all_by_clicking(const Panel& panel, float every = 12);

  [[nodiscard]] const PanelStyle& style() const { return style_; }
  [[nodiscard]] PanelArea area() const { return {0, 0, width_, height_}; }

private:
  PanelStyle style_;
  float width_;
  float height_;
  ImGuiContext* context_ = nullptr;
};

template <class W>
std::vector<W> Hand::all_by_clicking(const Panel& panel, float every) {
  std::vector<W> found;
  for (float y = every / 2; y < height_; y += every) {
    for (float x = every / 2; x < width_; x += every) {
      for (const Wish& wish : click({x, y}, panel)) {
        if (const W* one = std::get_if<W>(&wish)) {
          found.push_back(*one);
        }
      }
    }
  }
  return found;
}

} // namespace lugline::test
