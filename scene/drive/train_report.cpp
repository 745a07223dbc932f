#include "scene/drive/train.h"
#include "scene/drive/train_words.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace lugline {

namespace {

// One equation of a set: sun, ring and carrier with their weights. All as seen from outside.
struct SetEquation {
  double sun = 0;
  double ring = 0;
  double carrier = 0; ///< on the other side
};

SetEquation equation_of(const PlanetarySet& set) {
  const double sun = set.sun_teeth;
  const double ring = set.ring_teeth;
  const double inner = set.pinion_teeth;
  const double outer = set.outer_pinion_teeth;
  switch (set.kind) {
  case PlanetaryKind::single_pinion:
    return {sun, ring, sun + ring};
  case PlanetaryKind::double_pinion:
    return {sun, -ring, sun - ring};
  case PlanetaryKind::stepped_pinion:
    return {sun * outer, ring * inner, sun * outer + ring * inner};
  }
  return {};
}

std::string figure(double value) {
  return print_figure(FigureOf::ratio, value, LengthUnit::millimetre);
}

std::string whole(double value) {
  return print_figure(FigureOf::count, value, LengthUnit::millimetre);
}

std::string name_of(const PlanetarySet& set) {
  return set.name.empty() ? set.id : set.name;
}

void tell_teeth(const PlanetarySet& set, CalculationReport& report) {
  const auto teeth = [&](const std::string& what, int count) {
    report.inputs.push_back({name_of(set) + ", " + what, FigureOf::count,
                             static_cast<double>(count), word_for(set.kind)});
  };
  if (!set.sun.empty()) {
    teeth("sun teeth", set.sun_teeth);
  }
  teeth("pinion teeth", set.pinion_teeth);
  if (set.kind != PlanetaryKind::single_pinion) {
    teeth("outer pinion teeth", set.outer_pinion_teeth);
  }
  if (!set.ring.empty()) {
    teeth("ring teeth", set.ring_teeth);
  }
}

void tell_equation(const PlanetarySet& set, const TrainAnswer& answer, CalculationReport& report) {
  if (set.sun.empty() || set.ring.empty()) {
    return; // half a set: its pinion's speed says it
  }
  const auto speed = [&](const std::string& id) {
    const MemberTurn* member = answer.member(id);
    return member == nullptr ? std::optional(ExactFigure{}) : member->speed;
  };
  const auto sun = speed(set.sun);
  const auto ring = speed(set.ring);
  const auto carrier = speed(set.carrier);
  if (!sun || !ring || !carrier) {
    report.notes.push_back(name_of(set) + ": nothing settles how its members turn, and it carries "
                                          "nothing.");
    return;
  }
  const SetEquation eq = equation_of(set);
  const auto term = [](double weight, double turning) {
    return whole(std::abs(weight)) + " x " + figure(turning);
  };
  report.working.push_back({name_of(set) + ": sun and ring", FigureOf::ratio,
                            eq.sun * sun->value + eq.ring * ring->value,
                            term(eq.sun, sun->value) + (eq.ring < 0 ? " - " : " + ") +
                                term(eq.ring, ring->value) + " = " + whole(eq.carrier) + " x " +
                                figure(carrier->value) + " (carrier)"});
}

// What an ideal speed or torque reads, its fraction beside it.
std::string fraction_of(const ExactFigure& exact, const std::string& after) {
  constexpr std::size_t readable = 12;
  const bool plain =
      exact.fraction.find('/') == std::string::npos || exact.fraction.size() > readable;
  return plain ? after : exact.fraction + (after.empty() ? "" : ", " + after);
}

void tell_speeds(const Drive& drive, const TrainAnswer& answer, CalculationReport& report) {
  for (const MemberTurn& member : answer.members) {
    const std::string name = name_of_member(drive, member.id);
    if (member.speed) {
      report.results.push_back(
          {"speed of " + name, FigureOf::ratio, member.speed->value,
           fraction_of(*member.speed, turning_word(drive, member.speed->value))});
    } else {
      report.notes.push_back("Nothing settles the speed of " + name + ".");
    }
  }
  for (const PinionTurn& pinion : answer.pinions) {
    const auto set = std::ranges::find(drive.sets, pinion.set, &PlanetarySet::id);
    if (pinion.about_pin) {
      report.results.push_back({std::string(pinion.outer ? "outer pinion" : "pinion") + " of " +
                                    name_of(*set) + " on its pin",
                                FigureOf::ratio, pinion.about_pin->value,
                                fraction_of(*pinion.about_pin, "")});
    }
  }
}

void tell_elements(const Drive& drive, const TrainAnswer& answer, std::optional<double> input_Nm,
                   CalculationReport& report) {
  const double scale = input_Nm.value_or(1);
  const FigureOf of = input_Nm ? FigureOf::torque : FigureOf::ratio;
  for (const ElementWork& work : answer.elements) {
    const std::string name = name_of_element(drive, work.id);
    if (work.torque && work.torque->value != 0) {
      const double torque = work.torque->value * scale;
      report.results.push_back(
          {"torque of " + name, of, torque,
           fraction_of(*work.torque, turning_word(drive, torque) + " on " +
                                         name_of_member(drive, drive.element(work.id)->of))});
    }
    if (!work.torque && answer.state == TrainState::drives) {
      std::vector<std::string> others;
      for (const std::string& id : work.shares_with) {
        others.push_back(name_of_element(drive, id));
      }
      report.results.push_back({"torque of " + name + ", at most", of,
                                work.most_torque * std::abs(scale),
                                others.empty() ? "balance does not tell it"
                                               : "if " + listed(others) + " carried nothing"});
    }
  }
  if (answer.output_torque) {
    report.results.push_back({"torque delivered at the output", of,
                              -answer.output_torque->value * scale,
                              fraction_of(*answer.ratio, "times the input's")});
  }
}

void tell_sharing(const Drive& drive, const TrainAnswer& answer, CalculationReport& report) {
  for (const ElementWork& work : answer.elements) {
    if (!work.shares_with.empty() && work.shares_with.front() > work.id) {
      std::vector<std::string> names{name_of_element(drive, work.id)};
      for (const std::string& id : work.shares_with) {
        names.push_back(name_of_element(drive, id));
      }
      report.notes.push_back(listed(names) + " hold the same thing: balance does not tell how they "
                                             "share it.");
    }
  }
  for (const SetTorques& set : answer.sets) {
    if (set.known && set.greatest_power.value > 1 + 1e-12) {
      report.notes.push_back("Power circulates: a member of the set '" + set.set + "' carries " +
                             figure(set.greatest_power.value) + " times what the input puts in.");
    }
  }
  if (answer.state == TrainState::drives) {
    report.notes.push_back(answer.torques_balance && answer.powers_balance
                               ? "Check: the torques of input, output and case sum to exactly "
                                 "nothing, and so do the powers, of each set and of the whole."
                               : "The torques of the sets cannot be summed: several elements hold "
                                 "the same thing.");
  }
}

ReportVerdict verdict_for(const TrainAnswer& answer) {
  switch (answer.state) {
  case TrainState::drives:
    return ReportVerdict::good;
  case TrainState::neutral:
    return ReportVerdict::none;
  case TrainState::locked:
  case TrainState::fighting:
    return ReportVerdict::bad;
  case TrainState::refused:
    break;
  }
  return ReportVerdict::refused;
}

} // namespace

