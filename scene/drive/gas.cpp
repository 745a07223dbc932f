#include "scene/drive/gas.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double never = std::numeric_limits<double>::infinity();

/// Gamma of the choked flow, A p Gamma / sqrt(R T).
double choked_factor(double k) {
  return std::sqrt(k) * std::pow(2 / (k + 1), (k + 1) / (2 * (k - 1)));
}

/// Volume over tau: the choked fall is p' = -p / tau with tau = V / this.
double swallow_m3_per_s(const Leak& leak, const BenchAir& air) {
  return leak.conductance * reference_kg_per_m3 * std::sqrt(reference_K / air.temperature_K) *
         air.gas_J_per_kgK * air.temperature_K;
}

/// Integral of dphi / (b + (1 - b) sin phi) between two angles of the first quarter, by
/// u = tan(phi/2); one expression for b below, at and above one half, all without cancellation.
double ellipse_integral(double b, double from_rad, double to_rad) {
  const double u1 = std::tan(from_rad / 2);
  const double u2 = std::tan(to_rad / 2);
  const double w = (u2 - u1) / (b * u1 * u2 + (1 - b) * (u1 + u2) + b);
  const double square = (1 - 2 * b) * w * w;
  if (std::abs(square) < 1e-6) {
    return 2 * w * (1 + square / 3 + square * square / 5);
  }
  const double root = std::sqrt(std::abs(1 - 2 * b));
  return 2 / root * (square > 0 ? std::atanh(root * w) : std::atan(root * w));
}

/// Where on the ellipse: sine of phi for a ratio of outside to inside.
double ellipse_angle(double b, double ratio) {
  return std::asin(std::clamp((ratio - b) / (1 - b), 0.0, 1.0));
}

/// Gauss and Legendre, ten points, on each of `pieces` equal pieces.
double quadrature(const std::function<double(double)>& of, double from, double to, int pieces) {
  constexpr std::array<double, 5> at{0.1488743389816312, 0.4333953941292472, 0.6794095682990244,
                                     0.8650633666889845, 0.9739065285171717};
  constexpr std::array<double, 5> weight{0.2955242247147529, 0.2692667193099963, 0.2190863625159820,
                                         0.1494513491505806, 0.0666713443086881};
  double sum = 0;
  const double half = (to - from) / pieces / 2;
  for (int piece = 0; piece < pieces; ++piece) {
    const double middle = from + (2 * piece + 1) * half;
    for (std::size_t i = 0; i < at.size(); ++i) {
      sum += weight[i] * half * (of(middle - half * at[i]) + of(middle + half * at[i]));
    }
  }
  return sum;
}

[[maybe_unused]] bool sane(const Leak& leak, const BenchAir& air) {
  return leak.conductance >= 0 && leak.critical_ratio >= 0 && leak.critical_ratio < 1 &&
         air.outside_Pa > 0 && air.temperature_K > 0 && air.gas_J_per_kgK > 0;
}

/// While the piston goes home, on one side of the choking pressure. Mass is p V(p) / (R T), so
/// (V + p V') dp leaks. The ellipse's own angle as the variable takes the root out of the flow
/// where the pressure comes near the outside's.
double going_home_s(const Leak& leak, const Cylinder& cylinder, double high_Pa, double low_Pa,
                    bool choked, const BenchAir& air) {
  if (low_Pa >= high_Pa) {
    return 0;
  }
  const double b = leak.critical_ratio;
  const double swallow = swallow_m3_per_s(leak, air);
  const double slope =
      (cylinder.full_m3 - cylinder.home_m3) / (cylinder.full_Pa - cylinder.home_Pa);
  const auto swept_m3 = [&](double inside_Pa) {
    return cylinder.home_m3 + slope * (2 * inside_Pa - cylinder.home_Pa);
  };
  if (choked) {
    return quadrature([&](double log_Pa) { return swept_m3(std::exp(log_Pa)) / swallow; },
                      std::log(low_Pa), std::log(high_Pa), 4);
  }
  return quadrature(
      [&](double angle_rad) {
        const double ratio = b + (1 - b) * std::sin(angle_rad);
        return swept_m3(air.outside_Pa / ratio) * (1 - b) / (ratio * swallow);
      },
      ellipse_angle(b, air.outside_Pa / high_Pa), ellipse_angle(b, air.outside_Pa / low_Pa), 8);
}

/// False: the pressure never gets there.
bool ends(const Leak& leak, double to_Pa, const BenchAir& air) {
  return leak.conductance > 0 && to_Pa >= air.outside_Pa;
}

} // namespace

double leak_flow_kg_per_s(const Leak& leak, double inside_Pa, const BenchAir& air) {
  assert(sane(leak, air));
  if (inside_Pa <= air.outside_Pa) {
    return 0;
  }
  const double choked = leak.conductance * reference_kg_per_m3 * inside_Pa *
                        std::sqrt(reference_K / air.temperature_K);
  const double sine =
      (air.outside_Pa / inside_Pa - leak.critical_ratio) / (1 - leak.critical_ratio);
  return sine <= 0 ? choked : choked * std::sqrt(1 - sine * sine);
}

