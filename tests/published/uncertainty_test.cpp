// Tolerance stacks and uncertainty against printed figures; the source stands beside each, and how
// we know its digits: read in public text, or from memory. Monte Carlo figures are held to four
// standard errors and half of the last digit that is printed.

#include "scene/pack/uncertainty.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace lugline;

namespace {

MonteCarloOptions trials(std::size_t count, double coverage = 0.95) {
  MonteCarloOptions options;
  options.seed = 12345;
  options.trials = count;
  options.coverage = coverage;
  return options;
}

/// A part of an uncertainty budget: standard uncertainty, sensitivity, degrees of freedom.
UncertainInput part(double standard, double sensitivity = 1, double freedom = 0) {
  return normal_of("", 0, standard, sensitivity, freedom);
}

} // namespace

TEST_CASE("the shouldered screw, gap by worst case") {
  // Shigley's Mechanical Engineering Design, 9th edition, example 1-3, p. 20 (page read): a 1.750
  // +/- 0.003, b 0.750 +/- 0.001, c 0.120 +/- 0.005, d 0.875 +/- 0.001 in; w = a - b - c - d is
  // 0.005 +/- 0.010, from -0.005 to 0.015; for a least gap of 0.003, d is 0.867.
  const double w = 1.750 - 0.750 - 0.120 - 0.875;
  const std::vector<UncertainInput> inputs{within("a", 1.750, 0.003), within("b", 0.750, 0.001, -1),
                                           within("c", 0.120, 0.005, -1),
                                           within("d", 0.875, 0.001, -1)};
  const CombinedUncertainty sum = combine(inputs);
  CHECK(w == Approx(0.005).margin(1e-12));
  CHECK(sum.worst_case == Approx(0.010));
  CHECK(w - sum.worst_case == Approx(-0.005));
  CHECK(w + sum.worst_case == Approx(0.015));
  const double d = 0.875 - (0.003 - (w - sum.worst_case));
  CHECK(d == Approx(0.867));
  // Derived: by root sum of squares, sqrt(9 + 1 + 25 + 1) is 6 thousandths exactly.
  CHECK(sum.half_width_rss == Approx(0.006));
}

TEST_CASE("a stack of nine by worst case and by squares, from memory") {
  // K. W. Chase, Basic Tools for Tolerance Analysis of Mechanical Assemblies: shaft, bearings and
  // retaining ring; gap 0.020, worst case 0.0245, root sum of squares 0.01108 in. From memory.
  const std::vector<UncertainInput> inputs{within("", 0.0505, 0.0015, -1), within("", 8.000, 0.008),
                                           within("", 0.5093, 0.0025, -1), within("", 0.400, 0.002),
                                           within("", 7.711, 0.006, -1),   within("", 0.400, 0.002),
                                           within("", 0.5093, 0.0025, -1)};
  double gap = 0;
  for (const UncertainInput& input : inputs) {
    gap += input.sensitivity * input.value;
  }
  CHECK(gap == Approx(0.020).margin(5e-4));
  CHECK(combine(inputs).worst_case == Approx(0.0245));
  CHECK(combine(inputs).half_width_rss == Approx(0.01108).margin(5e-6));
}

TEST_CASE("the additive model of four, normal and rectangular") {
  // JCGM 101:2008, 9.2.2, table 2: four normal inputs of mean 0 and standard deviation 1: u 2.0,
  // 95 % from -3.92 to 3.92. 9.2.3, table 3: four rectangular ones: 2.0, -3.88 to 3.88. Read as
  // they are asserted in an open calculator's tests.
  std::vector<UncertainInput> inputs(4, normal_of("", 0, 1));
  const MonteCarlo normal = monte_carlo(0, inputs, trials(1'000'000));
  CHECK(normal.mean == Approx(0).margin(0.008));
  CHECK(normal.standard == Approx(2.0).margin(0.01));
  CHECK(normal.low == Approx(-3.92).margin(0.02));
  CHECK(normal.high == Approx(3.92).margin(0.02));
  CHECK(combine(inputs).expanded_95() == Approx(3.92).margin(0.005));
  inputs.assign(4, within("", 0, std::numbers::sqrt3));
  const MonteCarlo rectangular = monte_carlo(0, inputs, trials(1'000'000));
  CHECK(rectangular.standard == Approx(2.0).margin(0.01));
  CHECK(rectangular.low == Approx(-3.88).margin(0.02));
  CHECK(rectangular.high == Approx(3.88).margin(0.02));
  // Derived: the exact end is 2 sqrt(3) (2 - 0.6^(1/4)) = 3.879407.
  CHECK(rectangular.high == Approx(3.879407).margin(0.015));
}

