#include "scene/seat/turns.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace lugline::seat {

namespace {

/// Radii that share less than this do not meet: a thousandth of a micrometre.
constexpr double radius_tolerance_m = 1e-9;

bool higher(const std::optional<double>& a, const std::optional<double>& b) {
  return a.has_value() && (!b.has_value() || *a > *b);
}

/// A stretch of the turn that nothing has claimed yet.
struct Gap {
  double from_rad;
  double to_rad;
};

/// Claims [from, to) of what is unclaimed. A leftover too narrow to be an
/// opening goes with the claim.
void claim(std::vector<Gap>& gaps, double from_rad, double to_rad, const Stop& stop,
           std::vector<RestSpan>& spans) {
  std::vector<Gap> left;
  left.reserve(gaps.size() + 1);
  for (const Gap& gap : gaps) {
    double from = std::max(from_rad, gap.from_rad);
    double to = std::min(to_rad, gap.to_rad);
    if (to - from <= angle_tolerance_rad) {
      left.push_back(gap);
      continue;
    }
    if (from - gap.from_rad <= angle_tolerance_rad) {
      from = gap.from_rad;
    } else {
      left.push_back({gap.from_rad, from});
    }
    if (gap.to_rad - to <= angle_tolerance_rad) {
      to = gap.to_rad;
    } else {
      left.push_back({to, gap.to_rad});
    }
    spans.push_back({from, to, stop.height_m, stop.contact});
  }
  gaps = std::move(left);
}

void claim_round(std::vector<Gap>& gaps, double period_rad, double from_rad, double width_rad,
                 const Stop& stop, std::vector<RestSpan>& spans) {
  const double from = reduced(from_rad, period_rad);
  const double to = from + width_rad;
  claim(gaps, from, std::min(to, period_rad), stop, spans);
  if (to > period_rad) {
    claim(gaps, 0, to - period_rad, stop, spans);
  }
}

bool same_rest(const RestSpan& a, const RestSpan& b) {
  return a.rest_m == b.rest_m && a.contact.moving == b.contact.moving &&
         a.contact.moving_ring == b.contact.moving_ring && a.contact.below == b.contact.below &&
         a.contact.below_ring == b.contact.below_ring;
}

void sort_and_join(std::vector<RestSpan>& spans) {
  std::ranges::sort(spans, {}, &RestSpan::from_rad);
  std::vector<RestSpan> joined;
  joined.reserve(spans.size());
  for (const RestSpan& span : spans) {
    if (!joined.empty() && same_rest(joined.back(), span)) {
      joined.back().to_rad = span.to_rad;
    } else {
      joined.push_back(span);
    }
  }
  spans = std::move(joined);
}

int repeats_in(double period_rad) {
  return static_cast<int>(std::lround(whole_turn_rad / period_rad));
}

/// The profile written out over a longer period.
std::vector<RestSpan> tiled(const Profile& profile, int times) {
  if (profile.constant()) {
    RestSpan only = profile.spans.front();
    only.to_rad = profile.period_rad * times;
    return {only};
  }
  std::vector<RestSpan> all;
  all.reserve(profile.spans.size() * static_cast<std::size_t>(times));
  for (int i = 0; i < times; ++i) {
    for (RestSpan span : profile.spans) {
      span.from_rad += profile.period_rad * i;
      span.to_rad += profile.period_rad * i;
      all.push_back(span);
    }
  }
  return all;
}

const RestSpan& span_at(const std::vector<RestSpan>& spans, double turn_rad) {
  assert(!spans.empty());
  auto after = std::ranges::upper_bound(spans, turn_rad, {}, &RestSpan::from_rad);
  return after == spans.begin() ? spans.back() : *std::prev(after);
}

} // namespace

double reduced(double angle_rad, double period_rad) {
  double in = std::fmod(angle_rad, period_rad);
  if (in < 0) {
    in += period_rad;
  }
  return in >= period_rad ? 0 : in;
}

bool radii_overlap(const SectorRing& a, const SectorRing& b) {
  return std::min(a.outer_m, b.outer_m) - std::max(a.inner_m, b.inner_m) > radius_tolerance_m;
}

Forbidden forbidden_turns(const SectorRing& a, int symmetry_a, const SectorRing& b,
                          int symmetry_b) {
  Forbidden result;
  if (a.full() || b.full()) {
    result.always = true;
    return result;
  }
  const double near_m = std::max(a.inner_m, b.inner_m);
  const double far_m = std::min(a.outer_m, b.outer_m);
  result.repeats = std::lcm(symmetry_a, symmetry_b);
  const double period_rad = whole_turn_rad / result.repeats;
  const auto count_a = a.sectors.size() / static_cast<std::size_t>(symmetry_a);
  const auto count_b = b.sectors.size() / static_cast<std::size_t>(symmetry_b);
  for (std::size_t i = 0; i < count_a; ++i) {
    for (std::size_t j = 0; j < count_b; ++j) {
      const Sector& sa = a.sectors[i];
      const Sector& sb = b.sectors[j];
      const double from_rad =
          std::min(sb.from.at(near_m) - sa.to.at(near_m), sb.from.at(far_m) - sa.to.at(far_m));
      const double to_rad =
          std::max(sb.to.at(near_m) - sa.from.at(near_m), sb.to.at(far_m) - sa.from.at(far_m));
      if (to_rad - from_rad >= period_rad) {
        return {.always = true, .repeats = 1, .intervals = {}};
      }
      result.intervals.push_back({from_rad, to_rad});
    }
  }
  return result;
}

