#include "scene/seat/poses.h"

#include "scene/seat/turns.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace lugline {

namespace {
constexpr double same_turn_rad = 1e-9;
}

bool TurnRange::whole() const {
  return width_rad() >= seat::whole_turn_rad - same_turn_rad;
}

double TurnRange::middle_rad() const {
  const double middle = seat::reduced((from_rad + to_rad) / 2, seat::whole_turn_rad);
  return seat::whole_turn_rad - middle < same_turn_rad ? 0 : middle;
}

namespace {

/// Spans that meet are one range, over 12 o'clock too.
std::vector<TurnRange> joined(std::vector<TurnRange> ranges) {
  std::vector<TurnRange> result;
  for (const TurnRange& range : ranges) {
    if (!result.empty() && range.from_rad - result.back().to_rad <= seat::angle_tolerance_rad) {
      result.back().to_rad = range.to_rad;
    } else {
      result.push_back(range);
    }
  }
  if (result.size() > 1) {
    const double over_rad = result.back().to_rad - seat::whole_turn_rad;
    if (std::abs(over_rad - result.front().from_rad) <= seat::angle_tolerance_rad) {
      result.back().to_rad = result.front().to_rad + seat::whole_turn_rad;
      result.erase(result.begin());
    }
  }
  for (TurnRange& range : result) {
    const double width_rad = range.width_rad();
    range.from_rad = seat::reduced(range.from_rad, seat::whole_turn_rad);
    range.to_rad = range.from_rad + width_rad;
  }
  std::ranges::sort(result, {}, &TurnRange::from_rad);
  return result;
}

} // namespace

std::vector<TurnRange> turns_resting_at(const DropAnswer& answer, double rest_m,
                                        double tolerance_m) {
  std::vector<TurnRange> ranges;
  for (const RestSpan& span : answer.spans) {
    if (span.rest_m && std::abs(*span.rest_m - rest_m) <= tolerance_m) {
      ranges.push_back({span.from_rad, span.to_rad});
    }
  }
  return joined(std::move(ranges));
}

std::vector<TurnRange> poses(const DropQuestion& question, const DropAnswer& answer, double rest_m,
                             const std::vector<std::size_t>& seat, double tolerance_m) {
  std::vector<TurnRange> ranges;
  for (const RestSpan& span : answer.spans) {
    if (!span.rest_m || std::abs(*span.rest_m - rest_m) > tolerance_m) {
      continue;
    }
    const auto carries = [&](std::size_t below) {
      return std::ranges::find(seat, below) != seat.end();
    };
    bool seated = carries(span.contact.below);
    if (!seated) {
      const double middle_rad = (span.from_rad + span.to_rad) / 2;
      for (const Contact& contact : contacts_at(question, middle_rad, *span.rest_m)) {
        seated = seated || carries(contact.below);
      }
    }
    if (seated) {
      ranges.push_back({span.from_rad, span.to_rad});
    }
  }
  return joined(std::move(ranges));
}

PoseSummary summary_of(const std::vector<TurnRange>& ranges) {
  PoseSummary summary;
  summary.count = ranges.size();
  if (ranges.empty()) {
    return summary;
  }
  summary.width_rad = ranges.front().width_rad();
  if (ranges.size() < 2) {
    return summary;
  }
  const double step_rad = ranges[1].from_rad - ranges[0].from_rad;
  for (std::size_t i = 0; i < ranges.size(); ++i) {
    const double next_rad =
        i + 1 < ranges.size() ? ranges[i + 1].from_rad : ranges[0].from_rad + seat::whole_turn_rad;
    if (std::abs(next_rad - ranges[i].from_rad - step_rad) > same_turn_rad ||
        std::abs(ranges[i].width_rad() - summary.width_rad) > same_turn_rad) {
      return summary;
    }
  }
  summary.step_rad = step_rad;
  return summary;
}

double nearest_turn(const std::vector<TurnRange>& ranges, double wanted_rad, double inset) {
  assert(!ranges.empty());
  double best_rad = wanted_rad;
  double best_off_rad = std::numeric_limits<double>::infinity();
  for (const TurnRange& range : ranges) {
    if (range.whole()) {
      return wanted_rad;
    }
    const double half_rad = range.width_rad() / 2;
    const double from_middle_rad =
        std::remainder(wanted_rad - range.middle_rad(), seat::whole_turn_rad);
    const double allowed_rad = half_rad * (1 - inset);
    const double kept_rad = std::clamp(from_middle_rad, -allowed_rad, allowed_rad);
    const double off_rad = std::abs(from_middle_rad - kept_rad);
    if (off_rad < best_off_rad) {
      best_off_rad = off_rad;
      best_rad = seat::reduced(range.middle_rad() + kept_rad, seat::whole_turn_rad);
    }
  }
  return best_rad;
}

} // namespace lugline
