#include "viewer/cli/drive_faults.h"

#include <algorithm>
#include <ostream>

namespace lugline::cli {

namespace {

Json json_of(const Fault& fault) {
  Json object;
  object["element"] = fault.element;
  object["kind"] = word_for(fault.kind);
  if (fault.kind == FaultKind::worn || fault.kind == FaultKind::leaking) {
    object["left_percent"] = json_figure(FigureOf::share, fault.left).value;
  }
  return object;
}

Json json_of(const FaultRow& row) {
  Json object;
  object["says"] = row.words;
  object["faults"] = Json::array();
  for (const Fault& fault : row.faults) {
    object["faults"].push_back(json_of(fault));
  }
  object["ranges"] = Json::array();
  for (const RangeBehaviour& range : row.ranges) {
    Json one;
    one["id"] = range.range;
    one.update(cli::json_of(range));
    object["ranges"].push_back(std::move(one));
  }
  return object;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') {
    text.remove_prefix(1);
  }
  while (!text.empty() && text.back() == ' ') {
    text.remove_suffix(1);
  }
  return text;
}

/// The longest id that the text begins with, before a space or its end; ids may hold spaces.
template <class T>
std::string leading_id(std::string_view text, const std::vector<T>& all) {
  std::string longest;
  for (const T& one : all) {
    const bool whole_word = text.size() == one.id.size() || text.substr(one.id.size(), 1) == " ";
    if (text.starts_with(one.id) && whole_word && one.id.size() > longest.size()) {
      longest = one.id;
    }
  }
  return longest;
}

template <class T>
std::vector<std::string> ids_in(const std::vector<T>& all) {
  std::vector<std::string> ids;
  std::ranges::transform(all, std::back_inserter(ids), &T::id);
  return ids;
}

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) {
    all += (all.empty() ? "" : ", ") + word;
  }
  return all;
}

std::string quoted(const std::string& text) {
  return "\"" + text + "\"";
}

void read_symptom(const Drive& drive, const std::string& written, Reported& reported) {
  const auto colon = written.rfind(':');
  if (colon == std::string::npos) {
    reported.wrong = "--symptom " + quoted(written) + ": a range and what it does, such as \"" +
                     (drive.ranges.empty() ? "first" : drive.ranges.front().id) + ": slips\"";
    return;
  }
  const std::string range(trimmed(std::string_view(written).substr(0, colon)));
  const std::string word(trimmed(std::string_view(written).substr(colon + 1)));
  const std::optional<Notice> notice = notice_from(word);
  if (drive.range(range) == nullptr) {
    reported.wrong = no_such("range", range, ids_in(drive.ranges));
  } else if (!notice) {
    reported.wrong = "--symptom " + quoted(written) + ": " + quoted(word) +
                     " is no symptom; known are " + joined(notice_words());
  } else {
    reported.symptoms.push_back({range, *notice});
  }
}

/// Where no range is named: the first reported one that applies the element, else the first that
/// does and states a duty.
std::string range_for(const Drive& drive, const std::string& element, const Reported& reported) {
  const auto applies = [&](const std::string& id) {
    const DriveRange* range = drive.range(id);
    return range != nullptr && !range->duties.empty() &&
           std::ranges::find(range->on, element) != range->on.end();
  };
  for (const DriverSymptom& symptom : reported.symptoms) {
    if (applies(symptom.range)) {
      return symptom.range;
    }
  }
  const auto any = std::ranges::find_if(drive.ranges,
                                        [&](const DriveRange& range) { return applies(range.id); });
  return any == drive.ranges.end() ? std::string() : any->id;
}

void read_reading(const Drive& drive, const std::string& written, Reported& reported) {
  std::string_view rest = trimmed(written);
  PressureReading reading;
  reading.element = leading_id(rest, drive.elements);
  if (reading.element.empty()) {
    const std::string first(rest.substr(0, rest.find(' ')));
    reported.wrong = no_such("element", first, ids_in(drive.elements));
    return;
  }
  rest = trimmed(rest.substr(reading.element.size()));
  if (rest.starts_with("in ")) {
    rest = trimmed(rest.substr(3));
    reading.range = leading_id(rest, drive.ranges);
    if (reading.range.empty()) {
      reported.wrong = "--reading " + quoted(written) + ": in which range? Known are " +
                       joined(ids_in(drive.ranges));
      return;
    }
    rest = trimmed(rest.substr(reading.range.size()));
  } else {
    reading.range = range_for(drive, reading.element, reported);
    if (reading.range.empty()) {
      reported.wrong = "--reading " + quoted(written) +
                       ": name the range that it was read in, such as \"" + reading.element +
                       " in … 100 kPa\"";
      return;
    }
  }
  const Outcome<Quantity> pressure = parse_quantity(rest, Dimension::pressure);
  if (!pressure) {
    reported.wrong = "--reading " + quoted(written) + ": " + pressure.problem();
    return;
  }
  reading.gauge_Pa = pressure.value().si;
  if (reading.gauge_Pa < 0 || reading.gauge_Pa > 1e7) {
    reported.wrong = "--reading " + quoted(written) + " is outside what any unit has";
    return;
  }
  reported.readings.push_back(std::move(reading));
}

