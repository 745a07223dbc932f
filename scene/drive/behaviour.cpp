#include "scene/drive/behaviour.h"

#include "scene/drive/element_capacity.h"
#include "scene/drive/train_words.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

namespace lugline {

namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();

bool holds_id(const std::vector<std::string>& ids, const std::string& id) {
  return std::ranges::find(ids, id) != ids.end();
}

std::string torque_words(double torque_Nm) {
  return print_figure(FigureOf::torque, torque_Nm, LengthUnit::millimetre);
}

std::vector<std::string> names_of(const Drive& drive, const std::vector<std::string>& ids) {
  std::vector<std::string> names;
  for (const std::string& id : ids) {
    names.push_back(name_of_element(drive, id));
  }
  return names;
}

void add_words(RangeBehaviour& told, const std::string& words) {
  told.words += (told.words.empty() ? "" : "; ") + words;
}

// The pressure that a fault leaves the element in a range.
double pressure_left(const std::vector<Fault>& faults, const std::string& element,
                     const std::string& range, double line_Pa) {
  for (const Fault& fault : faults) {
    if (fault.kind != FaultKind::leaking || fault.element != element) {
      continue;
    }
    const auto read = std::ranges::find(fault.read, range, &RangePressure::range);
    return read == fault.read.end() ? line_Pa * fault.left : read->gauge_Pa;
  }
  return line_Pa;
}

double capacity_left(const std::vector<Fault>& faults, const std::string& element) {
  for (const Fault& fault : faults) {
    if (fault.kind == FaultKind::worn && fault.element == element) {
      return fault.left;
    }
  }
  return 1;
}

std::string key_of(const AppliedElements& applied) {
  std::string key;
  for (const auto* ids : {&applied.on, &applied.reversed, &applied.missing}) {
    std::vector<std::string> sorted = *ids;
    std::ranges::sort(sorted);
    for (const std::string& id : sorted) {
      key += id + '\n';
    }
    key += '\f';
  }
  return key;
}

} // namespace

AppliedElements Behaviours::applied_with(const DriveRange& range,
                                         const std::vector<Fault>& faults) {
  AppliedElements applied = applied_in(range);
  for (const Fault& fault : faults) {
    switch (fault.kind) {
    case FaultKind::not_applied:
      std::erase(applied.on, fault.element);
      break;
    case FaultKind::stuck_on:
      if (!holds_id(applied.on, fault.element)) {
        applied.on.push_back(fault.element);
      }
      break;
    case FaultKind::reversed:
      applied.reversed.push_back(fault.element);
      break;
    case FaultKind::fallen_out:
      applied.missing.push_back(fault.element);
      break;
    case FaultKind::worn:
    case FaultKind::leaking:
      break;
    }
  }
  std::erase_if(applied.on,
                [&](const std::string& id) { return carries_nothing(id, range, faults); });
  return applied;
}

// What carries nothing in any of the range's duties might as well not be applied.
bool Behaviours::carries_nothing(const std::string& id, const DriveRange& range,
                                 const std::vector<Fault>& faults) {
  const auto fault = std::ranges::find_if(faults, [&](const Fault& one) {
    return one.element == id && (one.kind == FaultKind::worn || one.kind == FaultKind::leaking);
  });
  if (fault == faults.end()) {
    return false;
  }
  if (range.duties.empty()) {
    return fault->left == 0 && fault->read.empty();
  }
  return std::ranges::all_of(range.duties, [&](const RangeDuty& duty) {
    const ElementGrip grip = grip_in(*drive_.element(id), range, duty, faults);
    return grip.clockwise_Nm <= 0 && grip.counter_clockwise_Nm <= 0;
  });
}

ElementGrip Behaviours::sound_grip(const DriveElement& element, double gauge_Pa) {
  const auto known = grips_.find({element.id, gauge_Pa});
  if (known != grips_.end()) {
    return known->second;
  }
  const auto pack = packs_.find(element.id);
  const auto capacity = [&](double sense) {
    const ElementCapacity found =
        element_capacity(element, pack == packs_.end() ? PackFacts{} : pack->second,
                         drive_.fluid_kg_per_m3, {"", gauge_Pa, 0, sense});
    return found.worked ? found.capacity_Nm : no_limit;
  };
  const ElementGrip grip{capacity(1), capacity(-1)};
  grips_.emplace(std::pair(element.id, gauge_Pa), grip);
  return grip;
}

