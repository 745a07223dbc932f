#include "scene/pack/uncertainty.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <random>
#include <utility>

namespace lugline {

namespace {

constexpr double normal_95 = 1.959963984540054;

/// Uniform over (0, 1), neither end: 53 bits of the generator.
double uniform(std::mt19937_64& random) {
  return (static_cast<double>(random() >> 11U) + 0.5) * 0x1p-53;
}

/// Two independent figures at a time would save time, and tie one input to the next one's place.
double draw_normal(std::mt19937_64& random) {
  const double radius = std::sqrt(-2 * std::log(uniform(random)));
  return radius * std::cos(2 * std::numbers::pi * uniform(random));
}

/// Student's t by the polar form of R. W. Bailey (Mathematics of Computation 62, 1994).
double draw_students_t(std::mt19937_64& random, double freedom) {
  const double u = uniform(random);
  const double radius = std::sqrt(freedom * (std::pow(u, -2 / freedom) - 1));
  return radius * std::cos(2 * std::numbers::pi * uniform(random));
}

double draw(std::mt19937_64& random, const UncertainInput& input) {
  switch (input.spread) {
  case Spread::rectangular:
    return input.value + input.standard * std::numbers::sqrt3 * (2 * uniform(random) - 1);
  case Spread::students_t:
    if (input.freedom > 0) {
      return input.value + input.standard * draw_students_t(random, input.freedom);
    }
    return input.value + input.standard * draw_normal(random);
  case Spread::normal:
    return input.value + input.standard * draw_normal(random);
  }
  return input.value;
}

/// The continued fraction of the incomplete beta function (Abramowitz and Stegun 26.5.8), by
/// Lentz's method.
double beta_fraction(double a, double b, double x) {
  constexpr double tiny = 1e-300;
  double c = 1;
  double d = 1 / std::max(std::abs(1 - (a + b) * x / (a + 1)), tiny);
  double fraction = d;
  for (int m = 1; m < 300; ++m) {
    const auto step = [&](double term) {
      d = 1 + term * d;
      d = 1 / (std::abs(d) < tiny ? tiny : d);
      c = 1 + term / (std::abs(c) < tiny ? tiny : c);
      fraction *= c * d;
    };
    step(m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)));
    step(-(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)));
    if (std::abs(c * d - 1) < 1e-15) {
      break;
    }
  }
  return fraction;
}

/// Probability that |t| exceeds the figure: the incomplete beta function I_x(freedom/2, 1/2)
/// with x = freedom / (freedom + t^2).
double outside_students_t(double t, double freedom) {
  const double a = freedom / 2;
  const double b = 0.5;
  const double x = freedom / (freedom + t * t);
  const double front = std::exp(std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b) +
                                a * std::log(x) + b * std::log1p(-x));
  return x < (a + 1) / (a + b + 2) ? front * beta_fraction(a, b, x) / a
                                   : 1 - front * beta_fraction(b, a, 1 - x) / b;
}

double factor_95(double freedom) {
  return freedom > 0 ? coverage_factor(0.95, freedom) : normal_95;
}

CombinedUncertainty combined(std::span<const UncertainInput> inputs,
                             std::span<const double> sensitivities) {
  CombinedUncertainty result;
  double squares = 0;
  double width_squares = 0;
  double fourths = 0;
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    assert(!(inputs[i].standard < 0) && !(inputs[i].half_width < 0));
    const double part = sensitivities[i] * inputs[i].standard;
    const double width = sensitivities[i] * inputs[i].half_width;
    squares += part * part;
    width_squares += width * width;
    result.worst_case += std::abs(width);
    if (inputs[i].freedom > 0) {
      fourths += std::pow(part, 4) / inputs[i].freedom;
    }
  }
  result.standard = std::sqrt(squares);
  result.half_width_rss = std::sqrt(width_squares);
  result.freedom = fourths > 0 ? squares * squares / fourths : 0;
  result.factor_95 = factor_95(result.freedom);
  return result;
}

