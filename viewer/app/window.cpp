#include "viewer/app/window.h"

#include "viewer/app/glass.h"
#include "viewer/app/picture_file.h"
#include "viewer/app/places.h"
#include "viewer/app/settings_file.h"
#include "viewer/app/show.h"
#include "viewer/app/sitting.h"

#include <GLFW/glfw3.h>
#include <imgui.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iostream>
#include <mutex>
#include <thread>

namespace lugline {

namespace {

/// Dear ImGui needs a frame to see an event and another to answer it.
constexpr int frames_for_an_event = 3;
constexpr double longest_step_s = 0.25;
constexpr double settles_after_s = 0.12; ///< from rough to fine, once a wheel or drag stops

std::string now_text() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  gmtime_r(&now, &parts);
  char text[32];
  std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts);
  return text;
}

/// Reads a unit's folder on a thread of its own, so that the window answers.
class Opening {
public:
  void begin(const std::filesystem::path& folder) {
    shared_ = std::make_shared<Shared>();
    std::thread([shared = shared_, folder] {
      OpenedUnit opened = open_unit(folder);
      const std::lock_guard lock(shared->mutex);
      shared->opened = std::move(opened);
      shared->done = true;
      if (!shared->left) {
        Glass::wake();
      }
    }).detach();
  }

  [[nodiscard]] bool going() const { return shared_ != nullptr; }

  std::optional<OpenedUnit> take() {
    if (shared_ == nullptr) {
      return std::nullopt;
    }
    const std::lock_guard lock(shared_->mutex);
    if (!shared_->done) {
      return std::nullopt;
    }
    OpenedUnit opened = std::move(shared_->opened);
    const auto keep_until_unlocked = shared_;
    shared_.reset();
    return opened;
  }

  /// Nobody waits any more; the thread must not touch the window again.
  void leave() {
    if (shared_ != nullptr) {
      const std::lock_guard lock(shared_->mutex);
      shared_->left = true;
    }
  }

private:
  struct Shared {
    std::mutex mutex;
    OpenedUnit opened;
    bool done = false;
    bool left = false;
  };
  std::shared_ptr<Shared> shared_;
};

class Window {
public:
  Window(const WindowOptions& options, Glass& glass, Show& show, Settings settings)
      : options_(options), glass_(glass), show_(show), saved_(settings),
        sitting_(options.log.empty() ? log_place(options.unit) : options.log,
                 asked_for(settings, options), now_text) {}

  /// Whether it ended well.
  bool run() {
    opening_.begin(options_.unit);
    while (!closed_) {
      take_events();
      if (auto opened = opening_.take()) {
        sitting_.opened(std::move(*opened));
        const Stage* stage = sitting_.stage();
        glass_.set_title(stage == nullptr ? "Lugline" : stage->unit().name + " - Lugline");
        ask_for_frames();
      }
      pass_time();
      if (frames_due_ > 0 || moves(sitting_.state()) || show_.easing(glfwGetTime())) {
        if (!draw()) {
          return false;
        }
      }
      do_errands();
    }
    opening_.leave();
    return true;
  }

  [[nodiscard]] bool still_reading() const { return opening_.going(); }

private:
  static Settings asked_for(Settings settings, const WindowOptions& options) {
    settings.motion = settings.motion && !options.no_motion;
    settings.scale = options.scale > 0 ? options.scale : settings.scale;
    return settings;
  }

  void ask_for_frames() { frames_due_ = frames_for_an_event; }

  [[nodiscard]] bool busy() const {
    return frames_due_ > 0 || moves(sitting_.state()) || show_.easing(glfwGetTime()) ||
           glass_.keys_wait();
  }
  [[nodiscard]] bool rough() const {
    return part_moves(sitting_.state()) || pointer_.dragging() || glfwGetTime() < rough_until_s_ ||
           show_.easing(glfwGetTime());
  }

  void take_events() {
    double wait_s = 0;
    if (!busy() && rough_drawn_) {
      wait_s = std::max(rough_until_s_ - glfwGetTime(), 0.001);
    } else if (!busy()) {
      tell_tally();
      wait_s = -1;
    }
    // A running watch is drawn some twenty times a second and loses none of its time.
    const bool only_watch = only_the_watch();
    if (only_watch) {
      wait_s = 0.05;
    }
    const bool slept = wait_s != 0 && !only_watch;
    const std::vector<GlassEvent> events = glass_.take_events(wait_s);
    if (slept) {
      last_s_ = glfwGetTime();
    }
    for (const GlassEvent& event : events) {
      std::visit([this](const auto& one) { take(one); }, event);
    }
    if (rough_drawn_ && !rough()) {
      ask_for_frames();
    }
  }

