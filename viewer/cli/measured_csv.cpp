#include "viewer/cli/measured_csv.h"

#include "scene/quantity/quantity.h"

#include <fstream>
#include <string>

namespace lugline::cli {

namespace {

constexpr std::size_t most_lines = 10000;

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t\r\"");
  if (first == std::string::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(" \t\r\"") - first + 1);
}

} // namespace

MeasuredFile read_measured(const std::filesystem::path& file, const Unit& unit) {
  MeasuredFile result;
  const std::string name = file.filename().string();
  std::ifstream in(file);
  if (!in) {
    result.complaints.push_back({name, 0, 0, "the file of measurements cannot be read", ""});
    return result;
  }
  std::vector<std::string> known;
  for (const UnitComponent& component : unit.components) {
    known.push_back(component.id);
  }
  std::string line;
  int number = 0;
  while (std::getline(in, line) && static_cast<std::size_t>(++number) <= most_lines) {
    const std::string content = trimmed(line);
    if (content.empty() || content.front() == '#') {
      continue;
    }
    const auto comma = line.find(',');
    if (comma == std::string::npos) {
      result.complaints.push_back(
          {name, number, 1, "expected \"id,thickness\", read \"" + content + "\"", ""});
      continue;
    }
    const std::string id = trimmed(line.substr(0, comma));
    const int column = static_cast<int>(comma) + 2;
    const auto thickness = parse_quantity(trimmed(line.substr(comma + 1)), Dimension::length);
    if (unit.component(id) == nullptr) {
      const std::string near = nearest_name(id, known);
      result.complaints.push_back({name, number, 1, "there is no component " + id,
                                   near.empty() ? "" : "did you mean " + near + "?"});
    } else if (!thickness) {
      result.complaints.push_back({name, number, column, thickness.problem(), ""});
    } else if (result.readings.contains(id)) {
      result.complaints.push_back({name, number, 1, id + " is measured twice", ""});
    } else {
      result.readings[id] = {thickness.value().si, thickness.value().plus_minus_si};
    }
  }
  return result;
}

} // namespace lugline::cli
