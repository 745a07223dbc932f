#include "tests/build/small_unit.h"

#include <catch2/catch.hpp>

#include <numbers>

namespace lugline::test {

namespace {

constexpr double mm = 1e-3;
constexpr double degree_rad = std::numbers::pi / 180;

std::string lines_of(const StepOutcome& outcome) {
  std::string all;
  for (const std::string& problem : outcome.problems) {
    all += outcome.id + ": " + problem + "\n";
  }
  return all;
}

} // namespace

SectorRing ring_mm(double inner_diameter, double outer_diameter, double low, double high,
                   std::vector<Sector> sectors) {
  SectorRing ring;
  ring.inner_m = inner_diameter / 2 * mm;
  ring.outer_m = outer_diameter / 2 * mm;
  ring.low_m = low * mm;
  ring.high_m = high * mm;
  ring.sectors = std::move(sectors);
  return ring;
}

Sector sector_deg(double middle, double width) {
  return radial_sector(middle * degree_rad, width * degree_rad);
}

Component part_of(const std::string& id, ComponentKind kind, std::vector<SectorRing> rings) {
  Component part;
  part.id = id;
  part.name = id;
  part.kind = kind;
  part.material = "steel";
  part.solid.rings = std::move(rings);
  return part;
}

Component springs_of(const std::string& id, double inner_diameter, double outer_diameter,
                     double free_mm, double solid_mm) {
  Component part =
      part_of(id, ComponentKind::springs, {ring_mm(inner_diameter, outer_diameter, 0, free_mm)});
  part.springs = SpringFigures{free_mm * mm, solid_mm * mm, 100e3};
  return part;
}

Step in(const std::string& place, const std::string& part, const std::string& seat, JointKind joint,
        const std::string& to) {
  Step step = step_of(StepKind::place, place, part);
  step.seat = seat;
  step.joint.kind = joint;
  step.joint.to = to;
  return step;
}

Step step_of(StepKind kind, const std::string& place, const std::string& part) {
  Step step;
  step.kind = kind;
  step.place = place;
  step.part = part;
  return step;
}

void Bench::add(Component part) {
  UnitComponent component;
  component.id = part.id;
  component.line = part.id;
  component.label = part.id;
  component.part = std::move(part);
  unit.components.push_back(std::move(component));
}

void Bench::stand(const std::string& place, const std::string& base) {
  unit.places.push_back({place, place, base, {}});
  add(in(place, base, "", JointKind::fixed));
}

void Bench::add(Step step) {
  step.id = std::to_string(unit.steps.size() + 1);
  unit.steps.push_back(std::move(step));
}

void Bench::work() {
  workshop_ = std::make_unique<Workshop>(unit, readings);
  simulation_ = simulate(*workshop_);
}

CheckReport Bench::check() const {
  return judge(*workshop_, simulation_);
}

const Fitted& Bench::piece(const std::string& place, const std::string& id) const {
  const auto found = end().places.find(place);
  REQUIRE(found != end().places.end());
  const Fitted* fitted = found->second.find(id);
  INFO(id);
  REQUIRE(fitted != nullptr);
  return *fitted;
}

std::string Bench::last_problems() const {
  return lines_of(simulation_.outcomes.back());
}

std::string Bench::problems() const {
  std::string all;
  for (const StepOutcome& outcome : simulation_.outcomes) {
    all += lines_of(outcome);
  }
  return all;
}

} // namespace lugline::test
