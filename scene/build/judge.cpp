#include "scene/build/judge.h"

#include "scene/build/drive_judge.h"
#include "scene/build/steps.h"
#include "scene/seat/drop.h"

#include <algorithm>
#include <cmath>

namespace lugline {

namespace {

WayUp other(WayUp way) {
  return way == WayUp::right ? WayUp::turned_over : WayUp::right;
}

Complaint complaint_at(const SourcePlace& place, std::string message, std::string hint = {}) {
  return {place.file, place.line, place.column, std::move(message), std::move(hint)};
}

JudgedStep judged(const Step& step, const StepOutcome& outcome, const BuildState& after) {
  JudgedStep result;
  result.id = step.id;
  result.part = step.part.empty() && outcome.hand ? outcome.hand->lead : step.part;
  result.reading = outcome.reading;
  result.air = outcome.air;
  result.problems = outcome.problems;
  result.poses = poses_of(outcome, step.way_up);
  if (outcome.lowered) {
    result.rest_m = outcome.lowered->rest_m;
    result.stands_on = outcome.lowered->stands_on;
    if (outcome.lowered->expected_known && outcome.lowered->rest_m) {
      result.stand_off_m = outcome.lowered->stand_off_m;
    }
  } else if (outcome.ring) {
    const auto place = after.places.find(step.place);
    const Fitted* ring = place == after.places.end() ? nullptr : place->second.find(step.part);
    result.rest_m = ring == nullptr ? outcome.ring->down_m : ring->height_m;
    result.stand_off_m = outcome.ring->fate == RingFate::held_up ? outcome.ring->too_high_m : 0;
    result.stands_on = step.groove.substr(0, step.groove.find('/'));
  }
  return result;
}

/// The fullest that it ever was, and what was missing then.
JudgedPack never_whole(Workshop& workshop, const Pack& pack, const Simulation& simulation) {
  JudgedPack result;
  std::vector<std::string> missing = missing_now(pack, {});
  for (const BuildState& state : simulation.after) {
    const auto now = pack_now(workshop, pack, state);
    const auto missing_here = missing_now(pack, state);
    if (now && missing_here.size() <= missing.size()) {
      result.report = *now;
      missing = missing_here;
    }
  }
  result.report.id = pack.id;
  result.report.name = pack.name;
  result.report.verdict = PackVerdict::open;
  result.report.outside_by_m = 0;
  result.problems.push_back(pack.name + " is never whole: " +
                            (missing.empty()
                                 ? "nothing stops its last plate when it is lifted"
                                 : build::labels_of(workshop, missing) +
                                       (missing.size() == 1 ? " is not in" : " are not in")));
  for (std::size_t i = 0; i < simulation.outcomes.size(); ++i) {
    const Step& step = workshop.unit().steps[i];
    if (std::ranges::find(missing, step.part) != missing.end()) {
      for (const std::string& problem : simulation.outcomes[i].problems) {
        result.problems.push_back("step " + step.id + ": " + problem);
      }
    }
  }
  return result;
}

/// Plates lie in the order in which the pack lists them: the sum is made in it.
void judge_order(Workshop& workshop, const Pack& pack, const Simulation& simulation,
                 JudgedPack& result) {
  const BuildState& state = simulation.after[workshop.unit().step_index(result.after_step)];
  const Fitted* under = nullptr;
  for (const std::string& id : pack.plates) {
    const PlaceState* place = state.place_with(id);
    const Fitted* plate = place == nullptr ? nullptr : place->find(id);
    if (plate != nullptr && under != nullptr &&
        plate->height_m + shape_of(workshop, *plate).low_m() <
            under->height_m + shape_of(workshop, *under).low_m() - contact_tolerance_m) {
      result.problems.push_back(pack.name + " lists " + workshop.label(under->id) + " below " +
                                workshop.label(id) + ", and the steps lay it above");
    }
    under = plate;
  }
}

void judge_pack(Workshop& workshop, const Pack& pack, const Simulation& simulation,
                CheckReport& report) {
  JudgedPack result;
  bool whole = false;
  // The last state in which every plate and the ring is in, whatever came after.
  for (std::size_t i = 0; i < simulation.after.size(); ++i) {
    const auto now = pack_now(workshop, pack, simulation.after[i]);
    const auto lifted = lifted_clearance(workshop, pack, simulation.after[i]);
    if (now && now->lines.size() == pack.plates.size() && lifted) {
      result.report = *now;
      result.lifted_m = lifted;
      result.after_step = simulation.outcomes[i].id;
      whole = true;
    }
  }
  if (!whole) {
    result = never_whole(workshop, pack, simulation);
    // The steps' own problems stand at the steps.
    report.complaints.push_back(complaint_at(pack.source, result.problems.front()));
    report.packs.push_back(result);
    return;
  }
  judge_order(workshop, pack, simulation, result);
  result.choices = choices_for(workshop, pack, result.report);
  if (result.report.verdict != PackVerdict::inside) {
    report.complaints.push_back(
        complaint_at(pack.source, pack.name + " has " + build::mm(result.report.clearance_m) +
                                      " of clearance, " + word_for(result.report.verdict) + " by " +
                                      build::mm(result.report.outside_by_m) + " (limits " +
                                      build::mm(result.report.low_m) + " to " +
                                      build::mm(result.report.high_m) + ")"));
  }
  if (std::abs(*result.lifted_m - result.report.clearance_free_m) > 1e-6) {
    result.problems.push_back("the sum of " + pack.name + " says " +
                              build::mm(result.report.clearance_free_m) + ", but lifted it moves " +
                              build::mm(*result.lifted_m) + ": another path takes the load");
  }
  for (const std::string& problem : result.problems) {
    report.complaints.push_back(complaint_at(pack.source, problem));
  }
  report.packs.push_back(result);
}

void judge_play(Workshop& workshop, const Play& play, const Simulation& simulation,
                CheckReport& report) {
  JudgedPlay result{play.id, play.name, std::nullopt, play.limits, false};
  const std::size_t step = workshop.unit().step_index(play.after_step);
  if (step < simulation.after.size()) {
    result.play_m = play_now(workshop, play, simulation.after[step]);
  }
  if (!result.play_m) {
    report.complaints.push_back(
        complaint_at(play.source, play.name + " cannot be found: nothing stops what moves"));
  } else {
    result.inside = *result.play_m >= play.limits.low_m - contact_tolerance_m &&
                    *result.play_m <= play.limits.high_m + contact_tolerance_m;
    if (!result.inside) {
      report.complaints.push_back(complaint_at(
          play.source, play.name + " is " + build::mm(*result.play_m) + ", outside " +
                           build::mm(play.limits.low_m) + " to " + build::mm(play.limits.high_m)));
    }
  }
  report.plays.push_back(result);
}

void judge_chain(Workshop& workshop, const Chain& chain, const Simulation& simulation,
                 CheckReport& report) {
  JudgedChain result;
  result.report = chain_now(workshop, chain);
  result.choices = choices_for(workshop, chain, result.report);
  std::vector<std::string> missing = missing_now(chain, {});
  for (const BuildState& state : simulation.after) {
    const std::vector<std::string> missing_here = missing_now(chain, state);
    missing = missing_here.size() < missing.size() ? missing_here : missing;
  }
  result.whole = missing.empty();
  const ChainReport& sum = result.report;
  if (!result.whole) {
    report.complaints.push_back(complaint_at(
        chain.source, chain.name + " cannot be measured: " + build::labels_of(workshop, missing) +
                          (missing.size() == 1 ? " is not in" : " are not in")));
  } else if (sum.verdict != ChainVerdict::inside) {
    report.complaints.push_back(complaint_at(
        chain.source, chain.name + " is " + build::mm(sum.value_m) + ", " + word_for(sum.verdict) +
                          " by " + build::mm(sum.outside_by_m) + " (limits " +
                          build::mm(sum.low_m) + " to " + build::mm(sum.high_m) + ")"));
  }
  report.chains.push_back(result);
}

} // namespace

std::vector<WayPose> poses_of(const StepOutcome& outcome, WayUp asked) {
  std::vector<WayPose> all;
  if (outcome.lowered) {
    for (const TurnRange& range : outcome.lowered->poses) {
      all.push_back({asked, range});
    }
  }
  if (outcome.turned) {
    for (const TurnRange& range : outcome.turned->poses) {
      all.push_back({other(asked), range});
    }
  }
  return all;
}

CheckReport judge(Workshop& workshop, const Simulation& simulation) {
  CheckReport report;
  const Unit& unit = workshop.unit();
  for (std::size_t i = 0; i < unit.steps.size(); ++i) {
    const JudgedStep step = judged(unit.steps[i], simulation.outcomes[i], simulation.after[i]);
    for (const std::string& problem : step.problems) {
      report.complaints.push_back(
          complaint_at(unit.steps[i].source, "step " + step.id + ": " + problem));
    }
    report.steps.push_back(step);
  }
  for (const Pack& pack : unit.packs) {
    judge_pack(workshop, pack, simulation, report);
  }
  for (const Play& play : unit.plays) {
    judge_play(workshop, play, simulation, report);
  }
  for (const Chain& chain : unit.chains) {
    judge_chain(workshop, chain, simulation, report);
  }
  for (Complaint& complaint : range_complaints(unit)) {
    report.complaints.push_back(std::move(complaint));
  }
  report.sound = report.complaints.empty();
  return report;
}

} // namespace lugline
