// How far a figure may be off that was worked out of others.
//
// By worst case (the half widths added up), by root sum of squares (GUM, JCGM 100:2008, 5.1.2
// and annex G), and by Monte Carlo (JCGM 101:2008). One input is one thing that was read or that
// is stated; figures are in any one unit (in Lugline metres), sensitivities per unit of the input.
// Random numbers: std::mt19937_64, which the C++ standard fixes, and our own distributions, so
// that a seed gives the same figures on every machine. Pure; a negative width is a slip (assert).
#pragma once

#include "scene/quantity/report.h"

#include <cstdint>
#include <functional>
#include <limits>
#include <span>
#include <string>
#include <vector>

namespace lugline {

enum class Spread {
  rectangular, ///< anywhere within the half width alike: a resolution, a stated limit
  normal,
  students_t ///< the mean of a few readings; `standard` is its scale (JCGM 101, 6.4.9)
};

struct UncertainInput {
  std::string what; ///< "thickness of friction 2"
  double value = 0;
  double sensitivity = 1; ///< how much the answer moves for one unit of it; only of a sum
  Spread spread = Spread::normal;
  double standard = 0;   ///< standard uncertainty
  double half_width = 0; ///< what is taken as its worst
  double freedom = 0;    ///< degrees of freedom of `standard`; 0: without end
};

/// Anywhere within +/- half_width: standard uncertainty half_width / sqrt(3) (GUM 4.3.7).
UncertainInput within(std::string what, double value, double half_width, double sensitivity = 1);
/// Normal, its tolerance of +/- half_width at so many standard deviations.
UncertainInput normal_within(std::string what, double value, double half_width, double deviations,
                             double sensitivity = 1);
/// Normal, of a stated standard uncertainty; its worst is taken at two of them.
UncertainInput normal_of(std::string what, double value, double standard, double sensitivity = 1,
                         double freedom = 0);

struct CombinedUncertainty {
  double standard = 0;       ///< root sum of squares of the standard uncertainties
  double worst_case = 0;     ///< sum of the half widths
  double half_width_rss = 0; ///< root sum of squares of the half widths, a shop's rule
  double freedom = 0;        ///< effective, Welch-Satterthwaite (GUM G.2b); 0: without end
  double factor_95 = 0;      ///< coverage factor t95(freedom); 1.96 where it is without end
  [[nodiscard]] double expanded_95() const { return factor_95 * standard; }
};

/// Of a sum of sensitivity times input.
CombinedUncertainty combine(std::span<const UncertainInput> inputs);

/// What is worked out of the inputs' values, in their order.
using UncertainModel = std::function<double(std::span<const double>)>;
/// The same of any model, its sensitivities found by small steps each way.
CombinedUncertainty combine(const UncertainModel& model, std::span<const UncertainInput> inputs);

struct MonteCarloOptions {
  std::uint64_t seed = 1;
  std::size_t trials = 100'000;
  double coverage = 0.95;
  double low = -std::numeric_limits<double>::infinity(); ///< limits of the answer
  double high = std::numeric_limits<double>::infinity();
};

struct MonteCarlo {
  double mean = 0;
  double standard = 0;
  double low = 0; ///< coverage interval, as much left out at either end
  double high = 0;
  double shortest_low = 0; ///< the shortest interval of that coverage
  double shortest_high = 0;
  double inside = 0; ///< shares of the trials inside the options' limits, below, above
  double below = 0;
  double above = 0;
  std::size_t trials = 0;
  std::uint64_t seed = 0;
};

/// Trials are at least 100.
MonteCarlo monte_carlo(const UncertainModel& model, std::span<const UncertainInput> inputs,
                       const MonteCarloOptions& options);
/// The same of a sum of sensitivity times input, shifted so that it is `value` with every input at
/// its value.
MonteCarlo monte_carlo(double value, std::span<const UncertainInput> inputs,
                       const MonteCarloOptions& options);

/// The two-sided quantile: `coverage` of Student's t with `freedom` degrees lies within +/- this.
/// freedom 0: of the normal distribution.
double coverage_factor(double coverage, double freedom);

/// A figure's uncertainty told in full, lengths: what enters, the three ways, the probability of
/// being inside the limits. With no input that has a width it is refused in a plain sentence.
CalculationReport uncertainty_report(std::string title, double value_m,
                                     std::span<const UncertainInput> inputs,
                                     const MonteCarloOptions& options);

} // namespace lugline
