// From a unit's folder to a Unit, or to the list of what is wrong with it.
//
// Reads unit.toml, sequence.toml and the models they name, and nothing outside
// the folder, whatever a path or a URI says. All complaints are given in one
// go; a unit with a complaint is never half loaded.
#pragma once

#include "scene/load/unit.h"
#include "scene/quantity/complaint.h"

#include <filesystem>
#include <memory>
#include <vector>

namespace lugline {

struct LoadReport {
  std::shared_ptr<const Unit> unit; ///< null where there are complaints
  /// File by file, sequence.toml last; within a file by line and column.
  std::vector<Complaint> complaints;
  /// In the same order.
  std::vector<Complaint>
      questions; ///< worth a look, and no reason to refuse ("743 m wide: millimetres?")
};

LoadReport load_unit(const std::filesystem::path& folder);

} // namespace lugline
