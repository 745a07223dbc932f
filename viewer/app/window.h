// The window: opens a unit, shows it, and keeps what is done in its log.
#pragma once

#include <filesystem>

namespace lugline {

struct WindowOptions {
  std::filesystem::path unit;     ///< a unit's folder
  std::filesystem::path log;      ///< the build's log; empty: where logs are kept (places.h)
  std::filesystem::path pictures; ///< where F12 saves; empty: where pictures are kept
  bool no_motion = false;         ///< parts are in at once, whatever the settings say
  double scale = 0;               ///< of everything, 1 to 2.5; 0: as last time
  int width_px = 1366;            ///< at first, at a content scale of 1
  int height_px = 768;
  /// How many frames were drawn, rewritten each time the window comes to rest:
  /// one JSON object. Empty: not told.
  std::filesystem::path tally;
};

/// Until the window is closed. 0: closed by the person; 1: no window could be
/// opened, and the reason is on standard error.
int run_window(const WindowOptions& options);

} // namespace lugline
