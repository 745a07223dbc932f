// The blow-down checks marked 'derived' are no publications: a closed form against an independent
// march of the same physics.
#include "scene/drive/gas.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double litre = 1e-3;

BenchAir dry_air() {
  BenchAir air;
  air.outside_Pa = 1e5;
  air.gas_J_per_kgK = 287;
  return air;
}

/// The same physics by Simpson's rule in equal steps of pressure, the mass's slope by differences.
double marched_s(const Leak& leak, const Cylinder& cylinder, double from_Pa, double to_Pa,
                 const BenchAir& air, int steps) {
  const auto slope = [&](double p) {
    const double h = 1e-3;
    const double mass_slope =
        ((p + h) * cylinder.volume_m3(p + h) - (p - h) * cylinder.volume_m3(p - h)) / (2 * h) /
        (air.gas_J_per_kgK * air.temperature_K);
    return mass_slope / leak_flow_kg_per_s(leak, p, air);
  };
  const double h = (from_Pa - to_Pa) / steps;
  double time_s = 0;
  for (int i = 0; i < steps; ++i) {
    const double p = to_Pa + i * h;
    time_s += h / 6 * (slope(p) + 4 * slope(p + h / 2) + slope(p + h));
  }
  return time_s;
}

} // namespace

TEST_CASE("choked isothermal blow-down of a litre through a 1 mm hole (derived)") {
  const BenchAir air = dry_air();
  const double conductance = hole_conductance(1 * mm, 1, air);
  CHECK(conductance == Approx(0.156461e-8).epsilon(3e-6));
  const Leak nozzle{conductance, nozzle_critical_ratio(1.4)};
  CHECK(hold_time_s(nozzle, 1 * litre, 7e5, 2e5, air) == Approx(8.031060).epsilon(1e-6));
}

TEST_CASE("subsonic emptying in closed form, b below, at and above one half (derived)") {
  const BenchAir air = dry_air();
  // tau = V / (R T C rho0)
  const auto over_tau = [&](double b) {
    const Leak leak{1e-9, b};
    const double tau_s = 1 * litre / (287 * reference_K * 1e-9 * reference_kg_per_m3);
    return hold_time_s(leak, 1 * litre, 1e5 / b, 1e5, air) / tau_s;
  };
  CHECK(over_tau(0.5) == Approx(1).epsilon(1e-9));
  CHECK(over_tau(0.3) == Approx(1.6502305).epsilon(1e-7));
  CHECK(over_tau(0.2) == Approx(2.1311086).epsilon(1e-7));
  CHECK(over_tau(0.5 + 1e-7) == Approx(1).epsilon(1e-6));
  CHECK(over_tau(0.5 - 1e-7) == Approx(1).epsilon(1e-6));
}

TEST_CASE("closed form, quadrature and a plain march agree for a fixed volume (derived)") {
  const BenchAir air;
  for (const double b : {0.05, 0.2, 0.35, 0.4999, 0.5283, 0.8}) {
    const Leak leak{2e-10, b};
    const Cylinder fixed{0.2 * litre, 0.2 * litre, 1.5e5, 3e5};
    const double closed_s = hold_time_s(leak, 0.2 * litre, 3.5e5, 1.2e5, air);
    CHECK(hold_time_s(leak, fixed, 3.5e5, 1.2e5, air) == Approx(closed_s).epsilon(1e-9));
    CHECK(marched_s(leak, fixed, 3.5e5, 1.2e5, air, 4000) == Approx(closed_s).epsilon(1e-6));
  }
}

