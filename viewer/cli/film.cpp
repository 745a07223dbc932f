#include "viewer/cli/commands.h"
#include "viewer/cli/film_frames.h"
#include "viewer/cli/film_sink.h"
#include "viewer/cli/page_scale.h"
#include "viewer/cli/print.h"
#include "viewer/cli/whole_file.h"

#include "scene/load/load.h"
#include "viewer/app/camera_ease.h"
#include "viewer/app/page_artist.h"
#include "viewer/draw/gl_context.h"
#include "viewer/stage/stage.h"

#include <array>
#include <chrono>
#include <cmath>
#include <csignal>
#include <iomanip>
#include <iostream>
#include <ostream>
#include <sstream>

#include <unistd.h>

namespace lugline::cli {

namespace {

volatile std::sig_atomic_t stop_asked = 0;

bool asked_to_stop() {
  return stop_asked != 0;
}

/// While it lives Ctrl+C, and being told to end, is only noted: whoever waits looks.
class StopNoted {
public:
  StopNoted() {
    stop_asked = 0;
    struct sigaction note {};
    note.sa_handler = [](int) { stop_asked = 1; };
    for (std::size_t i = 0; i < signals.size(); ++i) {
      ::sigaction(signals[i], &note, &before_[i]);
    }
  }
  ~StopNoted() {
    for (std::size_t i = 0; i < signals.size(); ++i) {
      ::sigaction(signals[i], &before_[i], nullptr);
    }
  }
  StopNoted(const StopNoted&) = delete;
  StopNoted& operator=(const StopNoted&) = delete;

private:
  static constexpr std::array<int, 3> signals{SIGINT, SIGTERM, SIGHUP};
  std::array<struct sigaction, 3> before_{};
};

std::string time_words(double seconds) {
  const auto whole = static_cast<long>(std::lround(seconds));
  std::ostringstream words;
  if (whole >= 60) {
    words << whole / 60 << " min " << whole % 60 << " s";
  } else {
    words << whole << " s";
  }
  return words.str();
}

/// On a terminal one line, written over; elsewhere a line for each tenth of the way.
class Progress {
public:
  Progress(std::ostream& err, std::size_t frames, std::size_t shots)
      : err_(err), on_terminal_(&err == &std::cerr && ::isatty(STDERR_FILENO) == 1),
        frames_(frames), shots_(shots), begun_(std::chrono::steady_clock::now()) {}
  ~Progress() {
    if (on_terminal_) {
      err_ << "\r\033[K" << std::flush;
    }
  }
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  void show(std::size_t frames, std::size_t shots) {
    const std::size_t tenth = frames * 10 / frames_;
    if (!on_terminal_ && tenth == tenth_) {
      return;
    }
    tenth_ = tenth;
    // Drawing takes the time, and what stands still is drawn once.
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begun_;
    const double left_s =
        took.count() / static_cast<double>(shots) * static_cast<double>(shots_ - shots);
    err_ << (on_terminal_ ? "\r\033[K" : "") << frames << " of " << frames_ << " frames, about "
         << time_words(left_s) << " left" << (on_terminal_ ? "" : "\n") << std::flush;
  }

private:
  std::ostream& err_;
  bool on_terminal_;
  std::size_t frames_;
  std::size_t shots_;
  std::size_t tenth_ = 0;
  std::chrono::steady_clock::time_point begun_;
};

/// The page as draw gives it, but for the eye's way from one step's view to the next.
class PageCamera {
public:
  PageCamera(const FilmOptions& options, const Stage& stage, PageArtist artist)
      : options_(options), stage_(stage), artist_(std::move(artist)),
        target_(options.width, options.height) {
    view_.settings.unit = options.inch ? LengthUnit::inch : LengthUnit::millimetre;
    view_.settings.scale = page_scale_for(options.scale, options.width, options.height);
  }

  Image drawn(const FilmShot& shot) {
    view_.step = shot.step;
    view_.moment = shot.moment;
    const PageInput page =
        page_of(stage_, view_, options_.width, options_.height, view_.settings.scale);
    const PageLayout layout = lay_out(page);
    lugline::DrawOptions look;
    look.scale = layout.scale;
    look.quality = still_quality;
    const Picture picture = ease_.shown(stage_.picture(view_, aspect_of(layout)), shot.step,
                                        stage_.unit().steps[shot.step].place, true, shot.at_s);
    artist_.draw(target_.framebuffer(), page, layout, picture, look);
    return target_.read();
  }

private:
  const FilmOptions& options_;
  const Stage& stage_;
  PageArtist artist_;
  OffscreenTarget target_;
  ViewState view_;
  CameraEase ease_;
};

/// All of it, or why not.
Outcome<bool> filmed(const std::vector<FilmShot>& shots, PageCamera& camera, FilmSink& sink,
                     std::ostream& err) {
  Progress progress(err, frames_of(shots), shots.size());
  std::size_t frames = 0;
  for (std::size_t i = 0; i < shots.size(); ++i) {
    if (asked_to_stop()) {
      return Problem{"stopped"};
    }
    auto taken = sink.take(camera.drawn(shots[i]), shots[i].frames);
    if (!taken) {
      return taken;
    }
    frames += shots[i].frames;
    progress.show(frames, i + 1);
  }
  return sink.finish();
}

} // namespace

int film(const FilmOptions& options, Streams streams) {
  const LoadReport loaded = load_unit(options.unit);
  if (!loaded.unit) {
    return not_loaded(loaded, false, streams);
  }
  const auto span = span_of(*loaded.unit, options.from, options.to);
  if (!span) {
    return refuse("film", span.problem(), streams);
  }
  const StopNoted noted;
  auto sink =
      film_sink(options.output, {options.width, options.height, options.rate}, asked_to_stop);
  if (!sink) {
    return refuse("film", printable(sink.problem()), streams);
  }
  auto context = GlContext::make();
  if (!context) {
    return refuse("film", context.problem(), streams);
  }
  auto artist = PageArtist::create();
  if (!artist) {
    return refuse("film", artist.problem(), streams);
  }
  const Stage stage(loaded.unit);
  const auto shots =
      film_shots(stage, span.value().from, span.value().to, {options.rate, options.speed});
  PageCamera camera(options, stage, std::move(artist).value());
  const auto done = filmed(shots, camera, *sink.value(), streams.err);
  if (!done) {
    streams.err << "lugline film: " << printable(done.problem()) << "\n";
    return not_sound;
  }
  const std::size_t frames = frames_of(shots);
  std::ostringstream seconds;
  seconds << std::fixed << std::setprecision(1) << static_cast<double>(frames) / options.rate;
  streams.out << printable(options.output) << ": " << frames << " frames, " << seconds.str()
              << " s; " << printable(loaded.unit->label) << "\n";
  return sound;
}

} // namespace lugline::cli
