#include "scene/pack/disc_spring.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <utility>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

/// 4 E / (1 - mu^2) / (K1 De^2), which all of the standard's formulas share.
double base_Pa_per_m2(const DiscSpring& spring) {
  const double k1 = disc_factors(spring.outer_m / spring.inner_m).k1;
  return 4 * spring.modulus_Pa / (1 - spring.poisson * spring.poisson) /
         (k1 * spring.outer_m * spring.outer_m);
}

std::string why_no_stack(const DiscStack& stack) {
  constexpr int most = 200;
  const auto sane = [](int count) { return count >= 1 && count <= most; };
  return sane(stack.parallel) && sane(stack.series)
             ? ""
             : "A stack has at least one spring, and not hundreds: " +
                   std::to_string(stack.parallel) + " in parallel, " +
                   std::to_string(stack.series) + " in series were stated.";
}

} // namespace

std::string why_no_disc(const DiscSpring& spring) {
  const auto sane = [](double length_m) { return length_m > 0 && length_m < 10; };
  if (!sane(spring.outer_m) || !sane(spring.inner_m) || !sane(spring.thickness_m)) {
    return "A disc spring has an outer and an inner diameter and a thickness above nothing.";
  }
  if (spring.inner_m >= spring.outer_m * 0.999) {
    return "Its inner diameter is not below its outer one.";
  }
  if (!(spring.cone_m >= 0) || spring.cone_m > (spring.outer_m - spring.inner_m) / 2) {
    return "Its cone is not between nothing and as deep as it is wide: is its free height below "
           "its flat one?";
  }
  if (!(spring.modulus_Pa > 0) || !(spring.poisson >= 0 && spring.poisson < 0.5)) {
    return "Its material's figures are none.";
  }
  return {};
}

DiscFactors disc_factors(double diameter_ratio) {
  assert(diameter_ratio > 1);
  const double d = diameter_ratio;
  const double log = std::log(d);
  DiscFactors factors;
  factors.k1 = (1 / pi) * std::pow((d - 1) / d, 2) / ((d + 1) / (d - 1) - 2 / log);
  factors.k2 = (6 / pi) * ((d - 1) / log - 1) / log;
  factors.k3 = (3 / pi) * (d - 1) / log;
  return factors;
}

double disc_load_N(const DiscSpring& spring, double s_m) {
  const double t = spring.thickness_m;
  const double h = spring.cone_m;
  return base_Pa_per_m2(spring) * t * s_m * ((h - s_m) * (h - s_m / 2) + t * t);
}

double disc_rate_N_per_m(const DiscSpring& spring, double s_m) {
  const double t = spring.thickness_m;
  const double h = spring.cone_m;
  return base_Pa_per_m2(spring) * t * (h * h - 3 * h * s_m + 1.5 * s_m * s_m + t * t);
}

DiscStress disc_stress(const DiscSpring& spring, double s_m) {
  const double ratio = spring.outer_m / spring.inner_m;
  const DiscFactors k = disc_factors(ratio);
  const double t = spring.thickness_m;
  const double h = spring.cone_m;
  const double base = base_Pa_per_m2(spring) * t * s_m;
  DiscStress stress;
  stress.ii_Pa = -base * (k.k2 * (h - s_m / 2) / t - k.k3);
  stress.iii_Pa = -base / ratio * ((k.k2 - 2 * k.k3) * (h - s_m / 2) / t - k.k3);
  stress.om_Pa = -base * 3 / pi;
  return stress;
}

std::optional<double> disc_deflection_m(const DiscSpring& spring, double load_N) {
  if (!why_no_disc(spring).empty() || !(load_N >= 0)) {
    return std::nullopt;
  }
  // Up to flat the load rises to a crest where h0/t is above sqrt(2), and may fall after it: the
  // least deflection is before the crest, where the rate is nothing.
  double crest_m = spring.cone_m;
  const double h = spring.cone_m;
  const double t = spring.thickness_m;
  const double root_m2 = (h * h - 2 * t * t) / 3;
  if (root_m2 > 0) {
    crest_m = std::min(crest_m, h - std::sqrt(root_m2));
  }
  double high_m = crest_m;
  if (disc_load_N(spring, crest_m) < load_N) {
    high_m = spring.cone_m;
    if (disc_load_N(spring, high_m) < load_N * (1 - 1e-12)) {
      return std::nullopt;
    }
  }
  double low_m = 0;
  for (int i = 0; i < 200; ++i) {
    const double middle_m = (low_m + high_m) / 2;
    (disc_load_N(spring, middle_m) < load_N ? low_m : high_m) = middle_m;
  }
  return (low_m + high_m) / 2;
}

