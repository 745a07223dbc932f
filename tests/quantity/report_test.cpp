#include "scene/quantity/report.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace lugline;

TEST_CASE("a figure of a report prints in the bench's units, metric and inch") {
  const auto mm = LengthUnit::millimetre;
  const auto in = LengthUnit::inch;
  CHECK(print_figure(FigureOf::length, 0.9e-3, mm) == "0.90 mm");
  CHECK(print_figure(FigureOf::length, 25.4e-3, in) == "1.000 in");
  CHECK(print_figure(FigureOf::area, 10295e-6, mm) == "10295 mm2");
  CHECK(print_figure(FigureOf::area, 645.16e-6, in) == "1.000 in2");
  CHECK(print_figure(FigureOf::volume, 12.3e-6, mm) == "12.3 mL");
  CHECK(print_figure(FigureOf::force, 854.4, mm) == "854 N");
  CHECK(print_figure(FigureOf::force, 4.4482216152605, in) == "1.00 lbf");
  CHECK(print_figure(FigureOf::pressure, 1.1e6, mm) == "1100 kPa");
  CHECK(print_figure(FigureOf::pressure, 6894.757293168, in) == "1.00 psi");
  CHECK(print_figure(FigureOf::torque, 820.8, mm) == "820.8 N m");
  CHECK(print_figure(FigureOf::torque, 1.3558179483314004, in) == "1.000 lbf ft");
  CHECK(print_figure(FigureOf::temperature, 293.15, mm) == "20.0 degC");
  CHECK(print_figure(FigureOf::temperature, 293.15, in) == "68.0 degF");
  CHECK(print_figure(FigureOf::temperature_step, 60, in) == "108 degF");
  CHECK(print_figure(FigureOf::turning_speed, 314.1592653589793, mm) == "3000 rpm");
  CHECK(print_figure(FigureOf::ratio, 132.0 / 54.0, mm) == "2.444");
  CHECK(print_figure(FigureOf::share, 0.983, mm) == "98.3 %");
  CHECK(print_figure(FigureOf::count, 8, mm) == "8");
}

TEST_CASE("a sentence gives a figure both ways, and once where both are alike") {
  CHECK(print_figure_both(FigureOf::pressure, 280e3) == "280 kPa (40.6 psi)");
  CHECK(print_figure_both(FigureOf::length, 25.4e-3) == "25.40 mm (1.000 in)");
  CHECK(print_figure_both(FigureOf::ratio, 2.5) == "2.500");
  CHECK(print_figure_both(FigureOf::time, 5) == "5.00 s");
}

TEST_CASE("a small figure keeps its leading figures, nothing is minus nought, no end is said so") {
  const auto mm = LengthUnit::millimetre;
  CHECK(print_figure(FigureOf::mass_flow, 1.23e-6, mm) == "0.00123 g/s");
  CHECK(print_figure(FigureOf::ratio, -1e-18, mm) == "0.000000");
  CHECK(print_figure(FigureOf::torque, -0.0, mm) == "0.000 N m");
  CHECK(print_figure(FigureOf::time, std::numeric_limits<double>::infinity(), mm) == "without end");
}

TEST_CASE("a JSON figure stands in the unit that its field's name ends in") {
  CHECK(json_figure(FigureOf::length, 0.9e-3).suffix == "_mm");
  CHECK(json_figure(FigureOf::length, 0.9e-3).value == 0.9);
  CHECK(json_figure(FigureOf::pressure, 250e3).suffix == "_kPa");
  CHECK(json_figure(FigureOf::pressure, 250e3).value == 250);
  CHECK(json_figure(FigureOf::torque, 1.0 / 3).value == 0.3333333333);
  CHECK(json_figure(FigureOf::share, 0.5).value == 50);
}

TEST_CASE("a report is told line by line, the caution first") {
  CalculationReport report;
  report.title = "Bench air at the case clutch";
  report.inputs = {{"pressure", FigureOf::pressure, 250e3, "stated", 0}};
  report.working = {{"force of the air", FigureOf::force, 1376, "pressure x area", 12}};
  report.verdict = ReportVerdict::good;
  report.verdict_words = "The piston moves.";
  report.sources = {"common practice, no source"};
  report.cautions = {"Compressed air can injure."};
  CHECK(lines_of(report, LengthUnit::millimetre) ==
        std::vector<std::string>{
            "Bench air at the case clutch",
            "  CAUTION: Compressed air can injure.",
            "  pressure                                         250 kPa   stated",
            "  force of the air                        1376 N +/- 12.0 N   pressure x area",
            "  The piston moves.",
            "  Source: common practice, no source",
        });
}

TEST_CASE("a report that was not worked out says why") {
  const CalculationReport report = refused_report("Ratio", "Nothing holds the carrier.");
  CHECK(report.verdict == ReportVerdict::refused);
  CHECK(word_for(report.verdict) == "refused");
  CHECK(lines_of(report, LengthUnit::inch) ==
        std::vector<std::string>{"Ratio", "  Nothing holds the carrier."});
}

TEST_CASE("one of the printed unit prints as one") {
  for (const LengthUnit style : {LengthUnit::millimetre, LengthUnit::inch}) {
    for (const FigureOf of :
         {FigureOf::length, FigureOf::area, FigureOf::volume, FigureOf::angle, FigureOf::force,
          FigureOf::pressure, FigureOf::torque, FigureOf::stiffness, FigureOf::mass,
          FigureOf::temperature_step, FigureOf::turning_speed, FigureOf::time, FigureOf::mass_flow,
          FigureOf::power, FigureOf::ratio, FigureOf::share, FigureOf::count}) {
      const std::string printed = print_figure(of, printed_unit_si(of, style), style);
      CHECK(std::stod(printed) == 1);
    }
  }
  CHECK(printed_unit_si(FigureOf::temperature, LengthUnit::inch) == Approx(5.0 / 9));
}
