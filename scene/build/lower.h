// Lowering what is in hand into what is in: the drop, asked in the bench's words.
//
// Used alike by the simulation of a sequence, the drop command and the window.
// Heights metres in the frame of the place; turns radians.
#pragma once

#include "scene/build/state.h"
#include "scene/seat/level.h"
#include "scene/seat/poses.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// A part, or a finished sub-build with all that is joined to it, in hand. What
/// is loose in it hangs as low as it can.
struct InHand {
  std::string lead;                  ///< whose datum the heights speak of
  std::vector<Fitted> pieces;        ///< heights and turns relative to the lead's datum and turn
  std::vector<std::string> fell_out; ///< what was loose when it was turned over, and is not in it
};

/// One part, right way up or turned over.
InHand one_part(Workshop& workshop, const std::string& id, bool over);
/// Everything in a place, its base leading; turned over as one if asked.
InHand whole_place(Workshop& workshop, PlaceState place, const std::string& base, bool over);

/// What is loose in it hangs as low as it can. Gives the ids of what fell out,
/// which is in it no more.
std::vector<std::string> hang(Workshop& workshop, InHand& hand);

struct LowerOptions {
  std::string seat; ///< component id that it should come to rest on; may be empty
  std::optional<double>
      expected_m; ///< its height in the sound sequence; empty: where the seat carries it
  double wanted_turn_rad = 0;
  std::vector<std::string> off;    ///< free pieces turned until they stand in the way
  std::vector<std::string> jammed; ///< free pieces that are left at the turn they have
};

struct Lowered {
  /// Shapes live in the workshop. What hangs loose in hand is pushed up as far as
  /// it goes before it stops the lead: it stands so in the question, and what
  /// nothing in hand stops from going up has no rings there.
  DropQuestion question;
  std::vector<std::string> moving_ids;
  std::vector<std::string> below_ids;
  DropAnswer answer;
  double turn_rad = 0;              ///< the turn that the rest below is told for
  std::optional<double> rest_m;     ///< of the lead's datum; empty: nothing stops it
  std::string stands_on;            ///< component id; empty where nothing stops it
  std::string by;                   ///< which moving piece stands on it
  std::string stands_on_feature;    ///< "tooth", "shoulder"; may be empty
  std::vector<std::string> also_on; ///< what else carries it at that height
  std::vector<std::string> engaged; ///< free plates and shafts whose teeth stand between its own
  std::vector<std::string> not_engaged; ///< … and those that would, seated, and do not yet
  double expected_m = 0;                ///< the seated height
  bool expected_known = false;
  double stand_off_m = 0; ///< rest - expected: positive stands proud
  bool seated = false;
  std::vector<TurnRange> poses; ///< turns at which it is seated
  LevelReport level;
  std::vector<SpinTurn> spins; ///< how the free pieces turn
  /// The pieces in hand where they come to rest, in the frame of the place: what is
  /// loose lies on what is beneath it, or hangs again. As they are in hand where
  /// nothing stops them.
  std::vector<Fitted> landed;
};

Lowered lower(Workshop& workshop, const InHand& hand, const PlaceState& into,
              const LowerOptions& options);

/// The place with what was in hand let go as told; free pieces turned along.
void let_go(const Lowered& lowered, const InHand& hand, const Joint& lead_joint, PlaceState& into);

/// How much less a gauge reads than stand_off_m where the weight above bears
/// on a wave plate: weight by the plate's stiffness, no more than its wave.
/// 0 where no wave plate carries it. Formula: wave_stiffness (wave.h).
double weight_sinks_m(Workshop& workshop, const Lowered& lowered, const PlaceState& into,
                      double mass_kg);

/// Mass of all pieces in hand; 0 where one is not known.
double mass_of(Workshop& workshop, const InHand& hand);

} // namespace lugline
