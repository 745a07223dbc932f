#include "scene/pack/choose.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace lugline {

namespace {

constexpr double same_m = 1e-7;
constexpr double most_combinations = 1e6;

bool better(const SelectiveChoice& a, const SelectiveChoice& b) {
  // Rounded, so that figures that differ by a rounding rank by what comes next.
  const auto key = [](const SelectiveChoice& choice) {
    return std::tuple(std::llround(std::abs(choice.off_middle_m) / same_m), choice.changed);
  };
  if (key(a) != key(b)) {
    return key(a) < key(b);
  }
  return a.thickness_m < b.thickness_m;
}

} // namespace

std::vector<SelectiveChoice> choose(const std::vector<SelectivePart>& parts, double clearance_m,
                                    double low_m, double high_m, std::size_t most) {
  double combinations = parts.empty() ? 0 : 1;
  for (const SelectivePart& part : parts) {
    combinations *= static_cast<double>(part.options_m.size());
  }
  if (combinations < 1 || combinations > most_combinations) {
    return {};
  }
  std::vector<SelectiveChoice> choices;
  std::vector<std::size_t> at(parts.size(), 0);
  for (;;) {
    SelectiveChoice choice;
    choice.clearance_m = clearance_m;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const double option_m = parts[i].options_m[at[i]];
      choice.thickness_m.push_back(option_m);
      choice.clearance_m -= option_m - parts[i].fitted_m;
      choice.changed += std::abs(option_m - parts[i].fitted_m) > same_m ? 1 : 0;
    }
    choice.off_middle_m = choice.clearance_m - (low_m + high_m) / 2;
    choice.inside = choice.clearance_m >= low_m - same_m && choice.clearance_m <= high_m + same_m;
    choices.push_back(std::move(choice));
    std::size_t digit = 0;
    while (digit < at.size() && ++at[digit] == parts[digit].options_m.size()) {
      at[digit++] = 0;
    }
    if (digit == at.size()) {
      break;
    }
  }
  const std::size_t kept = std::min(most, choices.size());
  std::ranges::partial_sort(choices, choices.begin() + static_cast<std::ptrdiff_t>(kept), better);
  choices.resize(kept);
  return choices;
}

} // namespace lugline
