#include "viewer/cli/commands.h"
#include "viewer/cli/drive_faults.h"
#include "viewer/cli/drive_words.h"
#include "viewer/cli/report_json.h"

#include "scene/drive/air.h"
#include "scene/load/load.h"

#include <algorithm>
#include <cmath>
#include <ostream>

namespace lugline::cli {

namespace {

constexpr double most_torque_Nm = 1e5;
constexpr double most_line_Pa = 1e7;
constexpr double most_turning_rad_per_s = 2100; // 20000 rpm
constexpr double longest_hold_s = 86400;

/// What is wrong with the command line, told once; then nothing more is done.
class Wrong {
public:
  void say(const std::string& words) {
    if (words_.empty()) {
      words_ = words;
    }
  }
  [[nodiscard]] const std::string& words() const { return words_; }

private:
  std::string words_;
};

/// The figure of an option; empty where it is not given, or wrong.
std::optional<double> figure(const char* option, const std::string& written, Dimension dimension,
                             double least, double most, Wrong& wrong) {
  if (written.empty()) {
    return std::nullopt;
  }
  const Outcome<Quantity> read = parse_quantity(written, dimension);
  if (!read) {
    wrong.say(std::string(option) + " " + read.problem());
    return std::nullopt;
  }
  const double si = read.value().si;
  if (!(si >= least && si <= most)) {
    wrong.say(std::string(option) + " \"" + written + "\" is outside what any unit has");
    return std::nullopt;
  }
  return si;
}

template <class T>
std::vector<std::string> ids_of(const std::vector<T>& all) {
  std::vector<std::string> ids;
  std::ranges::transform(all, std::back_inserter(ids), &T::id);
  return ids;
}

/// Elements that options name; one that is none, or is named for two things, is wrong.
void check_elements(const Drive& drive, const DriveOptions& options, Wrong& wrong) {
  const auto check = [&](const std::string& id) {
    const DriveElement* element = drive.element(id);
    if (element == nullptr) {
      wrong.say(no_such("element", id, ids_of(drive.elements)));
    }
    return element;
  };
  for (const std::string& id : options.without) {
    check(id);
    if (std::ranges::find(options.stuck, id) != options.stuck.end()) {
      wrong.say(id + " cannot be both without hold and stuck on");
    }
  }
  for (const std::string& id : options.stuck) {
    check(id);
  }
  for (const std::string& id : options.reversed) {
    const DriveElement* element = check(id);
    if (element != nullptr && element->kind != ElementKind::one_way_clutch) {
      wrong.say(id + " is a " + word_for(element->kind) +
                ": only a one-way clutch can be the wrong way round");
    }
  }
  if (!options.range.empty() && drive.range(options.range) == nullptr) {
    wrong.say(no_such("range", options.range, ids_of(drive.ranges)));
  }
}

DriveAsk ask_of(const DriveOptions& options, Wrong& wrong) {
  DriveAsk ask;
  ask.input_Nm = figure("--input-torque", options.input_torque, Dimension::torque, -most_torque_Nm,
                        most_torque_Nm, wrong);
  ask.line_Pa =
      figure("--line-pressure", options.line_pressure, Dimension::pressure, 0, most_line_Pa, wrong);
  ask.input_rad_per_s = figure("--input-speed", options.input_speed, Dimension::speed_of_turn, 0,
                               most_turning_rad_per_s, wrong)
                            .value_or(0);
  ask.without = options.without;
  ask.stuck = options.stuck;
  ask.reversed = options.reversed;
  return ask;
}

DriveFacts facts_of(const Unit& unit) {
  Workshop workshop(unit, {});
  return drive_facts(unit, judge(workshop, simulate(workshop)).packs);
}

/// What the driver notices in a range; null where nothing was said to have failed.
const RangeBehaviour* noticed_in(const std::vector<RangeBehaviour>& behaviours,
                                 const std::string& range) {
  const auto found = std::ranges::find(behaviours, range, &RangeBehaviour::range);
  return found == behaviours.end() ? nullptr : &*found;
}

int tell_ranges(const Unit& unit, const DriveOptions& options, const DriveAsk& ask,
                Streams streams) {
  const DriveFacts facts = facts_of(unit);
  const DriveJudgement judgement = judge_ranges(unit, facts, ask, options.range);
  const std::vector<Fault> faults = faults_asked(*unit.drive, ask);
  const std::vector<RangeBehaviour> behaviours =
      faults.empty() ? std::vector<RangeBehaviour>() : behave(*unit.drive, facts.packs, faults);
  const DriveTelling telling{options.inch ? LengthUnit::inch : LengthUnit::millimetre,
                             !options.range.empty(), options.losses};
  Json document;
  document["sound"] = judgement.sound;
  document["ranges"] = Json::array();
  if (!options.json) {
    streams.out
        << unit.name << " (" << unit.label << ")\n"
        << "Speeds are shares of the input's. Directions are as seen from the pump end, and "
           "a torque is what the\nelement puts on its first member, clockwise positive.\n\n";
  }
  for (const JudgedRange& range : judgement.ranges) {
    const AppliedElements applied =
        applied_as_asked(*unit.drive, *unit.drive->range(range.id), ask);
    const RangeBehaviour* noticed = noticed_in(behaviours, range.id);
    if (options.json) {
      Json object = json_of(unit, range, applied, telling);
      if (noticed != nullptr) {
        object["driver"] = json_of(*noticed);
      }
      document["ranges"].push_back(std::move(object));
    } else {
      if (noticed != nullptr) {
        streams.out << "With " << words_of(*unit.drive, faults) << ", " << range.id << ": "
                    << noticed->words << "\n";
      }
      print_range(streams.out, unit, range, applied, telling);
    }
  }
  document["notes"] = judgement.notes;
  if (options.json) {
    print(streams.out, document);
    return judgement.sound ? sound : not_sound;
  }
  for (const std::string& note : judgement.notes) {
    streams.out << note << "\n";
  }
  streams.out << (judgement.sound ? "Sound: every range does what the unit says of it."
                                  : "Not sound.")
              << " A second opinion only: the unit's service manual decides.\n";
  return judgement.sound ? sound : not_sound;
}

struct AirAsk {
  const DriveElement* element = nullptr;
  double pressure_Pa = 0;
  std::optional<HoldReading> hold;
};

std::optional<AirAsk> air_of(const Unit& unit, const DriveOptions& options, Wrong& wrong) {
  const Drive& drive = *unit.drive;
  AirAsk ask;
  ask.element = drive.element(options.air);
  const double test_Pa = drive.air ? drive.air->test_Pa : 0;
  // A pressure above the limit is for the check itself to refuse, in its own words.
  ask.pressure_Pa =
      figure("--pressure", options.pressure, Dimension::pressure, 0, most_line_Pa, wrong)
          .value_or(test_Pa);
  const auto held_s = figure("--held", options.held, Dimension::time, 0, longest_hold_s, wrong);
  const auto down_to_Pa =
      figure("--down-to", options.down_to, Dimension::pressure, 0, most_line_Pa, wrong);
  if (ask.element == nullptr) {
    wrong.say(no_such("element", options.air, ids_of(drive.elements)));
  } else if (!ask.element->piston) {
    wrong.say(options.air + " has no piston that air could move");
  }
  if (down_to_Pa && !held_s) {
    wrong.say("--down-to says where a hold ended, and --held how long it was: both or neither");
  }
  if (!wrong.words().empty()) {
    return std::nullopt;
  }
  if (held_s) {
    const double floor_Pa = drive.air ? drive.air->floor_Pa : 0;
    ask.hold = HoldReading{ask.pressure_Pa, down_to_Pa.value_or(floor_Pa), *held_s};
  }
  return ask;
}

int tell_air(const Unit& unit, const DriveOptions& options, const AirAsk& ask, Streams streams) {
  const DriveFacts facts = facts_of(unit);
  const auto pack = facts.packs.find(ask.element->id);
  const AirPiston piston =
      air_piston(*ask.element, pack == facts.packs.end() ? 0 : pack->second.stroke_m);
  const AirTest test = unit.drive->air.value_or(AirTest{});
  std::vector<CalculationReport> reports{air_reach(piston, test, ask.pressure_Pa).report};
  if (ask.hold) {
    reports.push_back(leak_from_hold(piston, test, *ask.hold).report);
  }
  const bool good = std::ranges::none_of(reports, [](const CalculationReport& report) {
    return report.verdict == ReportVerdict::bad || report.verdict == ReportVerdict::refused;
  });
  if (options.json) {
    Json document;
    document["sound"] = good;
    document["element"] = ask.element->id;
    document["reports"] = Json::array();
    for (const CalculationReport& report : reports) {
      document["reports"].push_back(json_of(report));
    }
    document["notes"] = facts.notes;
    print(streams.out, document);
  } else {
    streams.out << unit.name << " (" << unit.label << ")\n\n";
    for (const CalculationReport& report : reports) {
      print_report(streams.out, report, options.inch ? LengthUnit::inch : LengthUnit::millimetre);
    }
    streams.out << "A second opinion only: the unit's service manual decides.\n";
  }
  return good ? sound : not_sound;
}

} // namespace

int drive(const DriveOptions& options, Streams streams) {
  Wrong wrong;
  if (options.air.empty() &&
      !(options.pressure.empty() && options.held.empty() && options.down_to.empty())) {
    return refuse("drive", "--pressure, --held and --down-to are for --air", streams);
  }
  const bool of_ranges = !(options.range.empty() && options.without.empty() &&
                           options.stuck.empty() && options.reversed.empty());
  const bool explains = !(options.symptoms.empty() && options.readings.empty());
  if ((options.faults || explains) && (of_ranges || !options.air.empty())) {
    return refuse("drive",
                  "--faults, --symptom and --reading ask of the whole unit: leave out ranges, "
                  "elements and air",
                  streams);
  }
  if (options.faults && explains) {
    return refuse("drive", "--faults and --symptom are two questions: one at a time", streams);
  }
  const DriveAsk ask = ask_of(options, wrong);
  if (!wrong.words().empty()) {
    return refuse("drive", wrong.words(), streams);
  }
  const LoadReport loaded = load_unit(options.unit);
  if (!loaded.unit) {
    return not_loaded(loaded, options.json, streams);
  }
  const Unit& unit = *loaded.unit;
  if (!unit.drive) {
    LoadReport none;
    none.complaints.push_back({options.unit + "/unit.toml", 0, 0, "the unit states no gear train",
                               "[train], [[member]], …"});
    return not_loaded(none, options.json, streams);
  }
  check_elements(*unit.drive, options, wrong);
  const std::optional<AirAsk> air =
      options.air.empty() ? std::nullopt : air_of(unit, options, wrong);
  const Reported told = reported(*unit.drive, options);
  wrong.say(told.wrong);
  if (!wrong.words().empty()) {
    return refuse("drive", wrong.words(), streams);
  }
  if (explains) {
    return tell_diagnosis(unit, facts_of(unit), told, options, streams);
  }
  if (options.faults) {
    return tell_faults(unit, facts_of(unit), options, streams);
  }
  return air ? tell_air(unit, options, *air, streams) : tell_ranges(unit, options, ask, streams);
}

} // namespace lugline::cli
