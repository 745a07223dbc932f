// A chain: a gap, what fills it, and what is left of it. For plays and travels that lie
// off the unit's axis, where nothing can be lowered: a pinion between its carrier's plates,
// a servo's pin between its piston and the band.
//
// left = gap - sum of what fills it. Common practice, no source. Lengths metres. What is
// left may be negative: then the members do not go into the gap. Pure; nothing here fails.
#pragma once

#include "scene/quantity/report.h"

#include <string>
#include <vector>

namespace lugline {

struct ChainPiece {
  std::string part;  ///< component id; empty: a length of nothing that can be taken out
  std::string label; ///< "carrier slot", "pinion washer"
  double length_m = 0;
  bool measured = false;
  double plus_minus_m = 0; ///< half width of the reading's doubt
};

struct ChainStack {
  std::string id;
  std::string name;
  ChainPiece gap;
  std::vector<ChainPiece> members;
  double low_m = 0; ///< limits of what is left
  double high_m = 0;
};

enum class ChainVerdict { inside, too_little, too_much };
std::string word_for(ChainVerdict verdict); ///< "inside limits", "too little", "too much"

struct ChainReport {
  std::string id;
  std::string name;
  ChainPiece gap;
  std::vector<ChainPiece> lines; ///< the members, in the order in which they were written
  double filled_m = 0;           ///< their sum
  double value_m = 0;            ///< what is left
  double low_m = 0;
  double high_m = 0;
  ChainVerdict verdict = ChainVerdict::inside;
  double outside_by_m = 0;      ///< how far from the nearer limit; 0 inside
  double worst_case_m = 0;      ///< sum of the plus-minus figures
  double root_sum_square_m = 0; ///< square root of the sum of their squares
};

/// A limit itself counts as inside, to a tenth of a micrometre.
ChainReport add_up(const ChainStack& stack);

/// The same in the one shape of calculations.
CalculationReport report_of(const ChainReport& chain);

} // namespace lugline