  [[nodiscard]] bool only_the_watch() const {
    const AppState& state = sitting_.state();
    return state.view.figures.watch_runs && !part_moves(state) && frames_due_ == 0 &&
           !show_.easing(glfwGetTime()) && !glass_.keys_wait();
  }

  void take(const KeyEvent& event) {
    ask_for_frames();
    const ImGuiIO& io = ImGui::GetIO();
    const bool panel_open = sitting_.state().panel != PanelKind::none;
    if (event.down) {
      if (const auto wish =
              wish_for(event.press, {io.WantTextInput, panel_open,
                                     figures_of(sitting_.state().panel).has_value()})) {
        apply(*wish);
        return;
      }
    }
    glass_.to_panels(event);
  }

  void take(const CharacterEvent& event) {
    ask_for_frames();
    if (ImGui::GetIO().WantTextInput) {
      glass_.to_panels(event);
    }
  }

  void take(const ButtonEvent& event) {
    ask_for_frames();
    const bool main = event.button == GLFW_MOUSE_BUTTON_LEFT;
    if (!main && event.button != GLFW_MOUSE_BUTTON_MIDDLE) {
      return;
    }
    const PointerButton button = main ? PointerButton::main : PointerButton::middle;
    const PointerScene scene = show_.scene(sitting_, event.at);
    if (event.down && main && !ImGui::GetIO().WantCaptureMouse) {
      if (const auto wish = show_.figures_wish(event.at)) {
        apply(*wish);
        return;
      }
    }
    if (!event.down) {
      apply_all(pointer_.let_go(button, event.at, scene));
    } else if (!ImGui::GetIO().WantCaptureMouse) {
      apply_all(pointer_.press(button, event.at, scene));
    }
  }

  void take(const MoveEvent& event) {
    if (pointer_.dragging()) {
      rough_until_s_ = glfwGetTime() + settles_after_s;
    }
    const Wishes wishes = pointer_.move(event.to, show_.scene(sitting_, event.to));
    if (!wishes.empty()) {
      apply_all(wishes);
      return;
    }
    // Over a panel its own weight of line shows; over the picture the part's.
    if (ImGui::GetIO().WantCaptureMouse || over_panels(event.to)) {
      show_.hover_nothing();
      ask_for_frames();
    } else if (show_.hover(event.to)) {
      ask_for_frames();
    }
  }

  void take(const WheelEvent& event) {
    ask_for_frames();
    if (ImGui::GetIO().WantCaptureMouse) {
      return;
    }
    rough_until_s_ = glfwGetTime() + settles_after_s;
    apply_all(Pointer::wheel(event.steps, (event.mods & GLFW_MOD_SHIFT) != 0,
                             (event.mods & GLFW_MOD_CONTROL) != 0, event.at,
                             show_.scene(sitting_, event.at)));
  }

  void take(const RefreshEvent&) { ask_for_frames(); }
  void take(const CloseEvent&) { closed_ = true; }

  /// Whether anything there can answer the mouse before a frame has told so.
  [[nodiscard]] bool over_panels(PointPx at) const {
    const PageLayout& layout = show_.layout();
    const PointPx page{at.x_px / layout.scale, at.y_px / layout.scale};
    return layout.buttons.holds(page) || layout.slider.holds(page) ||
           sitting_.state().panel != PanelKind::none || sitting_.stage() == nullptr;
  }

  void apply(const Wish& wish) {
    if (sitting_.state().view.figures.watch_runs) {
      pass_time(); // a watch that is stopped now has run until now
    }
    sitting_.apply(wish);
    ask_for_frames();
    keep_settings();
  }
  void apply_all(const Wishes& wishes) {
    for (const Wish& wish : wishes) {
      apply(wish);
    }
  }

  void pass_time() {
    const double now_s = glfwGetTime();
    const double watch_s = now_s - last_s_;
    const double passed_s = std::min(watch_s, longest_step_s);
    last_s_ = now_s;
    if (moves(sitting_.state())) {
      sitting_.apply(wish::PassTime{passed_s, watch_s});
      if (!moves(sitting_.state())) {
        ask_for_frames();
      }
    }
  }

  bool draw() {
    const bool roughly = rough();
    auto wishes =
        show_.frame(sitting_, options_.unit.string(), opening_.going(), roughly, glfwGetTime());
    if (!wishes) {
      std::cerr << "lugline: " << wishes.problem() << "\n";
      return false;
    }
    if (picture_wanted_) {
      picture_wanted_ = false;
      save_picture();
    }
    glass_.show();
    ++frames_drawn_;
    frames_due_ = std::max(frames_due_ - 1, 0);
    rough_drawn_ = roughly;
    apply_all(wishes.value());
    return true;
  }