TEST_CASE("one wide rectangle among four, from memory") {
  // JCGM 101:2008, 9.2.4: the same with X4 of standard deviation 10: u 10.1, 95 % from -17.0 to
  // 17.0, where the GUM alone says -19.9 to 19.9. From memory.
  std::vector<UncertainInput> inputs(3, within("", 0, std::numbers::sqrt3));
  inputs.push_back(within("", 0, 10 * std::numbers::sqrt3));
  const MonteCarlo wide = monte_carlo(0, inputs, trials(1'000'000));
  CHECK(wide.standard == Approx(10.1).margin(0.06));
  CHECK(wide.low == Approx(-17.0).margin(0.08));
  CHECK(wide.high == Approx(17.0).margin(0.08));
  CHECK(combine(inputs).expanded_95() == Approx(19.9).margin(0.05));
}

TEST_CASE("a logarithm, where the GUM's own way is not enough") {
  // National Physical Laboratory, report DEM-ES-011, 9.2, table 9.2: y = ln x, x rectangular from
  // 0.1 to 1.1. GUM -0.511 and 0.481, upper end of 95 % 0.432; Monte Carlo -0.665 and 0.606,
  // shortest 95 % from -1.895 to 0.095. Read as they are asserted in an open calculator's tests.
  const std::vector<UncertainInput> inputs{within("x", 0.6, 0.5)};
  const UncertainModel log = [](std::span<const double> x) { return std::log(x[0]); };
  CHECK(std::log(0.6) == Approx(-0.511).margin(5e-4));
  const CombinedUncertainty gum = combine(log, inputs);
  CHECK(gum.standard == Approx(0.481).margin(5e-4));
  CHECK(std::log(0.6) + gum.expanded_95() == Approx(0.432).margin(1e-3));
  const MonteCarlo mc = monte_carlo(log, inputs, trials(1'000'000));
  CHECK(mc.mean == Approx(-0.665).margin(0.003));
  CHECK(mc.standard == Approx(0.606).margin(0.003));
  CHECK(mc.shortest_low == Approx(-1.895).margin(0.01));
  CHECK(mc.shortest_high == Approx(0.095).margin(0.001));
}

TEST_CASE("calibration of an end gauge") {
  // JCGM 100:2008 (GUM), H.1: u(d) of 5.8, 10 / t95(5) and 20 / 3 nm is 9.7 nm; u(l) 32 nm with 16
  // effective degrees of freedom; l = ls + d - ls (da th + as dt), in nm. Read as asserted in an
  // open calculator's tests, with their inputs.
  const double t95_5 = coverage_factor(0.95, 5);
  const std::vector<UncertainInput> difference{part(5.8, 1, 24), part(10 / t95_5, 1, 5),
                                               part(20.0 / 3, 1, 8)};
  CHECK(combine(difference).standard == Approx(9.7).margin(0.05));
  const double ls = 50e6;
  const std::vector<UncertainInput> inputs{normal_of("ls", ls, 75.0 / 3, 1, 18),
                                           normal_of("d", 215, 9.7, 1, 25.6),
                                           normal_of("da", 0, 1e-6 / std::numbers::sqrt3, 1, 50),
                                           normal_of("th", -0.1, 0.41),
                                           normal_of("as", 11.5e-6, 2e-6 / std::numbers::sqrt3),
                                           normal_of("dt", 0, 0.05 / std::numbers::sqrt3, 1, 2)};
  const UncertainModel length = [](std::span<const double> x) {
    return x[0] + x[1] - x[0] * (x[2] * x[3] + x[4] * x[5]);
  };
  const CombinedUncertainty sum = combine(length, inputs);
  CHECK(sum.standard == Approx(32).margin(0.4));
  CHECK(sum.freedom == Approx(16).margin(1));
}

