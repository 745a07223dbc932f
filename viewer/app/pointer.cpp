#include "viewer/app/pointer.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double slack_px = 4; ///< a press that moves no further is a press
constexpr double zoom_step = 1.12;
constexpr double degree_rad = std::numbers::pi / 180;

PointPx on_page(PointPx at, const PageLayout& layout) {
  return {at.x_px / layout.scale, at.y_px / layout.scale};
}

} // namespace

Wishes Pointer::press(PointerButton button, PointPx at, const PointerScene& scene) {
  pressed_at_ = last_ = at;
  const PointPx page = on_page(at, scene.layout);
  if (button == PointerButton::main) {
    if (const auto step = scene.layout.step_at(page, scene.steps)) {
      what_ = What::rule;
      return {wish::GoTo{*step}};
    }
  }
  if (!scene.layout.picture.holds(page)) {
    return {};
  }
  what_ = button == PointerButton::main ? What::pressed : What::pan;
  return {};
}

Wishes Pointer::move(PointPx to, const PointerScene& scene) {
  const double dx = to.x_px - last_.x_px;
  const double dy = to.y_px - last_.y_px;
  if (what_ == What::pressed && std::hypot(to.x_px - pressed_at_.x_px, to.y_px - pressed_at_.y_px) >
                                    slack_px * scene.layout.scale) {
    what_ = What::view;
  }
  if (what_ == What::nothing || what_ == What::pressed || what_ == What::rule) {
    return {};
  }
  last_ = to;
  if (what_ == What::pan) {
    return {wish::Pan{-dx * scene.m_per_px, dy * scene.m_per_px}};
  }
  // Half a turn across the picture; what is nearest follows the mouse.
  const double across = std::max(scene.layout.picture.width_px * scene.layout.scale, 1.0);
  return {wish::LookRound{-dx / across * std::numbers::pi, dy / across * std::numbers::pi}};
}

Wishes Pointer::let_go(PointerButton button, PointPx, const PointerScene& scene) {
  const bool was_pressed = what_ == What::pressed && button == PointerButton::main;
  what_ = What::nothing;
  return was_pressed && scene.on_part_in_hand ? Wishes{wish::PickUp{}} : Wishes{};
}

Wishes Pointer::wheel(double steps, bool fine, bool coarse, PointPx at, const PointerScene& scene) {
  if (!scene.layout.picture.holds(on_page(at, scene.layout))) {
    return {};
  }
  if (scene.picked_up) {
    const double step = (fine ? 0.1 : coarse ? 10 : 1) * degree_rad;
    return {wish::Turn{steps * step}};
  }
  return {wish::Zoom{std::pow(zoom_step, steps)}};
}

} // namespace lugline
