#include "viewer/cli/commands.h"
#include "viewer/cli/print.h"

#include "scene/load/load.h"
#include "scene/quantity/quantity.h"

#include <iomanip>
#include <ostream>

namespace lugline::cli {

namespace {

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

void print_step(std::ostream& out, const Workshop& workshop, const JudgedStep& step) {
  out << "  " << std::left << std::setw(18) << step.id << " ";
  if (step.rest_m && !step.stands_on.empty()) {
    out << "rests at " << mm(*step.rest_m) << " on " << workshop.label(step.stands_on);
    std::vector<TurnRange> as_asked;
    for (const WayPose& pose : step.poses) {
      if (pose.way_up == workshop.unit().step(step.id)->way_up) {
        as_asked.push_back(pose.turns);
      }
    }
    if (!as_asked.empty()) {
      out << ", " << pose_words(as_asked);
    }
  }
  if (step.reading) {
    out << "reads " << mm(step.reading->value_m) << ", limits " << mm(step.reading->low_m) << " to "
        << mm(step.reading->high_m);
  }
  for (const AirFinding& air : step.air) {
    out << (&air == &step.air.front() ? "" : "; ") << air.name << " travels "
        << mm(air.reach.travel_m) << (air.stopped ? "" : " to its own stop");
  }
  out << (step.problems.empty() ? "" : "  FAILS") << "\n";
  for (const std::string& problem : step.problems) {
    out << "      " << problem << "\n";
  }
}

/// "  Upper servo travel: 2.50 mm, limits 2.00 mm to 3.00 mm, inside limits", its working, and
/// what to fit where another would be nearer to the middle.
void print_chain(std::ostream& out, const Unit& unit, const JudgedChain& chain) {
  const ChainReport& report = chain.report;
  out << "  " << report.name << ": " << (chain.whole ? mm(report.value_m) : "not found")
      << ", limits " << mm(report.low_m) << " to " << mm(report.high_m)
      << (chain.whole ? ", " + word_for(report.verdict) : "") << "\n      " << report.gap.label
      << " " << mm(report.gap.length_m);
  for (const ChainPiece& piece : report.lines) {
    out << ", less " << piece.label << " " << mm(piece.length_m);
  }
  out << "\n";
  const std::vector<std::string>& selective = unit.chain(report.id)->selective;
  if (chain.choices.empty() || chain.choices.front().changed == 0) {
    return;
  }
  const SelectiveChoice& best = chain.choices.front();
  out << "      nearest the middle:";
  for (std::size_t i = 0; i < best.thickness_m.size() && i < selective.size(); ++i) {
    out << " " << selective[i] << " " << mm(best.thickness_m[i]);
  }
  out << " gives " << mm(best.clearance_m) << (best.inside ? "" : ", outside") << "\n";
}

void print_report(std::ostream& out, const Workshop& workshop, const CheckReport& report) {
  const Unit& unit = workshop.unit();
  out << unit.name << " (" << unit.label << ")\n\nSteps\n";
  for (const JudgedStep& step : report.steps) {
    print_step(out, workshop, step);
  }
  out << "\nPacks\n";
  for (const JudgedPack& pack : report.packs) {
    out << "  " << pack.report.name << ": "
        << print_length_both(pack.report.clearance_m, LengthUnit::millimetre) << ", limits "
        << mm(pack.report.low_m) << " to " << mm(pack.report.high_m) << ", "
        << word_for(pack.report.verdict) << "\n";
  }
  for (const JudgedPlay& play : report.plays) {
    out << "  " << play.name << ": " << (play.play_m ? mm(*play.play_m) : "not found")
        << ", limits " << mm(play.limits.low_m) << " to " << mm(play.limits.high_m) << "\n";
  }
  for (const JudgedChain& chain : report.chains) {
    print_chain(out, unit, chain);
  }
  if (report.sound) {
    out << "\nSound: every step reaches its seat. A second opinion only: the unit's service "
           "manual decides.\n";
  } else {
    out << "\nNot sound:\n";
    print_complaints(out, report.complaints);
  }
}

} // namespace

int check(const CheckOptions& options, Streams streams) {
  const LoadReport loaded = load_unit(options.unit);
  if (!loaded.unit) {
    if (options.json) {
      Json document;
      document["sound"] = false;
      document["complaints"] = json_of(loaded.complaints);
      document["questions"] = json_of(loaded.questions);
      document["steps"] = Json::array();
      document["packs"] = Json::array();
      document["plays"] = Json::array();
      document["chains"] = Json::array();
      print(streams.out, document);
    } else {
      print_complaints(streams.err, loaded.complaints);
    }
    return not_sound;
  }
  Workshop workshop(*loaded.unit, {});
  const Simulation simulation = simulate(workshop);
  const CheckReport report = judge(workshop, simulation);
  if (options.json) {
    Json document;
    document["unit"] = loaded.unit->name;
    document["label"] = loaded.unit->label;
    document["sound"] = report.sound;
    document["complaints"] = json_of(report.complaints);
    document["questions"] = json_of(loaded.questions);
    document["steps"] = Json::array();
    for (const JudgedStep& step : report.steps) {
      document["steps"].push_back(json_of(step));
    }
    document["packs"] = Json::array();
    for (const JudgedPack& pack : report.packs) {
      document["packs"].push_back(json_of(pack));
    }
    document["plays"] = Json::array();
    for (const JudgedPlay& play : report.plays) {
      document["plays"].push_back(json_of(play));
    }
    document["chains"] = Json::array();
    for (const JudgedChain& chain : report.chains) {
      document["chains"].push_back(json_of(chain));
    }
    print(streams.out, document);
  } else {
    print_complaints(streams.err, loaded.questions);
    print_report(streams.out, workshop, report);
  }
  return report.sound ? sound : not_sound;
}

} // namespace lugline::cli
