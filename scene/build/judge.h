// The judgement of a whole unit: is it sound, and if not, which step fails and why.
//
// Report values only; printing is the command line's and the window's. Lengths
// metres, angles radians.
#pragma once

#include "scene/build/simulate.h"
#include "scene/quantity/complaint.h"

#include <string>
#include <vector>

namespace lugline {

/// The one shape in which poses are told everywhere.
struct WayPose {
  WayUp way_up = WayUp::right;
  TurnRange turns;
};

struct JudgedStep {
  std::string id;
  std::string part;
  std::optional<double> rest_m;
  std::string stands_on;
  std::optional<double> stand_off_m;
  std::vector<WayPose> poses;
  std::optional<ReadingReport> reading;
  std::vector<AirFinding> air;
  std::vector<std::string> problems;
};

struct JudgedPack {
  PackReport report;
  std::string after_step; ///< the last step at which it was whole; empty: never
  /// What is wrong with it beside its limits: never whole and why, another order
  /// than the steps', another path that takes the load.
  std::vector<std::string> problems;
  std::optional<double> lifted_m; ///< clearance found by lifting
  std::vector<SelectiveChoice> choices;
};

struct JudgedPlay {
  std::string id;
  std::string name;
  std::optional<double> play_m;
  Limits limits;
  bool inside = false;
};

struct JudgedChain {
  ChainReport report;
  bool whole = false; ///< all its parts were in at one time
  std::vector<SelectiveChoice> choices;
};

struct CheckReport {
  bool sound = false;
  std::vector<Complaint> complaints;
  std::vector<JudgedStep> steps;
  std::vector<JudgedPack> packs;
  std::vector<JudgedPlay> plays;
  std::vector<JudgedChain> chains;
};

CheckReport judge(Workshop& workshop, const Simulation& simulation);

/// Poses both ways up, of a step whose part was lowered.
std::vector<WayPose> poses_of(const StepOutcome& outcome, WayUp asked);

} // namespace lugline
