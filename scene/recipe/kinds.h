// The recipes by their words, and what several of them have in common.
//
// A maker reads all its figures first, says what cannot be made, and only then
// makes: where the reader is not ok() the part is left as it was. It knows
// figures only, no part by its id. Lengths metres, angles radians.
#pragma once

#include "scene/recipe/figure_reader.h"
#include "scene/recipe/recipe.h"
#include "scene/recipe/workpiece.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// Id, name and material of the component are set already; mass, where left 0,
/// comes from the solid.
using RecipeMaker = void (*)(FigureReader& figures, const MeshOptions& options, MadePart& part);

struct Recipe {
  const char* word;     ///< as in recipes.toml: "lugged plate"
  const char* material; ///< where the file names none
  RecipeMaker make;
};

const std::vector<Recipe>& recipes();

// The figures that each asks for; those in brackets may be left out. All of them
// take id, name, recipe, [material] and [[part.mark]] (words, diameter, at, height).
// LUGS: lugs, lug_width, [first_lug_at, lug_fits, wide_lug_width, wide_lug_at,
// wide_lug_name, wide_lug_fits].
//
// lugged plate    role (steel, apply plate, backing plate), bore, outside, thickness,
//                 [LUGS, over_lugs: beyond the outside, or inside the bore for lugs on a hub],
//                 [step_from, step_depth], [taper_from, taper_depth (the upper face falls
//                 that much from there to the outside), bears_at], [dot, dot_diameter, dot_at]
// wave plate      bore, outside, flat_height, free_height, waves, [LUGS, over_lugs]
// friction plate  teeth_tip, teeth_root, teeth, tooth_width, outside (or, with teeth that
//                 point outward, bore), thickness, core_thickness,
//                 lining_bore, [lining_outside, teeth_fit, arrow_mark],
//                 [grooves, groove_width, groove_offset]
// snap ring       springs (outward, inward), bore, outside, thickness, gap, [gap_at],
//                 free_outside and squeezed_outside, or free_bore and spread_bore,
//                 [ear_depth, ear_length], [bevel, bevel_width, reversed_play]
// case, centre support, drum, shaft, hub, shell (a bell that carries a sun gear's spline to
//                 a drum), output shaft, ring gear, turned part (a cover, a flange)
//                 turned.h
// planetary carrier    turned.h, and one [[part.pinions]]: pinions, teeth, module or
//                 diametral_pitch, sun_teeth, ring_teeth, circle, from, to, space_from,
//                 space_to, pin, pin_from, pin_to, [washers, washers_outside,
//                 pressure_angle, thinning, first_pinion_at, name, fits, ring_fits]: pinions.h.
//                 Its windows are what its sections and pads leave open.
// piston          bore, outside, web_thickness, height, face_bore, [face_outside],
//                 [recess_bore, recess_outside, recess_depth], [[part.seal_groove]],
//                 [pockets, pocket_diameter, pocket_circle, pocket_depth, first_pocket_at]:
//                 round and blind, for springs, in the web's upper face
// retainer        bore, outside, thickness, [rim_from, rim_height]
// spacer ring, inner race    bore, outside, height
// outer race      bore, teeth_root, teeth_tip, teeth, tooth_width, height,
//                 [teeth_fit, lead_chamfer]
// sprag element   bore, outside, height, sprags, cage_thickness, lean
// spring set      coils, circle, coil_outside, wire, turns, free_height, solid_height,
//                 rate_of_each, [stand_in (pockets)]: each coil in a piston's pocket, the
//                 first at 12 o'clock
// thrust washer   bore, outside, thickness, [tabs, over_tabs, tab_width, tab_drop,
//                 first_tab_at, tabs_face (down, up), tabs_fit], [oil_grooves,
//                 oil_groove_width, oil_groove_depth]: grooves on the face away from the tabs
// band            applied_bore, relaxed_bore, spread_bore, width, thickness, lining, wrap,
//                 anchor_at, pin, ear_post, ear_height, leaning_down, leaning_in,
//                 [loop_fits, hook_fits]
// pin             diameter, from_axis, to_axis, height, at
// dished plate    bore, outside, flat_height, free_height, low_edge (outer, inner),
//                 [LUGS, over_lugs]
// disc spring     bore, outside, thickness, free_height, rate, low_edge (outer, inner):
//                 solid it is as high as its stock is thick; rate as stated, not worked out
// single-sided plate    driven_by (inner teeth: teeth_tip, teeth_root, teeth, tooth_width,
//                 [teeth_fit]; outer lugs: bore, LUGS, over_lugs), lined (upper face, lower
//                 face), outside, thickness, core_thickness, lining_bore, lining_outside
// roller clutch   bore, outside, height, rollers, roller, roller_length, cage_thickness,
//                 rollers_pushed (clockwise, counter-clockwise)
// thrust bearing  bore, outside, thickness, needles, needle, race_side (lower, upper),
//                 lip (inner, outer), lip_width, lip_reach
// check ball      ball, capsule_outside, capsule_height, seat_bore, circle, [at]
// sealing ring    bore, outside, height, joint (butt, scarf, hook), gap, [gap_at],
//                 lap for scarf and hook, [rings, spacing]
// lip seal        bore, outside, height, lip (down, up), rubs_on (outside, bore)
// O-ring          bore, outside, [height]: as squeezed in its groove
// gasket          bore, outside, free_height, compressed_height, [[part.hole]] as in
//                 holes.h, [[part.window]] inner, outer, width, at, [name, fits]
// bushing         bore, outside, height, [groove_width, groove_depth, groove_stops,
//                 groove_open (upper end, lower end), groove_at]
// bolt set        bolts, thread, length, washer, washer_outside, head_height, across_flats,
//                 circle, [first_bolt_at, offset_one, bolts_fit]; heights from under the head;
//                 or one bolt ASIDE in place of the circle
// pump body, pump cover    turned.h
// pump gears      module or diametral_pitch, [pressure_angle], thinning, drive_teeth,
//                 driven_teeth, bore, driven_bore, thickness, lug_recess_width,
//                 lug_recess_depth, over_lug_recesses, [driven_at, dot_diameter, lugs_fit]
// double-wrap band    applied_bore, relaxed_bore, spread_bore, width, middle_width, split,
//                 thickness, lining, wrap, anchor_at, anchor_ear, servo_ear, ear_length,
//                 ear_notch, leaning_down, leaning_in, [anchor_ear_fits, servo_ear_fits]
// ASIDE, where it lies crosswise: [from_axis, at, height, aside] as in aside.h.
// servo piston    outside, piston_height, pin_bore, rings, ring_width, ring_depth,
//                 spring_outside, spring_wire, spring_turns, spring_height, ASIDE
// servo pin       diameter, length, [code_grooves, groove_width, groove_depth], ASIDE
// servo cover     outside, thickness, spigot, spigot_height, gasket, feed_slot,
//                 [feed_slot_at], bolts, bolt_circle, thread, [first_bolt_at], ASIDE
// lever           pivot_circle, at, height, thickness, band_arm, servo_arm, band_arm_turn,
//                 servo_arm_turn (from straight outward), arm_width, boss, pivot,
//                 pivot_length
// lifting spider  fingers, finger_reach, finger_height, finger_width, closed_reach,
//                 arm_height, handle, height, [handle_bore, first_finger_at, fingers_fit]
void make_lugged_plate(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_wave_plate(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_friction_plate(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_snap_ring(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_case(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_centre_support(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_drum(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_shaft(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_hub(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_output_shaft(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_ring_gear(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_carrier(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_turned_part(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_piston(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_retainer(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_spacer_ring(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_inner_race(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_outer_race(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_sprag_element(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_spring_set(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_thrust_washer(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_band(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_pin(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_lifting_spider(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_dished_plate(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_disc_spring(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_single_sided_plate(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_roller_clutch(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_thrust_bearing(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_check_ball(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_sealing_ring(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_lip_seal(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_o_ring(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_gasket(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_bushing(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_bolt_set(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_pump_part(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_pump_gears(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_double_wrap_band(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_servo_piston(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_servo_pin(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_servo_cover(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_lever(FigureReader& f, const MeshOptions& options, MadePart& part);

/// A full ring between two diameters and two heights.
SectorRing ring_between(double bore_m, double outside_m, double low_m, double high_m,
                        std::string feature);
/// … with sectors.
SectorRing sectors_between(double bore_m, double outside_m, double low_m, double high_m,
                           std::string feature, std::vector<Sector> sectors);

/// x = -r sin a, y = r cos a.
Vec3 point_at(double r_m, double angle_rad, double z_m);

/// Lugs or slots at an even pitch, one of which may be wider than the rest.
struct LugFigures {
  int count = 0; ///< with the wide one
  double width_m = 0;
  double first_rad = 0;
  std::string name; ///< "lug", "slot"
  std::string fits;
  bool has_wide = false;
  int wide_at = 0; ///< which of them, from 0
  double wide_width_m = 0;
  std::string wide_name;
  std::string wide_fits;

  [[nodiscard]] double angle_rad(int k) const;
  [[nodiscard]] std::vector<Sector> narrow() const;
  [[nodiscard]] std::vector<Sector> wide() const;
  [[nodiscard]] std::vector<Sector> all() const; ///< by rising angle
};

/// Reads `noun`s ("lug": lugs, lug_width, first_lug_at, wide_lug_width, …).
LugFigures read_lugs(FigureReader& f, const std::string& noun, int least);
/// Complains where they do not fit side by side between the diameters.
void check_lugs(FigureReader& f, const LugFigures& lugs, const std::string& noun, double inner_m,
                double outer_m);
/// Narrow and wide lugs as rings, with their keys.
void add_lugs(Workpiece& piece, Component& component, const LugFigures& lugs, double bore_m,
              double outside_m, double low_m, double high_m);
/// The keys alone, for slots.
void add_lug_keys(Component& component, const LugFigures& lugs, double bore_m, double outside_m,
                  double low_m, double high_m);

/// A [[part.seal_groove]]: inner, outer, from, to. Empty where there is a complaint.
std::optional<SectorRing> read_seal_groove(FigureReader& t);

/// A dot of that diameter sunk into a face at an angle, or why it cannot be.
std::string sink_dot(Workpiece& piece, double circle_m, double angle_rad, double dot_m,
                     double low_m, double high_m);

Figure thickness_figure(double value_m, double zone_low_m, double zone_high_m,
                        std::string name = "thickness");

/// Takes the solid over into the part; a complaint where its rings overlap.
void take_solid(FigureReader& f, Workpiece& piece, MadePart& part);

} // namespace lugline
