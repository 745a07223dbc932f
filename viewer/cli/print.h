// JSON and text for what the commands report. Field names end in their unit.
#pragma once

#include "scene/build/explain.h"
#include "scene/build/judge.h"
#include "scene/load/load.h"
#include "viewer/cli/commands.h"

#include <nlohmann/json.hpp>

#include <iosfwd>
#include <memory>
#include <string>
#include <vector>

namespace lugline::cli {

using Json = nlohmann::ordered_json;

Json json_of(const Complaint& complaint);
Json json_of(const std::vector<Complaint>& complaints);
Json json_of(const WayPose& pose);
Json json_of(const JudgedPack& pack);
Json json_of(const JudgedPlay& play);
Json json_of(const JudgedChain& chain);
Json json_of(const JudgedStep& step);

/// The document, with its end of line.
void print(std::ostream& out, const Json& document);
void print_complaints(std::ostream& out, const std::vector<Complaint>& complaints);
/// What a command says of a unit that did not load; gives its exit status.
int not_loaded(const LoadReport& loaded, bool json, Streams streams);
/// "lugline drop: there is no part …"; gives the exit status of a wrong command line.
int refuse(const char* command, const std::string& words, Streams streams);
std::vector<std::string> component_ids(const Unit& unit);
std::vector<std::string> step_ids(const Unit& unit);
/// "there is no part CC-BPP; did you mean CC-BP?"
std::string no_such(const char* what, const std::string& written,
                    const std::vector<std::string>& known);

/// "one pose, 0.352 deg wide", in words.
std::string pose_words(const std::vector<TurnRange>& poses);

} // namespace lugline::cli
