#include "viewer/cli/commands.h"
#include "viewer/cli/print.h"

#include "scene/load/load.h"
#include "scene/sheet/animation.h"
#include "viewer/cli/whole_file.h"

#include <iomanip>
#include <ostream>
#include <sstream>

namespace lugline::cli {

int animate(const AnimateOptions& options, Streams streams) {
  const LoadReport loaded = load_unit(options.unit);
  if (!loaded.unit) {
    return not_loaded(loaded, false, streams);
  }
  const Unit& unit = *loaded.unit;
  const auto span = span_of(unit, options.from, options.to);
  if (!span) {
    return refuse("animate", span.problem(), streams);
  }
  Workshop workshop(unit, Readings{});
  const Simulation simulation = simulate(workshop);
  MotionOptions motion;
  motion.from = span.value().from;
  motion.to = span.value().to;
  motion.seconds = options.seconds;
  const AnimationReport report = lugline::animate(workshop, simulation, motion);
  const auto written = write_whole(options.output, report.glb);
  if (!written) {
    streams.err << "lugline animate: " << printable(written.problem()) << "\n";
    return not_sound;
  }
  std::ostringstream seconds;
  seconds << std::fixed << std::setprecision(1) << report.seconds;
  streams.out << printable(options.output) << ": " << report.pieces << " parts, "
              << report.animations << (report.animations == 1 ? " animation, " : " animations, ")
              << seconds.str() << " s, " << report.glb.size() << " bytes; " << printable(unit.label)
              << "\n";
  return sound;
}

} // namespace lugline::cli