bool Forbidden::forbids(double turn_rad) const {
  if (always) {
    return true;
  }
  const double period_rad = whole_turn_rad / repeats;
  for (const Interval& interval : intervals) {
    const double in_rad = reduced(turn_rad - interval.from_rad, period_rad);
    const double width_rad = interval.to_rad - interval.from_rad;
    if (in_rad > angle_tolerance_rad && in_rad < width_rad - angle_tolerance_rad) {
      return true;
    }
  }
  return false;
}

const RestSpan& Profile::at(double turn_rad) const {
  return span_at(spans, reduced(turn_rad, period_rad));
}

const RestSpan& Profile::lowest() const {
  return *std::ranges::min_element(
      spans, [](const RestSpan& a, const RestSpan& b) { return higher(b.rest_m, a.rest_m); });
}

const RestSpan& Profile::highest() const {
  return *std::ranges::min_element(
      spans, [](const RestSpan& a, const RestSpan& b) { return higher(a.rest_m, b.rest_m); });
}

Profile profile_of(std::vector<Stop> stops) {
  const Stop* floor = nullptr;
  for (const Stop& stop : stops) {
    if (stop.turns.always && (floor == nullptr || stop.height_m > floor->height_m)) {
      floor = &stop;
    }
  }
  std::vector<const Stop*> partial;
  int common = 0;
  for (const Stop& stop : stops) {
    if (!stop.turns.always && (floor == nullptr || stop.height_m > floor->height_m)) {
      partial.push_back(&stop);
      common = std::gcd(common, stop.turns.repeats);
    }
  }
  std::ranges::stable_sort(partial, std::greater<>(), &Stop::height_m);

  Profile profile;
  if (common > 0) {
    profile.period_rad = whole_turn_rad / common;
  }
  std::vector<Gap> gaps{{0, profile.period_rad}};
  for (const Stop* stop : partial) {
    const int copies = stop->turns.repeats / common;
    for (const auto& interval : stop->turns.intervals) {
      for (int copy = 0; copy < copies && !gaps.empty(); ++copy) {
        claim_round(gaps, profile.period_rad,
                    interval.from_rad + whole_turn_rad * copy / stop->turns.repeats,
                    interval.to_rad - interval.from_rad, *stop, profile.spans);
      }
    }
  }
  for (const Gap& gap : gaps) {
    RestSpan rest{gap.from_rad, gap.to_rad, std::nullopt, {}};
    if (floor != nullptr) {
      rest.rest_m = floor->height_m;
      rest.contact = floor->contact;
    }
    profile.spans.push_back(rest);
  }
  sort_and_join(profile.spans);
  return profile;
}

Profile higher_of(const Profile& a, const Profile& b) {
  const int repeats_a = repeats_in(a.period_rad);
  const int repeats_b = repeats_in(b.period_rad);
  const int common = a.constant()   ? repeats_b
                     : b.constant() ? repeats_a
                                    : std::gcd(repeats_a, repeats_b);
  const auto in_a = a.constant() ? a.spans : tiled(a, repeats_a / common);
  const auto in_b = b.constant() ? b.spans : tiled(b, repeats_b / common);

  Profile result;
  result.period_rad = whole_turn_rad / common;
  std::vector<double> marks{0, result.period_rad};
  for (const auto* spans : {&in_a, &in_b}) {
    for (const RestSpan& span : *spans) {
      if (span.from_rad > 0 && span.from_rad < result.period_rad) {
        marks.push_back(span.from_rad);
      }
    }
  }
  std::ranges::sort(marks);
  for (std::size_t i = 0; i + 1 < marks.size(); ++i) {
    if (marks[i + 1] - marks[i] <= 0) {
      continue;
    }
    const double middle_rad = (marks[i] + marks[i + 1]) / 2;
    const RestSpan& from_a = span_at(in_a, middle_rad);
    const RestSpan& from_b = span_at(in_b, middle_rad);
    RestSpan span = higher(from_b.rest_m, from_a.rest_m) ? from_b : from_a;
    span.from_rad = marks[i];
    span.to_rad = marks[i + 1];
    result.spans.push_back(span);
  }
  sort_and_join(result.spans);
  return result;
}

Profile shifted(const Profile& profile, double by_rad) {
  if (profile.constant() || by_rad == 0) {
    return profile;
  }
  Profile result;
  result.period_rad = profile.period_rad;
  for (RestSpan span : profile.spans) {
    const double width_rad = span.to_rad - span.from_rad;
    span.from_rad = reduced(span.from_rad + by_rad, profile.period_rad);
    span.to_rad = span.from_rad + width_rad;
    if (span.to_rad > profile.period_rad) {
      RestSpan wrapped = span;
      wrapped.from_rad = 0;
      wrapped.to_rad = span.to_rad - profile.period_rad;
      span.to_rad = profile.period_rad;
      if (wrapped.to_rad > angle_tolerance_rad) {
        result.spans.push_back(wrapped);
      }
    }
    result.spans.push_back(span);
  }
  sort_and_join(result.spans);
  return result;
}

} // namespace lugline::seat
