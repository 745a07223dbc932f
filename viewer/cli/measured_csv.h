// A file of measured thicknesses: one line for each part, "id,thickness",
// with a unit on every figure ("CC-S1,1.98 mm" or "CC-S1,1.98 mm +/- 0.01 mm"),
// or several places, and what they were read with ("CC-S1,1.98 mm,1.97 mm,1.99 mm,micrometer").
// Blank lines and lines that start with # are passed over, and so is a first line
// that heads the columns; a semicolon or a tab parts them as well as a comma.
#pragma once

#include "scene/build/workshop.h"
#include "scene/quantity/complaint.h"

#include <filesystem>
#include <vector>

namespace lugline::cli {

struct MeasuredFile {
  Readings readings;
  std::vector<Complaint> complaints; ///< file, line and column; not empty: nothing is to be used
};

/// Every reading is one that its part can have. A file with no reading at all is
/// a complaint: whoever names one means to use it.
MeasuredFile read_measured(const std::filesystem::path& file, const Unit& unit);

} // namespace lugline::cli