ElementGrip Behaviours::grip_in(const DriveElement& element, const DriveRange& range,
                                const RangeDuty& duty, const std::vector<Fault>& faults) {
  if (element.kind == ElementKind::one_way_clutch) {
    const double rated_Nm = element.rated_Nm.value_or(no_limit);
    return {rated_Nm, rated_Nm};
  }
  const bool stuck = std::ranges::any_of(faults, [&](const Fault& fault) {
    return fault.element == element.id && fault.kind == FaultKind::stuck_on;
  });
  const double left = capacity_left(faults, element.id);
  if (left <= 0) {
    return {0, 0};
  }
  if (stuck || duty.line_Pa <= 0) {
    return {}; // no limit, or none known
  }
  const ElementGrip sound =
      sound_grip(element, pressure_left(faults, element.id, range.id, duty.line_Pa));
  return {sound.clockwise_Nm * left, sound.counter_clockwise_Nm * left};
}

Behaviours::Grips Behaviours::grips_in(const DriveRange& range, const RangeDuty& duty,
                                       const std::vector<Fault>& faults) {
  Grips grips;
  for (const DriveElement& element : drive_.elements) {
    grips[element.id] = grip_in(element, range, duty, faults);
  }
  return grips;
}

const TrainAnswer& Behaviours::settled(const AppliedElements& applied, TrainDuty duty) {
  const std::pair key{key_of(applied), duty};
  const auto found = settled_.find(key);
  return found != settled_.end()
             ? found->second
             : settled_.emplace(key, settle_train(drive_, applied, duty)).first->second;
}

const WorkedTrain& Behaviours::worked(const AppliedElements& applied, TrainDuty duty) {
  const std::pair key{key_of(applied), duty};
  const auto found = worked_.find(key);
  return found != worked_.end()
             ? found->second
             : worked_.emplace(key, work_train(drive_, applied, duty)).first->second;
}

void Behaviours::judge_slip(const DriveRange& range, const std::vector<Fault>& faults,
                            const AppliedElements& applied, RangeBehaviour& told) {
  std::string duty_name;
  for (const RangeDuty& duty : range.duties) {
    if (duty.input_Nm <= 0) {
      continue;
    }
    const TrainStrength strength =
        strength_of(drive_, worked(applied, TrainDuty::pull), TrainDuty::pull,
                    grips_in(range, duty, faults), duty.input_Nm);
    const bool tighter =
        !told.carries_Nm || strength.input_Nm / duty.input_Nm < *told.carries_Nm / *told.asked_Nm;
    if (std::isfinite(strength.input_Nm) && tighter) {
      told.carries_Nm = strength.input_Nm;
      told.asked_Nm = duty.input_Nm;
      told.slipping = strength.slipping;
      duty_name = duty.name;
    }
  }
  if (!told.carries_Nm || *told.carries_Nm >= *told.asked_Nm * (1 - 1e-12)) {
    told.slipping.clear();
    return;
  }
  told.notices.push_back(Notice::slips);
  AppliedElements given_way = applied;
  for (const std::string& id : told.slipping) {
    std::erase(given_way.on, id);
    given_way.missing.push_back(id);
  }
  std::erase_if(given_way.missing, [&](const std::string& id) {
    return drive_.element(id)->kind != ElementKind::one_way_clutch;
  });
  const TrainAnswer& then = settled(given_way, TrainDuty::pull);
  std::string words = "slips above " + torque_words(*told.carries_Nm) + " at the input (" +
                      torque_words(*told.asked_Nm) + " asked" +
                      (duty_name.empty() ? "" : ", " + duty_name) +
                      "): " + listed(names_of(drive_, told.slipping)) +
                      (told.slipping.size() == 1 ? " gives way" : " give way");
  words += then.state == TrainState::drives    ? ", and then it drives at " + text_of(*then.ratio)
           : then.state == TrainState::neutral ? ", and then nothing drives"
                                               : "";
  add_words(told, words);
}

