// What keys and the mouse mean, and that the list of keys is the keys.
#include "viewer/app/keys.h"
#include "viewer/app/pointer.h"

#include <GLFW/glfw3.h>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

using namespace lugline;

namespace {

constexpr double degree_rad = std::numbers::pi / 180;

template <class W>
bool is(const std::optional<Wish>& wish) {
  return wish.has_value() && std::holds_alternative<W>(*wish);
}

std::optional<Wish> press(int key, int mods = 0, KeySituation situation = {}, bool repeat = false,
                          char letter = 0) {
  return wish_for({key, mods, repeat, letter}, situation);
}

PointerScene scene() {
  PointerScene scene;
  PageInput page;
  for (std::size_t i = 0; i < 11; ++i) {
    page.rule.push_back({i, i == 0, "Case", false});
  }
  scene.layout = lay_out(page);
  scene.steps = 11;
  scene.m_per_px = 0.001;
  return scene;
}

PointPx middle_of(const Box& box) {
  return {box.x_px + box.width_px / 2, box.y_px + box.height_px / 2};
}

} // namespace

TEST_CASE("the keys do what they are said to do") {
  CHECK(is<wish::GoOn>(press(GLFW_KEY_PAGE_DOWN)));
  CHECK(is<wish::GoBack>(press(GLFW_KEY_PAGE_UP)));
  CHECK(is<wish::ShowAgain>(press(GLFW_KEY_HOME)));
  CHECK(is<wish::SkipMotion>(press(GLFW_KEY_END)));
  CHECK(is<wish::TurnOver>(press(GLFW_KEY_U)));
  CHECK(is<wish::SwapLengthUnit>(press(GLFW_KEY_I)));
  CHECK(is<wish::LetGo>(press(GLFW_KEY_SPACE)));
  CHECK(is<wish::Undo>(press(GLFW_KEY_Z, GLFW_MOD_CONTROL)));
  CHECK(is<wish::Show>(press(GLFW_KEY_F1)));
  CHECK(is<wish::Leave>(press(GLFW_KEY_ESCAPE)));
  CHECK(is<wish::SwapCut>(press(GLFW_KEY_C)));
  CHECK(is<wish::SwapHiddenEdges>(press(GLFW_KEY_H)));
  CHECK(is<wish::NextSeeThrough>(press(GLFW_KEY_O)));
  CHECK(is<wish::SwapApart>(press(GLFW_KEY_X)));
  CHECK(is<wish::ChangeScale>(press(GLFW_KEY_EQUAL, GLFW_MOD_CONTROL)));
  CHECK(is<wish::ChangeScale>(press(GLFW_KEY_KP_SUBTRACT, GLFW_MOD_CONTROL)));
  CHECK(is<wish::SavePicture>(press(GLFW_KEY_F12)));
  CHECK_FALSE(press(GLFW_KEY_Z).has_value());
  CHECK_FALSE(press(GLFW_KEY_B).has_value());
}

TEST_CASE("the arrows turn by a degree, a tenth, or ten") {
  const auto turned = [](int key, int mods) {
    return std::get<wish::Turn>(press(key, mods).value()).by_rad / degree_rad;
  };
  CHECK(turned(GLFW_KEY_RIGHT, 0) == Approx(1));
  CHECK(turned(GLFW_KEY_LEFT, 0) == Approx(-1));
  CHECK(turned(GLFW_KEY_RIGHT, GLFW_MOD_SHIFT) == Approx(0.1));
  CHECK(turned(GLFW_KEY_LEFT, GLFW_MOD_CONTROL) == Approx(-10));
}

TEST_CASE("a pedal that is held down goes on once") {
  CHECK_FALSE(press(GLFW_KEY_PAGE_DOWN, 0, {}, true).has_value());
  CHECK_FALSE(press(GLFW_KEY_SPACE, 0, {}, true).has_value());
  CHECK(press(GLFW_KEY_RIGHT, 0, {}, true).has_value());
}

TEST_CASE("while a figure is typed, letters are letters and the page keys still work") {
  const KeySituation typing{true, true};
  for (const int key : {GLFW_KEY_I, GLFW_KEY_M, GLFW_KEY_C, GLFW_KEY_X, GLFW_KEY_U, GLFW_KEY_HOME,
                        GLFW_KEY_SPACE, GLFW_KEY_LEFT}) {
    CHECK_FALSE(press(key, 0, typing).has_value());
  }
  CHECK_FALSE(press(GLFW_KEY_Z, GLFW_MOD_CONTROL, typing).has_value());
  CHECK(press(GLFW_KEY_PAGE_DOWN, 0, typing).has_value());
  CHECK(press(GLFW_KEY_ESCAPE, 0, typing).has_value());
  CHECK(press(GLFW_KEY_F1, 0, typing).has_value());
}

TEST_CASE("an open panel has the arrows and the space bar to itself") {
  const KeySituation panel{false, true};
  CHECK_FALSE(press(GLFW_KEY_SPACE, 0, panel).has_value());
  CHECK_FALSE(press(GLFW_KEY_LEFT, 0, panel).has_value());
  CHECK(press(GLFW_KEY_I, 0, panel).has_value());
}

TEST_CASE("a letter is what the keyboard's own layout writes on the key") {
  // Where Y and Z have changed places, undo is on the key that says Z.
  CHECK(is<wish::Undo>(press(GLFW_KEY_Y, GLFW_MOD_CONTROL, {}, false, 'z')));
  CHECK_FALSE(press(GLFW_KEY_Z, GLFW_MOD_CONTROL, {}, false, 'y').has_value());
}

