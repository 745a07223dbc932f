#include "scene/pack/stack.h"

#include "scene/seat/drop.h"

#include <cassert>
#include <cmath>

namespace lugline {

namespace {

/// The height at which `upper` rests on `lower` alone, datum to datum, both
/// turned as they lie; empty where they do not meet.
std::optional<double> rests_at(const Shape& upper, double upper_turn_rad, const Shape& lower,
                               double lower_turn_rad) {
  DropQuestion question;
  question.moving.push_back({"", &upper, 0, upper_turn_rad, spin_hand});
  question.below.push_back({"", &lower, 0, lower_turn_rad, spin_fixed});
  return drop(question).at(0).rest_m;
}

PackLine line_for(const PackPlate& plate, double counts_m) {
  PackLine line;
  line.id = plate.id;
  line.label = plate.label;
  line.overall_m = plate.shape->high_m() - plate.shape->low_m();
  line.counts_m = counts_m;
  line.measured = plate.measured;
  if (plate.part->wave) {
    line.why = "free height";
  } else if (line.overall_m - counts_m > contact_tolerance_m) {
    line.why = "less its step";
  }
  return line;
}

void judge(PackReport& report, const PackStack& stack) {
  if (stack.plates.size() < stack.plates_wanted || stack.ring == nullptr) {
    report.verdict = PackVerdict::open;
  } else if (report.clearance_m < stack.low_m - contact_tolerance_m) {
    report.verdict = PackVerdict::tight;
    report.outside_by_m = stack.low_m - report.clearance_m;
  } else if (report.clearance_m > stack.high_m + contact_tolerance_m) {
    report.verdict = PackVerdict::loose;
    report.outside_by_m = report.clearance_m - stack.high_m;
  } else {
    report.verdict = PackVerdict::inside;
  }
}

} // namespace

std::string word_for(PackVerdict verdict) {
  switch (verdict) {
  case PackVerdict::open:
    return "not closed yet";
  case PackVerdict::inside:
    return "inside limits";
  case PackVerdict::tight:
    return "too tight";
  case PackVerdict::loose:
    return "too loose";
  }
  return {};
}

PackReport stack_up(const PackStack& stack) {
  assert(stack.piston != nullptr);
  PackReport report;
  report.id = stack.id;
  report.name = stack.name;
  report.low_m = stack.low_m;
  report.high_m = stack.high_m;
  report.piston_face_m = stack.piston_m + stack.piston->high_m();
  if (!stack.plates.empty()) {
    const auto first_m = rests_at(*stack.plates.front().shape, stack.plates.front().turn_rad,
                                  *stack.piston, stack.piston_turn_rad);
    if (first_m) {
      report.piston_face_m = stack.piston_m + *first_m + stack.plates.front().shape->low_m();
    }
  }
  const double ring_thickness_m =
      stack.ring == nullptr ? 0 : stack.ring->high_m() - stack.ring->low_m();
  report.ring_face_m = stack.load_face_m - ring_thickness_m;

  double wave_m = 0;
  double squares_m2 = 0;
  for (std::size_t i = 0; i < stack.plates.size(); ++i) {
    const PackPlate& plate = stack.plates[i];
    const bool last = i + 1 == stack.plates.size();
    const Shape* next = last ? stack.ring : stack.plates[i + 1].shape;
    double counts_m = plate.shape->high_m() - plate.shape->low_m();
    if (next != nullptr) {
      const double next_turn_rad = last ? stack.ring_turn_rad : stack.plates[i + 1].turn_rad;
      const auto rest_m = rests_at(*next, next_turn_rad, *plate.shape, plate.turn_rad);
      counts_m = rest_m ? *rest_m + next->low_m() - plate.shape->low_m() : counts_m;
    }
    report.lines.push_back(line_for(plate, counts_m));
    report.stack_m += counts_m;
    report.frictions += plate.part->kind == ComponentKind::friction ? 1 : 0;
    if (plate.part->wave) {
      report.has_wave = true;
      report.wave_label = plate.label;
      wave_m += plate.part->wave->free_m - plate.part->wave->flat_m;
    }
    report.worst_case_m += plate.plus_minus_m;
    squares_m2 += plate.plus_minus_m * plate.plus_minus_m;
  }
  report.worst_case_m += stack.ring_plus_minus_m;
  squares_m2 += stack.ring_plus_minus_m * stack.ring_plus_minus_m;
  report.root_sum_square_m = std::sqrt(squares_m2);
  report.clearance_free_m = report.ring_face_m - report.piston_face_m - report.stack_m;
  report.clearance_flat_m = report.clearance_free_m + wave_m;
  report.clearance_m = stack.limits_wave_free ? report.clearance_free_m : report.clearance_flat_m;
  if (report.frictions > 0) {
    report.per_friction_m = report.clearance_m / static_cast<double>(report.frictions);
  }
  judge(report, stack);
  return report;
}

} // namespace lugline
