#include "viewer/app/glass.h"

#include "viewer/app/panel_fonts.h"
#include "viewer/draw/gl_context.h"

#include <epoxy/gl.h>
// After epoxy, which it would otherwise replace.
#include <GLFW/glfw3.h>
#include <imgui.h>
#include <imgui_impl_glfw.h>
#include <imgui_impl_opengl3.h>

#include <algorithm>
#include <array>
#include <set>

namespace lugline {

namespace {

constexpr int least_width_px = 640;
constexpr int least_height_px = 480;

std::string told_by_glfw() {
  const char* words = nullptr;
  glfwGetError(&words);
  return words != nullptr ? words : "the system does not say why";
}

std::vector<GlassEvent>& events_of(GLFWwindow* window) {
  return *static_cast<std::vector<GlassEvent>*>(glfwGetWindowUserPointer(window));
}

double ratio_of(GLFWwindow* window) {
  int width = 0;
  int height = 0;
  int wide_px = 0;
  int high_px = 0;
  glfwGetWindowSize(window, &width, &height);
  glfwGetFramebufferSize(window, &wide_px, &high_px);
  return width > 0 ? static_cast<double>(wide_px) / width : 1.0;
}

PointPx mouse_of(GLFWwindow* window) {
  double x = 0;
  double y = 0;
  glfwGetCursorPos(window, &x, &y);
  const double ratio = ratio_of(window);
  return {x * ratio, y * ratio};
}

/// What the keyboard's own layout writes on the key.
char letter_of(int key, int scancode) {
  if (key < GLFW_KEY_SPACE || key > GLFW_KEY_WORLD_2) {
    return 0;
  }
  const char* name = glfwGetKeyName(key, scancode);
  if (name == nullptr || name[0] == 0 || name[1] != 0) {
    return 0;
  }
  const char c = name[0];
  return c >= 'a' && c <= 'z' ? c : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : '\0';
}

int mods_now(GLFWwindow* window) {
  const auto down = [&](int left, int right) {
    return glfwGetKey(window, left) == GLFW_PRESS || glfwGetKey(window, right) == GLFW_PRESS;
  };
  return (down(GLFW_KEY_LEFT_SHIFT, GLFW_KEY_RIGHT_SHIFT) ? GLFW_MOD_SHIFT : 0) |
         (down(GLFW_KEY_LEFT_CONTROL, GLFW_KEY_RIGHT_CONTROL) ? GLFW_MOD_CONTROL : 0);
}

Problem no_window(const std::string& why) {
  return Problem{"no window can be opened here: " + why +
                 ". check, drop, pack, make and draw work without one"};
}

} // namespace

Outcome<std::unique_ptr<Glass>> Glass::open(const GlassOptions& options) {
  if (glfwInit() == GLFW_FALSE) {
    return no_window(told_by_glfw());
  }
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
  glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
  glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
  glfwWindowHint(GLFW_SCALE_TO_MONITOR, GLFW_TRUE);
  glfwWindowHint(GLFW_SAMPLES, 0);
  int width = options.width_px;
  int height = options.height_px;
  if (GLFWmonitor* monitor = glfwGetPrimaryMonitor()) {
    int x = 0;
    int y = 0;
    int wide = 0;
    int high = 0;
    glfwGetMonitorWorkarea(monitor, &x, &y, &wide, &high);
    if (wide > 0 && high > 0) {
      width = std::min(width, wide);
      height = std::min(height, high);
    }
  }
  GLFWwindow* window = glfwCreateWindow(width, height, options.title.c_str(), nullptr, nullptr);
  if (window == nullptr) {
    const std::string why = told_by_glfw();
    glfwTerminate();
    return no_window("OpenGL 3.3 is needed, and " + why);
  }
  std::unique_ptr<Glass> glass(new Glass(window));
  const auto judged = judge_current_context();
  if (!judged) {
    return no_window(judged.problem());
  }
  return glass;
}

Glass::Glass(GLFWwindow* window) : window_(window) {
  glfwMakeContextCurrent(window_);
  glfwSwapInterval(1);
  glfwSetWindowSizeLimits(window_, least_width_px, least_height_px, GLFW_DONT_CARE, GLFW_DONT_CARE);
  listen();
  IMGUI_CHECKVERSION();
  ImGui::CreateContext();
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.LogFilename = nullptr;
  io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
  // Keys come through to_panels(), the mouse by polling and by its own callback.
  panels_ready_ =
      ImGui_ImplGlfw_InitForOpenGL(window_, false) && ImGui_ImplOpenGL3_Init("#version 330");
  // Page keys go through the steps, whatever panel is open.
  io.KeyMap[ImGuiKey_PageUp] = io.KeyMap[ImGuiKey_PageDown] = -1;
}

Glass::~Glass() {
  if (panels_ready_) {
    ImGui_ImplOpenGL3_Shutdown();
    ImGui_ImplGlfw_Shutdown();
  }
  ImGui::DestroyContext();
  glfwDestroyWindow(window_);
  glfwTerminate();
}

void Glass::listen() {
  glfwSetWindowUserPointer(window_, &events_);
  glfwSetKeyCallback(window_, [](GLFWwindow* window, int key, int scancode, int action, int mods) {
    KeyEvent event;
    event.press = {key, mods, action == GLFW_REPEAT, letter_of(key, scancode)};
    event.scancode = scancode;
    event.down = action != GLFW_RELEASE;
    events_of(window).push_back(event);
  });
  glfwSetCharCallback(window_, [](GLFWwindow* window, unsigned code_point) {
    events_of(window).push_back(CharacterEvent{code_point});
  });
  glfwSetMouseButtonCallback(window_, [](GLFWwindow* window, int button, int action, int mods) {
    ImGui_ImplGlfw_MouseButtonCallback(window, button, action, mods);
    events_of(window).push_back(ButtonEvent{button, action == GLFW_PRESS, mouse_of(window)});
  });
  glfwSetCursorPosCallback(window_, [](GLFWwindow* window, double x, double y) {
    const double ratio = ratio_of(window);
    events_of(window).push_back(MoveEvent{{x * ratio, y * ratio}});
  });
  glfwSetScrollCallback(window_, [](GLFWwindow* window, double dx, double dy) {
    ImGui_ImplGlfw_ScrollCallback(window, dx, dy);
    events_of(window).push_back(WheelEvent{dy, mods_now(window), mouse_of(window)});
  });
  const auto refresh = [](GLFWwindow* window) { events_of(window).push_back(RefreshEvent{}); };
  glfwSetWindowRefreshCallback(window_, refresh);
  glfwSetFramebufferSizeCallback(
      window_, [](GLFWwindow* window, int, int) { events_of(window).push_back(RefreshEvent{}); });
  glfwSetWindowContentScaleCallback(window_, [](GLFWwindow* window, float, float) {
    events_of(window).push_back(RefreshEvent{});
  });
  glfwSetWindowFocusCallback(window_, [](GLFWwindow* window, int focused) {
    ImGui_ImplGlfw_WindowFocusCallback(window, focused);
    events_of(window).push_back(RefreshEvent{});
  });
  glfwSetCursorEnterCallback(window_, ImGui_ImplGlfw_CursorEnterCallback);
  glfwSetWindowCloseCallback(window_,
                             [](GLFWwindow* window) { events_of(window).push_back(CloseEvent{}); });
}

void Glass::set_title(const std::string& title) {
  glfwSetWindowTitle(window_, title.c_str());
}

int Glass::width_px() const {
  int width = 0;
  int height = 0;
  glfwGetFramebufferSize(window_, &width, &height);
  return width;
}

int Glass::height_px() const {
  int width = 0;
  int height = 0;
  glfwGetFramebufferSize(window_, &width, &height);
  return height;
}

double Glass::content_scale() const {
  float x = 1;
  float y = 1;
  glfwGetWindowContentScale(window_, &x, &y);
  return std::clamp(static_cast<double>(std::max(x, y)), 0.5, 4.0);
}

double Glass::px_per_coordinate() const {
  return ratio_of(window_);
}

PointPx Glass::mouse() const {
  return mouse_of(window_);
}

std::vector<GlassEvent> Glass::take_events(double wait_s) {
  if (wait_s < 0) {
    glfwWaitEvents();
  } else if (wait_s > 0) {
    glfwWaitEventsTimeout(wait_s);
  } else {
    glfwPollEvents();
  }
  std::vector<GlassEvent> taken;
  taken.swap(events_);
  return taken;
}

void Glass::to_panels(const KeyEvent& event) {
  for_panels_.emplace_back(event);
}
void Glass::to_panels(const CharacterEvent& event) {
  for_panels_.emplace_back(event);
}

void Glass::begin_panels() {
  std::set<int> changed;
  std::size_t taken = 0;
  bool ends_a_field = false;
  for (; taken < for_panels_.size(); ++taken) {
    if (const auto* character = std::get_if<CharacterEvent>(&for_panels_[taken])) {
      if (ends_a_field) {
        break; // it is meant for the next field
      }
      ImGui::GetIO().AddInputCharacter(character->code_point);
      continue;
    }
    const KeyEvent& event = std::get<KeyEvent>(for_panels_[taken]);
    const int key = event.press.key;
    if (!changed.insert(key).second || ends_a_field) {
      break;
    }
    const int action = event.press.repeat ? GLFW_REPEAT : event.down ? GLFW_PRESS : GLFW_RELEASE;
    ImGui_ImplGlfw_KeyCallback(window_, key, event.scancode, action, event.press.mods);
    ends_a_field =
        event.down && (key == GLFW_KEY_ENTER || key == GLFW_KEY_KP_ENTER || key == GLFW_KEY_TAB);
  }
  for_panels_.erase(for_panels_.begin(), for_panels_.begin() + static_cast<std::ptrdiff_t>(taken));
  ImGui_ImplOpenGL3_NewFrame();
  ImGui_ImplGlfw_NewFrame();
  ImGui::NewFrame();
}

void Glass::end_panels() {
  ImGui::Render();
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
}

Outcome<PanelStyle> Glass::dress(double scale) {
  if (scale == dressed_scale_) {
    return style_;
  }
  auto fonts = build_panel_fonts(scale * px_per_coordinate(), 1 / px_per_coordinate());
  if (!fonts) {
    return Problem{fonts.problem()};
  }
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  ImGui_ImplOpenGL3_CreateFontsTexture();
  style_.fonts = fonts.value();
  style_.scale = static_cast<float>(scale);
  apply_style(style_);
  dressed_scale_ = scale;
  return style_;
}

void Glass::show() {
  glfwSwapBuffers(window_);
}
void Glass::wake() {
  glfwPostEmptyEvent();
}

} // namespace lugline
