#include "scene/build/drive_judge.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace lugline {

namespace {

/// Manuals print ratios to two places.
constexpr double ratio_step = 0.005 + 1e-9;

std::string ratio_words(double ratio) {
  return print_figure(FigureOf::ratio, ratio, LengthUnit::millimetre);
}

double clockwise_sign(const Drive& drive) {
  return drive.engine_clockwise ? 1 : -1;
}

bool has(const std::vector<std::string>& all, const std::string& id) {
  return std::ranges::find(all, id) != all.end();
}

/// What the range does against what the unit says that it does.
std::vector<std::string> range_problems(const DriveRange& range, const TrainAnswer& pull) {
  std::vector<std::string> problems;
  const bool drives = pull.state == TrainState::drives;
  if (range.neutral) {
    if (pull.state != TrainState::neutral) {
      problems.push_back("it is to be neutral, and " + word_for(pull.state) + ": " + pull.words);
    }
    return problems;
  }
  if (!drives) {
    problems.push_back("it does not drive (" + word_for(pull.state) + "): " + pull.words);
  } else if (range.ratio && pull.ratio && std::abs(*range.ratio - pull.ratio->value) > ratio_step) {
    problems.push_back("the unit says " + ratio_words(*range.ratio) +
                       ", and its teeth give a ratio of " + ratio_words(pull.ratio->value) + " (" +
                       pull.ratio->fraction + ")");
  }
  return problems;
}

class DutyJudge {
public:
  DutyJudge(const Unit& unit, const DriveFacts& facts, const DriveAsk& ask)
      : unit_(unit), drive_(*unit.drive), facts_(facts), ask_(ask) {}

  JudgedDuty judge(const AppliedElements& applied, const std::string& name, double input_Nm,
                   std::optional<double> line_Pa) const {
    JudgedDuty duty;
    duty.name = name;
    duty.input_Nm = input_Nm;
    duty.line_Pa = line_Pa;
    duty.train = settle_train(drive_, applied, input_Nm < 0 ? TrainDuty::coast : TrainDuty::pull);
    for (const ElementWork& work : duty.train.elements) {
      const bool idle = work.doing == ElementDoing::off || work.doing == ElementDoing::free;
      if (!idle) {
        duty.elements.push_back(element(work, duty));
      }
    }
    return duty;
  }

private:
  JudgedElement element(const ElementWork& work, const JudgedDuty& duty) const {
    const DriveElement& element = *drive_.element(work.id);
    JudgedElement judged;
    judged.id = element.id;
    judged.name = element.name;
    judged.kind = element.kind;
    judged.doing = work.doing;
    const bool loaded = duty.train.state == TrainState::drives;
    if (loaded) {
      judged.most_Nm = work.most_torque * std::abs(duty.input_Nm);
      if (work.torque) {
        judged.torque_Nm = work.torque->value * duty.input_Nm * clockwise_sign(drive_);
      }
    }
    capacity(element, duty, judged);
    if (judged.capacity_Nm && judged.most_Nm > 0) {
      judged.margin = *judged.capacity_Nm / judged.most_Nm;
    }
    return judged;
  }

  PackFacts pack_of(const std::string& element) const {
    const auto found = facts_.packs.find(element);
    return found == facts_.packs.end() ? PackFacts{} : found->second;
  }

  void capacity(const DriveElement& element, const JudgedDuty& duty, JudgedElement& judged) const {
    const bool one_way = element.kind == ElementKind::one_way_clutch;
    if (!one_way && !duty.line_Pa) {
      judged.unknown = "No line pressure is stated for it.";
      return;
    }
    ElementDuty asked{duty.name, duty.line_Pa.value_or(0), turning(element, duty), {}};
    if (judged.torque_Nm && *judged.torque_Nm != 0) {
      asked.torque_Nm = -*judged.torque_Nm; // what the rest of the train puts on it
    } else if (element.kind != ElementKind::band && judged.most_Nm > 0) {
      asked.torque_Nm = judged.most_Nm;
    }
    const ElementCapacity found =
        element_capacity(element, pack_of(element.id), drive_.fluid_kg_per_m3, asked);
    judged.report = found.report;
    if (found.worked) {
      judged.capacity_Nm = found.capacity_Nm;
    } else {
      judged.unknown = found.report.verdict_words;
    }
  }

  /// Of its cylinder.
  double turning(const DriveElement& element, const JudgedDuty& duty) const {
    const MemberTurn* member = duty.train.member(cylinder_of(unit_, element));
    return member != nullptr && member->speed ? member->speed->value * ask_.input_rad_per_s : 0;
  }

