// The commands that draw, in a build without OpenGL.
#include "viewer/cli/commands.h"

#include <ostream>

namespace lugline::cli {

int draw(const DrawOptions&, Streams streams) {
  streams.err << "lugline draw: this build cannot draw; check, drop, pack and make work\n";
  return bad_command;
}

int film(const FilmOptions&, Streams streams) {
  streams.err << "lugline film: this build cannot draw; animate writes the sequence as a model\n";
  return bad_command;
}

} // namespace lugline::cli
