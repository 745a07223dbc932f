#include "viewer/cli/report_json.h"

#include <cmath>
#include <ostream>
#include <string>

namespace lugline::cli {

namespace {

using Json = nlohmann::ordered_json;

Json figures_of(const std::vector<ReportLine>& lines) {
  Json list = Json::array();
  for (const ReportLine& line : lines) {
    const JsonFigure figure = json_figure(line.of, line.si);
    Json object;
    object["what"] = line.what;
    // What is no figure has none: JSON knows no infinity.
    object["value" + std::string(figure.suffix)] =
        std::isfinite(figure.value) ? Json(figure.value) : Json();
    if (line.plus_minus_si > 0) {
      const FigureOf step = line.of == FigureOf::temperature ? FigureOf::temperature_step : line.of;
      const JsonFigure width = json_figure(step, line.plus_minus_si);
      object["plus_minus" + std::string(width.suffix)] = width.value;
    }
    if (!line.how.empty()) {
      object["how"] = line.how;
    }
    list.push_back(std::move(object));
  }
  return list;
}

} // namespace

Json json_of(const CalculationReport& report) {
  Json object;
  if (!report.id.empty()) {
    object["id"] = report.id;
  }
  object["title"] = report.title;
  object["verdict"] = word_for(report.verdict);
  object["verdict_words"] = report.verdict_words;
  object["inputs"] = figures_of(report.inputs);
  object["working"] = figures_of(report.working);
  object["results"] = figures_of(report.results);
  object["notes"] = report.notes;
  object["sources"] = report.sources;
  if (!report.cautions.empty()) {
    object["cautions"] = report.cautions;
  }
  return object;
}

void print_report(std::ostream& out, const CalculationReport& report, LengthUnit unit, int indent) {
  for (const std::string& line : lines_of(report, unit)) {
    out << std::string(static_cast<std::size_t>(indent), ' ') << line << "\n";
  }
  out << "\n";
}

} // namespace lugline::cli
