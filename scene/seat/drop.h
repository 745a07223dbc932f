// The drop: this part, this way up, at this angle, lowered into what is there:
// where does it come to rest, on what?
//
// Exact for sector rings. Two rings can touch only where their radius ranges
// and their angle sets overlap; then the upper one's lower face stops at the
// lower one's upper face. The rest height is the highest such stop. Over all
// turn angles it is piecewise constant, and its steps come from the ends of
// the angle sectors alone: for one pair of sectors the forbidden turns are one
// interval, whose ends are at the ends of the shared radius range, because the
// difference of two flanks, asin(p/r) - asin(q/r), is monotone in r.
//
// Lengths metres, angles radians in [0, 2 pi). Parts are level here; whether
// what carries a part can hold it level is level_on (level.h). Pure functions.
#pragma once

#include "scene/seat/shape.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// Heights nearer than this are the same height: 0.1 micrometre.
inline constexpr double contact_tolerance_m = 1e-7;

/// How a freely turning body (spin 2 and up) is taken to stand.
enum class FreeTurn {
  lined_up, ///< turned so that the part falls as far as it can
  off,      ///< turned so that its teeth stand on what would enter it
  as_it_is  ///< left at its turn_rad
};

struct SpinRule {
  Spin spin = 2;
  FreeTurn rule = FreeTurn::lined_up;
};

struct DropQuestion {
  std::vector<Body>
      moving; ///< heights relative to the lead part's datum; turns relative to the hand
  std::vector<Body> below;     ///< heights and turns in the place's frame
  std::vector<SpinRule> spins; ///< for spins 2 and up; one that is not named is lined up
  /// Where the fall starts (height of the lead datum): what is above that is
  /// already passed. Empty: from above everything.
  std::optional<double> from_m;
};

/// Which ring of which body stopped the fall, and on which.
struct Contact {
  std::size_t moving = 0; ///< index in DropQuestion::moving
  std::size_t moving_ring = 0;
  std::size_t below = 0; ///< index in DropQuestion::below
  std::size_t below_ring = 0;
};

/// Over these turns of the hand the part comes to rest at one height.
struct RestSpan {
  double from_rad = 0;
  double to_rad = 0;            ///< > from_rad; at most from_rad + 2 pi
  std::optional<double> rest_m; ///< of the lead datum; empty: nothing stops it
  Contact contact;              ///< where rest_m is set
};

struct DropAnswer {
  std::vector<RestSpan>
      spans; ///< by rising angle; together one whole turn from the first's from_rad
  /// False where free bodies bind one another in a ring and one of them was
  /// taken as it stands: the height is then an upper bound, not the exact one.
  bool exact = true;

  [[nodiscard]] RestSpan at(double turn_rad) const;
  /// The lowest span; the first where several are as low.
  [[nodiscard]] RestSpan lowest() const;
};

DropAnswer drop(const DropQuestion& question);

/// After the drop with the hand at turn_rad: the turn of each free spin that
/// its rule gives it, nearest to how it stands now; what is not in the way stays
/// as it stands. In the place's frame.
struct SpinTurn {
  Spin spin = 2;
  double turn_rad = 0; ///< to be added to the bodies' own turns
  double play_rad = 0; ///< how far it may turn without changing the answer
};
std::vector<SpinTurn> turns_after(const DropQuestion& question, double hand_turn_rad);

/// Every contact within tolerance of the rest height, at one turn of the hand.
std::vector<Contact> contacts_at(const DropQuestion& question, double hand_turn_rad, double rest_m,
                                 double tolerance_m = contact_tolerance_m);

/// How far bodies can be raised together, as they stand, before one of them
/// meets something above; infinite where nothing is above. The contact that
/// stops them is in `contact`.
struct Travel {
  double up_m = 0;
  std::optional<Contact> contact;
};
Travel rise(const std::vector<Body>& moving, const std::vector<Body>& above);

} // namespace lugline
