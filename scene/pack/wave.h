// Wave plates and waved washers under load: stiffness, stress and height from caliper figures.
//
// Two models, each called by its name. The beam: a plate of N waves taken as 2N beams fixed at
// both ends, each half a wave long, sharing the load: deflection f = (pi^3 / 16) P D^3 / (E b t^3
// N^4), stress S = 3 pi P D / (4 b t^2 N^2). Derived from beam theory (fixed-fixed span, 192 E I),
// not a publication. Published practice: f = K P D^3 / (E b t^3 N^4) times ID / OD, with a factor
// K by the number of waves that spring makers publish (the K table was read in one public page;
// the equation is from memory). They differ by half and more, so either is an estimate. SI.
#pragma once

#include "scene/quantity/report.h"

#include <string>

namespace lugline {

struct WavePlate {
  double outer_m = 0; ///< diameters of the strip
  double inner_m = 0;
  double thickness_m = 0; ///< of the strip
  double free_m = 0;      ///< free height
  int waves = 0;
  double modulus_Pa = 206e9; ///< spring steel: common practice, no source
  [[nodiscard]] double mean_m() const { return (outer_m + inner_m) / 2; }
  [[nodiscard]] double width_m() const { return (outer_m - inner_m) / 2; }
};

/// Why these are no figures of a wave plate; empty where they are.
std::string why_no_wave(const WavePlate& plate);

/// Beam model, N/m. mean_diameter_m, width_m (radial) and thickness_m of the flat strip,
/// waves > 0, modulus in Pa.
double wave_stiffness_N_per_m(double mean_diameter_m, double width_m, double thickness_m, int waves,
                              double modulus_Pa = 206e9);
/// The stress of the beam model.
double wave_stress_Pa(double load_N, double mean_diameter_m, double width_m, double thickness_m,
                      int waves);
/// The published factor: 3.88 for 2 to 4 waves, 2.90 to 6.5, 2.30 to 9.5, 2.13 from 10.
double wave_factor(double waves);
/// N/m, by published practice.
double published_wave_stiffness_N_per_m(const WavePlate& plate);

/// Height under a load, by both models; and the load at a height. A height that is not between
/// flat and free, or a load beyond flat, is told in words.
CalculationReport wave_report_at_load(std::string title, const WavePlate& plate, double load_N);
CalculationReport wave_report_at_height(std::string title, const WavePlate& plate, double height_m);

} // namespace lugline
