#include "viewer/cli/commands.h"
#include "viewer/cli/print.h"

#include "scene/quantity/quantity.h"
#include "scene/recipe/make.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <csignal>
#include <iomanip>
#include <iostream>
#include <ostream>

#include <unistd.h>

namespace lugline::cli {

namespace {

volatile std::sig_atomic_t interrupted = 0;

/// While it lives the first Ctrl+C is only noted, and the second ends the program.
class Interrupt {
public:
  Interrupt() {
    interrupted = 0;
    struct sigaction note {};
    note.sa_handler = [](int) { interrupted = 1; };
    note.sa_flags = static_cast<int>(SA_RESETHAND);
    ::sigaction(SIGINT, &note, &before_);
  }
  ~Interrupt() { ::sigaction(SIGINT, &before_, nullptr); }
  Interrupt(const Interrupt&) = delete;
  Interrupt& operator=(const Interrupt&) = delete;

private:
  struct sigaction before_ {};
};

/// One line on a terminal, written over as the work goes on; nothing anywhere else.
class ProgressLine {
public:
  explicit ProgressLine(std::ostream& err)
      : err_(err), on_terminal_(&err == &std::cerr && ::isatty(STDERR_FILENO) == 1) {}
  ~ProgressLine() { clear(); }
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  void show(std::size_t done, std::size_t of, const std::string& id) {
    if (on_terminal_) {
      err_ << "\r\033[K" << done + 1 << " of " << of << "  " << printable(id) << std::flush;
      shown_ = true;
    }
  }
  void clear() {
    if (shown_) {
      err_ << "\r\033[K" << std::flush;
      shown_ = false;
    }
  }

private:
  std::ostream& err_;
  bool on_terminal_;
  bool shown_ = false;
};

/// "190.0 x 190.0 x 4.4 mm": how much room it takes up, the axis last.
std::string size_words(const Bounds& bounds) {
  const Vec3& low = bounds.low_m;
  const Vec3& high = bounds.high_m;
  return print_length_figure(high.x - low.x, LengthUnit::millimetre, 1) + " x " +
         print_length_figure(high.y - low.y, LengthUnit::millimetre, 1) + " x " +
         print_length(high.z - low.z, LengthUnit::millimetre, 1);
}

/// To a millionth of a millimetre: differences of doubles have tails.
std::array<double, 3> size_mm(const Bounds& bounds) {
  const auto mm = [](double low_m, double high_m) {
    return std::round((high_m - low_m) * 1e9) / 1e6;
  };
  const Vec3& low = bounds.low_m;
  const Vec3& high = bounds.high_m;
  return {mm(low.x, high.x), mm(low.y, high.y), mm(low.z, high.z)};
}

Json document_of(const MakeReport& report, bool ok) {
  Json document;
  document["made"] = ok;
  document["stopped"] = report.stopped;
  document["complaints"] = json_of(report.complaints);
  document["problems"] = report.problems;
  document["models"] = Json::array();
  for (const MadeModel& model : report.models) {
    document["models"].push_back({{"id", model.id},
                                  {"file", model.file.filename().string()},
                                  {"triangles", model.triangles},
                                  {"bytes", model.bytes},
                                  {"size_mm", size_mm(model.bounds)},
                                  {"mass_kg", model.mass_kg},
                                  {"written", model.written}});
  }
  return document;
}

void print_models(std::ostream& out, const MakeReport& report) {
  std::size_t triangles = 0;
  std::uintmax_t bytes = 0;
  double mass_kg = 0;
  std::size_t widest = 0;
  for (const MadeModel& model : report.models) {
    widest = std::max(widest, model.id.size());
  }
  for (const MadeModel& model : report.models) {
    out << std::left << std::setw(static_cast<int>(widest)) << model.id << std::right
        << std::setw(8) << model.triangles << " triangles" << std::setw(10) << model.bytes
        << " bytes" << std::setw(26) << size_words(model.bounds) << std::setw(11)
        << print_mass(model.mass_kg, LengthUnit::millimetre) << "  "
        << (model.written ? "written" : "unchanged") << "\n";
    triangles += model.triangles;
    bytes += model.bytes;
    mass_kg += model.mass_kg;
  }
  if (!report.problems.empty()) {
    return; // a total would pass for that of all
  }
  const auto written = std::ranges::count_if(report.models, &MadeModel::written);
  out << report.models.size() << " models, " << triangles << " triangles, " << bytes << " bytes, "
      << print_mass(mass_kg, LengthUnit::millimetre) << "; "
      << (written == 0 ? "nothing to write" : std::to_string(written) + " written") << "\n";
}

} // namespace

int make(const MakeOptions& options, Streams streams) {
  ProgressLine line(streams.err);
  const Interrupt interrupt;
  const auto progress = [&](std::size_t done, std::size_t of, const std::string& id) {
    line.show(done, of, id);
    return interrupted == 0;
  };
  const MakeReport report = make_models(options.recipes, options.folder, progress);
  line.clear();
  const bool ok = report.complaints.empty() && report.problems.empty() && !report.stopped;
  if (options.json) {
    print(streams.out, document_of(report, ok));
    return ok ? sound : not_sound;
  }
  print_complaints(streams.err, report.complaints);
  for (const std::string& problem : report.problems) {
    streams.err << printable(problem) << "\n";
  }
  if (report.stopped) {
    streams.err << "lugline make: stopped; nothing was written\n";
  } else if (report.complaints.empty()) {
    print_models(streams.out, report);
  }
  return ok ? sound : not_sound;
}

} // namespace lugline::cli
