// An OpenGL context with no window and no display server: for the commands
// that draw, and for tests.
//
// Owns the EGL display connection and context; current on the thread that made
// it from creation to destruction. Tries the surfaceless platform first (the
// software renderer, or a graphics card with no screen), then the device
// platform. Where neither gives OpenGL 3.3, make() fails with a clear word and
// the commands that draw nothing still work.
#pragma once

#include "scene/quantity/outcome.h"

#include <memory>
#include <string>

namespace lugline {

/// The two kinds of OpenGL that the drawing keeps to.
enum class GlKind {
  desktop, ///< OpenGL 3.3 core
  embedded ///< OpenGL ES 3.0, as in a browser
};

class GlContext {
public:
  static Outcome<GlContext> make(GlKind kind = GlKind::desktop);

  GlContext(GlContext&&) noexcept;
  GlContext& operator=(GlContext&&) noexcept;
  ~GlContext();

  /// Makes it current again, after another context was.
  void make_current() const;
  /// "llvmpipe …, OpenGL 4.5 …": for a report of what drew the picture.
  [[nodiscard]] std::string description() const;

private:
  struct Inner;
  explicit GlContext(std::unique_ptr<Inner> inner);
  std::unique_ptr<Inner> inner_;
};

/// Whether the current context can carry Lugline's pictures; else what is
/// wrong and what to do. For a window's context as well.
Outcome<std::string> judge_current_context();

} // namespace lugline
