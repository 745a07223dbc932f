#include "scene/recipe/guide.h"

#include <sstream>

namespace lugline {

const std::vector<GuideLine>& recipe_guide() {
  static const std::vector<GuideLine> lines{
      {"case", "TURNED"},
      {"centre support", "TURNED"},
      {"drum", "TURNED"},
      {"shaft", "TURNED"},
      {"hub", "TURNED"},
      {"shell", "TURNED"},
      {"output shaft", "TURNED"},
      {"ring gear", "TURNED"},
      {"turned part", "TURNED"},
      {"pump body", "TURNED"},
      {"pump cover", "TURNED"},
      {"lugged plate",
       "role (steel, apply plate, backing plate), bore, outside, thickness, [LUGS, "
       "over_lugs: beyond the outside, or inside the bore for lugs on a hub], "
       "[step_from, step_depth], [taper_from, taper_depth (the upper face falls that "
       "much from there to the outside), bears_at], [dot, dot_diameter, dot_at]"},
      {"wave plate", "bore, outside, flat_height, free_height, waves, [LUGS, over_lugs]"},
      {"friction plate",
       "teeth_tip, teeth_root, teeth, tooth_width, outside (or, with teeth that point "
       "outward, bore), thickness, core_thickness, lining_bore, [lining_outside, "
       "teeth_fit, arrow_mark], [grooves, groove_width, groove_offset]"},
      {"snap ring",
       "springs (outward, inward), bore, outside, thickness, gap, [gap_at], free_outside "
       "and squeezed_outside, or free_bore and spread_bore, [ear_depth, ear_length], "
       "[bevel, bevel_width, reversed_play]"},
      {"waved snap ring",
       "springs (outward, inward), bore, outside, thickness, free_height (over the waves), waves, "
       "gap, [gap_at], free_outside and squeezed_outside, or free_bore and spread_bore, "
       "[ear_depth, ear_length]"},
      {"planetary carrier",
       "TURNED, and one [[part.pinions]]: pinions, teeth, module or diametral_pitch, "
       "sun_teeth, ring_teeth, circle, from, to, space_from, space_to, pin, pin_from, "
       "pin_to, [washers, washers_outside, pressure_angle, thinning, first_pinion_at, "
       "name, fits, ring_fits]. Its windows are what its sections and pads leave open."},
      {"piston", "bore, outside, web_thickness, height, face_bore, [face_outside], [recess_bore, "
                 "recess_outside, recess_depth], [[part.seal_groove]], [pockets, pocket_diameter, "
                 "pocket_circle, pocket_depth, first_pocket_at]: round, in the web's upper face"},
      {"retainer", "bore, outside, thickness, [rim_from, rim_height]"},
      {"spacer ring", "bore, outside, height"},
      {"inner race", "bore, outside, height"},
      {"outer race", "bore, teeth_root, teeth_tip, teeth, tooth_width, height, [teeth_fit, "
                     "lead_chamfer]"},
      {"sprag element", "bore, outside, height, sprags, cage_thickness, lean"},
      {"spring set", "coils, circle, coil_outside, wire, turns, free_height, solid_height, "
                     "rate_of_each, [stand_in (pockets)]: each coil in a pocket of the piston"},
      {"thrust washer",
       "bore, outside, thickness, [tabs, over_tabs, tab_width, tab_drop, first_tab_at, "
       "tabs_face (down, up), tabs_fit], [oil_grooves, oil_groove_width, "
       "oil_groove_depth]: grooves on the face away from the tabs"},
      {"band", "applied_bore, relaxed_bore, spread_bore, width, thickness, lining, wrap, "
               "anchor_at, pin, ear_post, ear_height, leaning_down, leaning_in, [loop_fits, "
               "hook_fits]"},
      {"pin", "diameter, from_axis, to_axis, height, at"},
      {"dished plate", "bore, outside, flat_height, free_height, low_edge (outer, inner), [LUGS, "
                       "over_lugs]"},
      {"disc spring", "bore, outside, thickness (as high as it is solid), free_height, rate, "
                      "low_edge (outer, inner)"},
      {"single-sided plate",
       "driven_by (inner teeth: teeth_tip, teeth_root, teeth, tooth_width, [teeth_fit]; "
       "outer lugs: bore, LUGS, over_lugs), lined (upper face, lower face), outside, "
       "thickness, core_thickness, lining_bore, lining_outside"},
      {"roller clutch", "bore, outside, height, rollers, roller, roller_length, cage_thickness, "
                        "rollers_pushed (clockwise, counter-clockwise)"},
      {"thrust bearing",
       "bore, outside, thickness, needles, needle, race_side (lower, upper), lip (inner, "
       "outer), lip_width, lip_reach"},
      {"check ball", "ball, capsule_outside, capsule_height, seat_bore, circle, [at]"},
      {"sealing ring",
       "bore, outside, height, joint (butt, scarf, hook), gap, [gap_at], lap for scarf "
       "and hook, [rings, spacing]"},
      {"lip seal", "bore, outside, height, lip (down, up), rubs_on (outside, bore)"},
      {"O-ring", "bore, outside, [height]: as squeezed in its groove"},
      {"gasket", "bore, outside, free_height, compressed_height, [[part.hole]], [[part.window]] "
                 "inner, outer, width, at, [name, fits]"},
      {"bushing", "bore, outside, height, [groove_width, groove_depth, groove_stops, groove_open "
                  "(upper end, lower end), groove_at]"},
      {"bolt set",
       "bolts, thread, length, washer, washer_outside, head_height, across_flats, "
       "circle, [first_bolt_at, offset_one, bolts_fit]; heights from under the head; or "
       "one bolt ASIDE in place of the circle"},
      {"pump gears",
       "module or diametral_pitch, [pressure_angle], thinning, drive_teeth, "
       "driven_teeth, bore, driven_bore, thickness, lug_recess_width, lug_recess_depth, "
       "over_lug_recesses, [driven_at, dot_diameter, lugs_fit]"},
      {"double-wrap band",
       "applied_bore, relaxed_bore, spread_bore, width, middle_width, split, thickness, "
       "lining, wrap, anchor_at, anchor_ear, servo_ear, ear_length, ear_notch, "
       "leaning_down, leaning_in, [anchor_ear_fits, servo_ear_fits]"},
      {"servo piston",
       "outside, piston_height, pin_bore, rings, ring_width, ring_depth, spring_outside, "
       "spring_wire, spring_turns, spring_height, ASIDE"},
      {"servo pin", "diameter, length, [code_grooves, groove_width, groove_depth], ASIDE"},
      {"servo cover",
       "outside, thickness, spigot, spigot_height, gasket, feed_slot, [feed_slot_at], "
       "bolts, bolt_circle, thread, [first_bolt_at], ASIDE"},
      {"lever", "pivot_circle, at, height, thickness, band_arm, servo_arm, band_arm_turn, "
                "servo_arm_turn (from straight outward), arm_width, boss, pivot, pivot_length"},
      {"lifting spider",
       "fingers, finger_reach, finger_height, finger_width, closed_reach, arm_height, "
       "handle, height, [handle_bore, first_finger_at, fingers_fit]"},
  };
  return lines;
}

const std::vector<GuideLine>& guide_groups() {
  static const std::vector<GuideLine> groups{
      {"every part",
       "id, name, recipe, [material], [[part.mark]] words, diameter, at, height: what "
       "tells which face goes up"},
      {"LUGS", "lugs, lug_width, [first_lug_at, lug_fits, wide_lug_width, wide_lug_at, "
               "wide_lug_name, wide_lug_fits]"},
      {"ASIDE", "[from_axis, at, height, aside]: laid crosswise, its own zero that far from the "
                "unit's axis, pointing outward at that angle and height"},
      {"TURNED", "[[part.section]] bore (none: solid), outside, from, to, [feature], once or more; "
                 "and any of the following"},
      {"TURNED [[part.slots]]", "land, bottom, from, to, slots, slot_width, [first_slot_at, "
                                "wide_slot_width, wide_slot_at, wide_slot_name]"},
      {"TURNED [[part.teeth]]", "root, tip, from, to, teeth, tooth_width, [first_tooth_at, name, "
                                "fits]; or form (involute, spline), in (shaft, bore), module or "
                                "diametral_pitch, teeth, from, to, [pressure_angle, profile_shift, "
                                "thinning, tip, root, first_tooth_at, name, fits]"},
      {"TURNED [[part.pad]], [[part.notch]]",
       "inner, outer, from, to, width, [at, count, name, fits, "
       "offset]: put on, or cut out"},
      {"TURNED [[part.groove]]", "id, in (bore, shaft), land, bottom, from, to, loads (up, down): "
                                 "for a snap ring"},
      {"TURNED [[part.seal_groove]]", "inner, outer, from, to: for a seal, right round"},
      {"TURNED [[part.hole]]", "diameter, circle, [count, at, offset_one, name, fits], from, to"},
      {"TURNED [[part.cam]]",
       "bore, depth, pockets, width, shallow (clockwise, counter-clockwise), "
       "[first_pocket_at, name, fits], from, to"},
      {"TURNED [[part.measure]]", "name, from, to: a figure that can be read in its place"},
  };
  return groups;
}

namespace {

/// Words run on from the second column, as wide as a terminal.
void put(std::ostringstream& out, const std::string& head, const std::string& text) {
  constexpr std::size_t widest = 96;
  constexpr std::size_t indent = 4;
  out << head << "\n";
  std::istringstream words(text);
  std::string line(indent, ' ');
  for (std::string word; words >> word;) {
    if (line.size() > indent && line.size() + 1 + word.size() > widest) {
      out << line << "\n";
      line.assign(indent, ' ');
    }
    line += (line.size() > indent ? " " : "") + word;
  }
  out << line << "\n";
}

} // namespace

std::string recipe_guide_text() {
  std::ostringstream out;
  put(out, "What each recipe takes",
      "Lengths, angles and the rest carry their unit (\"1.98 mm\", \"0.078 in\", \"40 deg\"). "
      "Diameters go across the axis, heights along it from the part's own zero. What stands in "
      "brackets may be left out.");
  out << "\n";
  for (const GuideLine& group : guide_groups()) {
    put(out, group.word, group.figures);
  }
  out << "\n";
  for (const GuideLine& line : recipe_guide()) {
    put(out, std::string("recipe = \"") + line.word + "\"", line.figures);
  }
  return out.str();
}

} // namespace lugline
