// Snap rings: squeezed to pass, sprung into the groove, or refused.
//
// A ring has three radii (free, squeezed, seated) and two heights in its
// groove: down on what is beneath it or on the groove's lower face, and loaded
// against the groove's other face. A waved ring is a spring between the two: it
// stands as high as it is free, or as the room lets it, and loaded it is flat.
// Lengths metres, in the place's frame.
#pragma once

#include "scene/part/component.h"
#include "scene/seat/drop.h"

#include <string>
#include <vector>

namespace lugline {

/// The ring squeezed (or spread) as far as it goes, for its way down: its
/// solid with the working radius moved by as much.
Solid squeezed_ring(const Component& ring);

enum class RingFate {
  seated,        ///< it springs into the groove
  held_up,       ///< the stack or something else leaves no room: too high by too_high_m
  will_not_pass, ///< squeezed as far as it goes it does not pass the land: too_wide_m on the radius
  too_thick,     ///< thicker, its waves pressed flat, than the groove is high: too_high_m
  wrong_groove   ///< a bore ring for a shaft groove, or the other way round
};

struct RingReport {
  RingFate fate = RingFate::seated;
  double down_m = 0;      ///< height of its lower face, lying on what is beneath or on the groove
  double loaded_m = 0;    ///< height of its lower face, pushed against the load face
  double load_face_m = 0; ///< height of the groove face that it loads against
  bool waved = false;     ///< it springs between the groove's faces
  double height_m = 0;    ///< between its faces, seated and not loaded
  /// loaded - down, or down - loaded where the groove loads down; of a waved
  /// ring only what its free height leaves.
  double play_m = 0;
  double too_high_m = 0;
  double too_wide_m = 0;
  std::optional<Contact>
      held_by; ///< what is beneath it, where that stops it above the groove's lower face
};

/// The ring's solid and the groove are given the way up that they stand in the
/// place (turned_over of solid.h, turned_over of a groove below).
/// groove_base_m: height of the groove's component (its z = 0) in the place.
/// ring_over: whether the ring is the wrong way up for its groove: a bevelled
/// one then keeps its stated play.
/// turn_rad: how the ring is turned, its open ends with it.
RingReport seat_ring(const Component& ring, bool ring_over, const Groove& groove,
                     double groove_base_m, const std::vector<Body>& below, double turn_rad = 0);

/// Between its faces, pressed flat: a waved ring's thickness, another's height.
double flat_height_m(const Component& ring);

/// The groove of a component that stands upside down and takes up the same
/// heights, low_m to high_m, as before.
Groove turned_over(const Groove& groove, double low_m, double high_m);

} // namespace lugline
