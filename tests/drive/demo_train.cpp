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

} // namespace lugline
