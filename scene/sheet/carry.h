// Finished work carried from its bench to above the place that it goes into, as one.
//
// Up, across and down, clear of all that stands about; turned over on the way where it goes in
// the other way up. Metres; the frame of piece_frame.h.
#pragma once

#include "scene/sheet/piece_frame.h"

#include <string>

namespace lugline {

class Carry {
public:
  /// was: where each piece stands now; will: where it hangs above where it goes. Both hold the
  /// same pieces, and the lead. clear_m: the top of whatever it has to pass over.
  Carry(PieceFrames was, PieceFrames will, const std::string& lead, double clear_m);

  /// share 0 to 1.
  [[nodiscard]] PieceFrames at(double share) const;

private:
  PieceFrames was_;
  PieceFrames will_;
  std::string lead_;
  Vec3 middle_m_;         ///< of the lead, in its own frame: what it is turned over about
  double over_rad_ = 0;   ///< half a turn, or none
  double turn_rad_ = 0;   ///< … and then about the axis
  double over_top_m_ = 0; ///< how high its middle goes
};

} // namespace lugline
