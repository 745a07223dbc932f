// The commands that draw, in a build without them.
#include "viewer/cli/commands.h"

#include <ostream>

namespace lugline::cli {

int draw(const DrawOptions&, Streams streams) {
  streams.err << "lugline draw: this build cannot draw; check, drop, pack and make work\n";
  return bad_command;
}

int window(const WindowCommand&, Streams streams) {
  streams.err << "lugline: this build has no window; check, drop, pack and make work\n";
  return bad_command;
}

} // namespace lugline::cli
