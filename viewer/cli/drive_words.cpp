#include "viewer/cli/drive_words.h"

#include "viewer/cli/report_json.h"

#include <algorithm>
#include <iomanip>
#include <ostream>

namespace lugline::cli {

namespace {

/// Of one tooth mesh; common practice, no source.
constexpr double usual_mesh_efficiency = 0.99;

std::string figure(FigureOf of, double si, LengthUnit unit) {
  return print_figure(of, si, unit);
}

void print_members(std::ostream& out, const Unit& unit, const TrainAnswer& answer) {
  for (const MemberTurn& turn : answer.members) {
    const std::string name = turn.name.empty() ? turn.id : turn.name;
    out << "    " << std::left << std::setw(62) << name << std::right << std::setw(10)
        << (turn.speed ? figure(FigureOf::ratio, turn.speed->value, LengthUnit::millimetre)
                       : std::string("any"))
        << (turn.speed ? "  " + turning_word(*unit.drive, turn.speed->value) : std::string())
        << "\n";
  }
}

void print_duty(std::ostream& out, const JudgedDuty& duty, LengthUnit unit) {
  out << "  " << duty.name << ": " << figure(FigureOf::torque, duty.input_Nm, unit)
      << " at the input";
  if (duty.line_Pa) {
    out << ", line pressure " << figure(FigureOf::pressure, *duty.line_Pa, unit);
  }
  out << "\n";
  if (duty.train.state != TrainState::drives) {
    out << "    " << duty.train.words << "\n";
    return;
  }
  for (const JudgedElement& element : duty.elements) {
    out << "    " << std::left << std::setw(30) << element.name << std::setw(10)
        << word_for(element.doing) << std::right << std::setw(14);
    if (!element.torque_Nm) {
      out << "at most " + figure(FigureOf::torque, element.most_Nm, unit);
    } else if (*element.torque_Nm == 0) {
      out << "no load";
    } else {
      out << figure(FigureOf::torque, *element.torque_Nm, unit);
    }
    if (element.capacity_Nm) {
      out << "  carries " << std::setw(12) << figure(FigureOf::torque, *element.capacity_Nm, unit);
      if (element.margin) {
        out << "  margin " << figure(FigureOf::ratio, *element.margin, unit);
      }
    } else {
      out << "  " << element.unknown;
    }
    out << "\n";
  }
}

const JudgedDuty* governing(const JudgedRange& range) {
  const JudgedDuty* found = nullptr;
  std::optional<double> least;
  for (const JudgedDuty& duty : range.duties) {
    found = found == nullptr ? &duty : found;
    for (const JudgedElement& element : duty.elements) {
      if (element.margin && (!least || *element.margin < *least)) {
        least = element.margin;
        found = &duty;
      }
    }
  }
  return found;
}

/// Rounded, so that the same answer prints alike.
Json number(FigureOf of, std::optional<double> si) {
  return si ? Json(json_figure(of, *si).value) : Json();
}

Json element_json(const JudgedElement& element, bool working) {
  Json object;
  object["id"] = element.id;
  object["name"] = element.name;
  object["does"] = word_for(element.doing);
  object["torque_Nm"] = number(FigureOf::torque, element.torque_Nm);
  object["most_torque_Nm"] = number(FigureOf::torque, element.most_Nm);
  object["capacity_Nm"] = number(FigureOf::torque, element.capacity_Nm);
  object["margin"] = number(FigureOf::ratio, element.margin);
  if (!element.unknown.empty()) {
    object["unknown"] = element.unknown;
  }
  if (working) {
    object["report"] = json_of(element.report);
  }
  return object;
}

Json elements_of(const JudgedDuty& duty, bool working) {
  Json list = Json::array();
  for (const JudgedElement& element : duty.elements) {
    list.push_back(element_json(element, working));
  }
  return list;
}

/// Where no duty is stated there is no torque to tell of.
Json elements_of(const JudgedRange& range) {
  if (const JudgedDuty* duty = governing(range)) {
    return elements_of(*duty, false);
  }
  Json list = Json::array();
  for (const ElementWork& work : range.pull.elements) {
    if (work.doing != ElementDoing::off && work.doing != ElementDoing::free) {
      JudgedElement element;
      element.id = work.id;
      element.doing = work.doing;
      Json object = element_json(element, false);
      object["torque_Nm"] = Json();
      object["most_torque_Nm"] = Json();
      list.push_back(object);
    }
  }
  return list;
}

Json duties_of(const JudgedRange& range, bool working) {
  Json list = Json::array();
  for (const JudgedDuty& duty : range.duties) {
    Json object;
    object["name"] = duty.name;
    object["input_torque_Nm"] = number(FigureOf::torque, duty.input_Nm);
    object["line_pressure_kPa"] = number(FigureOf::pressure, duty.line_Pa);
    object["does"] = word_for(duty.train.state);
    object["says"] = duty.train.words;
    object["elements"] = elements_of(duty, working);
    list.push_back(std::move(object));
  }
  return list;
}

TrainDuty duty_of(const JudgedRange& range) {
  const bool coasts = !range.duties.empty() && range.duties.front().input_Nm < 0;
  return coasts ? TrainDuty::coast : TrainDuty::pull;
}

} // namespace

double mesh_efficiency_of(const Drive& drive) {
  return drive.mesh_efficiency < 1 ? drive.mesh_efficiency : usual_mesh_efficiency;
}

void print_range(std::ostream& out, const Unit& unit, const JudgedRange& range,
                 const AppliedElements& applied, const DriveTelling& telling) {
  out << range.id << (range.name == range.id ? "" : ": " + range.name) << "\n";
  out << "  " << range.pull.words << "\n  Coasting: " << range.coast.words << "\n";
  print_members(out, unit, range.pull);
  for (const JudgedDuty& duty : range.duties) {
    print_duty(out, duty, telling.unit);
  }
  for (const std::string& problem : range.problems) {
    out << "  NOT SOUND: " << problem << "\n";
  }
  out << "\n";
  if (telling.losses) {
    const TrainLosses lost =
        losses_of(*unit.drive, applied, duty_of(range), mesh_efficiency_of(*unit.drive));
    out << "  Losses in the teeth: " << lost.words << "\n\n";
  }
  if (!telling.working) {
    return;
  }
  const std::optional<double> input_Nm =
      range.duties.empty() ? std::nullopt : std::optional<double>(range.duties.front().input_Nm);
  print_report(out, report_train(*unit.drive, applied, "Gear train, " + range.name, input_Nm),
               telling.unit, 2);
  for (const JudgedDuty& duty : range.duties) {
    for (const JudgedElement& element : duty.elements) {
      if (!element.report.title.empty()) {
        print_report(out, element.report, telling.unit, 2);
      }
    }
  }
}

Json json_of(const Unit& unit, const JudgedRange& range, const AppliedElements& applied,
             const DriveTelling& telling) {
  Json object;
  object["id"] = range.id;
  object["name"] = range.name;
  object["does"] = word_for(range.pull.state);
  object["says"] = range.pull.words;
  object["ratio"] =
      range.pull.ratio ? Json(json_figure(FigureOf::ratio, range.pull.ratio->value).value) : Json();
  object["ratio_exact"] = range.pull.ratio ? Json(range.pull.ratio->fraction) : Json();
  object["stated_ratio"] = range.stated_ratio ? Json(*range.stated_ratio) : Json();
  object["coasting"] = {{"does", word_for(range.coast.state)}, {"says", range.coast.words}};
  object["holding"] = range.holding;
  object["members"] = Json::array();
  for (const MemberTurn& turn : range.pull.members) {
    object["members"].push_back(
        {{"id", turn.id},
         {"speed",
          turn.speed ? Json(json_figure(FigureOf::ratio, turn.speed->value).value) : Json()},
         {"speed_exact", turn.speed ? Json(turn.speed->fraction) : Json()}});
  }
  object["elements"] = elements_of(range);
  object["duties"] = duties_of(range, telling.working);
  object["problems"] = range.problems;
  if (telling.losses) {
    const TrainLosses lost =
        losses_of(*unit.drive, applied, duty_of(range), mesh_efficiency_of(*unit.drive));
    object["losses"] = {
        {"says", lost.words},
        {"efficiency", lost.known ? Json(lost.efficiency) : Json()},
        {"torque_ratio", lost.known ? Json(lost.torque) : Json()},
        {"lossless_torque_ratio", lost.known ? Json(lost.lossless_torque) : Json()}};
  }
  if (telling.working) {
    const std::optional<double> input_Nm =
        range.duties.empty() ? std::nullopt : std::optional<double>(range.duties.front().input_Nm);
    object["report"] =
        json_of(report_train(*unit.drive, applied, "Gear train, " + range.name, input_Nm));
  }
  return object;
}

} // namespace lugline::cli
