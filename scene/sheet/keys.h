// From many samples of a piece's way to few keys of it. Inside scene/sheet only.
#pragma once

#include "scene/sheet/piece_frame.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// A piece as nodes: itself, and what makes it less high where it gives.
struct KeyedPiece {
  std::string id;
  std::size_t node = 0;
  std::optional<std::size_t> giving;
  double low_m = 0; ///< of its drawn solid: where it stands while it gives
  PieceFrame rest;  ///< as its nodes say it
};

struct TrackKeys {
  std::vector<double> at_s;
  std::vector<PieceFrame> frames;
  std::vector<bool> stays; ///< a key whatever lies about it: where a step begins, and where it ends

  /// A time that is there already keeps the later frame.
  void add(double time_s, const PieceFrame& frame, bool stay = false);
};

/// Between its keys a piece is off its sampled way by less than a twentieth of a millimetre and a
/// tenth of a degree, at its first and last sample and wherever it rests by nothing. Figures that
/// never leave the nodes' rest have no track.
void add_tracks(const KeyedPiece& piece, const TrackKeys& keys, std::vector<KeyTrack>& tracks);

/// … of a piece that stands still for so long.
void add_still(const KeyedPiece& piece, const PieceFrame& frame, double seconds,
               std::vector<KeyTrack>& tracks);

} // namespace lugline
