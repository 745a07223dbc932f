#include "tests/drive/demo_train.h"

namespace lugline {

namespace {

DriveElement element(const char* id, ElementKind kind, const char* of, const char* to) {
  DriveElement made;
  made.id = id;
  made.name = id;
  made.kind = kind;
  made.of = of;
  made.to = to;
  return made;
}

PlanetarySet set(const char* id, const char* ring, const char* carrier) {
  PlanetarySet made;
  made.id = id;
  made.name = id;
  made.sun = "sun";
  made.ring = ring;
  made.carrier = carrier;
  made.sun_teeth = 33;
  made.pinion_teeth = 21;
  made.ring_teeth = 75;
  made.pinions = 4;
  return made;
}

} // namespace

Drive demo_train() {
  Drive drive;
  drive.input = "input";
  drive.output = "output";
  for (const char* id : {"input", "front_ring", "sun", "output", "rear_carrier", "outer_race"}) {
    drive.members.push_back({id, id, {}});
  }
  drive.sets = {set("front", "front_ring", "output"), set("rear", "output", "rear_carrier")};
  drive.elements = {
      element("upper clutch", ElementKind::clutch, "input", "front_ring"),
      element("middle clutch", ElementKind::clutch, "input", "sun"),
      element("case clutch", ElementKind::clutch, "outer_race", "case"),
      element("upper band", ElementKind::band, "sun", "case"),
      element("lower band", ElementKind::band, "rear_carrier", "case"),
      element("low roller clutch", ElementKind::one_way_clutch, "rear_carrier", "case"),
      element("drum one-way", ElementKind::one_way_clutch, "sun", "outer_race")};
  drive.elements[5].free_clockwise = true;
  drive.elements[6].free_clockwise = true;
  drive.ranges = {{"N", "neutral", {}, {}},
                  {"D1", "first", {"upper clutch"}, {}},
                  {"D2", "second", {"upper clutch", "case clutch"}, {}},
                  {"D3", "third", {"upper clutch", "middle clutch", "case clutch"}, {}},
                  {"M2", "manual second", {"upper clutch", "case clutch", "upper band"}, {}},
                  {"M1", "manual low", {"upper clutch", "lower band"}, {}},
                  {"R", "reverse", {"middle clutch", "lower band"}, {}}};
  return drive;
}

namespace {

constexpr double mm = 1e-3;
constexpr double MPa = 1e6;
constexpr double deg = 3.14159265358979323846 / 180;

void clutch(DriveElement& element, ApplyPiston piston, ReturnSprings springs, double outer_m,
            double inner_m) {
  element.piston = piston;
  element.springs = springs;
  element.friction = 0.12;
  element.lining_outer_m = outer_m;
  element.lining_inner_m = inner_m;
}

void band(DriveElement& element, double servo_m, double spring_N, double drum_m, double wrap_deg,
          double lever) {
  element.piston = ApplyPiston{servo_m, 0};
  element.spring_force_N = spring_N;
  element.friction = 0.12;
  element.drum_m = drum_m;
  element.wrap_rad = wrap_deg * deg;
  element.lever = lever;
  element.tightens_clockwise = true;
}

} // namespace

Drive demo_drive() {
  Drive drive = demo_train();
  clutch(drive.elements[0], {142 * mm, 84 * mm}, {16, 6000, 22 * mm, 15 * mm, 10.5 * mm}, 146 * mm,
         114 * mm);
  clutch(drive.elements[1], {140 * mm, 104 * mm}, {14, 6000, 22 * mm, 15 * mm, 10.5 * mm}, 150 * mm,
         132 * mm);
  clutch(drive.elements[2], {158 * mm, 134 * mm}, {12, 6000, 16 * mm, 10 * mm, 5.5 * mm}, 174 * mm,
         146 * mm);
  band(drive.elements[3], 42 * mm, 150, 168 * mm, 310, 1);
  band(drive.elements[4], 72 * mm, 300, 164 * mm, 660, 1.25);
  drive.elements[5].rated_Nm = 800;
  drive.elements[6].rated_Nm = 320;
  const auto duty = [&](const char* range, const char* name, double input_Nm, double line_Pa) {
    for (DriveRange& one : drive.ranges) {
      if (one.id == range) {
        one.duties.push_back({name, input_Nm, line_Pa});
      }
    }
  };
  duty("D1", "stall", 360, 1.1 * MPa);
  duty("D2", "stall", 360, 1.1 * MPa);
  duty("D3", "coupled", 190, 0.8 * MPa);
  duty("M2", "coast", -70, 0.8 * MPa);
  duty("M1", "coast", -70, 0.45 * MPa);
  duty("R", "stall", 360, 1.5 * MPa);
  return drive;
}

ElementPacks demo_packs() {
  return {{"upper clutch", {5, 1.9 * mm}},
          {"middle clutch", {4, 1.2 * mm}},
          {"case clutch", {4, 1.9 * mm}}};
}

} // namespace lugline
