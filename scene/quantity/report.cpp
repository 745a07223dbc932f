#include "scene/quantity/report.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <numbers>

namespace lugline {

namespace {

constexpr double pound_force_N = 4.4482216152605;
constexpr double square_inch_m2 = inch_m * inch_m;
constexpr double horsepower_W = 745.69987158227022; // 550 ft lbf/s, NIST SP 811 B.8

struct Shown {
  std::string_view unit;   ///< with the space before it
  std::string_view suffix; ///< of a JSON field; empty for inch units
  double factor = 1;       ///< SI of one of it
  int figures = 3;         ///< leading figures that are kept
};

double rpm() {
  return std::numbers::pi / 30;
}

Shown metric(FigureOf of) {
  switch (of) {
  case FigureOf::length:
    return {" mm", "_mm", 1e-3};
  case FigureOf::area:
    return {" mm2", "_mm2", 1e-6, 4};
  case FigureOf::volume:
    return {" mL", "_mL", 1e-6};
  case FigureOf::angle:
    return {" deg", "_deg", std::numbers::pi / 180, 4};
  case FigureOf::force:
    return {" N", "_N", 1};
  case FigureOf::pressure:
    return {" kPa", "_kPa", 1e3};
  case FigureOf::torque:
    return {" N m", "_Nm", 1, 4};
  case FigureOf::stiffness:
    return {" N/mm", "_N_per_mm", 1e3};
  case FigureOf::mass:
    return {" kg", "_kg", 1, 4};
  case FigureOf::temperature:
    return {" degC", "_degC", 1};
  case FigureOf::temperature_step:
    return {" K", "_K", 1};
  case FigureOf::turning_speed:
    return {" rpm", "_rpm", rpm(), 4};
  case FigureOf::time:
    return {" s", "_s", 1};
  case FigureOf::mass_flow:
    return {" g/s", "_g_per_s", 1e-3};
  case FigureOf::power:
    return {" kW", "_kW", 1e3};
  case FigureOf::ratio:
    return {"", "", 1, 4};
  case FigureOf::share:
    return {" %", "_percent", 0.01};
  case FigureOf::count:
    return {"", "", 1};
  }
  return {};
}

Shown shop_inch(FigureOf of) {
  switch (of) {
  case FigureOf::area:
    return {" in2", "", square_inch_m2, 4};
  case FigureOf::volume:
    return {" in3", "", square_inch_m2 * inch_m};
  case FigureOf::force:
    return {" lbf", "", pound_force_N};
  case FigureOf::pressure:
    return {" psi", "", pound_force_N / square_inch_m2};
  case FigureOf::torque:
    return {" lbf ft", "", pound_force_N * 12 * inch_m, 4};
  case FigureOf::stiffness:
    return {" lbf/in", "", pound_force_N / inch_m};
  case FigureOf::mass:
    return {" lb", "", 0.45359237, 4};
  case FigureOf::temperature:
    return {" degF", "", 1};
  case FigureOf::temperature_step:
    return {" degF", "", 5.0 / 9};
  case FigureOf::power:
    return {" hp", "", horsepower_W};
  default:
    return metric(of);
  }
}

double in_unit(FigureOf of, double si, const Shown& shown, LengthUnit style) {
  if (of == FigureOf::temperature) {
    const double celsius = si - 273.15;
    return style == LengthUnit::inch ? celsius * 9 / 5 + 32 : celsius;
  }
  return si / shown.factor;
}

/// `figures` leading figures, and none rounded away left of the point.
std::string with_figures(double value, int figures) {
  if (!std::isfinite(value)) {
    return value > 0 ? "without end" : "?";
  }
  int places = figures - 1;
  for (double limit = 10; places > 0 && std::abs(value) >= limit * (1 - 1e-12); limit *= 10) {
    --places;
  }
  // A small figure keeps its leading figures too, up to a bound that still reads as a figure.
  for (double limit = 1; places < 6 && value != 0 && std::abs(value) < limit * (1 - 1e-12);
       limit /= 10) {
    ++places;
  }
  std::array<char, 400> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                 std::chars_format::fixed, places)
                       .ptr;
  std::string text(buffer.data(), end);
  return text.find_first_not_of("-0.") == std::string::npos && text.front() == '-' ? text.substr(1)
                                                                                   : text;
}

std::string padded(std::string text, std::size_t width, bool left) {
  // Column width in letters, not bytes: a UTF-8 letter's further bytes do not count.
  const auto letters = static_cast<std::size_t>(std::ranges::count_if(
      text, [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }));
  if (letters < width) {
    left ? text.append(width - letters, ' ') : text.insert(0, width - letters, ' ');
  }
  return text;
}

void add_lines(std::vector<std::string>& out, const std::vector<ReportLine>& lines,
               LengthUnit style) {
  constexpr std::size_t words = 40;
  constexpr std::size_t figures = 16;
  for (const ReportLine& line : lines) {
    std::string figure = print_figure(line.of, line.si, style);
    if (line.plus_minus_si > 0) {
      const FigureOf step = line.of == FigureOf::temperature ? FigureOf::temperature_step : line.of;
      figure += " +/- " + print_figure(step, line.plus_minus_si, style);
    }
    std::string text = "  " + padded(line.what, words, true) + padded(figure, figures, false);
    out.push_back(line.how.empty() ? text : text + "   " + line.how);
  }
}

} // namespace