TEST_CASE("a coefficient of expansion") {
  // NIST Technical Note 1900, example E13: a = (L1 - L0) / (L0 (T1 - T0)), L0 1.4999 (0.0001), L1
  // 1.5021 (0.0002) m, T0 288.15 (0.02), T1 373.10 (0.05) K: 1.7266e-5, u 1.76e-6 by the GUM's
  // way and 1.74e-6 by Monte Carlo with t of 3 degrees of freedom. Read as asserted.
  const UncertainModel model = [](std::span<const double> x) {
    return (x[1] - x[0]) / (x[0] * (x[3] - x[2]));
  };
  const std::vector<double> at{1.4999, 1.5021, 288.15, 373.10};
  CHECK(model(at) == Approx(1.7266e-5).margin(5e-10));
  const std::vector<double> u{0.0001, 0.0002, 0.02, 0.05};
  std::vector<UncertainInput> inputs;
  for (std::size_t i = 0; i < 4; ++i) {
    inputs.push_back(normal_of("", at[i], u[i]));
  }
  CHECK(combine(model, inputs).standard == Approx(1.76e-6).margin(0.5e-8));
  for (UncertainInput& input : inputs) { // of standard deviation u: its scale is u / sqrt(3)
    input.spread = Spread::students_t;
    input.standard /= std::numbers::sqrt3;
    input.freedom = 3;
  }
  const MonteCarlo mc = monte_carlo(model, inputs, trials(1'000'000));
  CHECK(mc.mean == Approx(1.7268e-5).margin(1.2e-8));
  CHECK(mc.standard == Approx(1.74e-6).margin(0.05e-6)); // heavy tails: the last digit wanders
}

