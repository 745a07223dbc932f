// What turns with what, and what holds it: the gear train, the elements that drive and hold its
// members, their pistons, servos and springs, the ranges, and the air that tests them.
//
// Part of a Unit, as written in unit.toml; never changes once loaded. SI: metres, pascals,
// newtons, N m, N/m, radians, seconds, m3. Directions are as seen from the pump end, always.
// References are ids, checked by the loader. Whoever computes with it is scene/drive.
#pragma once

#include "scene/load/source_place.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// What turns as one: a shaft, a drum, the two suns on one tube. The id "case" is the case, which
/// stands still, and is never declared.
struct DriveMember {
  std::string id;
  std::string name;
  std::vector<std::string> parts; ///< component ids that turn with it
  SourcePlace source = {};
};
inline constexpr const char* case_member = "case";

enum class PlanetaryKind {
  single_pinion,  ///< sun - pinion - ring: sun and ring turn against each other, carrier held
  double_pinion,  ///< sun - inner pinion - outer pinion - ring: they turn alike
  stepped_pinion, ///< sun - large or small pinion, both on one body - ring
};

/// One planetary set. A Ravigneaux gear train is two of them that share ring and carrier.
struct PlanetarySet {
  std::string id;
  std::string name;
  PlanetaryKind kind = PlanetaryKind::single_pinion;
  std::string sun; ///< member ids; sun or ring may be empty, not both
  std::string ring;
  std::string carrier;
  int sun_teeth = 0;
  int ring_teeth = 0;
  int pinion_teeth = 0;       ///< of the pinion that meshes with the sun
  int outer_pinion_teeth = 0; ///< double and stepped: of the pinion that meshes with the ring
  int pinions = 0;            ///< around the carrier; of each sort. 0: not stated
  SourcePlace source = {};
};

enum class ElementKind { clutch, band, one_way_clutch };

/// An annular piston, or a servo's round one (inner 0).
struct ApplyPiston {
  double outer_m = 0; ///< diameters of the pressure area
  double inner_m = 0;
};

/// Alike springs beside each other, pushed from their fitted height on.
struct ReturnSprings {
  int count = 0;
  double rate_N_per_m = 0; ///< of each
  double free_m = 0;
  double fitted_m = 0; ///< height with the piston home
  double solid_m = 0;  ///< 0: not stated
};

struct DriveElement {
  std::string id;
  std::string name;
  ElementKind kind = ElementKind::clutch;
  std::string of;   ///< member
  std::string to;   ///< member, or "case"
  std::string pack; ///< clutch: Pack id that gives the friction count and the stroke; may be empty
  std::vector<std::string> parts; ///< component ids of the element (for pictures); may be empty

  // One-way clutches: `of` runs free that way while `to` stands still, and holds the other way.
  bool free_clockwise = false;
  std::optional<double> rated_Nm;

  // Clutches and bands: how they are applied.
  std::optional<ApplyPiston> piston;
  std::optional<ReturnSprings> springs;
  double spring_force_N = 0; ///< instead of springs: stated force at apply
  double friction = 0;       ///< coefficient, 0: not stated
  // Clutches.
  int surfaces = 0;          ///< friction faces; 0: twice the pack's double-lined frictions
  double lining_outer_m = 0; ///< diameters
  double lining_inner_m = 0;
  double most_stroke_m = 0;  ///< what the piston can travel at most; 0: not stated
  double fluid_centre_m = 0; ///< rotating cylinder: diameter of the free surface of its fluid
  // Bands.
  double drum_m = 0;               ///< diameter under the band
  double wrap_rad = 0;             ///< may be more than a turn
  double lever = 1;                ///< force at the band for a force at the servo's piston
  bool tightens_clockwise = false; ///< drum torque that way, on the drum, draws the band tighter
  double stroke_m = 0;             ///< of the servo until the band grips; 0: not stated

  // Bench air.
  double air_volume_m3 = 0; ///< passage and cylinder filled, piston home; 0: not stated
  double good_hold_s = 0;   ///< from the test pressure down to the air test's floor; 0: not stated
  SourcePlace source = {};
};

/// A case in which a range is judged.
struct RangeDuty {
  std::string name;    ///< "stall", "coast"
  double input_Nm = 0; ///< positive drives; negative: the output drives (coast)
  double line_Pa = 0;
};

struct DriveRange {
  std::string id;
  std::string name;
  std::vector<std::string> on; ///< elements applied; one-way clutches act by themselves
  std::vector<RangeDuty> duties;
  /// Input turns for one turn of the output, negative for reverse, as the unit states it: what is
  /// computed is held to it.
  std::optional<double> ratio = std::nullopt;
  bool neutral = false; ///< nothing is driven, and that is meant
  SourcePlace source = {};
};

/// Bench air, as this unit states it.
struct AirTest {
  double test_Pa = 0;  ///< gauge pressures
  double limit_Pa = 0; ///< never above
  double floor_Pa = 0; ///< a timed hold ends when the gauge reads this
};

struct Drive {
  std::string input; ///< member ids
  std::string output;
  bool engine_clockwise = true;
  double fluid_kg_per_m3 = 0; ///< 0: not stated
  double mesh_efficiency = 1; ///< of one tooth mesh, for the option with losses; 1: not stated
  std::vector<DriveMember> members;
  std::vector<PlanetarySet> sets;
  std::vector<DriveElement> elements;
  std::vector<DriveRange> ranges;
  std::optional<AirTest> air;
  SourcePlace source = {}; ///< of [train]

  [[nodiscard]] const DriveMember* member(const std::string& id) const;
  [[nodiscard]] const DriveElement* element(const std::string& id) const;
  [[nodiscard]] const DriveRange* range(const std::string& id) const;
};

std::string word_for(PlanetaryKind kind); ///< "single pinion", "double pinion", "stepped pinion"
std::optional<PlanetaryKind> planetary_kind_from(const std::string& word);
std::vector<std::string> planetary_kind_words();
std::string word_for(ElementKind kind); ///< "clutch", "band", "one-way clutch"
std::optional<ElementKind> element_kind_from(const std::string& word);
std::vector<std::string> element_kind_words();

} // namespace lugline