Json torque(std::optional<double> torque_Nm) {
  return torque_Nm ? Json(json_figure(FigureOf::torque, *torque_Nm).value) : Json();
}

} // namespace

std::vector<Fault> faults_asked(const Drive& drive, const DriveAsk& ask) {
  std::vector<Fault> faults;
  const auto add = [&](FaultKind kind, const std::string& id) {
    Fault fault;
    fault.kind = kind;
    fault.element = id;
    faults.push_back(std::move(fault));
  };
  for (const std::string& id : ask.without) {
    const DriveElement* element = drive.element(id);
    const bool one_way = element != nullptr && element->kind == ElementKind::one_way_clutch;
    add(one_way ? FaultKind::fallen_out : FaultKind::not_applied, id);
  }
  for (const std::string& id : ask.stuck) {
    add(FaultKind::stuck_on, id);
  }
  for (const std::string& id : ask.reversed) {
    add(FaultKind::reversed, id);
  }
  return faults;
}

Json json_of(const RangeBehaviour& behaviour) {
  Json object;
  object["notices"] = Json::array();
  for (const Notice notice : behaviour.notices) {
    object["notices"].push_back(word_for(notice));
  }
  object["says"] = behaviour.words;
  object["carries_Nm"] = torque(behaviour.carries_Nm);
  object["asked_Nm"] = torque(behaviour.asked_Nm);
  object["slipping"] = behaviour.slipping;
  return object;
}

Reported reported(const Drive& drive, const DriveOptions& options) {
  Reported reported;
  for (const std::string& symptom : options.symptoms) {
    if (reported.wrong.empty()) {
      read_symptom(drive, symptom, reported);
    }
  }
  for (const std::string& reading : options.readings) {
    if (reported.wrong.empty()) {
      read_reading(drive, reading, reported);
    }
  }
  return reported;
}

int tell_diagnosis(const Unit& unit, const DriveFacts& facts, const Reported& reported,
                   const DriveOptions& options, Streams streams) {
  const Diagnosis diagnosis =
      diagnose(*unit.drive, facts.packs, reported.symptoms, reported.readings);
  if (options.json) {
    Json document;
    document["refused"] = diagnosis.refused;
    document["says"] = diagnosis.words;
    document["found"] = Json::array();
    for (const FaultFound& found : diagnosis.found) {
      Json one;
      one["rank"] = found.rank;
      one["says"] = found.words;
      one["faults"] = Json::array();
      for (const Fault& fault : found.faults) {
        one["faults"].push_back(json_of(fault));
      }
      one["besides"] = found.besides;
      document["found"].push_back(std::move(one));
    }
    document["excluded"] = Json::array();
    for (const FaultExcluded& excluded : diagnosis.excluded) {
      document["excluded"].push_back(
          {{"fault", json_of(excluded.fault)}, {"says", excluded.words}});
    }
    document["notes"] = diagnosis.notes;
    print(streams.out, document);
  } else {
    streams.out << unit.name << " (" << unit.label << ")\n\n";
    for (const std::string& line : lines_of(diagnosis)) {
      streams.out << line << "\n";
    }
    streams.out << "A second opinion only: the unit's service manual decides.\n";
  }
  return diagnosis.refused || diagnosis.found.empty() ? not_sound : sound;
}

int tell_faults(const Unit& unit, const DriveFacts& facts, const DriveOptions& options,
                Streams streams) {
  const FaultTable table = fault_table(*unit.drive, facts.packs);
  if (options.json) {
    Json document;
    document["refused"] = table.refused.empty() ? Json() : Json(table.refused);
    document["faults"] = Json::array();
    for (const FaultRow& row : table.rows) {
      document["faults"].push_back(json_of(row));
    }
    document["notes"] = table.notes;
    print(streams.out, document);
  } else {
    streams.out << unit.name << " (" << unit.label << ")\n\n";
    for (const std::string& line : lines_of(table)) {
      streams.out << line << "\n";
    }
    streams.out << "A second opinion only: the unit's service manual decides.\n";
  }
  return table.refused.empty() ? sound : not_sound;
}

} // namespace lugline::cli
