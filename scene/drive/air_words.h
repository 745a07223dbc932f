// What the answers of the air check have in common: what is refused, and what is warned of.
// Of this room only. Plain sentences; nothing here fails.
#pragma once

#include "scene/drive/air.h"

#include <string>

namespace lugline {

std::string air_figure(FigureOf of, double si); ///< for a sentence: metric, and inch beside it
/// Why a pressure (gauge) may not be used, or a piston not be worked out; empty where it may.
std::string air_problem(const AirPiston& piston, const AirTest& test, double pressure_Pa);
CalculationReport air_refusal(const AirPiston& piston, std::string title, std::string why);
void add_air_cautions(CalculationReport& report, const AirTest& test, double pressure_Pa);
std::string air_title(const AirPiston& piston, const std::string& what);

} // namespace lugline