void Behaviours::judge_pull(const DriveRange& range, const std::vector<Fault>& faults,
                            const AppliedElements& applied, RangeBehaviour& told) {
  const TrainAnswer& sound = settled(applied_in(range), TrainDuty::pull);
  const TrainAnswer& pull = settled(applied, TrainDuty::pull);
  told.pull = pull.state;
  told.ratio = pull.ratio;
  const bool should_drive = sound.state == TrainState::drives;
  switch (pull.state) {
  case TrainState::drives:
    if (!should_drive) {
      told.notices.push_back(Notice::drives_in_neutral);
      add_words(told, "drives at " + text_of(*pull.ratio) + " where it should not");
    } else if (pull.ratio->fraction != sound.ratio->fraction) {
      told.notices.push_back(Notice::other_ratio);
      add_words(told, "drives at " + text_of(*pull.ratio) + " instead of " + text_of(*sound.ratio));
    }
    judge_slip(range, faults, applied, told);
    break;
  case TrainState::neutral:
    if (should_drive) {
      told.notices.push_back(Notice::no_drive);
      add_words(told, "no drive");
    }
    break;
  case TrainState::locked:
  case TrainState::fighting:
    if (pull.state != sound.state) {
      told.notices.push_back(Notice::locks_up);
      add_words(told,
                "locks up: " + (pull.blamed.empty()
                                    ? "the input cannot turn"
                                    : listed(names_of(drive_, pull.blamed)) +
                                          (pull.blamed.size() == 1 ? " stops it"
                                                                   : " ask for different ratios")));
    }
    break;
  case TrainState::refused:
    break;
  }
}

void Behaviours::judge_coast(const DriveRange& range, const std::vector<Fault>& faults,
                             const AppliedElements& applied, RangeBehaviour& told) {
  const bool sound_brakes =
      settled(applied_in(range), TrainDuty::coast).state == TrainState::drives;
  const TrainAnswer& coast = settled(applied, TrainDuty::coast);
  told.coast = coast.state;
  const bool both_drive = told.pull == TrainState::drives &&
                          settled(applied_in(range), TrainDuty::pull).state == TrainState::drives;
  if (!both_drive) {
    return; // whether it brakes is then the least of it
  }
  const bool brakes = coast.state == TrainState::drives;
  if (sound_brakes && !brakes) {
    told.notices.push_back(Notice::no_engine_braking);
    add_words(told, "no engine braking");
  } else if (!sound_brakes && brakes) {
    told.notices.push_back(Notice::brakes);
    add_words(told, "the engine brakes, where it should overrun");
  }
  for (const RangeDuty& duty : range.duties) {
    if (!brakes || duty.input_Nm >= 0) {
      continue;
    }
    const TrainStrength strength =
        strength_of(drive_, worked(applied, TrainDuty::coast), TrainDuty::coast,
                    grips_in(range, duty, faults), -duty.input_Nm);
    if (strength.input_Nm < -duty.input_Nm * (1 - 1e-12)) {
      told.notices.push_back(Notice::no_engine_braking);
      add_words(told, "engine braking slips above " + torque_words(strength.input_Nm) + " (" +
                          torque_words(-duty.input_Nm) +
                          " asked): " + listed(names_of(drive_, strength.slipping)));
      break;
    }
  }
}

RangeBehaviour Behaviours::of(const DriveRange& range, const std::vector<Fault>& faults) {
  // What is not applied in a range cannot fail in it.
  std::vector<Fault> felt;
  std::ranges::copy_if(faults, std::back_inserter(felt), [&](const Fault& fault) {
    const bool of_applied = fault.kind == FaultKind::worn || fault.kind == FaultKind::leaking ||
                            fault.kind == FaultKind::not_applied;
    return !of_applied || holds_id(range.on, fault.element) ||
           std::ranges::any_of(faults, [&](const Fault& other) {
             return other.element == fault.element && other.kind == FaultKind::stuck_on;
           });
  });
  if (!felt.empty()) {
    return work(range, felt);
  }
  const auto known = sound_.find(range.id);
  return known != sound_.end() ? known->second
                               : sound_.emplace(range.id, work(range, {})).first->second;
}

RangeBehaviour Behaviours::work(const DriveRange& range, const std::vector<Fault>& faults) {
  RangeBehaviour told;
  told.range = range.id;
  const AppliedElements applied = applied_with(range, faults);
  judge_pull(range, faults, applied, told);
  judge_coast(range, faults, applied, told);
  if (told.notices.empty()) {
    told.notices.push_back(Notice::as_it_should);
    told.words = "as it should";
  }
  return told;
}

std::vector<RangeBehaviour> Behaviours::of(const std::vector<Fault>& faults) {
  std::vector<RangeBehaviour> all;
  for (const DriveRange& range : drive_.ranges) {
    all.push_back(of(range, faults));
  }
  return all;
}

} // namespace lugline
