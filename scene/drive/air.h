// The air check: does the piston move, how far, how hard, with how much air, and how big a leak a
// timed hold stands for.
//
// SI; pressures are gauge pressures here, as the regulator shows them. Everything isothermal at the
// bench's temperature: a check is slow and the walls are metal. A pressure above the unit's limit
// is refused, with the caution, before anything is worked out. Each answer holds its report; worked
// false means that the report says why there are no figures.
#pragma once

#include "scene/drive/capacity.h"
#include "scene/drive/gas.h"

#include <optional>
#include <string>

namespace lugline {

struct AirPiston {
  std::string id;
  std::string name;
  ApplyPiston piston;
  std::optional<ReturnSprings> springs;
  double spring_force_N = 0; ///< instead of springs
  double stroke_m = 0;
  double most_stroke_m = 0; ///< 0: not stated
  double volume_m3 = 0; ///< passage and cylinder, piston home, from the shut-off on; 0: not stated
  double good_hold_s = 0; ///< from the test pressure to the floor; 0: not stated
  bool servo = false;     ///< a band's: its stroke is stated, a clutch's is its pack's clearance
};
/// Of a clutch or a band; stroke from the pack, or for a servo as the caller knows it.
AirPiston air_piston(const DriveElement& element, double stroke_m);

struct AirReach {
  bool worked = false;
  double area_m2 = 0;
  double push_N = 0;
  SpringBack back;
  double travel_m = 0;
  bool moves = false;
  bool completes = false; ///< the pack is closed, or the band grips
  double clamp_N = 0;     ///< at the stroke's end, beyond the springs
  double moves_at_Pa = 0;
  double stroked_at_Pa = 0;
  double volume_m3 = 0;   ///< filled then; 0 where the piston-home volume is not stated
  double free_air_m3 = 0; ///< drawn from the regulator, at 100 kPa and 20 degC; 0 likewise
  CalculationReport report;
};
AirReach air_reach(const AirPiston& piston, const AirTest& test, double pressure_Pa,
                   const BenchAir& air = {});

/// A hold: shut off at from_Pa, the gauge reads to_Pa so many seconds later.
struct HoldReading {
  double from_Pa = 0;
  double to_Pa = 0;
  double seconds = 0;
};

struct LeakAssumptions {
  double critical_ratio = 0.5283; ///< of the leak: a nozzle's
  double discharge = 0.65;        ///< of the equivalent hole: sharp-edged
};

struct HoldResult {
  bool worked = false;
  Leak leak;                  ///< conductance 0 where the volume is not stated, or nothing fell
  double hole_m = 0;          ///< diameter of the sharp-edged hole that leaks as much; 0 likewise
  double good_hole_m = 0;     ///< of a leak that holds exactly as long as the unit calls good
  double full_hold_s = 0;     ///< what this leak holds from the test pressure to the floor
  double times_good_leak = 0; ///< leak over a good unit's; 0 where none is stated
  CalculationReport report;
};
/// What a timed hold tells, held to the unit's good hold.
HoldResult leak_from_hold(const AirPiston& piston, const AirTest& test, const HoldReading& reading,
                          const LeakAssumptions& assumed = {}, const BenchAir& air = {});

/// The leak that a sharp-edged hole of that diameter is.
Leak leak_of_hole(double hole_m, const LeakAssumptions& assumed = {}, const BenchAir& air = {});

struct HoldForecast {
  bool worked = false;
  double seconds = 0; ///< without end where nothing leaks
  CalculationReport report;
};
/// How long it holds with a given leak.
HoldForecast hold_with_leak(const AirPiston& piston, const AirTest& test, double from_Pa,
                            double to_Pa, const Leak& leak, const BenchAir& air = {});

/// Said with every air check.
extern const char* const compressed_air_caution;
/// 29 CFR 1910.242(b), and what it is not.
extern const char* const cleaning_air_note;
/// "must not exceed 50 psi when air checking a clutch piston": US Army TM 9-2320-280-34.
inline constexpr double published_air_ceiling_Pa = 50 * 6894.757293168;
inline constexpr double cleaning_air_Pa = 30 * 6894.757293168;

} // namespace lugline
