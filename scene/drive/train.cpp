#include "scene/drive/train.h"

#include "scene/drive/train_words.h"
#include "scene/drive/train_work.h"

#include <algorithm>
#include <cassert>

namespace lugline {

namespace {

// Of the driving end's speed; turned into shares of the input's where the two are tied.
void tell_speeds(const Drive& drive, const WorkedTrain& worked, const Rational& scale,
                 TrainAnswer& answer) {
  const DriveNetwork& train = worked.task.train;
  const TrainNetwork& network = train.network;
  const auto speed = [&](std::size_t body, std::size_t less) {
    const auto value = settled_value(worked.settled.speeds, row_of(network, Coupling{body, less}));
    return value ? std::optional(exact_figure(*value * scale)) : std::nullopt;
  };
  for (const DriveMember& member : drive.members) {
    answer.members.push_back({member.id, member.name, speed(train.body(member.id), 0)});
  }
  for (std::size_t i = 0; i < drive.sets.size(); ++i) {
    const SetBodies& bodies = train.sets[i];
    for (std::size_t pinion = 0; pinion < bodies.pinions.size(); ++pinion) {
      answer.pinions.push_back({drive.sets[i].id, pinion > 0, speed(bodies.pinions[pinion], 0),
                                speed(bodies.pinions[pinion], bodies.carrier)});
    }
  }
  for (const DriveElement& element : drive.elements) {
    ElementWork work;
    work.id = element.id;
    work.slip = speed(train.body(element.of), train.body(element.to));
    answer.elements.push_back(std::move(work));
  }
}

void tell_doing(const WorkedTrain& worked, TrainAnswer& answer) {
  for (const std::size_t element : worked.closed_elements) {
    answer.elements[element].doing = ElementDoing::on;
  }
  for (const OneWay& one : worked.task.one_ways) {
    ElementWork& work = answer.elements[one.element];
    work.doing = !work.slip                   ? ElementDoing::free
                 : work.slip->fraction == "0" ? ElementDoing::stands
                                              : ElementDoing::overruns;
  }
  for (const auto* list : {&worked.settled.holding, &worked.settled.helping}) {
    for (const std::size_t i : *list) {
      answer.elements[worked.task.one_ways[i].element].doing = ElementDoing::holds;
    }
  }
}

int freedoms(const WorkedTrain& worked) {
  const TrainNetwork& network = worked.task.train.network;
  const std::size_t tied = rank_of(rows_of(network, worked.settled.couplings), network.unknowns());
  return static_cast<int>(network.unknowns() - tied);
}

TrainAnswer told(const Drive& drive, const WorkedTrain& worked, TrainDuty duty) {
  const Settled& settled = worked.settled;
  TrainAnswer answer;
  answer.duty = duty;
  answer.degrees_of_freedom = freedoms(worked);
  Rational speed_scale = 1;
  Rational torque_scale = 1;
  if (settled.to == SettledTo::drives) {
    const Rational w_in = settled.speeds.point[worked.task.train.body(drive.input) - 1];
    const Rational w_out = settled.speeds.point[worked.task.train.body(drive.output) - 1];
    answer.state = TrainState::drives;
    answer.ratio = exact_figure(w_in / w_out);
    speed_scale = 1 / w_in;
    torque_scale = duty == TrainDuty::pull ? Rational(1) : 1 / settled.torques.point.back();
  } else {
    answer.state = settled.to == SettledTo::locked ? TrainState::locked : TrainState::neutral;
  }
  tell_speeds(drive, worked, speed_scale, answer);
  tell_doing(worked, answer);
  if (settled.to == SettledTo::drives) {
    tell_torques(drive, worked, torque_scale, speed_scale, answer);
  }
  const TrainNetwork& network = worked.task.train.network;
  const SolutionSpace output = speeds_of(network, settled.couplings, {});
  answer.output_held =
      settled.to == SettledTo::neutral && output.settles(worked.task.train.body(drive.output) - 1);
  return answer;
}

// Elements without which the locked train would drive.
std::vector<std::string> to_blame(const Drive& drive, const AppliedElements& applied,
                                  const TrainAnswer& answer) {
  std::vector<std::string> found;
  for (const ElementWork& work : answer.elements) {
    AppliedElements less = applied;
    if (work.doing == ElementDoing::on) {
      std::erase(less.on, work.id);
      // A one-way clutch that is seized and let go is one that works again.
    } else if (work.doing == ElementDoing::holds) {
      less.missing.push_back(work.id);
    } else {
      continue;
    }
    if (work_train(drive, less, answer.duty).settled.to == SettledTo::drives) {
      found.push_back(work.id);
    }
  }
  return found;
}

// An id that is not an element, or is not one that can be so.
std::string trouble_with(const Drive& drive, const AppliedElements& applied) {
  const std::vector<std::string> troubles = train_troubles(drive);
  if (!troubles.empty()) {
    return troubles.front();
  }
  for (const auto* ids : {&applied.on, &applied.reversed, &applied.missing}) {
    for (const std::string& id : *ids) {
      const DriveElement* element = drive.element(id);
      if (element == nullptr) {
        return "There is no element '" + id + "'.";
      }
      if (ids != &applied.on && element->kind != ElementKind::one_way_clutch) {
        return "'" + id + "' is no one-way clutch: it cannot be reversed or fall out.";
      }
    }
  }
  return {};
}

} // namespace

TrainAnswer settle_train(const Drive& drive, const AppliedElements& applied, TrainDuty duty) {
  TrainAnswer answer;
  answer.duty = duty;
  answer.words = trouble_with(drive, applied);
  if (!answer.words.empty()) {
    return answer;
  }
  answer = told(drive, work_train(drive, applied, duty), duty);
  if (answer.state == TrainState::locked) {
    answer.blamed = to_blame(drive, applied, answer);
    answer.state = answer.blamed.size() < 2 ? TrainState::locked : TrainState::fighting;
  }
  answer.words = words_of(drive, answer);
  return answer;
}

AppliedElements applied_in(const DriveRange& range) {
  return {range.on, {}, {}};
}

const MemberTurn* TrainAnswer::member(const std::string& id) const {
  const auto found = std::ranges::find(members, id, &MemberTurn::id);
  return found == members.end() ? nullptr : &*found;
}

const ElementWork* TrainAnswer::element(const std::string& id) const {
  const auto found = std::ranges::find(elements, id, &ElementWork::id);
  return found == elements.end() ? nullptr : &*found;
}

} // namespace lugline
