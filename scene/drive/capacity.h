// What a multi-disc clutch carries: piston, springs, centrifugal head, clamp force, torque.
//
// SI; diameters, as they are measured; pressures are gauge pressures. Two textbook assumptions give
// the mean radius at which the linings rub: *uniform wear* (linings that are run in) and *uniform
// pressure* (new, flat linings). Both are worked out; uniform wear always carries a little less,
// and the verdict is held to it. Drag, seal friction and the heat of a slip are left out.
// What cannot be worked out (no linings, pressure below nothing, …) comes back with worked false
// and a refused report that says why; nothing here is ever not a number.
#pragma once

#include "scene/drive/piston.h"
#include "scene/quantity/report.h"

#include <optional>
#include <string>

namespace lugline {

/// What the pack says of its clutch, for a caller who has it at hand.
struct PackFacts {
  int frictions = 0;   ///< lined on both sides
  double stroke_m = 0; ///< piston travel that closes the pack: its clearance
};

struct ClutchDesign {
  std::string id;
  std::string name;
  ApplyPiston piston;
  std::optional<ReturnSprings> springs;
  double spring_force_N = 0; ///< instead of springs
  double stroke_m = 0;       ///< that closes the pack
  double most_stroke_m = 0;  ///< that the piston can make; 0: not stated
  int surfaces = 0;
  double friction = 0;
  double lining_outer_m = 0; ///< diameters
  double lining_inner_m = 0;
  double fluid_centre_m = 0;  ///< diameter of the fluid's free surface; 0: no head is counted
  double fluid_kg_per_m3 = 0; ///< 0: no head is counted
};
/// From the unit's words; surfaces are twice the pack's frictions where none are stated.
ClutchDesign clutch_design(const DriveElement& element, const PackFacts& pack,
                           double fluid_kg_per_m3);

struct ClutchDuty {
  std::string name;                ///< "first, stall"; may be empty
  double pressure_Pa = 0;          ///< at the piston's feed
  double turning_rad_per_s = 0;    ///< of the cylinder, either way; 0 for one in the case
  std::optional<double> torque_Nm; ///< that it has to carry, either way; none: only the capacity
};

struct ClutchCapacity {
  bool worked = false;
  double area_m2 = 0;
  double pressure_N = 0;    ///< pressure times area
  double centrifugal_N = 0; ///< of the turning fluid, on the piston
  SpringBack back;
  double clamp_N = 0;       ///< never below 0
  double moves_at_Pa = 0;   ///< standing still
  double stroked_at_Pa = 0; ///< standing still: the pack closed, without clamp
  double wear_radius_m = 0;
  double pressure_radius_m = 0;
  double wear_Nm = 0;     ///< capacity by uniform wear: what the verdict is held to
  double pressure_Nm = 0; ///< capacity by uniform pressure
  double margin = 0;      ///< wear_Nm over the asked torque; 0 where none was asked
  CalculationReport report;
};
ClutchCapacity clutch_capacity(const ClutchDesign& clutch, const ClutchDuty& duty);

/// Fluid that a released, turning drum could not let out, pressing on its piston.
struct FluidLeft {
  bool worked = false;
  double centrifugal_N = 0;       ///< at the asked speed
  double moves_at_rad_per_s = 0;  ///< the piston leaves home
  double clamps_at_rad_per_s = 0; ///< the pack is closed: from here on the clutch drags
  double drag_Nm = 0;             ///< at the asked speed, by uniform wear
  CalculationReport report;
};
FluidLeft fluid_left(const ClutchDesign& clutch, double turning_rad_per_s);

// The formulas, one by one. They assert what the functions above refuse.

/// Empty for a speed that something can turn at.
std::string turning_problem(double rad_per_s);

/// 0 inside the free surface.
double centrifugal_head_Pa(double kg_per_m3, double rad_per_s, double radius_m,
                           double free_surface_radius_m);
/// That head over the piston's annulus.
double centrifugal_force_N(double kg_per_m3, double rad_per_s, const ApplyPiston& piston,
                           double fluid_centre_m);

double wear_mean_radius_m(double outer_m, double inner_m);     ///< (D + d) / 4
double pressure_mean_radius_m(double outer_m, double inner_m); ///< (D3 - d3) / (3 (D2 - d2))
double disc_torque_Nm(double clamp_N, int surfaces, double friction, double mean_radius_m);
/// Clamp force at which the lining's pressure is peak_Pa where it is highest (uniform wear: at the
/// inner edge; uniform pressure: everywhere), and back.
double wear_clamp_N(double peak_Pa, double outer_m, double inner_m);
double pressure_clamp_N(double peak_Pa, double outer_m, double inner_m);
double wear_lining_Pa(double clamp_N, double outer_m, double inner_m, double at_m);
/// The least number of rubbing faces that carries a torque; 0 where none does (no clamp).
int least_surfaces(double torque_Nm, double clamp_N, double friction, double mean_radius_m);

} // namespace lugline
