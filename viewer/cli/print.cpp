#include "viewer/cli/print.h"

#include "scene/load/findings.h"
#include "scene/quantity/quantity.h"

#include <algorithm>
#include <iterator>
#include <ostream>

namespace lugline::cli {

Json json_of(const Complaint& complaint) {
  Json object;
  object["file"] = complaint.file;
  object["line"] = complaint.line;
  object["column"] = complaint.column;
  object["message"] = complaint.message;
  if (!complaint.hint.empty()) {
    object["hint"] = complaint.hint;
  }
  return object;
}

Json json_of(const std::vector<Complaint>& complaints) {
  Json list = Json::array();
  for (const Complaint& complaint : complaints) {
    list.push_back(json_of(complaint));
  }
  return list;
}

Json json_of(const WayPose& pose) {
  Json object;
  object["way_up"] = pose.way_up == WayUp::right ? "right way up" : "turned over";
  object["from_deg"] = rounded_deg(pose.turns.from_rad);
  object["to_deg"] = rounded_deg(pose.turns.to_rad);
  return object;
}

namespace {

/// gives: what the figure that a choice leaves is called there.
Json json_of(const std::vector<SelectiveChoice>& choices, const char* gives) {
  Json list = Json::array();
  for (const SelectiveChoice& choice : choices) {
    Json thickness = Json::array();
    for (const double option_m : choice.thickness_m) {
      thickness.push_back(rounded_mm(option_m));
    }
    list.push_back({{"thickness_mm", thickness},
                    {gives, rounded_mm(choice.clearance_m)},
                    {"off_middle_mm", rounded_mm(choice.off_middle_m)},
                    {"inside", choice.inside},
                    {"changed", choice.changed}});
  }
  return list;
}

Json json_of(const ChainPiece& piece) {
  return {{"id", piece.part},
          {"label", piece.label},
          {"length_mm", rounded_mm(piece.length_m)},
          {"measured", piece.measured}};
}

} // namespace

Json json_of(const JudgedStep& step) {
  Json object;
  object["id"] = step.id;
  object["part"] = step.part;
  object["rest_mm"] = step.rest_m ? Json(rounded_mm(*step.rest_m)) : Json();
  object["stands_on"] = step.stands_on;
  object["stand_off_mm"] = step.stand_off_m ? Json(rounded_mm(*step.stand_off_m)) : Json();
  object["poses"] = Json::array();
  for (const WayPose& pose : step.poses) {
    object["poses"].push_back(json_of(pose));
  }
  if (step.reading) {
    Json reading;
    reading["of"] = step.reading->of;
    reading["value_mm"] = rounded_mm(step.reading->value_m);
    reading["low_mm"] = rounded_mm(step.reading->low_m);
    reading["high_mm"] = rounded_mm(step.reading->high_m);
    reading["inside"] = step.reading->inside;
    object["reading"] = reading;
  }
  if (!step.air.empty()) {
    object["air"] = Json::array();
    for (const AirFinding& air : step.air) {
      object["air"].push_back({{"element", air.element},
                               {"travel_mm", rounded_mm(air.reach.travel_m)},
                               {"clamp_N", json_figure(FigureOf::force, air.reach.clamp_N).value},
                               {"moves", air.reach.moves},
                               {"completes", air.reach.completes},
                               {"stopped_by_pack", air.stopped}});
    }
  }
  object["holds"] = step.problems.empty();
  return object;
}

Json json_of(const JudgedPack& pack) {
  const PackReport& report = pack.report;
  Json object;
  object["id"] = report.id;
  object["name"] = report.name;
  object["stack_mm"] = rounded_mm(report.stack_m);
  object["clearance_mm"] = rounded_mm(report.clearance_m);
  object["clearance_free_mm"] = rounded_mm(report.clearance_free_m);
  object["clearance_flat_mm"] = rounded_mm(report.clearance_flat_m);
  object["low_mm"] = rounded_mm(report.low_m);
  object["high_mm"] = rounded_mm(report.high_m);
  object["verdict"] = word_for(report.verdict);
  object["piston_face_mm"] = rounded_mm(report.piston_face_m);
  object["ring_face_mm"] = rounded_mm(report.ring_face_m);
  object["frictions"] = report.frictions;
  object["per_friction_mm"] = rounded_mm(report.per_friction_m);
  object["lifted_mm"] = pack.lifted_m ? Json(rounded_mm(*pack.lifted_m)) : Json();
  object["uncertainty_mm"] = {{"worst_case_mm", rounded_mm(report.worst_case_m)},
                              {"root_sum_square_mm", rounded_mm(report.root_sum_square_m)}};
  object["lines"] = Json::array();
  for (const PackLine& line : report.lines) {
    object["lines"].push_back({{"id", line.id},
                               {"label", line.label},
                               {"overall_mm", rounded_mm(line.overall_m)},
                               {"counts_mm", rounded_mm(line.counts_m)},
                               {"why", line.why},
                               {"measured", line.measured}});
  }
  object["problems"] = pack.problems;
  object["choices"] = json_of(pack.choices, "clearance_mm");
  return object;
}

Json json_of(const JudgedPlay& play) {
  Json object;
  object["id"] = play.id;
  object["play_mm"] = play.play_m ? Json(rounded_mm(*play.play_m)) : Json();
  object["low_mm"] = rounded_mm(play.limits.low_m);
  object["high_mm"] = rounded_mm(play.limits.high_m);
  object["verdict"] = !play.play_m ? "not found" : play.inside ? "inside limits" : "outside limits";
  return object;
}

Json json_of(const JudgedChain& chain) {
  const ChainReport& report = chain.report;
  Json object;
  object["id"] = report.id;
  object["name"] = report.name;
  object["value_mm"] = chain.whole ? Json(rounded_mm(report.value_m)) : Json();
  object["low_mm"] = rounded_mm(report.low_m);
  object["high_mm"] = rounded_mm(report.high_m);
  object["verdict"] = chain.whole ? word_for(report.verdict) : "not whole";
  object["uncertainty_mm"] = {{"worst_case_mm", rounded_mm(report.worst_case_m)},
                              {"root_sum_square_mm", rounded_mm(report.root_sum_square_m)}};
  object["gap"] = json_of(report.gap);
  object["lines"] = Json::array();
  for (const ChainPiece& piece : report.lines) {
    object["lines"].push_back(json_of(piece));
  }
  object["choices"] = json_of(chain.choices, "value_mm");
  return object;
}

void print(std::ostream& out, const Json& document) {
  out << document.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) << "\n";
}

