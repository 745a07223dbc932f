#include "viewer/cli/measured_csv.h"

#include "scene/load/findings.h"
#include "scene/pack/bench_reading.h"
#include "scene/quantity/quantity.h"

#include <algorithm>
#include <fstream>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lugline::cli {

namespace {

constexpr std::size_t most_bytes = 1024 * 1024;
constexpr std::size_t most_complaints = 50;

std::string trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\"");
  if (first == std::string_view::npos) {
    return {};
  }
  return std::string(text.substr(first, text.find_last_not_of(" \t\"") - first + 1));
}

/// Up to the limit; empty where the file cannot be read.
std::optional<std::string> bytes_of(const std::filesystem::path& file) {
  std::error_code error;
  if (std::filesystem::is_directory(file, error)) {
    return std::nullopt;
  }
  std::ifstream in(file, std::ios::binary);
  if (!in) {
    return std::nullopt;
  }
  std::string bytes(most_bytes + 1, '\0');
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  bytes.resize(static_cast<std::size_t>(in.gcount()));
  return bytes;
}

/// Why these bytes are no list of figures; empty where they may be one.
std::string why_no_text(const std::string& bytes) {
  if (bytes.size() > most_bytes) {
    return "is more than " + std::to_string(most_bytes) + " bytes large: is it a list of figures?";
  }
  if (bytes.starts_with("\xff\xfe") || bytes.starts_with("\xfe\xff")) {
    return "is UTF-16: save it as CSV in UTF-8";
  }
  const bool binary = std::ranges::any_of(bytes, [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte == 0x7FU || (byte < 0x20U && c != '\n' && c != '\r' && c != '\t');
  });
  return binary ? "is no text: a line for each part was expected, \"id,thickness\"" : "";
}

/// What stands between two commas.
struct Cell {
  std::string text;
  std::size_t column = 0; ///< of its first character, from 1
};

class Reader {
public:
  Reader(std::string name, const Unit& unit) : name_(std::move(name)), unit_(unit) {
    for (const UnitComponent& component : unit.components) {
      known_.push_back(component.id);
    }
  }

  MeasuredFile read(const std::string& text) {
    std::size_t at = text.starts_with("\xef\xbb\xbf") ? 3 : 0;
    while (at < text.size() && result_.complaints.size() < most_complaints) {
      const std::size_t end = std::min(text.find_first_of("\r\n", at), text.size());
      ++number_;
      take(std::string_view(text).substr(at, end - at));
      at = end + (text.substr(end, 2) == "\r\n" ? 2 : 1);
    }
    if (result_.complaints.empty() && result_.readings.empty()) {
      number_ = 0;
      complain(0, "holds no measurement: a line for each part was expected, \"id,thickness\"");
    }
    return std::move(result_);
  }

private:
  void complain(std::size_t column, std::string message, std::string hint = {}) {
    result_.complaints.push_back(
        {name_, number_, static_cast<int>(column), std::move(message), std::move(hint)});
  }

  void take(std::string_view line) {
    const std::string content = trimmed(line);
    if (content.empty() || content.front() == '#') {
      return;
    }
    const bool first = !begun_;
    begun_ = true;
    const char* part = line.find(';') != std::string_view::npos    ? ";"
                       : line.find('\t') != std::string_view::npos ? "\t"
                                                                   : ",";
    if (line.find(part) == std::string_view::npos) {
      complain(1, "expected \"id,thickness\", read " + in_quotes(content));
      return;
    }
    std::vector<Cell> cells;
    for (std::size_t at = 0; at <= line.size();) {
      const std::size_t end = std::min(line.find(part, at), line.size());
      cells.push_back({trimmed(line.substr(at, end - at)), at + 1});
      at = end + 1;
    }
    const std::string id = cells.front().text;
    cells.erase(cells.begin());
    std::erase_if(cells, [](const Cell& cell) { return cell.text.empty(); });
    if (first && !cells.empty() && cells.front().text.starts_with("thick") &&
        unit_.component(id) == nullptr) {
      return; // it heads the columns
    }
    if (unit_.component(id) == nullptr) {
      complain(1, "there is no component " + in_quotes(id), hint_for(id));
    } else if (result_.readings.contains(id)) {
      complain(1, id + " is measured twice", "several places of one part stand in one line");
    } else {
      take(id, cells, line.find(part) + 2);
    }
  }

  /// A part's places, and perhaps what they were read with.
  void take(const std::string& id, const std::vector<Cell>& cells, std::size_t column) {
    BenchReading reading;
    double plus_minus_m = 0;
    const std::size_t before = result_.complaints.size();
    for (const Cell& cell : cells) {
      const auto thickness = parse_bench_quantity(cell.text, Dimension::length);
      const auto instrument = instrument_from(cell.text);
      if (thickness) {
        reading.places_m.push_back(thickness.value().si);
        plus_minus_m = std::max(plus_minus_m, thickness.value().plus_minus_si);
      } else if (reading.places_m.empty() || (&cell != &cells.back() && !instrument)) {
        complain(cell.column, thickness.problem());
      } else if (!instrument || reading.instrument != Instrument::unstated) {
        complain(cell.column, in_quotes(cell.text) + " is neither a thickness nor an instrument",
                 "feeler, micrometer, caliper, depth gauge or dial");
      } else {
        reading.instrument = *instrument;
      }
    }
    if (cells.empty()) {
      complain(column, parse_bench_quantity("", Dimension::length).problem());
    }
    if (result_.complaints.size() > before) {
      return;
    }
    const auto result = result_of(reading);
    if (!result) {
      complain(column, id + ": " + result.problem());
      return;
    }
    // What is stated with a figure holds; where nothing is, places and instrument tell it.
    Measured measured{result.value().mean_m, plus_minus_m};
    if (plus_minus_m == 0 &&
        (reading.places_m.size() > 1 || reading.instrument != Instrument::unstated)) {
      measured.places_m = reading.places_m;
      measured.instrument = reading.instrument;
      measured.plus_minus_m = result.value().plus_minus_m;
    }
    const Workshop judge(unit_, {{id, measured}});
    for (const RefusedReading& refused : judge.refused()) {
      complain(column, id + ": " + refused.why);
    }
    result_.readings[id] = measured;
  }

  [[nodiscard]] std::string hint_for(const std::string& id) const {
    std::vector<std::string> pieces;
    for (const UnitComponent& component : unit_.components) {
      if (component.line == id) {
        pieces.push_back(component.id);
      }
    }
    if (!pieces.empty()) {
      return "which of its pieces? " + listed(pieces);
    }
    const std::string near = nearest_name(id, known_);
    return near.empty() ? "" : "did you mean " + near + "?";
  }

  std::string name_;
  const Unit& unit_;
  std::vector<std::string> known_;
  MeasuredFile result_;
  int number_ = 0;
  bool begun_ = false;
};

} // namespace

MeasuredFile read_measured(const std::filesystem::path& file, const Unit& unit) {
  MeasuredFile wrong;
  const std::string name = file.filename().empty() ? file.string() : file.filename().string();
  const auto bytes = bytes_of(file);
  const std::string why =
      bytes ? why_no_text(*bytes) : std::string("cannot be read as a file of measurements");
  if (!why.empty()) {
    wrong.complaints.push_back({name, 0, 0, why, ""});
    return wrong;
  }
  return Reader(name, unit).read(*bytes);
}

} // namespace lugline::cli
