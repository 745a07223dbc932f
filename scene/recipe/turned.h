// Bodies described as a turner would: sections along the axis, then what is cut
// into them (grooves, slots, notches) and what stands on them (teeth, pads).
//
//   [[part.section]] bore (or none: solid), outside, from, to, feature
//   [[part.slots]]   slots round a bore: land, bottom, from, to, slots, slot_width, …
//   [[part.teeth]]   root, tip, from, to, teeth, tooth_width, name, fits; or with
//                    form = "involute" or "spline" as in teeth.h
//   [[part.pad]]     inner, outer, from, to, width, at, count, name, fits; offset where it
//                    passes the axis at a distance, positive counter-clockwise
//   [[part.notch]]   the same, cut out
//   [[part.groove]]  for a snap ring: id, in ("bore" or "shaft"), land, bottom, from, to, loads
//   [[part.seal_groove]] inner, outer, from, to: for a seal, right round
//   [[part.hole]]    round holes off the axis (holes.h), with from and to
//   [[part.cam]]     ramped pockets in a bore (cam.h), with from and to
//   [[part.measure]] a figure: name, from, to
//
// Diameters and heights along the axis; lengths metres.
#pragma once

#include "scene/recipe/kinds.h"

#include <string>
#include <vector>

namespace lugline {

/// How many of each a recipe asks for at least.
struct TurnedNeeds {
  int slots = 0;
  int teeth = 0;
  int grooves = 0;
};

/// Reads all of a turned body, makes it, and meshes it.
void make_turned(FigureReader& f, const MeshOptions& options, MadePart& part, ComponentKind kind,
                 const TurnedNeeds& needs);

} // namespace lugline
