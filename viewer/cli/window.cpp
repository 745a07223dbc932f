#include "viewer/cli/commands.h"

#include "viewer/app/window.h"

namespace lugline::cli {

int window(const WindowCommand& options, Streams) {
  WindowOptions window;
  window.unit = options.unit;
  window.log = options.log;
  window.pictures = options.pictures;
  window.tally = options.tally;
  window.no_motion = options.no_motion;
  window.scale = options.scale;
  if (options.width > 0) {
    window.width_px = options.width;
    window.height_px = options.height;
  }
  return run_window(window);
}

} // namespace lugline::cli