std::string print_figure(FigureOf of, double si, LengthUnit style) {
  if (of == FigureOf::length && std::isfinite(si)) {
    return print_length(si, style);
  }
  const Shown shown = style == LengthUnit::inch ? shop_inch(of) : metric(of);
  const double value = in_unit(of, si, shown, style);
  if (of == FigureOf::count && value == std::round(value) && std::abs(value) < 1e15) {
    return std::to_string(static_cast<std::int64_t>(value));
  }
  if (!std::isfinite(value)) {
    return with_figures(value, shown.figures);
  }
  return with_figures(value, shown.figures) + std::string(shown.unit);
}

double printed_unit_si(FigureOf of, LengthUnit style) {
  if (of == FigureOf::length) {
    return style == LengthUnit::inch ? inch_m : millimetre_m;
  }
  if (of == FigureOf::temperature) {
    return printed_unit_si(FigureOf::temperature_step, style);
  }
  return (style == LengthUnit::inch ? shop_inch(of) : metric(of)).factor;
}

std::string print_figure_both(FigureOf of, double si) {
  const std::string metric_text = print_figure(of, si, LengthUnit::millimetre);
  const std::string inch_text = print_figure(of, si, LengthUnit::inch);
  return metric_text == inch_text ? metric_text : metric_text + " (" + inch_text + ")";
}

JsonFigure json_figure(FigureOf of, double si) {
  const Shown shown = metric(of);
  const double value = in_unit(of, si, shown, LengthUnit::millimetre);
  std::array<char, 40> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                 std::chars_format::scientific, 9)
                       .ptr;
  double rounded = 0;
  std::from_chars(buffer.data(), end, rounded);
  return {shown.suffix, rounded == 0 ? 0 : rounded};
}

std::string_view word_for(ReportVerdict verdict) {
  switch (verdict) {
  case ReportVerdict::none:
    return "none";
  case ReportVerdict::good:
    return "good";
  case ReportVerdict::bad:
    return "bad";
  case ReportVerdict::refused:
    return "refused";
  }
  return {};
}

CalculationReport refused_report(std::string title, std::string why) {
  CalculationReport report;
  report.title = std::move(title);
  report.verdict = ReportVerdict::refused;
  report.verdict_words = std::move(why);
  return report;
}

std::vector<std::string> lines_of(const CalculationReport& report, LengthUnit style) {
  std::vector<std::string> out{report.title};
  for (const std::string& caution : report.cautions) {
    out.push_back("  CAUTION: " + caution);
  }
  add_lines(out, report.inputs, style);
  add_lines(out, report.working, style);
  add_lines(out, report.results, style);
  if (!report.verdict_words.empty()) {
    out.push_back("  " + report.verdict_words);
  }
  for (const std::string& note : report.notes) {
    out.push_back("  " + note);
  }
  for (const std::string& source : report.sources) {
    out.push_back("  Source: " + source);
  }
  return out;
}

} // namespace lugline
