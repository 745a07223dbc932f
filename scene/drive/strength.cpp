#include "scene/drive/strength.h"

#include "scene/drive/worked_strength.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace lugline {

namespace {

// The unknowns are the amounts of the torques' directions, and, last, the input torque's magnitude.
class Limits {
public:
  Limits(const Drive& drive, const WorkedTrain& worked, TrainDuty duty)
      : drive_(drive), worked_(worked), torques_(worked.settled.torques) {
    const bool pull = duty == TrainDuty::pull;
    // Torques are found for one of what drives; they are wanted for one of the input.
    const Rational input = pull ? Rational(worked.task.way) : torques_.point.back();
    per_input_ = 1 / (input < 0 ? Rational(-input) : input);
    unknowns_ = torques_.directions.size() + 1;
  }

  [[nodiscard]] std::optional<Rational> most_input(const std::map<std::string, ElementGrip>& grips,
                                                   const std::string& but = {}) const {
    std::vector<Inequality> all;
    Inequality forward{RationalRow(unknowns_, 0), 0};
    forward.coefficients.back() = 1;
    all.push_back(forward);
    for (const auto& [element, column] : worked_.carrying()) {
      const std::string& id = drive_.elements[element].id;
      // By the train on `of`, the other way than by the element.
      const RationalRow clockwise = row(column, drive_.engine_clockwise ? -1 : 1);
      const auto grip = grips.find(id);
      if (grip != grips.end() && id != but) {
        limit(clockwise, 1, grip->second.clockwise_Nm, all);
        limit(clockwise, -1, grip->second.counter_clockwise_Nm, all);
      }
      for (const OneWay& one : worked_.task.one_ways) {
        if (one.element == element) {
          all.push_back({row(column, one.free_way), 0});
        }
      }
    }
    return greatest(std::move(all), unknowns_, unknowns_ - 1);
  }

private:
  [[nodiscard]] RationalRow row(std::size_t column, int sign) const {
    RationalRow made;
    for (const RationalRow& direction : torques_.directions) {
      made.push_back(direction[column] * sign);
    }
    made.push_back(torques_.point[column] * per_input_ * sign);
    return made;
  }

  static void limit(const RationalRow& torque, int sense, double most_Nm,
                    std::vector<Inequality>& all) {
    if (!std::isfinite(most_Nm)) {
      return;
    }
    Inequality one{{}, Rational(most_Nm)};
    for (const Rational& figure : torque) {
      one.coefficients.push_back(-sense * figure);
    }
    all.push_back(std::move(one));
  }

  const Drive& drive_;
  const WorkedTrain& worked_;
  const SolutionSpace& torques_;
  Rational per_input_;
  std::size_t unknowns_ = 0;
};

} // namespace

TrainStrength strength_of(const Drive& drive, const AppliedElements& applied, TrainDuty duty,
                          const std::map<std::string, ElementGrip>& grips) {
  if (settle_train(drive, applied, duty).state != TrainState::drives) {
    return {};
  }
  return strength_of(drive, work_train(drive, applied, duty), duty, grips,
                     std::numeric_limits<double>::infinity());
}

TrainStrength strength_of(const Drive& drive, const WorkedTrain& worked, TrainDuty duty,
                          const std::map<std::string, ElementGrip>& grips, double asked_Nm) {
  TrainStrength strength;
  if (worked.settled.to != SettledTo::drives) {
    return strength;
  }
  const Limits limits(drive, worked, duty);
  const std::optional<Rational> most = limits.most_input(grips);
  if (!most) {
    return strength;
  }
  strength.input_Nm = most->convert_to<double>();
  if (strength.input_Nm >= asked_Nm) {
    return strength;
  }
  for (const auto& [element, column] : worked.carrying()) {
    const std::string& id = drive.elements[element].id;
    const std::optional<Rational> without = limits.most_input(grips, id);
    if (!without || *without > *most) {
      strength.slipping.push_back(id);
    }
  }
  return strength;
}

} // namespace lugline
