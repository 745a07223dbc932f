// How each kind of step changes the state. Inside scene/build only.
#pragma once

#include "scene/build/simulate.h"

namespace lugline::build {

/// What a step works on.
struct Bench {
  Workshop& workshop;
  const Step& step;
  BuildState& state;
  StepOutcome& outcome;

  [[nodiscard]] PlaceState& place() const { return state.places[step.place]; }
  void problem(std::string words) const { outcome.problems.push_back(std::move(words)); }
};

void put_in(Bench bench); ///< place, grease, refit of one part, snap rings among them
void bring(Bench bench);
void spread_band(Bench bench);
void attach_tool(Bench bench);
void take_out(Bench bench, const std::vector<std::string>& ids);
void press(Bench bench);
/// torque with a height: bolts draw the part down to it and hold it there; what stands in
/// the way is told with how much is left.
void draw_down(Bench bench);
/// What gives becomes that much less high; told where it would be beyond solid.
void squash(Bench bench, const std::string& id, double by_m);
void let_joints_go(Bench bench);
/// What nothing holds any more falls; what falls out is told.
void let_fall(Bench bench);
/// "friction 1 falls out when the work is turned over: nothing holds it".
std::string fell_out(const Workshop& workshop, const std::string& id, const std::string& when);
/// Work is not turned over or carried with a compressor on it.
void judge_held_down(Bench bench, const PlaceState& place);
std::optional<ReadingReport> read_gauge(Bench bench);
/// check by air: each named piston at the unit's test pressure; one that does not make its stroke
/// is told. A pack's stroke is the one it had when it was last upright and whole.
void blow(Bench bench, const Simulation& so_far);

/// After the last step: a key whose mate never goes in is a problem of the step that puts the
/// part in. Mates that the unit does not have at all are the loader's question.
void judge_mates(const Workshop& workshop, Simulation& simulation);

/// "friction 1, friction 2".
std::string labels_of(const Workshop& workshop, const std::vector<std::string>& ids);
/// "1.20 mm".
std::string mm(double length_m);
std::string degrees(double angle_rad);

} // namespace lugline::build