/// The figure below which a share of the sorted trials lies (JCGM 101, 7.7).
double at_share(const std::vector<double>& sorted, double share) {
  const double at = share * static_cast<double>(sorted.size()) - 0.5;
  const double last = static_cast<double>(sorted.size() - 1);
  const double clamped = std::clamp(at, 0.0, last);
  const auto i = static_cast<std::size_t>(clamped);
  const double beyond = clamped - static_cast<double>(i);
  const double next = i + 1 < sorted.size() ? sorted[i + 1] : sorted[i];
  return sorted[i] + beyond * (next - sorted[i]);
}

void find_shortest(MonteCarlo& result, const std::vector<double>& sorted, double coverage) {
  const auto span =
      static_cast<std::size_t>(std::llround(coverage * static_cast<double>(sorted.size())));
  result.shortest_low = sorted.front();
  result.shortest_high = sorted.back();
  for (std::size_t i = 0; i + span < sorted.size(); ++i) {
    if (sorted[i + span] - sorted[i] < result.shortest_high - result.shortest_low) {
      result.shortest_low = sorted[i];
      result.shortest_high = sorted[i + span];
    }
  }
}

} // namespace

UncertainInput within(std::string what, double value, double half_width, double sensitivity) {
  UncertainInput input{std::move(what), value, sensitivity, Spread::rectangular};
  input.standard = half_width / std::numbers::sqrt3;
  input.half_width = half_width;
  return input;
}

UncertainInput normal_within(std::string what, double value, double half_width, double deviations,
                             double sensitivity) {
  assert(deviations > 0);
  UncertainInput input{std::move(what), value, sensitivity, Spread::normal};
  input.standard = half_width / deviations;
  input.half_width = half_width;
  return input;
}

UncertainInput normal_of(std::string what, double value, double standard, double sensitivity,
                         double freedom) {
  UncertainInput input{std::move(what), value, sensitivity, Spread::normal};
  input.standard = standard;
  input.half_width = 2 * standard;
  input.freedom = freedom;
  return input;
}

double coverage_factor(double coverage, double freedom) {
  assert(coverage > 0 && coverage < 1 && freedom >= 0);
  const auto outside = [&](double t) {
    return freedom > 0 ? outside_students_t(t, freedom) : std::erfc(t / std::numbers::sqrt2);
  };
  double low = 0;
  double high = 1;
  while (outside(high) > 1 - coverage && high < 1e9) {
    high *= 2;
  }
  for (int i = 0; i < 200 && high - low > 1e-13 * high; ++i) {
    const double middle = (low + high) / 2;
    (outside(middle) > 1 - coverage ? low : high) = middle;
  }
  return (low + high) / 2;
}

CombinedUncertainty combine(std::span<const UncertainInput> inputs) {
  std::vector<double> sensitivities;
  for (const UncertainInput& input : inputs) {
    sensitivities.push_back(input.sensitivity);
  }
  return combined(inputs, sensitivities);
}

CombinedUncertainty combine(const UncertainModel& model, std::span<const UncertainInput> inputs) {
  std::vector<double> at;
  for (const UncertainInput& input : inputs) {
    at.push_back(input.value);
  }
  std::vector<double> sensitivities(inputs.size(), 0);
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    // A hundredth of the uncertainty: the slope there, and far above the rounding of the model.
    const double step = inputs[i].standard / 100;
    if (step > 0) {
      at[i] = inputs[i].value + step;
      const double above = model(at);
      at[i] = inputs[i].value - step;
      sensitivities[i] = (above - model(at)) / (2 * step);
      at[i] = inputs[i].value;
    }
  }
  return combined(inputs, sensitivities);
}

