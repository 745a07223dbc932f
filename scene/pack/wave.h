// Wave plates under load: stiffness from caliper figures.
//
// A plate of N waves is taken as 2N beams fixed at both ends, each half a wave
// long, sharing the load: deflection f = (pi^3 / 16) P D^3 / (E b t^3 N^4), so
// k = P / f. Derived from beam theory (fixed-fixed span, 192 E I), not a
// publication; published practice multiplies by a factor of its own for few
// waves, so this is an estimate and is called one.
#pragma once

namespace lugline {

/// N/m. mean_diameter_m, width_m (radial) and thickness_m of the flat strip,
/// waves > 0, modulus in Pa (206 GPa for spring steel: common practice, no source).
double wave_stiffness_N_per_m(double mean_diameter_m, double width_m, double thickness_m, int waves,
                              double modulus_Pa = 206e9);

} // namespace lugline
