// What the mouse means: turning the view, zooming, picking the part up, going
// to a step on the rule.
//
// Places are pixels of the framebuffer from its top left corner. Holds what is
// being dragged and nothing else; it never fails.
#pragma once

#include "viewer/panels/wish.h"
#include "viewer/stage/page.h"

namespace lugline {

/// What the mouse is over, as it is now.
struct PointerScene {
  PageLayout layout;
  std::size_t steps = 0;
  bool on_part_in_hand = false;
  bool picked_up = false;
  double m_per_px = 0; ///< at the depth that the eye looks at
};

enum class PointerButton { main, middle };

class Pointer {
public:
  Wishes press(PointerButton button, PointPx at, const PointerScene& scene);
  Wishes move(PointPx to, const PointerScene& scene);
  Wishes let_go(PointerButton button, PointPx at, const PointerScene& scene);
  /// steps: of the wheel, away from the user positive. fine, coarse: Shift, Ctrl.
  static Wishes wheel(double steps, bool fine, bool coarse, PointPx at, const PointerScene& scene);

  [[nodiscard]] bool dragging() const { return what_ == What::view || what_ == What::pan; }

private:
  enum class What { nothing, pressed, view, pan, rule };
  What what_ = What::nothing;
  PointPx pressed_at_;
  PointPx last_;
};

} // namespace lugline