TEST_CASE("no single letter moves, rotates or scales, and the number pad has no views") {
  for (const KeyBinding& binding : key_bindings()) {
    const bool letter = binding.key >= GLFW_KEY_A && binding.key <= GLFW_KEY_Z && binding.mods == 0;
    const bool pad = binding.key >= GLFW_KEY_KP_0 && binding.key <= GLFW_KEY_KP_9;
    CHECK_FALSE(pad);
    if (letter) {
      CHECK_FALSE(std::holds_alternative<wish::Turn>(binding.wish));
      CHECK_FALSE(std::holds_alternative<wish::LookRound>(binding.wish));
      CHECK_FALSE(std::holds_alternative<wish::Pan>(binding.wish));
      CHECK_FALSE(std::holds_alternative<wish::Zoom>(binding.wish));
      CHECK_FALSE(std::holds_alternative<wish::ChangeScale>(binding.wish));
    }
  }
}

TEST_CASE("no key means two things") {
  std::set<std::pair<int, int>> seen;
  for (const KeyBinding& binding : key_bindings()) {
    INFO(binding.name);
    CHECK(seen.insert({binding.key, binding.mods}).second);
  }
}

TEST_CASE("every kind of wish that a key can have is in the list of keys") {
  const std::vector<KeyLine> lines = key_lines();
  for (const KeyBinding& binding : key_bindings()) {
    const bool listed = std::ranges::any_of(key_bindings(), [&](const KeyBinding& other) {
      return other.wish.index() == binding.wish.index() && !other.words.empty();
    });
    INFO(binding.name);
    CHECK(listed);
  }
  CHECK(std::ranges::any_of(lines, [](const KeyLine& line) { return line.key == "Page Down"; }));
}

TEST_CASE("a press on the rule goes to that step") {
  Pointer pointer;
  const PointerScene at = scene();
  const Wishes wishes = pointer.press(
      PointerButton::main, {at.layout.rule.right_px() - 12, at.layout.rule.y_px + 5}, at);
  REQUIRE(wishes.size() == 1);
  CHECK(std::get<wish::GoTo>(wishes[0]).step == 10);
  CHECK(pointer.move({500, 300}, at).empty());
}

TEST_CASE("a press on the part in hand picks it up; a drag that begins there looks round") {
  PointerScene at = scene();
  at.on_part_in_hand = true;
  const PointPx middle = middle_of(at.layout.picture);
  Pointer pointer;
  CHECK(pointer.press(PointerButton::main, middle, at).empty());
  const Wishes picked = pointer.let_go(PointerButton::main, middle, at);
  REQUIRE(picked.size() == 1);
  CHECK(std::holds_alternative<wish::PickUp>(picked[0]));

  pointer.press(PointerButton::main, middle, at);
  const Wishes looked = pointer.move({middle.x_px + 50, middle.y_px + 20}, at);
  REQUIRE(looked.size() == 1);
  CHECK(std::get<wish::LookRound>(looked[0]).turn_rad < 0);
  CHECK(std::get<wish::LookRound>(looked[0]).rise_rad > 0);
  CHECK(pointer.dragging());
  CHECK(pointer.let_go(PointerButton::main, middle, at).empty());
  CHECK_FALSE(pointer.dragging());
}

TEST_CASE("a drag across the picture is half a turn, at any scale") {
  for (const double scale : {1.0, 2.0}) {
    PageInput page;
    page.scale = scale;
    PointerScene at = scene();
    at.layout = lay_out(page);
    const Box& picture = at.layout.picture;
    const double y = (picture.y_px + 100) * scale;
    Pointer pointer;
    pointer.press(PointerButton::main, {picture.x_px * scale + 1, y}, at);
    double turned = 0;
    for (int i = 1; i <= 10; ++i) {
      for (const Wish& wish :
           pointer.move({(picture.x_px + picture.width_px * i / 10) * scale + 1, y}, at)) {
        turned += std::get<wish::LookRound>(wish).turn_rad;
      }
    }
    CHECK(std::abs(turned) == Approx(std::numbers::pi));
  }
}

TEST_CASE("the middle button moves the view with the mouse") {
  Pointer pointer;
  const PointerScene at = scene();
  const PointPx middle = middle_of(at.layout.picture);
  pointer.press(PointerButton::middle, middle, at);
  const Wishes wishes = pointer.move({middle.x_px + 10, middle.y_px + 5}, at);
  REQUIRE(wishes.size() == 1);
  CHECK(std::get<wish::Pan>(wishes[0]).x_m == Approx(-0.010));
  CHECK(std::get<wish::Pan>(wishes[0]).y_m == Approx(0.005));
}

TEST_CASE("the wheel zooms, and turns what is picked up") {
  PointerScene at = scene();
  const PointPx middle = middle_of(at.layout.picture);
  CHECK(std::get<wish::Zoom>(Pointer::wheel(1, false, false, middle, at).at(0)).factor > 1);
  at.picked_up = true;
  const auto turn = [&](bool fine, bool coarse) {
    return std::get<wish::Turn>(Pointer::wheel(-2, fine, coarse, middle, at).at(0)).by_rad /
           degree_rad;
  };
  CHECK(turn(false, false) == Approx(-2));
  CHECK(turn(true, false) == Approx(-0.2));
  CHECK(turn(false, true) == Approx(-20));
  CHECK(Pointer::wheel(1, false, false, {5, 5}, at).empty());
}
