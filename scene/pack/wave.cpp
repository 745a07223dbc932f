#include "scene/pack/wave.h"

#include <cassert>
#include <cmath>
#include <numbers>

namespace lugline {

double wave_stiffness_N_per_m(double mean_diameter_m, double width_m, double thickness_m, int waves,
                              double modulus_Pa) {
  assert(mean_diameter_m > 0 && width_m > 0 && thickness_m > 0 && waves > 0);
  const double pi = std::numbers::pi;
  return 16 * modulus_Pa * width_m * std::pow(thickness_m, 3) * std::pow(waves, 4) /
         (std::pow(pi, 3) * std::pow(mean_diameter_m, 3));
}

} // namespace lugline
