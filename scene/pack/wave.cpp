#include "scene/pack/wave.h"

#include <cassert>
#include <cmath>
#include <numbers>
#include <utility>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

double beam_stiffness(const WavePlate& plate) {
  return wave_stiffness_N_per_m(plate.mean_m(), plate.width_m(), plate.thickness_m, plate.waves,
                                plate.modulus_Pa);
}

CalculationReport begin(std::string title, const WavePlate& plate) {
  CalculationReport report;
  report.title = std::move(title);
  report.inputs = {{"outer diameter", FigureOf::length, plate.outer_m, ""},
                   {"inner diameter", FigureOf::length, plate.inner_m, ""},
                   {"thickness", FigureOf::length, plate.thickness_m, ""},
                   {"free height", FigureOf::length, plate.free_m, ""},
                   {"waves", FigureOf::count, static_cast<double>(plate.waves), ""}};
  report.working = {
      {"rate, beams", FigureOf::stiffness, beam_stiffness(plate), "16 E b t^3 N^4 / (pi^3 D^3)"},
      {"factor K", FigureOf::ratio, wave_factor(static_cast<double>(plate.waves)),
       "by the number of waves"},
      {"rate, published practice", FigureOf::stiffness, published_wave_stiffness_N_per_m(plate),
       "E b t^3 N^4 OD / (K D^3 ID)"}};
  report.notes = {"The two models differ: an estimate. A plate's own test is worth more."};
  report.sources = {"Beams fixed at both ends: derived, not a publication",
                    "Factor K: spring makers' published practice; its equation from memory"};
  return report;
}

} // namespace

std::string why_no_wave(const WavePlate& plate) {
  const auto sane = [](double length_m) { return length_m > 0 && length_m < 10; };
  if (!sane(plate.outer_m) || !sane(plate.inner_m) || !sane(plate.thickness_m) ||
      !sane(plate.free_m) || !(plate.modulus_Pa > 0)) {
    return "A wave plate has two diameters, a thickness and a free height above nothing.";
  }
  if (plate.inner_m >= plate.outer_m) {
    return "Its inner diameter is not below its outer one.";
  }
  if (plate.free_m < plate.thickness_m) {
    return "Its free height is below its thickness: which is which?";
  }
  if (plate.waves < 2 || plate.waves > 60) {
    return std::to_string(plate.waves) + " waves: 2 to 60 were expected.";
  }
  return {};
}

double wave_stiffness_N_per_m(double mean_diameter_m, double width_m, double thickness_m, int waves,
                              double modulus_Pa) {
  assert(mean_diameter_m > 0 && width_m > 0 && thickness_m > 0 && waves > 0);
  return 16 * modulus_Pa * width_m * std::pow(thickness_m, 3) * std::pow(waves, 4) /
         (std::pow(pi, 3) * std::pow(mean_diameter_m, 3));
}

double wave_stress_Pa(double load_N, double mean_diameter_m, double width_m, double thickness_m,
                      int waves) {
  assert(mean_diameter_m > 0 && width_m > 0 && thickness_m > 0 && waves > 0);
  return 3 * pi * load_N * mean_diameter_m /
         (4 * width_m * thickness_m * thickness_m * waves * waves);
}

double wave_factor(double waves) {
  if (waves <= 4) {
    return 3.88;
  }
  if (waves <= 6.5) {
    return 2.90;
  }
  return waves <= 9.5 ? 2.30 : 2.13;
}

double published_wave_stiffness_N_per_m(const WavePlate& plate) {
  const double waves = plate.waves;
  return plate.modulus_Pa * plate.width_m() * std::pow(plate.thickness_m, 3) * std::pow(waves, 4) *
         plate.outer_m / (wave_factor(waves) * std::pow(plate.mean_m(), 3) * plate.inner_m);
}

CalculationReport wave_report_at_load(std::string title, const WavePlate& plate, double load_N) {
  std::string why = why_no_wave(plate);
  if (why.empty() && !(load_N >= 0 && load_N < 1e7)) {
    why = "The load is none.";
  }
  if (!why.empty()) {
    return refused_report(std::move(title), std::move(why));
  }
  CalculationReport report = begin(std::move(title), plate);
  report.inputs.push_back({"load", FigureOf::force, load_N, ""});
  const double flat_m = plate.free_m - plate.thickness_m;
  const auto add = [&](const char* model, double rate_N_per_m) {
    const double gives_m = load_N / rate_N_per_m;
    const bool flat = gives_m >= flat_m;
    report.results.push_back({std::string("height, ") + model, FigureOf::length,
                              flat ? plate.thickness_m : plate.free_m - gives_m,
                              flat ? "flat" : "free height less load / rate"});
  };
  add("beams", beam_stiffness(plate));
  add("published practice", published_wave_stiffness_N_per_m(plate));
  report.results.push_back(
      {"stress, beams", FigureOf::pressure,
       wave_stress_Pa(load_N, plate.mean_m(), plate.width_m(), plate.thickness_m, plate.waves),
       "3 pi P D / (4 b t^2 N^2), until it is flat"});
  return report;
}

CalculationReport wave_report_at_height(std::string title, const WavePlate& plate,
                                        double height_m) {
  std::string why = why_no_wave(plate);
  if (why.empty() &&
      !(height_m >= plate.thickness_m * (1 - 1e-9) && height_m <= plate.free_m * (1 + 1e-9))) {
    why = "A height of " + print_length(height_m, LengthUnit::millimetre) + ": between flat, " +
          print_length(plate.thickness_m, LengthUnit::millimetre) + ", and free, " +
          print_length(plate.free_m, LengthUnit::millimetre) + ", was expected.";
  }
  if (!why.empty()) {
    return refused_report(std::move(title), std::move(why));
  }
  CalculationReport report = begin(std::move(title), plate);
  report.inputs.push_back({"height", FigureOf::length, height_m, ""});
  const double gives_m = plate.free_m - height_m;
  report.working.push_back({"deflection", FigureOf::length, gives_m, "free height less height"});
  const double load_N = beam_stiffness(plate) * gives_m;
  report.results = {
      {"load, beams", FigureOf::force, load_N, "rate x deflection"},
      {"load, published practice", FigureOf::force,
       published_wave_stiffness_N_per_m(plate) * gives_m, "rate x deflection"},
      {"stress, beams", FigureOf::pressure,
       wave_stress_Pa(load_N, plate.mean_m(), plate.width_m(), plate.thickness_m, plate.waves),
       "3 pi P D / (4 b t^2 N^2)"}};
  return report;
}

} // namespace lugline
