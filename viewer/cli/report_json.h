// A calculation's report as JSON and as text: one shape for every command. Field names of figures
// end in their unit.
#pragma once

#include "scene/quantity/report.h"

#include <nlohmann/json.hpp>

#include <iosfwd>

namespace lugline::cli {

/// {"title", "verdict", "verdict_words", "inputs"[], "working"[], "results"[], "notes"[],
/// "sources"[], "cautions"[]}; a figure is {"what", "value_mm" (by its unit), "plus_minus_mm",
/// "how"}.
nlohmann::ordered_json json_of(const CalculationReport& report);

/// Its lines, indented by so many spaces, and an empty line after them.
void print_report(std::ostream& out, const CalculationReport& report, LengthUnit unit,
                  int indent = 0);

} // namespace lugline::cli
