// Which selective parts bring a clearance nearest the middle of its limits.
//
// Every combination of what can be had is tried: exact, not greedy. The order:
// nearest to the middle, then fewest changed parts, then the thinner parts.
// A thicker plate or ring takes its thickness from the clearance. Metres.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace lugline {

struct SelectivePart {
  std::string id;
  double fitted_m = 0;
  std::vector<double> options_m;
};

struct SelectiveChoice {
  std::vector<double> thickness_m; ///< one for each selective part, in their order
  double clearance_m = 0;
  double off_middle_m = 0; ///< signed: positive is looser than the middle
  bool inside = false;
  std::size_t changed = 0; ///< how many parts differ from what is fitted
};

/// The best `most` choices, best first; empty where there is nothing to choose,
/// or where the combinations exceed a million. Options within 0.1 micrometre
/// of what is fitted count as not changed.
std::vector<SelectiveChoice> choose(const std::vector<SelectivePart>& parts, double clearance_m,
                                    double low_m, double high_m, std::size_t most = 4);

} // namespace lugline