CalculationReport report_train(const Drive& drive, const AppliedElements& applied,
                               const std::string& title, std::optional<double> input_Nm) {
  const TrainAnswer pull = settle_train(drive, applied, TrainDuty::pull);
  if (pull.state == TrainState::refused) {
    return refused_report(title, pull.words);
  }
  const TrainAnswer coast = settle_train(drive, applied, TrainDuty::coast);
  const bool coasting = input_Nm && *input_Nm < 0;
  const TrainAnswer& told = coasting ? coast : pull;
  CalculationReport report;
  report.title = title;
  for (const PlanetarySet& set : drive.sets) {
    tell_teeth(set, report);
    tell_equation(set, told, report);
  }
  if (input_Nm) {
    report.inputs.push_back({"input torque", FigureOf::torque, *input_Nm,
                             coasting ? "the output drives" : "the input drives"});
  }
  tell_speeds(drive, told, report);
  if (told.ratio) {
    report.results.push_back({"ratio, input to output", FigureOf::ratio, told.ratio->value,
                              fraction_of(*told.ratio, "")});
  }
  tell_elements(drive, told, input_Nm, report);
  report.verdict = verdict_for(told);
  report.verdict_words = pull.words + " Coasting: " + coast.words;
  report.notes.insert(report.notes.begin(),
                      "Speeds are shares of the input's, clockwise and counter-clockwise as seen "
                      "from the pump end; the engine turns " +
                          turning_word(drive, 1) + ".");
  tell_sharing(drive, told, report);
  report.sources = {"Willis' equation of each tooth mesh, in exact fractions of the tooth counts; "
                    "static balance of every body"};
  return report;
}

CalculationReport report_range(const Drive& drive, const DriveRange& range,
                               std::optional<double> input_Nm) {
  CalculationReport report =
      report_train(drive, applied_in(range),
                   "Gear train, " + (range.name.empty() ? range.id : range.name), input_Nm);
  report.id = range.id;
  return report;
}

} // namespace lugline
