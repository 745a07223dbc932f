#include "tests/recipe/examples.h"

#include "tests/recipe/demo.h"

#include <catch2/catch.hpp>

#include <fstream>

namespace lugline::test {

Written::Written(const std::string& text) {
  folder_ = fresh_folder();
  std::filesystem::create_directories(folder_);
  std::ofstream(path()) << text;
}

Written::~Written() {
  std::filesystem::remove_all(folder_);
}

std::vector<Complaint> complaints_of(const std::string& text) {
  const Written written(text);
  const RecipeBook book = make_parts(written.path());
  if (!book.complaints.empty()) {
    CHECK(book.parts.empty());
  }
  return book.complaints;
}

std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

/// One complaint, at this line, holding these words.
void check_one(const std::string& text, int line, const std::string& words,
               const std::string& hint) {
  CAPTURE(words);
  const std::vector<Complaint> complaints = complaints_of(text);
  for (const Complaint& complaint : complaints) {
    UNSCOPED_INFO(text_of(complaint));
  }
  REQUIRE(complaints.size() == 1);
  CHECK(complaints[0].file == "recipes.toml");
  CHECK(complaints[0].line == line);
  CHECK(complaints[0].message.find(words) != std::string::npos);
  CHECK(complaints[0].hint.find(hint) != std::string::npos);
}

std::string part_of(const std::string& recipe, const std::string& figures) {
  return "schema = 1\n[[part]]\nid = \"P\"\nname = \"Part\"\nrecipe = \"" + recipe + "\"\n" +
         figures;
}

MadePart made(const Example& example) {
  const Written written(part_of(example.recipe, example.figures));
  const RecipeBook book = make_parts(written.path());
  for (const Complaint& complaint : book.complaints) {
    FAIL_CHECK(example.id << ": " << text_of(complaint));
  }
  REQUIRE(book.parts.size() == 1);
  return book.parts.front();
}

const std::vector<Example>& examples() {
  static const std::vector<Example> all{
      {"dished, outer edge low", "dished plate", R"(bore = "118 mm"
outside = "142 mm"
flat_height = "1.6 mm"
free_height = "2.6 mm"
low_edge = "outer"
)",
       true, false},
      {"dished, inner edge low, with lugs", "dished plate", R"(bore = "118 mm"
outside = "142 mm"
over_lugs = "148 mm"
flat_height = "1.6 mm"
free_height = "2.6 mm"
low_edge = "inner"
lugs = 8
lug_width = "8 mm"
)",
       true, false},
      {"disc spring, inner edge low", "disc spring", R"(bore = "104 mm"
outside = "146 mm"
thickness = "2.2 mm"
free_height = "6.4 mm"
rate = "420 N/mm"
low_edge = "inner"
)",
       true, false},
      {"disc spring, outer edge low", "disc spring", R"(bore = "104 mm"
outside = "146 mm"
thickness = "2.2 mm"
free_height = "6.4 mm"
rate = "420 N/mm"
low_edge = "outer"
)",
       true, false},
      {"single-sided, toothed", "single-sided plate", R"(driven_by = "inner teeth"
lined = "upper face"
teeth_tip = "103.7 mm"
teeth_root = "108.2 mm"
teeth = 34
tooth_width = "4.6 deg"
outside = "146 mm"
thickness = "2.0 mm"
core_thickness = "1.4 mm"
lining_bore = "114 mm"
lining_outside = "146 mm"
)",
       false, false},
      {"single-sided, lugged", "single-sided plate", R"(driven_by = "outer lugs"
lined = "lower face"
bore = "112 mm"
outside = "149 mm"
over_lugs = "153.6 mm"
lugs = 16
lug_width = "6.4 mm"
thickness = "2.0 mm"
core_thickness = "1.4 mm"
lining_bore = "114 mm"
lining_outside = "146 mm"
)",
       false, false},
      {"roller clutch", "roller clutch", R"(bore = "76.2 mm"
outside = "91.8 mm"
height = "18 mm"
rollers = 12
roller = "7.8 mm"
roller_length = "15 mm"
cage_thickness = "1.2 mm"
rollers_pushed = "clockwise"
)",
       true, false},
      {"roller clutch the other way", "roller clutch", R"(bore = "76.2 mm"
outside = "91.8 mm"
height = "18 mm"
rollers = 8
roller = "7.8 mm"
roller_length = "15 mm"
cage_thickness = "1.2 mm"
rollers_pushed = "counter-clockwise"
)",
       true, false},
      {"thrust bearing, lip inside and below", "thrust bearing", R"(bore = "44 mm"
outside = "62 mm"
thickness = "3.2 mm"
needles = 28
needle = "2.0 mm"
race_side = "lower"
lip = "inner"
lip_width = "0.8 mm"
lip_reach = "0.6 mm"
)",
       true, false},
      {"thrust bearing, lip outside and above", "thrust bearing", R"(bore = "44 mm"
outside = "62 mm"
thickness = "3.2 mm"
needles = 28
needle = "2.0 mm"
race_side = "upper"
lip = "outer"
lip_width = "0.8 mm"
lip_reach = "0.6 mm"
)",
       true, false},
      {"check ball", "check ball", R"(ball = "5 mm"
capsule_outside = "7.8 mm"
capsule_height = "6.6 mm"
seat_bore = "3 mm"
circle = "122 mm"
at = "90 deg"
)",
       true, false},
      {"sealing ring, butt", "sealing ring", R"(bore = "52 mm"
outside = "58 mm"
height = "2.4 mm"
joint = "butt"
gap = "0.2 mm"
)",
       false, false},
      {"sealing rings, scarf, a set of four", "sealing ring", R"(bore = "52 mm"
outside = "58 mm"
height = "2.4 mm"
joint = "scarf"
gap = "0.2 mm"
lap = "4 mm"
gap_at = "30 deg"
rings = 4
spacing = "7 mm"
)",
       false, false},
      {"sealing rings, hooked, two", "sealing ring", R"(bore = "55 mm"
outside = "60.2 mm"
height = "2.4 mm"
joint = "hook"
gap = "0.2 mm"
lap = "5 mm"
rings = 2
spacing = "5 mm"
)",
       false, false},
      {"lip seal, outside, down", "lip seal", R"(bore = "150 mm"
outside = "157.8 mm"
height = "3.6 mm"
lip = "down"
rubs_on = "outside"
)",
       true, false},
      {"lip seal, outside, up", "lip seal", R"(bore = "150 mm"
outside = "157.8 mm"
height = "3.6 mm"
lip = "up"
rubs_on = "outside"
)",
       true, false},
      {"lip seal, bore, down", "lip seal", R"(bore = "134.2 mm"
outside = "141 mm"
height = "3.6 mm"
lip = "down"
rubs_on = "bore"
)",
       true, false},
      {"lip seal, bore, up", "lip seal", R"(bore = "134.2 mm"
outside = "141 mm"
height = "3.6 mm"
lip = "up"
rubs_on = "bore"
)",
       true, false},
      {"O-ring, round", "O-ring", R"(bore = "190.8 mm"
outside = "195.9 mm"
)",
       true, false},
      {"O-ring, squeezed", "O-ring", R"(bore = "190.8 mm"
outside = "195.9 mm"
height = "3 mm"
)",
       true, false},
      {"gasket", "gasket", R"(bore = "197 mm"
outside = "224 mm"
free_height = "0.55 mm"
compressed_height = "0.40 mm"
  [[part.hole]]
  diameter = "9 mm"
  circle = "210 mm"
  count = 8
  offset_one = "-6 deg"
  [[part.window]]
  name = "feed window"
  inner = "199.5 mm"
  outer = "204 mm"
  width = "12 mm"
  at = "70 deg"
)",
       false, false},
      {"bushing, grooved", "bushing", R"(bore = "36.1 mm"
outside = "40 mm"
height = "18 mm"
groove_width = "3 mm"
groove_depth = "0.8 mm"
groove_stops = "4 mm"
groove_open = "upper end"
)",
       false, false},
      {"bushing, plain", "bushing", R"(bore = "36.1 mm"
outside = "40 mm"
height = "18 mm"
)",
       false, false},
      {"bolt set", "bolt set", R"(bolts = 8
thread = "8 mm"
length = "40 mm"
washer = "1.6 mm"
washer_outside = "15 mm"
head_height = "5.3 mm"
across_flats = "13 mm"
circle = "210 mm"
offset_one = "-6 deg"
)",
       true, false},
      {"hub", "hub", R"([[part.section]]
  feature = "web"
  bore = "34 mm"
  outside = "116 mm"
  from = "0 mm"
  to = "7.4 mm"
  [[part.section]]
  feature = "cup"
  bore = "116 mm"
  outside = "123.5 mm"
  from = "-12.6 mm"
  to = "23.4 mm"
  [[part.teeth]]
  root = "123.5 mm"
  tip = "128 mm"
  from = "-12.6 mm"
  to = "12.4 mm"
  teeth = 40
  tooth_width = "4.2 deg"
)",
       false, false},
      {"shell", "shell", R"([[part.section]]
  feature = "neck"
  bore = "52 mm"
  outside = "60 mm"
  from = "0 mm"
  to = "14 mm"
  [[part.teeth]]
  form = "spline"
  in = "bore"
  module = "1 mm"
  teeth = 50
  root = "52 mm"
  from = "0 mm"
  to = "14 mm"
  name = "sun spline"
  [[part.section]]
  feature = "web"
  bore = "60 mm"
  outside = "140 mm"
  from = "0 mm"
  to = "2.6 mm"
  [[part.section]]
  feature = "bell"
  bore = "140 mm"
  outside = "145.2 mm"
  from = "0 mm"
  to = "70 mm"
  [[part.pad]]
  name = "drum lug"
  inner = "145.2 mm"
  outer = "150 mm"
  from = "58 mm"
  to = "70 mm"
  width = "9 mm"
  count = 12
  [[part.notch]]
  name = "oil window"
  inner = "140 mm"
  outer = "145.2 mm"
  from = "20 mm"
  to = "34 mm"
  width = "12 mm"
  count = 6
  at = "15 deg"
)",
       false, false},
      {"cover", "turned part", R"([[part.section]]
  feature = "disc"
  bore = "34 mm"
  outside = "140 mm"
  from = "0 mm"
  to = "4 mm"
  [[part.section]]
  feature = "skirt"
  bore = "104 mm"
  outside = "126 mm"
  from = "-13.6 mm"
  to = "0 mm"
)",
       false, false},
      {"turned, with holes", "centre support", R"([[part.section]]
  bore = "40 mm"
  outside = "190 mm"
  from = "0 mm"
  to = "10 mm"
  [[part.hole]]
  diameter = "8 mm"
  circle = "122 mm"
  count = 3
  at = "90 deg"
  from = "2 mm"
  to = "10 mm"
  [[part.hole]]
  name = "drain"
  diameter = "4 mm"
  circle = "122 mm"
  count = 3
  at = "90 deg"
  from = "0 mm"
  to = "2 mm"
)",
       false, false},
      {"turned, with a large hole", "drum", R"([[part.section]]
  bore = "40 mm"
  outside = "190 mm"
  from = "0 mm"
  to = "10 mm"
  [[part.section]]
  bore = "156 mm"
  outside = "168 mm"
  from = "10 mm"
  to = "40 mm"
  [[part.slots]]
  land = "152 mm"
  bottom = "156 mm"
  from = "10 mm"
  to = "20 mm"
  slots = 12
  slot_width = "9 mm"
  [[part.groove]]
  id = "ring"
  in = "bore"
  land = "156 mm"
  bottom = "158 mm"
  from = "22 mm"
  to = "24 mm"
  loads = "up"
  [[part.hole]]
  diameter = "60 mm"
  circle = "120 mm"
  at = "270 deg"
  from = "6 mm"
  to = "10 mm"
)",
       false, false},
      {"turned, with a cam", "hub", R"([[part.section]]
  bore = "92 mm"
  outside = "110 mm"
  from = "0 mm"
  to = "22 mm"
  [[part.teeth]]
  root = "110 mm"
  tip = "114 mm"
  from = "0 mm"
  to = "22 mm"
  teeth = 12
  tooth_width = "10 deg"
  [[part.cam]]
  bore = "92 mm"
  depth = "1.4 mm"
  pockets = 12
  width = "22 deg"
  shallow = "clockwise"
  from = "0 mm"
  to = "22 mm"
)",
       false, false},
      {"piston with grooves for its seals", "piston", R"(bore = "134.4 mm"
outside = "157.6 mm"
web_thickness = "5 mm"
height = "17 mm"
face_bore = "150 mm"
  [[part.seal_groove]]
  inner = "151 mm"
  outer = "157.6 mm"
  from = "1 mm"
  to = "4 mm"
  [[part.seal_groove]]
  inner = "134.4 mm"
  outer = "140 mm"
  from = "1 mm"
  to = "4 mm"
)",
       false, false},
      {"piston with pockets for springs", "piston", R"(bore = "134.4 mm"
outside = "157.6 mm"
web_thickness = "6 mm"
height = "17 mm"
face_bore = "150 mm"
pockets = 12
pocket_diameter = "5.6 mm"
pocket_circle = "142 mm"
pocket_depth = "1.5 mm"
  [[part.seal_groove]]
  inner = "134.4 mm"
  outer = "140 mm"
  from = "1 mm"
  to = "4 mm"
)",
       false, false},
      {"springs in pockets", "spring set", R"(coils = 12
circle = "142 mm"
coil_outside = "5 mm"
wire = "0.72 mm"
turns = 7.6
free_height = "16 mm"
solid_height = "5.5 mm"
rate_of_each = "6.0 N/mm"
stand_in = "pockets"
)",
       true, false},
      {"pump body", "pump body", R"([[part.section]]
  bore = "52 mm"
  outside = "224 mm"
  from = "0 mm"
  to = "23.3 mm"
  [[part.hole]]
  diameter = "9 mm"
  circle = "210 mm"
  count = 8
  offset_one = "-6 deg"
  from = "0 mm"
  to = "23.3 mm"
  [[part.seal_groove]]
  inner = "52 mm"
  outer = "66 mm"
  from = "17 mm"
  to = "23.3 mm"
  [[part.seal_groove]]
  inner = "52 mm"
  outer = "63.4 mm"
  from = "0 mm"
  to = "16.04 mm"
  [[part.hole]]
  name = "driven gear pocket"
  diameter = "63.4 mm"
  circle = "114 mm"
  from = "0 mm"
  to = "16.04 mm"
)",
       false, false},
      {"pump cover", "pump cover", R"([[part.section]]
  feature = "boss"
  bore = "31 mm"
  outside = "60 mm"
  from = "0 mm"
  to = "18.7 mm"
  [[part.section]]
  feature = "pilot"
  bore = "31 mm"
  outside = "195.8 mm"
  from = "18.7 mm"
  to = "31.4 mm"
  [[part.section]]
  feature = "stator support"
  bore = "31 mm"
  outside = "38 mm"
  from = "31.4 mm"
  to = "72 mm"
  [[part.seal_groove]]
  inner = "55 mm"
  outer = "60 mm"
  from = "4 mm"
  to = "6.45 mm"
  [[part.notch]]
  name = "washer slot"
  inner = "52 mm"
  outer = "60 mm"
  from = "0 mm"
  to = "1.6 mm"
  width = "8.4 mm"
  count = 2
)",
       false, false},
      {"pump gears", "pump gears", R"(module = "3 mm"
thinning = "0.15 mm"
drive_teeth = 19
driven_teeth = 19
bore = "40 mm"
driven_bore = "20 mm"
thickness = "16 mm"
lug_recess_width = "8 mm"
lug_recess_depth = "6 mm"
over_lug_recesses = "46 mm"
)",
       true, false},
      {"double-wrap band", "double-wrap band", R"(applied_bore = "164 mm"
relaxed_bore = "164.4 mm"
spread_bore = "167 mm"
width = "40 mm"
middle_width = "17 mm"
split = "2 mm"
thickness = "3.8 mm"
lining = "1.8 mm"
wrap = "660 deg"
anchor_at = "120 deg"
anchor_ear = "3.6 mm"
servo_ear = "5.6 mm"
ear_length = "12 mm"
ear_notch = "5 mm"
leaning_down = "6 mm"
leaning_in = "1.5 mm"
)",
       false, false},
      {"servo piston, upright", "servo piston", R"(outside = "42 mm"
piston_height = "12 mm"
pin_bore = "8.1 mm"
rings = 1
ring_width = "2.4 mm"
ring_depth = "2.2 mm"
spring_outside = "26 mm"
spring_wire = "2 mm"
spring_turns = 5
spring_height = "22 mm"
)",
       true, false},
      {"servo piston, laid down", "servo piston", R"(outside = "72 mm"
piston_height = "16 mm"
pin_bore = "10.1 mm"
rings = 2
ring_width = "2.6 mm"
ring_depth = "2.4 mm"
spring_outside = "40 mm"
spring_wire = "3 mm"
spring_turns = 5
spring_height = "26 mm"
from_axis = "150 mm"
at = "60 deg"
height = "72 mm"
aside = "90 mm"
)",
       true, true},
      {"servo pin, upright", "servo pin", R"(diameter = "8 mm"
length = "58.5 mm"
code_grooves = 3
groove_width = "1 mm"
groove_depth = "0.6 mm"
)",
       true, false},
      {"servo pin, laid down beside the axis", "servo pin", R"(diameter = "10 mm"
length = "71 mm"
code_grooves = 2
groove_width = "1 mm"
groove_depth = "0.6 mm"
from_axis = "4 mm"
at = "60 deg"
height = "72 mm"
aside = "90 mm"
)",
       true, true},
      {"servo pin, on the other side", "servo pin", R"(diameter = "10 mm"
length = "71 mm"
from_axis = "4 mm"
at = "300 deg"
height = "72 mm"
aside = "-90 mm"
)",
       true, true},
      {"servo pin, straight out", "servo pin", R"(diameter = "10 mm"
length = "71 mm"
from_axis = "90 mm"
at = "200 deg"
height = "-10 mm"
)",
       true, true},
      {"servo cover", "servo cover", R"(outside = "104 mm"
thickness = "6 mm"
spigot = "70 mm"
spigot_height = "10 mm"
gasket = "0.6 mm"
feed_slot = "6 mm"
bolts = 4
bolt_circle = "88 mm"
thread = "6 mm"
)",
       true, false},
      {"servo cover, laid down", "servo cover", R"(outside = "104 mm"
thickness = "6 mm"
spigot = "70 mm"
spigot_height = "10 mm"
gasket = "0.6 mm"
feed_slot = "6 mm"
bolts = 4
bolt_circle = "88 mm"
thread = "6 mm"
from_axis = "170 mm"
at = "60 deg"
height = "72 mm"
)",
       true, true},
      {"lever", "lever", R"(pivot_circle = "196 mm"
at = "60 deg"
height = "66 mm"
thickness = "12 mm"
band_arm = "16 mm"
servo_arm = "20 mm"
band_arm_turn = "130 deg"
servo_arm_turn = "10 deg"
arm_width = "7 mm"
boss = "13 mm"
pivot = "8 mm"
pivot_length = "30 mm"
)",
       true, true},
      {"waved ring for a bore", "waved snap ring", R"(springs = "outward"
bore = "182.6 mm"
outside = "199 mm"
thickness = "1.6 mm"
free_height = "2.6 mm"
waves = 5
gap = "16 deg"
gap_at = "30 deg"
free_outside = "203 mm"
squeezed_outside = "191.4 mm"
ear_depth = "3 mm"
ear_length = "8 mm"
)",
       true, false},
      {"waved ring for a shaft", "waved snap ring", R"(springs = "inward"
bore = "40 mm"
outside = "47 mm"
thickness = "1.2 mm"
free_height = "2 mm"
waves = 3
gap = "20 deg"
free_bore = "39 mm"
spread_bore = "42.5 mm"
)",
       true, false},
      {"one bolt, laid down", "bolt set", R"(bolts = 1
thread = "10 mm"
length = "18 mm"
washer = "1.6 mm"
washer_outside = "19 mm"
head_height = "6.4 mm"
across_flats = "16 mm"
from_axis = "103.2 mm"
at = "180 deg"
height = "129 mm"
)",
       true, true},
      {"turned, with a window beside the axis", "centre support", R"([[part.section]]
  bore = "186 mm"
  outside = "206 mm"
  from = "0 mm"
  to = "60 mm"
  [[part.notch]]
  name = "servo window"
  inner = "186 mm"
  outer = "206 mm"
  from = "20 mm"
  to = "30 mm"
  width = "8.4 mm"
  at = "9 deg"
  offset = "60 mm"
)",
       false, false},
  };
  return all;
}

} // namespace lugline::test
