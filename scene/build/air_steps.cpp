#include "scene/build/steps.h"

namespace lugline::build {

namespace {

struct Stroke {
  double stroke_m = 0;
  bool stopped = false;
};

std::optional<double> stroke_in(Bench bench, const Pack& pack, const BuildState& state) {
  if (!missing_now(pack, state).empty()) {
    return std::nullopt;
  }
  const auto now = pack_now(bench.workshop, pack, state);
  const bool found = now && now->verdict != PackVerdict::open && now->clearance_flat_m >= 0;
  return found && lifted_clearance(bench.workshop, pack, state)
             ? std::optional(now->clearance_flat_m)
             : std::nullopt;
}

/// To the clamped pack where it is whole; else to the piston's own stop.
Stroke stroke_of(Bench bench, const Simulation& so_far, const DriveElement& element) {
  if (element.kind == ElementKind::band) {
    return {element.stroke_m, element.stroke_m > 0};
  }
  const Pack* pack = element.pack.empty() ? nullptr : bench.workshop.unit().pack(element.pack);
  if (pack != nullptr && missing_now(*pack, bench.state).empty()) {
    if (const auto stroke_m = stroke_in(bench, *pack, bench.state)) {
      return {*stroke_m, true};
    }
    for (std::size_t i = so_far.after.size(); i > 0; --i) {
      if (const auto stroke_m = stroke_in(bench, *pack, so_far.after[i - 1])) {
        return {*stroke_m, true};
      }
    }
  }
  return {element.most_stroke_m, false};
}

} // namespace

void blow(Bench bench, const Simulation& so_far) {
  const auto& drive = bench.workshop.unit().drive;
  if (!drive || !drive->air) {
    bench.problem("the unit states no bench air");
    return;
  }
  for (const std::string& id : bench.step.elements) {
    const DriveElement* element = drive->element(id);
    if (element == nullptr || !element->piston) {
      bench.problem("there is no piston of \"" + id + "\" for air to move");
      continue;
    }
    const Stroke stroke = stroke_of(bench, so_far, *element);
    AirFinding finding{element->id, element->name, stroke.stopped, {}};
    finding.reach =
        air_reach(air_piston(*element, stroke.stroke_m), *drive->air, drive->air->test_Pa);
    if (!finding.reach.worked || !finding.reach.completes) {
      bench.problem(element->name + ": " + finding.reach.report.verdict_words);
    }
    bench.outcome.air.push_back(std::move(finding));
  }
}

} // namespace lugline::build