TEST_CASE("the Stefan-Boltzmann constant") {
  // NIST Uncertainty Machine, user's manual, example 10: sigma 5.67037e-8, u 2.05e-13 W/(m2 K4);
  // 99 % from 5.67032e-8 to 5.67043e-8, 68 % from 5.67035e-8 to 5.67039e-8. Read as asserted.
  const UncertainModel model = [](std::span<const double> x) {
    const double light = 299792458;
    return 32 * std::pow(std::numbers::pi, 5) * x[0] * std::pow(x[1], 4) * std::pow(x[2], 4) /
           (15 * std::pow(x[3], 4) * std::pow(0.001, 4) * std::pow(light, 6) * std::pow(x[4], 8));
  };
  const std::vector<UncertainInput> inputs{normal_of("h", 6.62606957e-34, 0.00000029e-34),
                                           normal_of("R", 8.3144621, 0.0000075),
                                           normal_of("Rydberg", 10973731.568539, 0.000055),
                                           normal_of("e", 5.4857990946e-4, 0.0000000022e-4),
                                           normal_of("alpha", 7.2973525698e-3, 0.0000000024e-3)};
  CHECK(combine(model, inputs).standard == Approx(2.05e-13).margin(0.5e-15));
  const MonteCarlo wide = monte_carlo(model, inputs, trials(200'000, 0.99));
  CHECK(wide.mean == Approx(5.67037e-8).margin(0.5e-13));
  CHECK(wide.low == Approx(5.67032e-8).margin(0.6e-13));
  CHECK(wide.high == Approx(5.67043e-8).margin(0.6e-13));
  const MonteCarlo narrow = monte_carlo(model, inputs, trials(200'000, 0.68));
  CHECK(narrow.low == Approx(5.67035e-8).margin(0.6e-13));
  CHECK(narrow.high == Approx(5.67039e-8).margin(0.6e-13));
}

TEST_CASE("budgets of a calibration guide") {
  // EA-4/02, Evaluation of the Uncertainty of Measurement in Calibration, supplements 1 and 2. Read
  // in the tests of an open calculator that works the guide's budgets; u(y) as printed there.
  // S2, weight of 10 kg, g: 0.0293.
  CHECK(combine(std::vector{part(2.25e-2), part(8.95e-3), part(1.44e-2, 1, 2), part(5.77e-3),
                            part(5.77e-3)})
            .standard == Approx(2.93e-2).margin(0.5e-4));
  // S3, resistor of 10 kilohm, ohm: 8.33e-3; its parts are printed to two figures.
  CHECK(combine(std::vector{part(2.5e-3), part(5.8e-3), part(1.6e-3), part(3.2e-3),
                            part(4.1e-7, 1e4), part(7e-8, 1e4, 4)})
            .standard == Approx(8.33e-3).epsilon(5e-3));
  // S4, gauge block of 50 mm, m: 36.4e-9.
  CHECK(combine(std::vector{part(1.5e-8), part(1.73e-8), part(5.37e-9, 1, 4), part(1.85e-8),
                            part(2.89e-2, -5.75e-7), part(2.36e-7, 5e-2), part(3.87e-9, -1)})
            .standard == Approx(3.64e-8).margin(0.5e-10));
  // S5, thermocouple at 1000 degC, K: 0.641.
  CHECK(combine(std::vector{part(0.1), part(1, 7.7e-2), part(0.29, 7.7e-2), part(1.15, 7.7e-2),
                            part(5.8e-2, -0.407), part(0.15), part(0.173), part(0.577)})
            .standard == Approx(0.641).margin(1e-3));
  // S6, power sensor: 0.0224.
  CHECK(combine(std::vector{part(9e-3), part(2.5e-3), part(1.1e-3), part(2e-2), part(1.7e-3),
                            part(3e-4, -1), part(3e-4), part(2e-3, -1), part(2e-3)})
            .standard == Approx(2.24e-2).margin(0.5e-4));
  // S9, hand-held multimeter at 100 V, V: 0.030; 95 % at k 1.65: +/- 0.05. A rectangle rules it.
  const std::vector<UncertainInput> meter{part(1e-3, -1),
                                          within("", 0, 2.9e-2 * std::numbers::sqrt3),
                                          within("", 0, 6.4e-3 * std::numbers::sqrt3, -1)};
  CHECK(combine(meter).standard == Approx(0.030).margin(0.5e-3));
  CHECK(monte_carlo(0, meter, trials(200'000)).high == Approx(0.05).margin(0.005));
  // S10, vernier caliper at 150 mm, um: 33 +/- 60 at k 1.83: two rectangles, a trapezium.
  const auto um = [](double u, double sensitivity) {
    return within("", 0, u * std::numbers::sqrt3, sensitivity);
  };
  const std::vector<UncertainInput> caliper{um(0.46, -1), um(1.15, 1.7), um(15, 1), um(29, 1)};
  CHECK(combine(caliper).standard == Approx(33).margin(0.5));
  const MonteCarlo caliper_trials = monte_carlo(0, caliper, trials(500'000));
  CHECK(caliper_trials.high == Approx(60).margin(0.7));
  CHECK(caliper_trials.high / caliper_trials.standard == Approx(1.83).margin(0.015));
  // S11, block calibrator at 180 degC, mK: 164, +/- 300 at k 1.81.
  const std::vector<UncertainInput> block{part(15),  part(10),   um(23, 1), um(29, -1),
                                          um(58, 1), um(144, 1), um(29, 1), um(17, 1)};
  CHECK(combine(block).standard == Approx(164).margin(0.5));
  // S12, water meter: 9.1e-4; k 2.28, the guide's 95.45 % for 10 effective degrees of freedom;
  // 2.0e-3.
  const CombinedUncertainty water = combine(std::vector{part(6.0e-4, 1, 2), part(6.8e-4)});
  CHECK(water.standard == Approx(9.1e-4).margin(0.5e-5));
  CHECK(std::floor(water.freedom) == 10);
  CHECK(coverage_factor(0.9545, 10) == Approx(2.28).margin(0.005));
  CHECK(2.28 * water.standard == Approx(2.0e-3).margin(1e-4));
}

TEST_CASE("effective degrees of freedom") {
  // Sandia National Laboratories, course ENGR224: 0.57 with 9 degrees of freedom beside 0.25
  // without end: 12.8. X1 / X2 Yu of 0.1820 (0.00093, 9), 0.1823 (0.00058, 19), 0.6978 (0.0026,
  // 19): 0.6967, u 0.00494, 27.7, 95 % +/- 0.0101. Read as asserted.
  CHECK(combine(std::vector{part(0.57, 1, 9), part(0.25)}).freedom == Approx(12.8).margin(0.1));
  const std::vector<UncertainInput> inputs{normal_of("X1", 0.1820, 0.00093, 1, 9),
                                           normal_of("X2", 0.1823, 0.00058, 1, 19),
                                           normal_of("Yu", 0.6978, 0.0026, 1, 19)};
  const UncertainModel model = [](std::span<const double> x) { return x[0] / x[1] * x[2]; };
  CHECK(0.1820 / 0.1823 * 0.6978 == Approx(0.6967).margin(1e-4));
  const CombinedUncertainty sum = combine(model, inputs);
  CHECK(sum.standard == Approx(0.00494).margin(1e-5));
  CHECK(sum.freedom == Approx(27.7).margin(0.5)); // the slides round on the way
  CHECK(sum.expanded_95() == Approx(0.0101).margin(1e-4));
}

TEST_CASE("Student's t, from memory") {
  // JCGM 100:2008, table G.2, fractions 95 % and 99 %: from memory.
  CHECK(coverage_factor(0.95, 1) == Approx(12.71).margin(0.005));
  CHECK(coverage_factor(0.95, 2) == Approx(4.30).margin(0.005));
  CHECK(coverage_factor(0.95, 3) == Approx(3.18).margin(0.005));
  CHECK(coverage_factor(0.95, 5) == Approx(2.57).margin(0.005));
  CHECK(coverage_factor(0.95, 10) == Approx(2.23).margin(0.005));
  CHECK(coverage_factor(0.99, 16) == Approx(2.92).margin(0.005));
  CHECK(coverage_factor(0.95, 0) == Approx(1.960).margin(0.0005));
}

TEST_CASE("a sum of half widths, worst case and by squares") {
  // Notes on tolerance stacks: 0.20, 0.10, 0.15 mm: 0.45 and 0.269 (read; of low authority).
  const std::vector<UncertainInput> inputs{within("", 0, 0.20), within("", 0, 0.10),
                                           within("", 0, 0.15)};
  CHECK(combine(inputs).worst_case == Approx(0.45));
  CHECK(combine(inputs).half_width_rss == Approx(0.269).margin(5e-4));
}

TEST_CASE("derived: the probability of a gap below its limits, normal parts at three deviations") {
  // The shouldered screw: P(w < 0) 0.00621, P(w < 0.003) 0.15866, by the normal integral.
  const std::vector<UncertainInput> inputs{
      normal_within("a", 0, 0.003, 3), normal_within("b", 0, 0.001, 3, -1),
      normal_within("c", 0, 0.005, 3, -1), normal_within("d", 0, 0.001, 3, -1)};
  MonteCarloOptions options = trials(1'000'000);
  options.low = 0;
  CHECK(monte_carlo(0.005, inputs, options).below == Approx(0.00621).margin(4e-4));
  options.low = 0.003;
  CHECK(monte_carlo(0.005, inputs, options).below == Approx(0.15866).margin(2e-3));
}