MonteCarlo monte_carlo(const UncertainModel& model, std::span<const UncertainInput> inputs,
                       const MonteCarloOptions& options) {
  assert(options.trials >= 100);
  std::mt19937_64 random(options.seed);
  std::vector<double> drawn(inputs.size());
  std::vector<double> answers(options.trials);
  MonteCarlo result;
  result.trials = options.trials;
  result.seed = options.seed;
  std::size_t below = 0;
  std::size_t above = 0;
  for (double& answer : answers) {
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      drawn[i] = draw(random, inputs[i]);
    }
    answer = model(drawn);
    below += answer < options.low ? 1 : 0;
    above += answer > options.high ? 1 : 0;
    result.mean += answer;
  }
  const auto trials = static_cast<double>(options.trials);
  result.mean /= trials;
  double squares = 0;
  for (const double answer : answers) {
    squares += (answer - result.mean) * (answer - result.mean);
  }
  result.standard = std::sqrt(squares / (trials - 1));
  result.below = static_cast<double>(below) / trials;
  result.above = static_cast<double>(above) / trials;
  result.inside = static_cast<double>(options.trials - below - above) / trials;
  std::ranges::sort(answers);
  result.low = at_share(answers, (1 - options.coverage) / 2);
  result.high = at_share(answers, (1 + options.coverage) / 2);
  find_shortest(result, answers, options.coverage);
  return result;
}

MonteCarlo monte_carlo(double value, std::span<const UncertainInput> inputs,
                       const MonteCarloOptions& options) {
  const auto sum = [&](std::span<const double> drawn) {
    double answer = value;
    for (std::size_t i = 0; i < drawn.size(); ++i) {
      answer += inputs[i].sensitivity * (drawn[i] - inputs[i].value);
    }
    return answer;
  };
  return monte_carlo(UncertainModel(sum), inputs, options);
}

namespace {

std::string words_for(const UncertainInput& input) {
  switch (input.spread) {
  case Spread::rectangular:
    return "anywhere within its half width alike";
  case Spread::normal:
    return "normal";
  case Spread::students_t:
    return "mean of a few readings, t of " + print_figure(FigureOf::count, input.freedom, {}) +
           " degrees of freedom";
  }
  return {};
}

void judge(CalculationReport& report, double value_m, const MonteCarlo& trials,
           const MonteCarloOptions& options) {
  if (std::isinf(options.low) && std::isinf(options.high)) {
    return;
  }
  report.results.push_back({"probability of being inside", FigureOf::share, trials.inside,
                            "share of " + std::to_string(trials.trials) + " trials"});
  const bool inside = value_m >= options.low && value_m <= options.high;
  const auto percent = [](double share) {
    return print_figure(FigureOf::share, share, LengthUnit::millimetre);
  };
  report.verdict = inside && trials.inside >= 0.95 ? ReportVerdict::good : ReportVerdict::bad;
  report.verdict_words = percent(trials.inside) + " likely inside the limits, " +
                         percent(trials.below) + " below, " + percent(trials.above) + " above";
}

} // namespace

CalculationReport uncertainty_report(std::string title, double value_m,
                                     std::span<const UncertainInput> inputs,
                                     const MonteCarloOptions& options) {
  const CombinedUncertainty sum = combine(inputs);
  if (!std::isfinite(value_m) || !std::isfinite(sum.standard)) {
    return refused_report(std::move(title), "A figure among them is no figure.");
  }
  if (sum.standard == 0) {
    return refused_report(std::move(title),
                          "Nothing was read with a stated uncertainty: how far off it may be is "
                          "not known.");
  }
  const MonteCarlo trials = monte_carlo(value_m, inputs, options);
  CalculationReport report;
  report.title = std::move(title);
  report.inputs.push_back({"figure", FigureOf::length, value_m, "", sum.expanded_95()});
  for (const UncertainInput& input : inputs) {
    report.working.push_back({"u of " + input.what, FigureOf::length,
                              std::abs(input.sensitivity) * input.standard, words_for(input)});
  }
  report.results.push_back(
      {"at worst, +/-", FigureOf::length, sum.worst_case, "half widths added"});
  report.results.push_back(
      {"root sum of squares, u", FigureOf::length, sum.standard, "of the standard uncertainties"});
  report.results.push_back(
      {"95 % coverage, +/-", FigureOf::length, sum.expanded_95(), "t95 times u"});
  report.results.push_back({"Monte Carlo, 95 % from", FigureOf::length, trials.low, ""});
  report.results.push_back({"Monte Carlo, 95 % to", FigureOf::length, trials.high,
                            "seed " + std::to_string(options.seed)});
  judge(report, value_m, trials, options);
  report.sources = {"JCGM 100:2008 (GUM), 5.1.2 and annex G; JCGM 101:2008, clause 7"};
  return report;
}

} // namespace lugline
