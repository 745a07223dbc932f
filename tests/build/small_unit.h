// Units of a few plain rings, written down in the test that asks them.
//
// Diameters and heights in millimetres, as on a drawing. A Bench owns its unit;
// work() does the whole sequence once and may be called again after changes.
#pragma once

#include "scene/build/judge.h"
#include "scene/build/simulate.h"

#include <memory>
#include <string>
#include <vector>

namespace lugline::test {

/// A full ring, or the sectors of one.
SectorRing ring_mm(double inner_diameter, double outer_diameter, double low, double high,
                   std::vector<Sector> sectors = {});

/// A sector centred on an angle, both in degrees.
Sector sector_deg(double middle, double width);

Component part_of(const std::string& id, ComponentKind kind, std::vector<SectorRing> rings);
/// A set of springs between two heights of 100 N/mm.
Component springs_of(const std::string& id, double inner_diameter, double outer_diameter,
                     double free_mm, double solid_mm);

/// A step that puts a part in at a place.
Step in(const std::string& place, const std::string& part, const std::string& seat,
        JointKind joint = JointKind::loose, const std::string& to = "");
Step step_of(StepKind kind, const std::string& place, const std::string& part = "");

class Bench {
public:
  Unit unit;
  Readings readings;

  void add(Component part);
  /// A place on a base, and the step that stands the base there.
  void stand(const std::string& place, const std::string& base);
  /// The step's id is its number, from 1.
  void add(Step step);

  void work();
  [[nodiscard]] Workshop& workshop() const { return *workshop_; }
  [[nodiscard]] const Simulation& simulation() const { return simulation_; }
  [[nodiscard]] CheckReport check() const;
  /// The state after the last step.
  [[nodiscard]] const BuildState& end() const { return simulation_.after.back(); }
  /// The piece where it stands at the end; fails the test where it is not in.
  [[nodiscard]] const Fitted& piece(const std::string& place, const std::string& id) const;
  /// All problems of the last step, and of all steps, a line each.
  [[nodiscard]] std::string last_problems() const;
  [[nodiscard]] std::string problems() const;

private:
  std::unique_ptr<Workshop> workshop_;
  Simulation simulation_;
};

} // namespace lugline::test
