// What the stage has worked out for its readings. Inside viewer/stage only.
#pragma once

#include "viewer/stage/stage.h"
#include "viewer/stage/whole_in_cut.h"

namespace lugline {

struct Stage::Answers {
  std::shared_ptr<const Unit> unit;
  std::unique_ptr<Workshop> workshop;
  Simulation simulation;
  CheckReport check;
  BodySorter bodies;
  SurfacePlaces places;
};

namespace staged {

/// The state that the view shows: before its step's part is in, or after.
const BuildState& state_shown(const Simulation& simulation, const ViewState& view);
/// The pack that a step is about; null where none is.
const Pack* pack_for(const Unit& unit, const Simulation& simulation, std::size_t step);
std::string place_of_step_name(const Unit& unit, const Step& step);

} // namespace staged

} // namespace lugline
