// Which selective parts bring a clearance (or a play) nearest the middle of its limits.
//
// Every combination of what can be had counts: exact, not greedy. The order: nearest to the
// middle, then fewest changed parts, then cheapest, then the thinner parts. A thicker part takes
// its thickness from the clearance. What is fitted may always stay. Found by meeting in the
// middle: half the parts' combinations are kept by what they sum to, and each combination of the
// other half looks up what it needs. Metres. Sums are exact, on a grid of one nanometre.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace lugline {

struct SelectivePart {
  std::string id;
  double fitted_m = 0;
  std::vector<double> options_m = {};
  /// How many of each option lie on the shelf; empty: enough of all.
  std::vector<int> on_shelf = {};
  /// What each option costs, in any one money; empty: what is thinner counts as cheaper.
  std::vector<double> prices = {};
  /// Parts of the same sort share one shelf, and what comes out of one place can go into
  /// another: "CC-S". Empty: a shelf of its own.
  std::string sort = {};
  std::string label = {}; ///< for the words: "backing plate"; empty: its id
};

struct SelectiveChoice {
  std::vector<double> thickness_m; ///< one for each selective part, in their order
  double clearance_m = 0;
  double off_middle_m = 0; ///< signed: positive is looser than the middle
  bool inside = false;
  std::size_t changed = 0; ///< how many parts differ from what is fitted
  double price = 0;        ///< of the changed parts; 0 where none is stated
};

/// A part that would bring the clearance to the middle on its own, all others as fitted.
struct NeededPart {
  std::string id;
  double thickness_m = 0;
  double least_m = 0; ///< and the thicknesses between which it would be inside the limits
  double most_m = 0;
};

struct ChoiceAnswer {
  std::vector<SelectiveChoice> choices; ///< best first
  bool any_inside = false;
  double outside_by_m = 0;        ///< of the best, where none is inside
  std::vector<NeededPart> needed; ///< where none is inside: one for each part that could do it
  /// One plain sentence: what to fit; or by how much the best misses, and which part would do.
  std::string words;
  std::string why_none; ///< why there are no choices at all; else empty
};

struct ChoiceQuestion {
  std::vector<SelectivePart> parts;
  double clearance_m = 0; ///< with what is fitted
  double low_m = 0;
  double high_m = 0;
  std::size_t most = 4;
};

/// Options within 0.1 micrometre of what is fitted are what is fitted; the one nearest to a
/// fitted part, within 0.03 mm, is taken for the size of the fitted part and left out, since the
/// part in hand was read. Parts of one sort that are fitted alike stand in for each other: such
/// choices are told once, the thinner part first.
ChoiceAnswer choose_parts(const ChoiceQuestion& question);

/// The choices of choose_parts alone; empty where there is nothing to choose, or too much.
std::vector<SelectiveChoice> choose(const std::vector<SelectivePart>& parts, double clearance_m,
                                    double low_m, double high_m, std::size_t most = 4);

} // namespace lugline