void print_complaints(std::ostream& out, const std::vector<Complaint>& complaints) {
  for (const Complaint& complaint : complaints) {
    out << text_of(complaint) << "\n";
  }
}

int not_loaded(const LoadReport& loaded, bool json, Streams streams) {
  if (json) {
    Json document;
    document["complaints"] = json_of(loaded.complaints);
    document["questions"] = json_of(loaded.questions);
    print(streams.out, document);
  } else {
    print_complaints(streams.err, loaded.complaints);
  }
  return not_sound;
}

int refuse(const char* command, const std::string& words, Streams streams) {
  streams.err << "lugline " << command << ": " << printable(words) << "\n";
  return bad_command;
}

std::vector<std::string> component_ids(const Unit& unit) {
  std::vector<std::string> ids;
  std::ranges::transform(unit.components, std::back_inserter(ids), &UnitComponent::id);
  return ids;
}

std::vector<std::string> step_ids(const Unit& unit) {
  std::vector<std::string> ids;
  std::ranges::transform(unit.steps, std::back_inserter(ids), &Step::id);
  return ids;
}

std::string no_such(const char* what, const std::string& written,
                    const std::vector<std::string>& known) {
  const std::string near = nearest_name(written, known);
  return std::string("there is no ") + what + " " + in_quotes(written) +
         (near.empty() ? "" : "; did you mean " + near + "?");
}

std::string pose_words(const std::vector<TurnRange>& poses) {
  const PoseSummary summary = summary_of(poses);
  if (summary.count == 0) {
    return "at no angle";
  }
  if (poses.front().whole()) {
    return "at any angle";
  }
  const std::string width = print_angle(summary.width_rad, 3) + " wide";
  if (summary.count == 1) {
    return "one pose, " + width + ", at " + print_angle(poses.front().middle_rad(), 2);
  }
  return std::to_string(summary.count) + " poses, " + width +
         (summary.step_rad > 0 ? ", " + print_angle(summary.step_rad, 2) + " apart"
                               : ", not evenly spaced");
}

} // namespace lugline::cli
