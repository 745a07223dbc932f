#include "scene/drive/linear.h"

#include <algorithm>
#include <cassert>
#include <functional>
#include <utility>

namespace lugline {

namespace {

// Brings the rows to reduced echelon form, the right sides with them; gives each row's pivot.
std::vector<std::size_t> reduce(std::vector<RationalRow>& rows, RationalRow& right,
                                std::size_t unknowns) {
  std::vector<std::size_t> pivots;
  for (std::size_t column = 0; column < unknowns && pivots.size() < rows.size(); ++column) {
    const std::size_t at = pivots.size();
    std::size_t found = at;
    while (found < rows.size() && rows[found][column] == 0) {
      ++found;
    }
    if (found == rows.size()) {
      continue;
    }
    std::swap(rows[at], rows[found]);
    std::swap(right[at], right[found]);
    const Rational lead = rows[at][column];
    for (Rational& figure : rows[at]) {
      figure /= lead;
    }
    right[at] /= lead;
    for (std::size_t other = 0; other < rows.size(); ++other) {
      const Rational times = rows[other][column];
      if (other == at || times == 0) {
        continue;
      }
      for (std::size_t i = column; i < unknowns; ++i) {
        rows[other][i] -= times * rows[at][i];
      }
      right[other] -= times * right[at];
    }
    pivots.push_back(column);
  }
  return pivots;
}

// Fourier and Motzkin: every lower bound of the unknown against every upper one.
std::vector<Inequality> eliminate(std::vector<Inequality> inequalities, std::size_t unknowns,
                                  std::size_t gone) {
  std::vector<Inequality> kept;
  std::vector<Inequality> from_below;
  std::vector<Inequality> from_above;
  for (Inequality& one : inequalities) {
    const int sign = one.coefficients[gone].sign();
    (sign == 0 ? kept : sign > 0 ? from_below : from_above).push_back(std::move(one));
  }
  for (const Inequality& low : from_below) {
    for (const Inequality& high : from_above) {
      const Rational a = low.coefficients[gone];
      const Rational b = -high.coefficients[gone];
      Inequality both{RationalRow(unknowns, 0), low.constant * b + high.constant * a,
                      low.strict || high.strict};
      for (std::size_t i = 0; i < unknowns; ++i) {
        both.coefficients[i] = low.coefficients[i] * b + high.coefficients[i] * a;
      }
      kept.push_back(std::move(both));
    }
  }
  return kept;
}

bool holds_at_all(const Inequality& one) {
  return one.strict ? one.constant > 0 : one.constant >= 0;
}

// How many inequalities there would be in place of those that hold this unknown.
std::size_t cost_of(const std::vector<Inequality>& inequalities, std::size_t unknown) {
  std::size_t below = 0;
  std::size_t above = 0;
  for (const Inequality& one : inequalities) {
    const int sign = one.coefficients[unknown].sign();
    below += sign > 0 ? 1 : 0;
    above += sign < 0 ? 1 : 0;
  }
  return below * above;
}

// Those of no unknown that hold anyhow, and those that are there already, are left out: they grow
// fast.
void tidy(std::vector<Inequality>& inequalities) {
  std::vector<Inequality> kept;
  for (Inequality& one : inequalities) {
    const auto leading =
        std::ranges::find_if(one.coefficients, [](const Rational& figure) { return figure != 0; });
    if (leading == one.coefficients.end() && holds_at_all(one)) {
      continue;
    }
    if (leading != one.coefficients.end()) {
      const Rational by = *leading < 0 ? Rational(-*leading) : *leading;
      for (Rational& figure : one.coefficients) {
        figure /= by;
      }
      one.constant /= by;
    }
    const bool known = std::ranges::any_of(kept, [&](const Inequality& other) {
      return other.strict == one.strict && other.constant <= one.constant &&
             other.coefficients == one.coefficients;
    });
    if (!known) {
      kept.push_back(std::move(one));
    }
  }
  inequalities = std::move(kept);
}

void eliminate_all_but(std::vector<Inequality>& inequalities, std::size_t unknowns,
                       std::size_t kept) {
  std::vector<std::size_t> left;
  for (std::size_t unknown = 0; unknown < unknowns; ++unknown) {
    if (unknown != kept) {
      left.push_back(unknown);
    }
  }
  while (!left.empty()) {
    const auto next = std::ranges::min_element(
        left, {}, [&](std::size_t unknown) { return cost_of(inequalities, unknown); });
    inequalities = eliminate(std::move(inequalities), unknowns, *next);
    tidy(inequalities);
    left.erase(next);
  }
}

} // namespace

bool SolutionSpace::settles(std::size_t unknown) const {
  return std::ranges::all_of(directions, [&](const RationalRow& d) { return d[unknown] == 0; });
}

SolutionSpace solve(std::vector<RationalRow> rows, RationalRow right, std::size_t unknowns) {
  assert(rows.size() == right.size());
  const std::vector<std::size_t> pivots = reduce(rows, right, unknowns);
  SolutionSpace space;
  for (std::size_t i = pivots.size(); i < rows.size(); ++i) {
    if (right[i] != 0) {
      return space;
    }
  }
  space.any = true;
  space.point.assign(unknowns, 0);
  for (std::size_t i = 0; i < pivots.size(); ++i) {
    space.point[pivots[i]] = right[i];
  }
  for (std::size_t free = 0; free < unknowns; ++free) {
    if (std::ranges::find(pivots, free) != pivots.end()) {
      continue;
    }
    RationalRow direction(unknowns, 0);
    direction[free] = 1;
    for (std::size_t i = 0; i < pivots.size(); ++i) {
      direction[pivots[i]] = -rows[i][free];
    }
    space.directions.push_back(std::move(direction));
  }
  return space;
}

std::size_t rank_of(std::vector<RationalRow> rows, std::size_t unknowns) {
  RationalRow right(rows.size(), 0);
  return reduce(rows, right, unknowns).size();
}

bool can_all_hold(std::vector<Inequality> inequalities, std::size_t unknowns) {
  eliminate_all_but(inequalities, unknowns, unknowns);
  return std::ranges::all_of(inequalities, [](const Inequality& one) { return holds_at_all(one); });
}

std::optional<Rational> greatest(std::vector<Inequality> inequalities, std::size_t unknowns,
                                 std::size_t of) {
  eliminate_all_but(inequalities, unknowns, of);
  std::optional<Rational> most;
  for (const Inequality& one : inequalities) {
    const Rational& by = one.coefficients[of];
    if (by < 0) {
      const Rational limit = one.constant / -by;
      most = most ? std::min(*most, limit) : limit;
    }
  }
  return most;
}

Inequality along(const SolutionSpace& space, const RationalRow& coefficients, bool strict) {
  Inequality result{{}, dot(coefficients, space.point), strict};
  for (const RationalRow& direction : space.directions) {
    result.coefficients.push_back(dot(coefficients, direction));
  }
  return result;
}

std::optional<Rational> settled_value(const SolutionSpace& space, const RationalRow& coefficients) {
  const Inequality value = along(space, coefficients, false);
  if (std::ranges::any_of(value.coefficients, [](const Rational& c) { return c != 0; })) {
    return std::nullopt;
  }
  return value.constant;
}

std::vector<RationalRow> corners_of(const SolutionSpace& space,
                                    const std::vector<std::size_t>& unknowns) {
  std::vector<RationalRow> amounts; // of the directions, in each unknown
  for (const std::size_t unknown : unknowns) {
    RationalRow row;
    for (const RationalRow& direction : space.directions) {
      row.push_back(direction[unknown]);
    }
    amounts.push_back(std::move(row));
  }
  const std::size_t spare = rank_of(amounts, space.directions.size());
  std::vector<RationalRow> corners;
  std::vector<std::size_t> chosen;
  const auto take = [&] {
    std::vector<RationalRow> rows;
    RationalRow right;
    for (const std::size_t i : chosen) {
      rows.push_back(amounts[i]);
      right.push_back(-space.point[unknowns[i]]);
    }
    const SolutionSpace at = solve(std::move(rows), std::move(right), space.directions.size());
    RationalRow corner;
    for (std::size_t i = 0; at.any && i < unknowns.size(); ++i) {
      const std::optional<Rational> value = settled_value(at, amounts[i]);
      if (!value) {
        return;
      }
      corner.push_back(*value + space.point[unknowns[i]]);
    }
    if (at.any) {
      corners.push_back(std::move(corner));
    }
  };
  const std::function<void(std::size_t)> choose = [&](std::size_t first) {
    if (chosen.size() == spare) {
      take();
      return;
    }
    for (std::size_t i = first; i < unknowns.size(); ++i) {
      chosen.push_back(i);
      choose(i + 1);
      chosen.pop_back();
    }
  };
  choose(0);
  return corners;
}

Rational dot(const RationalRow& a, const RationalRow& b) {
  assert(a.size() == b.size());
  Rational sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    sum += a[i] * b[i];
  }
  return sum;
}

} // namespace lugline