double stack_free_m(const DiscSpring& spring, const DiscStack& stack) {
  return stack.series * (spring.free_m() + (stack.parallel - 1) * spring.thickness_m);
}

CalculationReport disc_report(std::string title, const DiscSpring& spring, const DiscStack& stack,
                              double s_m) {
  std::string why = why_no_disc(spring);
  why = why.empty() ? why_no_stack(stack) : why;
  const double most_m = stack.series * spring.cone_m;
  if (why.empty() && !(s_m >= 0 && s_m <= most_m * (1 + 1e-9))) {
    why = print_length(s_m, LengthUnit::millimetre) + " of deflection: between nothing and flat, " +
          print_length(most_m, LengthUnit::millimetre) + ", was expected.";
  }
  if (!why.empty()) {
    return refused_report(std::move(title), std::move(why));
  }
  const double each_m = s_m / stack.series;
  const DiscFactors k = disc_factors(spring.outer_m / spring.inner_m);
  const DiscStress stress = disc_stress(spring, each_m);
  CalculationReport report;
  report.title = std::move(title);
  report.inputs = {{"outer diameter De", FigureOf::length, spring.outer_m, ""},
                   {"inner diameter Di", FigureOf::length, spring.inner_m, ""},
                   {"thickness t", FigureOf::length, spring.thickness_m, ""},
                   {"cone h0", FigureOf::length, spring.cone_m, "free height less thickness"},
                   {"in parallel", FigureOf::count, static_cast<double>(stack.parallel), ""},
                   {"in series", FigureOf::count, static_cast<double>(stack.series), ""},
                   {"deflection", FigureOf::length, s_m, "of the stack"}};
  report.working = {
      {"De / Di", FigureOf::ratio, spring.outer_m / spring.inner_m, ""},
      {"K1", FigureOf::ratio, k.k1, ""},
      {"h0 / t", FigureOf::ratio, spring.cone_m / spring.thickness_m,
       "above 1.41 its load falls before it is flat"},
      {"deflection of each", FigureOf::length, each_m, "s / series"},
      {"load of each", FigureOf::force, disc_load_N(spring, each_m), "EN 16984"},
      {"stress, middle of the upper face", FigureOf::pressure, stress.om_Pa, "compression below 0"},
      {"stress, lower inner edge", FigureOf::pressure, stress.ii_Pa, ""},
      {"stress, lower outer edge", FigureOf::pressure, stress.iii_Pa, ""}};
  report.results = {
      {"load", FigureOf::force, stack.parallel * disc_load_N(spring, each_m), "parallel x each"},
      {"height", FigureOf::length, stack_free_m(spring, stack) - s_m, "free less deflection"},
      {"rate there", FigureOf::stiffness,
       stack.parallel * disc_rate_N_per_m(spring, each_m) / stack.series, ""},
      {"load when flat", FigureOf::force, stack.parallel * disc_load_N(spring, spring.cone_m), ""}};
  report.notes = {"Friction and contact flats are left out (K4 = 1)."};
  report.sources = {"EN 16984 (formerly DIN 2092); E 206 GPa, Poisson's ratio 0.3 unless stated"};
  return report;
}

CalculationReport disc_report_at_load(std::string title, const DiscSpring& spring,
                                      const DiscStack& stack, double load_N) {
  std::string why = why_no_disc(spring);
  why = why.empty() ? why_no_stack(stack) : why;
  if (!why.empty()) {
    return refused_report(std::move(title), std::move(why));
  }
  const auto each_m = disc_deflection_m(spring, load_N / stack.parallel);
  if (!each_m) {
    return refused_report(std::move(title),
                          print_figure(FigureOf::force, load_N, LengthUnit::millimetre) +
                              " is more than it carries before it is flat (" +
                              print_figure(FigureOf::force,
                                           stack.parallel * disc_load_N(spring, spring.cone_m),
                                           LengthUnit::millimetre) +
                              ") or no load: it lies flat on what is beside it.");
  }
  return disc_report(std::move(title), spring, stack, *each_m * stack.series);
}

} // namespace lugline
