// The window, in a build without one.
#include "viewer/cli/commands.h"

#include <ostream>

namespace lugline::cli {

int window(const WindowCommand&, Streams streams) {
  streams.err << "lugline: this build has no window; check, drop, pack and make work\n";
  return bad_command;
}

} // namespace lugline::cli