  void do_errands() {
    for (const Errand errand : sitting_.take_errands()) {
      switch (errand) {
      case Errand::close:
        closed_ = true;
        break;
      case Errand::try_again:
        if (!opening_.going()) {
          opening_.begin(options_.unit);
        }
        break;
      case Errand::save_picture:
        picture_wanted_ = true;
        break;
      }
      ask_for_frames();
    }
  }

  void save_picture() {
    const AppState& state = sitting_.state();
    const Stage* stage = sitting_.stage();
    const std::string step = stage == nullptr ? "" : stage->unit().steps[state.view.step].id;
    const std::filesystem::path folder =
        options_.pictures.empty() ? pictures_place() : options_.pictures;
    const auto file =
        free_picture_file(folder, name_of_folder(options_.unit), state.view.step, step);
    const auto written = write_png(show_.read_window(), file);
    sitting_.tell(written ? PageNote{"Saved as " + file.string() + ".", false}
                          : PageNote{"The picture is not saved: " + written.problem() + ".", true});
    ask_for_frames();
  }

  /// What was changed by the person is kept; what the command line asked for is not.
  void keep_settings() {
    const Settings& now = sitting_.state().view.settings;
    const Settings began = asked_for(saved_, options_);
    Settings kept = now;
    kept.motion = now.motion == began.motion ? saved_.motion : now.motion;
    kept.scale = now.scale == began.scale ? saved_.scale : now.scale;
    if (text_of(kept) == text_of(saved_)) {
      return;
    }
    const auto written = write_settings(settings_place(), kept);
    if (!written) {
      sitting_.tell({"The settings are not kept: " + written.problem() + ".", true});
    }
    saved_ = kept;
  }

  /// "train D second": the open view and what is chosen in it; empty where none is open.
  [[nodiscard]] std::string figures_told() const {
    const auto kind = figures_of(sitting_.state().panel);
    if (!kind) {
      return {};
    }
    const FiguresChoice& chosen = sitting_.state().view.figures;
    const std::string& id = *kind == FiguresKind::pack    ? chosen.pack
                            : *kind == FiguresKind::play  ? chosen.play
                            : *kind == FiguresKind::train ? chosen.range
                                                          : chosen.element;
    return std::string(word_for(*kind)) + (id.empty() ? "" : " " + id);
  }

  void tell_tally() const {
    if (options_.tally.empty()) {
      return;
    }
    const AppState& state = sitting_.state();
    const Stage* stage = sitting_.stage();
    std::filesystem::path beside = options_.tally;
    beside += ".new";
    {
      std::ofstream out(beside, std::ios::trunc);
      out << "{\"frames\": " << frames_drawn_ << ", \"pages\": " << show_.pages_drawn()
          << ", \"open\": " << (stage != nullptr ? "true" : "false")
          << ", \"step\": " << state.view.step << ", \"moment\": " << state.view.moment
          << ", \"readings\": " << fold(state.actions).readings.size() << ", \"figures\": \""
          << figures_told() << "\"}\n";
    }
    std::error_code ignored;
    std::filesystem::rename(beside, options_.tally, ignored);
  }

  const WindowOptions& options_;
  Glass& glass_;
  Show& show_;
  Settings saved_;
  Sitting sitting_;
  Opening opening_;
  Pointer pointer_;
  int frames_due_ = frames_for_an_event;
  long frames_drawn_ = 0;
  double last_s_ = 0;
  double rough_until_s_ = 0;
  bool rough_drawn_ = false;
  bool picture_wanted_ = false;
  bool closed_ = false;
};

} // namespace

int run_window(const WindowOptions& options) {
  auto glass = Glass::open({options.width_px, options.height_px, "Lugline"});
  if (!glass) {
    std::cerr << "lugline: " << glass.problem() << "\n";
    return 1;
  }
  bool ended_well = false;
  bool still_reading = false;
  {
    auto show = Show::create(*glass.value());
    if (!show) {
      std::cerr << "lugline: " << show.problem() << "\n";
      return 1;
    }
    Window window(options, *glass.value(), *show.value(), read_settings(settings_place()));
    ended_well = window.run();
    still_reading = window.still_reading();
  }
  if (still_reading) {
    // The thread that reads may go on for a while; everything of ours is on disk.
    std::cerr.flush();
    std::_Exit(ended_well ? 0 : 1);
  }
  return ended_well ? 0 : 1;
}

} // namespace lugline
