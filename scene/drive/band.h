// What a band holds: servo, lever, Euler's equation, which way tightens, lining pressure.
//
// SI; the drum by its diameter; pressures are gauge pressures. A torque on the drum is signed as
// seen from the pump end, positive clockwise. One end of the band is anchored and the servo pulls
// (or pushes) the other: torque on the drum in the tightening direction draws the band along and
// multiplies the servo's force, torque the other way works against it. A wrap beyond a turn is
// allowed (a double-wrapped band). A differential band has both ends on one lever.
// What cannot be worked out comes back with worked false and a refused report that says why.
#pragma once

#include "scene/drive/piston.h"
#include "scene/quantity/report.h"

#include <optional>
#include <string>

namespace lugline {

struct BandDesign {
  std::string id;
  std::string name;
  ApplyPiston servo;
  std::optional<ReturnSprings> springs;
  double spring_force_N = 0; ///< instead of springs, at apply
  double stroke_m = 0;       ///< of the servo, until the band grips
  double lever = 1;          ///< force at the band for a force at the servo
  double drum_m = 0;         ///< diameter
  double width_m = 0;        ///< of the lining; 0: not stated, no lining pressure is worked out
  double wrap_rad = 0;
  double friction = 0;
  bool tightens_clockwise = false;
};
BandDesign band_design(const DriveElement& element, double stroke_m);

struct BandDuty {
  std::string name;
  double pressure_Pa = 0;
  std::optional<double> torque_Nm; ///< that the train puts on the drum, positive clockwise
};

struct BandCapacity {
  bool worked = false;
  double area_m2 = 0;
  SpringBack back;
  double servo_N = 0; ///< what is left of the pressure's force after the spring; never below 0
  double band_N = 0;  ///< at the band's free end
  double grip = 1;    ///< e^(mu theta): tight end's pull over slack end's
  double moves_at_Pa = 0;
  double tightening_Nm = 0; ///< F r (e^(mu theta) - 1)
  double loosening_Nm = 0;  ///< F r (1 - e^(-mu theta))
  bool tightens = false;    ///< the asked torque is in the tightening direction
  double capacity_Nm = 0;   ///< for the asked torque's direction; without one, the lesser
  double anchor_N = 0;      ///< pull at the anchored end; with no torque asked, tightening
  double lining_Pa = 0;     ///< most, at the tight end then; 0 where no width is stated
  double margin = 0;        ///< 0 where no torque was asked
  CalculationReport report;
};
BandCapacity band_capacity(const BandDesign& band, const BandDuty& duty);

/// Both ends on one lever: the slack end's pull helps at slack_arm_m, the tight end's works with
/// the operator at tight_arm_m, and the operator pulls at pull_arm_m from the same pivot.
struct DifferentialBand {
  std::string name;
  double drum_m = 0;
  double width_m = 0; ///< 0: not stated
  double wrap_rad = 0;
  double friction = 0;
  double slack_arm_m = 0;
  double tight_arm_m = 0; ///< 0: a simple band, its tight end on the pivot
  double pull_arm_m = 0;
};
struct DifferentialCapacity {
  bool worked = false;
  double grip = 1;
  bool self_locking = false; ///< grips harder by itself without end; the figures below are then 0
  double tight_N = 0;
  double slack_N = 0;
  double torque_Nm = 0;
  double lining_Pa = 0;
  CalculationReport report;
};
/// Of the drum turning so that the named tight end is tight.
DifferentialCapacity differential_capacity(const DifferentialBand& band, double pull_N);
/// The pull that holds a torque; below 0 where the band would have to be held off (self-locking).
double differential_pull_N(const DifferentialBand& band, double torque_Nm);

// The formulas, one by one. They assert what the functions above refuse.
double band_grip(double friction, double wrap_rad); ///< e^(mu theta)
double tightening_torque_Nm(double free_end_N, double drum_m, double grip);
double loosening_torque_Nm(double free_end_N, double drum_m, double grip);
double band_lining_Pa(double tight_end_N, double drum_m, double width_m);

} // namespace lugline