  const Unit& unit_;
  const Drive& drive_;
  const DriveFacts& facts_;
  const DriveAsk& ask_;
};

/// The duties to judge: the range's own, or one made of what was asked.
std::vector<RangeDuty> duties_of(const DriveRange& range, const DriveAsk& ask) {
  std::vector<RangeDuty> duties = range.duties;
  if (ask.input_Nm) {
    // The duty that is driven the same way lends its pressure; without one, the first.
    const bool coasts = *ask.input_Nm < 0;
    auto like = std::ranges::find_if(
        duties, [&](const RangeDuty& duty) { return (duty.input_Nm < 0) == coasts; });
    like = like == duties.end() ? duties.begin() : like;
    const double line_Pa = like == duties.end() ? 0 : like->line_Pa;
    duties = {{coasts ? "coasting as asked" : "as asked", *ask.input_Nm, line_Pa}};
  }
  for (RangeDuty& duty : duties) {
    duty.line_Pa = ask.line_Pa.value_or(duty.line_Pa);
  }
  return duties;
}

void judge_margins(const JudgedDuty& duty, JudgedRange& range) {
  for (const JudgedElement& element : duty.elements) {
    if (element.margin && *element.margin < 1) {
      const auto torque = [](double torque_Nm) {
        return print_figure(FigureOf::torque, torque_Nm, LengthUnit::millimetre);
      };
      range.problems.push_back(duty.name + ": " + element.name + " carries " +
                               torque(*element.capacity_Nm) + ", and " + torque(element.most_Nm) +
                               " is put on it: it slips");
    }
  }
}

JudgedRange judged_range(const Unit& unit, const DriveFacts& facts, const DriveAsk& ask,
                         const DriveRange& range) {
  const Drive& drive = *unit.drive;
  const AppliedElements applied = applied_as_asked(drive, range, ask);
  JudgedRange judged;
  judged.id = range.id;
  judged.name = range.name;
  judged.stated_ratio = range.ratio;
  judged.pull = settle_train(drive, applied, TrainDuty::pull);
  judged.coast = settle_train(drive, applied, TrainDuty::coast);
  judged.problems = range_problems(range, judged.pull);
  for (const ElementWork& work : judged.pull.elements) {
    if (judged.pull.state == TrainState::drives && work.most_torque > 0) {
      judged.holding.push_back(work.id);
    }
  }
  const DutyJudge duties(unit, facts, ask);
  for (const RangeDuty& duty : duties_of(range, ask)) {
    const bool no_pressure = duty.line_Pa <= 0 && range.duties.empty() && !ask.line_Pa;
    judged.duties.push_back(
        duties.judge(applied, duty.name, duty.input_Nm,
                     no_pressure ? std::nullopt : std::optional<double>(duty.line_Pa)));
    judge_margins(judged.duties.back(), judged);
  }
  return judged;
}

} // namespace

AppliedElements applied_as_asked(const Drive& drive, const DriveRange& range, const DriveAsk& ask) {
  AppliedElements applied = applied_in(range);
  std::erase_if(applied.on, [&](const std::string& id) { return has(ask.without, id); });
  for (const std::string& id : ask.without) {
    const DriveElement* element = drive.element(id);
    if (element != nullptr && element->kind == ElementKind::one_way_clutch) {
      applied.missing.push_back(id);
    }
  }
  for (const std::string& id : ask.stuck) {
    if (!has(applied.on, id)) {
      applied.on.push_back(id);
    }
  }
  applied.reversed = ask.reversed;
  return applied;
}

DriveJudgement judge_ranges(const Unit& unit, const DriveFacts& facts, const DriveAsk& ask,
                            const std::string& range) {
  assert(unit.drive);
  DriveJudgement judgement;
  judgement.notes = facts.notes;
  for (const DriveRange& each : unit.drive->ranges) {
    if (range.empty() || range == each.id) {
      judgement.ranges.push_back(judged_range(unit, facts, ask, each));
    }
  }
  judgement.sound = std::ranges::all_of(
      judgement.ranges, [](const JudgedRange& each) { return each.problems.empty(); });
  return judgement;
}

std::vector<Complaint> range_complaints(const Unit& unit) {
  std::vector<Complaint> complaints;
  if (!unit.drive) {
    return complaints;
  }
  const Drive& drive = *unit.drive;
  const std::vector<std::string> troubles = train_troubles(drive);
  for (const std::string& trouble : troubles) {
    complaints.push_back(
        {drive.source.file, drive.source.line, drive.source.column, "train: " + trouble, {}});
  }
  if (!troubles.empty()) {
    return complaints; // every range would only say the same
  }
  for (const DriveRange& range : drive.ranges) {
    const TrainAnswer pull = settle_train(drive, applied_in(range), TrainDuty::pull);
    for (const std::string& problem : range_problems(range, pull)) {
      complaints.push_back({range.source.file, range.source.line, range.source.column,
                            "range " + range.id + ": " + problem,
                            range.neutral ? "" : "see what is applied in it: on = […]"});
    }
  }
  return complaints;
}

} // namespace lugline
