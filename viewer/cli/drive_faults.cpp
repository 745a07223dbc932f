#include "viewer/cli/drive_faults.h"

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
