#include "viewer/draw/gl_context.h"

#include <epoxy/egl.h>
#include <epoxy/gl.h>

#include <array>
#include <vector>

namespace lugline {

struct GlContext::Inner {
  EGLDisplay display = EGL_NO_DISPLAY;
  EGLContext context = EGL_NO_CONTEXT;
  GlKind kind = GlKind::desktop;

  ~Inner() {
    if (display == EGL_NO_DISPLAY)
      return;
    eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    // The display itself is left: a process has one of each kind, and another
    // context may be using it.
    if (context != EGL_NO_CONTEXT)
      eglDestroyContext(display, context);
  }
};

namespace {

constexpr const char* no_drawing_hint =
    " (the checks and sheets that need no picture still work; install the software renderer, "
    "libgl1-mesa-dri with libegl1, to draw without a graphics card)";

/// Makes a context on a display and makes it current; empty on success.
std::string start_on(EGLDisplay display, GlKind kind, EGLContext& context) {
  const bool desktop = kind == GlKind::desktop;
  EGLint major = 0;
  EGLint minor = 0;
  if (eglInitialize(display, &major, &minor) != EGL_TRUE)
    return "the display did not start";
  if (eglBindAPI(desktop ? EGL_OPENGL_API : EGL_OPENGL_ES_API) != EGL_TRUE)
    return desktop ? "the display has no desktop OpenGL" : "the display has no OpenGL ES";
  const std::array<EGLint, 5> wanted = {EGL_SURFACE_TYPE, 0, EGL_RENDERABLE_TYPE,
                                        desktop ? EGL_OPENGL_BIT : EGL_OPENGL_ES3_BIT, EGL_NONE};
  EGLConfig config = nullptr;
  EGLint count = 0;
  if (eglChooseConfig(display, wanted.data(), &config, 1, &count) != EGL_TRUE || count < 1)
    return "the display has no configuration for OpenGL";
  std::vector<EGLint> version = {EGL_CONTEXT_MAJOR_VERSION, 3, EGL_CONTEXT_MINOR_VERSION,
                                 desktop ? 3 : 0};
  if (desktop)
    version.insert(version.end(),
                   {EGL_CONTEXT_OPENGL_PROFILE_MASK, EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT});
  version.push_back(EGL_NONE);
  context = eglCreateContext(display, config, EGL_NO_CONTEXT, version.data());
  if (context == EGL_NO_CONTEXT)
    return desktop ? "the display has no OpenGL 3.3" : "the display has no OpenGL ES 3.0";
  if (eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, context) != EGL_TRUE) {
    eglDestroyContext(display, context);
    context = EGL_NO_CONTEXT;
    return "the OpenGL context could not be used without a surface";
  }
  return {};
}

/// The displays worth trying, best first.
std::vector<EGLDisplay> candidate_displays() {
  std::vector<EGLDisplay> displays;
  // The core entry point aborts where the client library is older than EGL 1.5,
  // so the extension's is asked for.
  if (epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_EXT_platform_base")) {
    if (epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_MESA_platform_surfaceless"))
      displays.push_back(
          eglGetPlatformDisplayEXT(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr));
    if (epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_EXT_device_enumeration") &&
        epoxy_has_egl_extension(EGL_NO_DISPLAY, "EGL_EXT_platform_device")) {
      std::array<EGLDeviceEXT, 8> devices{};
      EGLint count = 0;
      if (eglQueryDevicesEXT(static_cast<EGLint>(devices.size()), devices.data(), &count) ==
          EGL_TRUE)
        for (EGLint i = 0; i < count; ++i)
          displays.push_back(eglGetPlatformDisplayEXT(
              EGL_PLATFORM_DEVICE_EXT, devices[static_cast<std::size_t>(i)], nullptr));
    }
  }
  return displays;
}

} // namespace

GlContext::GlContext(std::unique_ptr<Inner> inner) : inner_(std::move(inner)) {}
GlContext::GlContext(GlContext&&) noexcept = default;
GlContext& GlContext::operator=(GlContext&&) noexcept = default;
GlContext::~GlContext() = default;

Outcome<GlContext> GlContext::make(GlKind kind) {
  std::string tried;
  for (EGLDisplay display : candidate_displays()) {
    if (display == EGL_NO_DISPLAY)
      continue;
    auto inner = std::make_unique<Inner>();
    inner->display = display;
    inner->kind = kind;
    const std::string problem = start_on(display, kind, inner->context);
    if (problem.empty()) {
      const Outcome<std::string> judged = judge_current_context();
      if (judged)
        return GlContext(std::move(inner));
      tried += (tried.empty() ? "" : "; ") + judged.problem();
    } else {
      tried += (tried.empty() ? "" : "; ") + problem;
    }
  }
  if (tried.empty())
    tried = "EGL offers no display without a screen";
  return Problem{"no picture can be drawn here: " + tried + no_drawing_hint};
}

void GlContext::make_current() const {
  eglBindAPI(inner_->kind == GlKind::desktop ? EGL_OPENGL_API : EGL_OPENGL_ES_API);
  eglMakeCurrent(inner_->display, EGL_NO_SURFACE, EGL_NO_SURFACE, inner_->context);
}

std::string GlContext::description() const {
  const auto text = [](GLenum what) {
    const GLubyte* words = glGetString(what);
    return words == nullptr ? std::string("?") : std::string(reinterpret_cast<const char*>(words));
  };
  return text(GL_RENDERER) + ", OpenGL " + text(GL_VERSION);
}

Outcome<std::string> judge_current_context() {
  const int version = epoxy_gl_version();
  const bool desktop = epoxy_is_desktop_gl();
  const int needed = desktop ? 33 : 30;
  if (version < needed) {
    const std::string have = std::to_string(version / 10) + "." + std::to_string(version % 10);
    return Problem{std::string(desktop ? "OpenGL " : "OpenGL ES ") + have +
                   " was found, and pictures need " + (desktop ? "OpenGL 3.3" : "OpenGL ES 3.0")};
  }
  GLint widest = 0;
  glGetIntegerv(GL_MAX_TEXTURE_SIZE, &widest);
  if (widest < 4096)
    return Problem{"the graphics driver's largest picture is " + std::to_string(widest) +
                   " pixels wide, and 4096 are needed"};
  return std::string("OpenGL ") + std::to_string(version / 10) + "." + std::to_string(version % 10);
}

} // namespace lugline
