// Inside choose: what can be picked, half of it at a time.
//
// A way to pick is a string with one letter a part: the number of its option, thinnest first, or
// `unpicked`. Nanometres, so that sums are exact. For choose.cpp alone.
#pragma once

#include "scene/pack/choose.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace lugline::choosing {

inline constexpr char unpicked = '\xff';

/// To the nearest nanometre.
std::int64_t nm(double length_m);

struct Way {
  std::int64_t sum_nm = 0; ///< by how much thicker than what is fitted
  std::size_t changed = 0;
  std::int64_t price = 0; ///< in hundredths
  std::string picks;
};
Way both(const Way& a, const Way& b);

/// A way to pick half of the parts, and what it takes of the sizes that are scarce.
struct Half {
  Way way;
  std::string usage; ///< one letter a scarce size: how many
};

/// One size of one part.
struct Size {
  std::int64_t thickness_nm = 0;
  double thickness_m = 0;
  bool fitted = false;
  std::int64_t price = 0;
  int scarce = -1; ///< index in Shop::scarce
};

/// What can be had.
struct Shop {
  std::vector<std::vector<Size>> sizes; ///< of each part, thinnest first
  std::vector<int> scarce;              ///< how many there are of each scarce size

  [[nodiscard]] bool has(const std::string& usage_a, const std::string& usage_b) const;
  [[nodiscard]] double thickness_m(std::size_t part, const std::string& picks) const {
    return sizes[part][static_cast<unsigned char>(picks[part])].thickness_m;
  }
};

struct Halves {
  Shop shop;
  std::vector<Half> a;
  std::vector<Half> b; ///< by rising sum
};

/// Empty where there are too many. Of ways that sum to the same and take the same of what is
/// scarce, only the best `most` are kept: no other can be among the best of the whole.
std::optional<Halves> halves_of(const std::vector<SelectivePart>& parts, std::size_t most);

} // namespace lugline::choosing
