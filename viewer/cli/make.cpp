#include "viewer/cli/commands.h"
#include "viewer/cli/print.h"

#include "scene/quantity/quantity.h"
#include "scene/recipe/make.h"

#include <iomanip>
#include <ostream>

namespace lugline::cli {

int make(const MakeOptions& options, Streams streams) {
  const auto progress = [&](std::size_t done, std::size_t of, const std::string& id) {
    if (!options.json) {
      streams.err << "  " << done + 1 << " of " << of << "  " << id << "\n";
    }
    return true;
  };
  const MakeReport report = make_models(options.recipes, options.folder, progress);
  const bool ok = report.complaints.empty() && report.problems.empty();
  if (options.json) {
    Json document;
    document["made"] = ok;
    document["complaints"] = json_of(report.complaints);
    document["problems"] = report.problems;
    document["models"] = Json::array();
    for (const MadeModel& model : report.models) {
      document["models"].push_back({{"id", model.id},
                                    {"file", model.file.filename().string()},
                                    {"triangles", model.triangles},
                                    {"bytes", model.bytes},
                                    {"mass_kg", model.mass_kg},
                                    {"written", model.written}});
    }
    print(streams.out, document);
    return ok ? sound : not_sound;
  }
  print_complaints(streams.err, report.complaints);
  for (const std::string& problem : report.problems) {
    streams.err << printable(problem) << "\n";
  }
  std::size_t triangles = 0;
  std::uintmax_t bytes = 0;
  for (const MadeModel& model : report.models) {
    streams.out << std::left << std::setw(12) << model.id << std::right << std::setw(8)
                << model.triangles << " triangles" << std::setw(10) << model.bytes << " bytes"
                << std::setw(12) << print_mass(model.mass_kg, LengthUnit::millimetre) << "  "
                << (model.written ? "written" : "unchanged") << "\n";
    triangles += model.triangles;
    bytes += model.bytes;
  }
  if (ok) {
    streams.out << report.models.size() << " models, " << triangles << " triangles, " << bytes
                << " bytes\n";
  }
  return ok ? sound : not_sound;
}

} // namespace lugline::cli
