// A pack's stack: what each plate adds, and the clearance that is left.
//
// clearance = (ring's face, ring pushed to its load side) - (piston's face at
// rest) - sum of the plates, each at the height at which the next one rests on
// it. A plate with a step counts at its step where the ring sits there; a wave
// plate counts at its free height, and the report states the flat one beside
// it, since counting it wrong is the classic slip. Common practice, no source.
// Lengths metres. Pure functions; the bodies' shapes must outlive the call.
#pragma once

#include "scene/part/component.h"
#include "scene/seat/shape.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

struct PackPlate {
  std::string id;
  std::string label;
  const Component* part = nullptr;
  const Shape* shape = nullptr; ///< the way up that it lies
  double turn_rad = 0;
  bool measured = false;   ///< its thickness was read, not nominal
  double plus_minus_m = 0; ///< half width of the reading's or the figure's tolerance
};

struct PackStack {
  std::string id;
  std::string name;
  const Shape* piston = nullptr;
  double piston_m = 0; ///< height of the piston's datum, at rest
  double piston_turn_rad = 0;
  std::vector<PackPlate> plates; ///< from the piston to the ring; those that are in so far
  std::size_t plates_wanted = 0; ///< how many a whole pack has
  const Shape* ring = nullptr;   ///< the ring, or null while none is chosen
  double ring_turn_rad = 0;
  double ring_plus_minus_m = 0; ///< half width of the tolerance of its thickness
  double load_face_m = 0;       ///< the groove face that the ring is pushed against
  double low_m = 0;             ///< limits of the clearance
  double high_m = 0;
  bool limits_wave_free = true;
};

enum class PackVerdict { open, inside, tight, loose };
std::string
word_for(PackVerdict verdict); ///< "not closed yet", "inside limits", "too tight", "too loose"

struct PackLine {
  std::string id;
  std::string label;
  double overall_m = 0; ///< lowest to highest face, free
  double counts_m = 0;  ///< what it adds to the stack
  std::string why;      ///< where the two differ: "the ring sits on the step"; may be empty
  bool measured = false;
};

struct PackReport {
  std::string id;
  std::string name;
  double piston_face_m = 0; ///< height that the first plate rests at
  double ring_face_m = 0;   ///< the ring's face towards the pack, ring loaded
  std::vector<PackLine> lines;
  double stack_m = 0;
  double clearance_m =
      0; ///< as the limits are stated (wave free or flat); while open: the space that is left
  double clearance_free_m = 0; ///< wave plate free: what a light feeler finds
  double clearance_flat_m = 0; ///< wave plate flat: the piston's travel to full clamp
  bool has_wave = false;
  std::string wave_label; ///< of the plate that gives: "wave plate", "cushion plate"
  std::size_t frictions = 0;
  double per_friction_m = 0; ///< clearance by count of frictions; 0 where there are none
  double low_m = 0;
  double high_m = 0;
  PackVerdict verdict = PackVerdict::open;
  double outside_by_m = 0;      ///< how far from the nearer limit; 0 inside
  double worst_case_m = 0;      ///< sum of the plus-minus figures
  double root_sum_square_m = 0; ///< square root of the sum of their squares
};

PackReport stack_up(const PackStack& stack);

} // namespace lugline