double hole_flow_kg_per_s(double diameter_m, double discharge, double inside_Pa,
                          const BenchAir& air, double k) {
  assert(diameter_m >= 0 && discharge > 0 && discharge <= 1 && k > 1);
  if (inside_Pa <= air.outside_Pa) {
    return 0;
  }
  const double area_m2 = pi / 4 * diameter_m * diameter_m * discharge;
  const double root = std::sqrt(air.gas_J_per_kgK * air.temperature_K);
  const double ratio = air.outside_Pa / inside_Pa;
  if (ratio <= nozzle_critical_ratio(k)) {
    return area_m2 * inside_Pa * choked_factor(k) / root;
  }
  return area_m2 * inside_Pa / root *
         std::sqrt(2 * k / (k - 1) * (std::pow(ratio, 2 / k) - std::pow(ratio, (k + 1) / k)));
}

double nozzle_critical_ratio(double k) {
  return std::pow(2 / (k + 1), k / (k - 1));
}

double nozzle_critical_temperature_ratio(double k) {
  return 2 / (k + 1);
}

double hole_conductance(double diameter_m, double discharge, const BenchAir& air, double k) {
  assert(diameter_m >= 0 && discharge > 0);
  return pi / 4 * diameter_m * diameter_m * discharge * choked_factor(k) /
         (reference_kg_per_m3 * std::sqrt(air.gas_J_per_kgK * reference_K));
}

double hole_diameter_m(double conductance, double discharge, const BenchAir& air, double k) {
  assert(conductance >= 0 && discharge > 0);
  return std::sqrt(conductance / hole_conductance(1, discharge, air, k));
}

double hold_time_s(const Leak& leak, double volume_m3, double from_Pa, double to_Pa,
                   const BenchAir& air) {
  assert(sane(leak, air) && volume_m3 > 0 && to_Pa > 0);
  if (to_Pa >= from_Pa) {
    return 0;
  }
  if (!ends(leak, to_Pa, air)) {
    return never;
  }
  const double tau_s = volume_m3 / swallow_m3_per_s(leak, air);
  const double b = leak.critical_ratio;
  const double chokes_Pa = b > 0 ? air.outside_Pa / b : never;
  double time_s = 0;
  double below_Pa = from_Pa;
  if (from_Pa > chokes_Pa) {
    below_Pa = std::max(to_Pa, chokes_Pa);
    time_s += tau_s * std::log(from_Pa / below_Pa);
  }
  if (to_Pa < below_Pa) {
    time_s += tau_s * (1 - b) *
              ellipse_integral(b, ellipse_angle(b, air.outside_Pa / below_Pa),
                               ellipse_angle(b, air.outside_Pa / to_Pa));
  }
  return time_s;
}

double Cylinder::volume_m3(double inside_Pa) const {
  if (inside_Pa >= full_Pa) {
    return full_m3;
  }
  return inside_Pa <= home_Pa
             ? home_m3
             : home_m3 + (full_m3 - home_m3) * (inside_Pa - home_Pa) / (full_Pa - home_Pa);
}

double hold_time_s(const Leak& leak, const Cylinder& cylinder, double from_Pa, double to_Pa,
                   const BenchAir& air) {
  assert(sane(leak, air) && to_Pa > 0);
  assert(cylinder.home_m3 > 0 && cylinder.full_m3 >= cylinder.home_m3);
  assert(cylinder.full_Pa >= cylinder.home_Pa);
  if (to_Pa >= from_Pa) {
    return 0;
  }
  if (!ends(leak, to_Pa, air)) {
    return never;
  }
  double time_s = 0;
  if (from_Pa > cylinder.full_Pa) {
    time_s += hold_time_s(leak, cylinder.full_m3, from_Pa, std::max(to_Pa, cylinder.full_Pa), air);
  }
  if (to_Pa < cylinder.home_Pa) {
    time_s += hold_time_s(leak, cylinder.home_m3, std::min(from_Pa, cylinder.home_Pa), to_Pa, air);
  }
  const double high_Pa = std::min(from_Pa, cylinder.full_Pa);
  const double low_Pa = std::max(to_Pa, cylinder.home_Pa);
  if (cylinder.full_Pa == cylinder.home_Pa) {
    // All at once: what the piston pushes out leaks at one pressure.
    if (from_Pa >= cylinder.full_Pa && to_Pa < cylinder.full_Pa) {
      const double flow = leak_flow_kg_per_s(leak, cylinder.full_Pa, air);
      time_s += flow > 0 ? cylinder.full_Pa * (cylinder.full_m3 - cylinder.home_m3) /
                               (air.gas_J_per_kgK * air.temperature_K * flow)
                         : never;
    }
  } else if (low_Pa < high_Pa) {
    const double chokes_Pa = leak.critical_ratio > 0 ? air.outside_Pa / leak.critical_ratio : never;
    const double knot_Pa = std::clamp(chokes_Pa, low_Pa, high_Pa);
    time_s += going_home_s(leak, cylinder, high_Pa, knot_Pa, true, air) +
              going_home_s(leak, cylinder, knot_Pa, low_Pa, false, air);
  }
  return time_s;
}

} // namespace lugline
