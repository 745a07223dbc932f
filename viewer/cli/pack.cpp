#include "viewer/cli/commands.h"
#include "viewer/cli/measured_csv.h"
#include "viewer/cli/print.h"
#include "viewer/cli/report_json.h"

#include "scene/build/pack_reports.h"
#include "scene/load/load.h"
#include "scene/pack/stack_working.h"
#include "scene/quantity/quantity.h"

#include <algorithm>
#include <ostream>

namespace lugline::cli {

namespace {

void print_working(std::ostream& out, const JudgedPack& pack, LengthUnit unit) {
  for (const std::string& line : lines_of(stack_working(pack.report), unit)) {
    out << line << "\n";
  }
  for (const std::string& problem : pack.problems) {
    out << "  " << problem << "\n";
  }
}

void print_choices(std::ostream& out, const Unit& unit, const JudgedPack& judged,
                   LengthUnit length_unit) {
  const Pack* pack = unit.pack(judged.report.id);
  if (judged.choices.empty() || pack == nullptr) {
    return;
  }
  out << "  what to fit, nearest to the middle first:\n";
  for (const SelectiveChoice& choice : judged.choices) {
    out << "    ";
    for (std::size_t i = 0; i < choice.thickness_m.size() && i < pack->selective.size(); ++i) {
      out << pack->selective[i] << " " << print_length(choice.thickness_m[i], length_unit) << "  ";
    }
    out << "gives " << print_length(choice.clearance_m, length_unit)
        << (choice.inside ? "" : ", outside") << (choice.changed == 0 ? ", as fitted" : "") << "\n";
  }
}

/// What was asked beside the stack; a Problem where it cannot be read.
Outcome<PackAsk> ask_of(const PackOptions& options) {
  PackAsk ask;
  if (!options.temperature.empty()) {
    const auto warm = parse_quantity(options.temperature, Dimension::temperature);
    if (!warm) {
      return Problem{warm.problem()};
    }
    ask.warm_K = warm.value().si;
  }
  for (const std::string& text : options.readings) {
    auto reading = way_reading_from(text);
    if (!reading) {
      return Problem{reading.problem()};
    }
    ask.readings.push_back(std::move(reading).value());
  }
  if (!ask.readings.empty() && options.pack.empty()) {
    return Problem{"a reading is of one pack: name it with --pack"};
  }
  return ask;
}

void print_reports(std::ostream& out, const PackReports& reports, const PackOptions& options) {
  const LengthUnit unit = options.inch ? LengthUnit::inch : LengthUnit::millimetre;
  if (!reports.choice.words.empty()) {
    out << "  " << reports.choice.words << "\n";
  }
  out << "\n";
  print_report(out, reports.ways, unit);
  if (reports.uncertainty.verdict != ReportVerdict::refused || options.working) {
    print_report(out, reports.uncertainty, unit);
  }
  for (const CalculationReport& reading : reports.readings) {
    print_report(out, reading, unit);
  }
  if (reports.warm) {
    print_report(out, *reports.warm, unit);
  }
  if (options.working) {
    print_report(out, reports.frictions, unit);
    for (const CalculationReport& spring : reports.springs) {
      print_report(out, spring, unit);
    }
  }
}

Json reports_json(const PackReports& reports) {
  Json list = Json::array();
  list.push_back(json_of(reports.ways));
  list.push_back(json_of(reports.uncertainty));
  for (const CalculationReport& reading : reports.readings) {
    list.push_back(json_of(reading));
  }
  if (reports.warm) {
    list.push_back(json_of(*reports.warm));
  }
  list.push_back(json_of(reports.frictions));
  for (const CalculationReport& spring : reports.springs) {
    list.push_back(json_of(spring));
  }
  return list;
}

/// Of a pack that was whole at some step.
std::optional<PackReports> reports_of(Workshop& workshop, const Simulation& simulation,
                                      const JudgedPack& judged, const PackAsk& ask) {
  const Pack* pack = workshop.unit().pack(judged.report.id);
  const std::size_t step = workshop.unit().step_index(judged.after_step);
  if (pack == nullptr || judged.after_step.empty() || step >= simulation.after.size()) {
    return std::nullopt;
  }
  return pack_reports(workshop, *pack, simulation.after[step], ask);
}

} // namespace

int pack(const PackOptions& options, Streams streams) {
  const LoadReport loaded = load_unit(options.unit);
  if (!loaded.unit) {
    return not_loaded(loaded, options.json, streams);
  }
  const Unit& unit = *loaded.unit;
  if (!options.pack.empty() && unit.pack(options.pack) == nullptr) {
    std::vector<std::string> known;
    for (const Pack& each : unit.packs) {
      known.push_back(each.id);
    }
    return refuse("pack", no_such("pack", options.pack, known), streams);
  }
  MeasuredFile file;
  if (!options.measured.empty()) {
    file = read_measured(options.measured, unit);
    if (!file.complaints.empty()) {
      LoadReport wrong;
      wrong.complaints = file.complaints;
      return not_loaded(wrong, options.json, streams);
    }
  }
  const auto ask = ask_of(options);
  if (!ask) {
    return refuse("pack", ask.problem(), streams);
  }
  Workshop workshop(unit, file.readings);
  const Simulation simulation = simulate(workshop);
  const CheckReport report = judge(workshop, simulation);
  bool all_inside = true;
  Json document;
  document["packs"] = Json::array();
  const LengthUnit length_unit = options.inch ? LengthUnit::inch : LengthUnit::millimetre;
  for (const JudgedPack& judged : report.packs) {
    if (!options.pack.empty() && judged.report.id != options.pack) {
      continue;
    }
    all_inside =
        all_inside && judged.report.verdict == PackVerdict::inside && judged.problems.empty();
    const auto reports = reports_of(workshop, simulation, judged, ask.value());
    if (options.json) {
      Json object = json_of(judged);
      if (reports) {
        object["advice"] = reports->choice.words;
        object["reports"] = reports_json(*reports);
      }
      document["packs"].push_back(std::move(object));
    } else {
      print_working(streams.out, judged, length_unit);
      print_choices(streams.out, unit, judged, length_unit);
      if (reports) {
        print_reports(streams.out, *reports, options);
      } else {
        streams.out << "\n";
      }
    }
  }
  if (options.json) {
    print(streams.out, document);
  } else {
    streams.out << (unit.packs.empty() ? "There are no packs in this unit. " : "") << unit.label
                << ". The unit's service manual decides.\n";
  }
  return all_inside ? sound : not_sound;
}

} // namespace lugline::cli