TEST_CASE("a piston that goes home holds the pressure longer, as a march says too (derived)") {
  const BenchAir air;
  const Leak leak{2e-10, 0.4};
  const Cylinder cylinder{50e-6, 60e-6, 1.8e5, 2.1e5};
  const double time_s = hold_time_s(leak, cylinder, 3e5, 1.5e5, air);
  CHECK(time_s == Approx(marched_s(leak, cylinder, 3e5, 1.5e5, air, 60000)).epsilon(1e-4));
  CHECK(time_s > hold_time_s(leak, 50e-6, 3e5, 1.5e5, air));
  CHECK(time_s >
        hold_time_s(leak, 60e-6, 3e5, 2.1e5, air) + hold_time_s(leak, 60e-6, 2.1e5, 1.8e5, air));
  // Parts add up.
  CHECK(hold_time_s(leak, cylinder, 3e5, 2e5, air) + hold_time_s(leak, cylinder, 2e5, 1.5e5, air) ==
        Approx(time_s));
}

TEST_CASE("a piston that goes home all at once is the limit of one that does so quickly") {
  const BenchAir air;
  const Leak leak{2e-10, 0.4};
  const Cylinder quick{50e-6, 60e-6, 2e5 - 0.01, 2e5 + 0.01};
  const Cylinder at_once{50e-6, 60e-6, 2e5, 2e5};
  CHECK(hold_time_s(leak, at_once, 3e5, 1.5e5, air) ==
        Approx(hold_time_s(leak, quick, 3e5, 1.5e5, air)).epsilon(1e-6));
  CHECK(at_once.volume_m3(2e5) == 60e-6);
  CHECK(at_once.volume_m3(1.99e5) == 50e-6);
}

TEST_CASE("what does not leak never falls, and what is not above is there already") {
  const BenchAir air;
  CHECK(std::isinf(hold_time_s({0, 0.5}, 1e-3, 3e5, 2e5, air)));
  CHECK(std::isinf(hold_time_s({1e-9, 0.5}, 1e-3, 3e5, 1e5, air)));
  CHECK(hold_time_s({1e-9, 0.5}, 1e-3, 2e5, 2e5, air) == 0);
  CHECK(hold_time_s({0, 0.5}, 1e-3, 2e5, 3e5, air) == 0);
  CHECK(std::isfinite(hold_time_s({1e-9, 0}, 1e-3, 3e5, 1.1e5, air)));
  CHECK(leak_flow_kg_per_s({1e-9, 0.5}, air.outside_Pa, air) == 0);
  CHECK(hole_flow_kg_per_s(1 * mm, 1, 0.9e5, air) == 0);
}

TEST_CASE("hold time rises with the volume and falls with the leak, exactly in proportion") {
  const BenchAir air;
  const double one_s = hold_time_s({1e-10, 0.5}, 1e-4, 3e5, 1.3e5, air);
  CHECK(hold_time_s({1e-10, 0.5}, 3e-4, 3e5, 1.3e5, air) == Approx(3 * one_s));
  CHECK(hold_time_s({4e-10, 0.5}, 1e-4, 3e5, 1.3e5, air) == Approx(one_s / 4));
}

TEST_CASE("the standard's ellipse stands within a hundredth for the nozzle's own curve") {
  const BenchAir air;
  const Leak leak{hole_conductance(0.5 * mm, 0.8, air), nozzle_critical_ratio(1.4)};
  for (double inside_Pa = 1.02e5; inside_Pa < 5e5; inside_Pa *= 1.05) {
    CHECK(leak_flow_kg_per_s(leak, inside_Pa, air) ==
          Approx(hole_flow_kg_per_s(0.5 * mm, 0.8, inside_Pa, air)).epsilon(0.01));
  }
  CHECK(hole_diameter_m(leak.conductance, 0.8, air) == Approx(0.5 * mm));
}

TEST_CASE("flow is continuous where it stops being choked") {
  const BenchAir air;
  const Leak leak{1e-9, 0.4};
  const double at_Pa = air.outside_Pa / 0.4;
  CHECK(leak_flow_kg_per_s(leak, at_Pa * (1 + 1e-9), air) ==
        Approx(leak_flow_kg_per_s(leak, at_Pa * (1 - 1e-9), air)).epsilon(1e-6));
}
