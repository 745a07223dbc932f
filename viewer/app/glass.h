// The window itself: GLFW, its OpenGL 3.3 context, and Dear ImGui upon it.
//
// Owns all three from open() to its end; the context is current on the thread
// that opened it. Events are collected in the order in which they came, and
// handed out by take_events(). Three sizes are kept apart: the window's own
// coordinates (in which the system tells where the mouse is), the framebuffer's
// pixels (in which everything is drawn), and the content scale (how much larger
// than usual the system wants things).
#pragma once

#include "scene/quantity/outcome.h"
#include "viewer/app/keys.h"
#include "viewer/panels/style.h"
#include "viewer/stage/sheet2d.h"

#include <memory>
#include <string>
#include <variant>
#include <vector>

struct GLFWwindow;

namespace lugline {

struct KeyEvent {
  KeyPress press;
  int scancode = 0;
  bool down = false;
};
struct CharacterEvent {
  unsigned code_point = 0;
};
struct ButtonEvent {
  int button = 0; ///< GLFW's
  bool down = false;
  PointPx at; ///< pixels of the framebuffer
};
struct MoveEvent {
  PointPx to;
};
struct WheelEvent {
  double steps = 0;
  int mods = 0;
  PointPx at;
};
/// The window was shown again, or changed its size.
struct RefreshEvent {};
struct CloseEvent {};

using GlassEvent = std::variant<KeyEvent, CharacterEvent, ButtonEvent, MoveEvent, WheelEvent,
                                RefreshEvent, CloseEvent>;

struct GlassOptions {
  int width_px = 1366; ///< at a content scale of 1
  int height_px = 768;
  std::string title;
};

class Glass {
public:
  static Outcome<std::unique_ptr<Glass>> open(const GlassOptions& options);
  ~Glass();
  Glass(const Glass&) = delete;
  Glass& operator=(const Glass&) = delete;

  void set_title(const std::string& title);

  [[nodiscard]] int width_px() const; ///< of the framebuffer
  [[nodiscard]] int height_px() const;
  [[nodiscard]] double content_scale() const;
  /// Pixels of the framebuffer for one of the window's coordinates.
  [[nodiscard]] double px_per_coordinate() const;
  [[nodiscard]] PointPx mouse() const; ///< pixels of the framebuffer

  /// Those that waited, or with wait_s below 0 sleeps until there is one; with
  /// wait_s above 0 sleeps no longer than that.
  std::vector<GlassEvent> take_events(double wait_s);

  /// Keys and characters for Dear ImGui. They reach it one change of a key a
  /// frame, since a key pressed and let go within one would be lost.
  void to_panels(const KeyEvent& event);
  void to_panels(const CharacterEvent& event);
  /// Some of them have not reached it yet.
  [[nodiscard]] bool keys_wait() const { return !for_panels_.empty(); }
  void begin_panels();
  /// Draws them over what is in the window's framebuffer.
  void end_panels();

  /// Dear ImGui's fonts, for panels drawn at so many times their usual size.
  Outcome<PanelStyle> dress(double scale);

  void show(); ///< what was drawn becomes what is seen
  /// Wakes a take_events() that sleeps, from any thread.
  static void wake();

private:
  explicit Glass(GLFWwindow* window);
  void listen();

  GLFWwindow* window_ = nullptr;
  bool panels_ready_ = false;
  std::vector<GlassEvent> events_;
  std::vector<std::variant<KeyEvent, CharacterEvent>> for_panels_;
  double dressed_scale_ = 0;
  PanelStyle style_;
};

} // namespace lugline
