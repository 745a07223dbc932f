// A solid while it is being made: rings put on, and rooms cut out.
//
// Lengths metres, angles radians. What does not go together (a ring put where
// there is metal already, a cut across a slanting flank) is told in words by
// the function that was asked; a workpiece it happened to is not to be used.
#pragma once

#include "scene/part/solid.h"

#include <string>

namespace lugline {

class Workpiece {
public:
  void add(SectorRing ring) { solid_.rings.push_back(std::move(ring)); }

  /// Takes away whatever lies in the region; it need not be all metal there.
  /// Empty, or why it cannot be done.
  std::string cut(const SectorRing& region);

  /// Which two rings overlap, in words; empty where none do.
  [[nodiscard]] std::string overlap() const;

  [[nodiscard]] const Solid& solid() const { return solid_; }
  Solid take() { return std::move(solid_); }

private:
  Solid solid_;
};

/// Where sectors meant to be apart touch or overlap between two radii, or are
/// not by rising angle: the number of the first of the two. -1: nowhere.
int first_meeting(const std::vector<Sector>& sectors, double inner_m, double outer_m);

/// What of `whole` (empty: the full circle) is left when `gone` (the same) is
/// taken away, between two radii. Answers false where flanks cross in between.
bool sectors_without(const std::vector<Sector>& whole, const std::vector<Sector>& gone,
                     double inner_m, double outer_m, std::vector<Sector>& left, bool& none_left);

} // namespace lugline
