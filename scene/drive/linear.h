// Linear equations and inequalities in exact fractions.
//
// Small and dense: a gear train has some twenty unknowns. Plain values; sizes that do not fit
// each other are our own slip.
#pragma once

#include "scene/drive/rational.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace lugline {

using RationalRow = std::vector<Rational>;

/// Every x with A x = b: a point and the directions in which it may move.
struct SolutionSpace {
  bool any = false; ///< false: the equations contradict each other
  RationalRow point;
  std::vector<RationalRow> directions; ///< independent; empty: the point is the only one

  [[nodiscard]] bool settles(std::size_t unknown) const; ///< does every solution agree on it?
};
SolutionSpace solve(std::vector<RationalRow> rows, RationalRow right, std::size_t unknowns);

std::size_t rank_of(std::vector<RationalRow> rows, std::size_t unknowns);

/// coefficients . x + constant >= 0, or > 0.
struct Inequality {
  RationalRow coefficients;
  Rational constant;
  bool strict = false;
};
/// Is there a point where all hold? By Fourier and Motzkin's elimination: exact.
bool can_all_hold(std::vector<Inequality> inequalities, std::size_t unknowns);

/// The greatest that one unknown can be where all hold; none: it may be as great as one likes, or
/// they cannot all hold. No inequality may be strict.
std::optional<Rational> greatest(std::vector<Inequality> inequalities, std::size_t unknowns,
                                 std::size_t of);

/// coefficients . x over every x of the space, as an inequality in its directions' amounts.
Inequality along(const SolutionSpace& space, const RationalRow& coefficients, bool strict);

/// Of unknowns that the space leaves open: their values at each of its corners, where as many of
/// them are nothing as can be at once. Unsettled corners are left out.
std::vector<RationalRow> corners_of(const SolutionSpace& space,
                                    const std::vector<std::size_t>& unknowns);

/// coefficients . x over the space, where every x of it agrees.
std::optional<Rational> settled_value(const SolutionSpace& space, const RationalRow& coefficients);

Rational dot(const RationalRow& a, const RationalRow& b);

} // namespace lugline
