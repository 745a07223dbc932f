#include "scene/load/toml_reader.h"

#include "scene/quantity/toml_keys.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lugline {

namespace {

constexpr int understood_schema = 1;
constexpr std::size_t longest_text = 2000;
constexpr std::size_t longest_id = 64;
constexpr std::size_t most_in_a_list = 256;

std::string type_word(const toml::node& node) {
  switch (node.type()) {
  case toml::node_type::table:
    return "a table";
  case toml::node_type::array:
    return "a list";
  case toml::node_type::string:
    return "a text";
  case toml::node_type::integer:
  case toml::node_type::floating_point:
    return "a number";
  case toml::node_type::boolean:
    return "true or false";
  default:
    return "a date or time";
  }
}

/// The number as the person wrote it, near enough to be put back with a unit.
std::string bare_number(const toml::node& node) {
  if (const auto* whole = node.as_integer()) {
    return std::to_string(whole->get());
  }
  std::string digits = std::to_string(node.as_floating_point()->get());
  if (digits.find('.') != std::string::npos) {
    digits.erase(digits.find_last_not_of('0') + 1);
    if (digits.back() == '.') {
      digits += '0';
    }
  }
  return digits;
}

const char* example_unit(Dimension dimension) {
  switch (dimension) {
  case Dimension::length:
    return "mm";
  case Dimension::angle:
    return "deg";
  case Dimension::force:
    return "N";
  case Dimension::pressure:
    return "kPa";
  case Dimension::torque:
    return "N m";
  case Dimension::mass:
    return "kg";
  case Dimension::stiffness:
    return "N/mm";
  case Dimension::temperature:
    return "degC";
  case Dimension::speed_of_turn:
    return "rpm";
  case Dimension::time:
    return "s";
  case Dimension::volume:
    return "mL";
  case Dimension::density:
    return "kg/m3";
  }
  return "";
}

} // namespace

std::optional<toml::table> parse_toml(const std::string& text, const std::string& file,
                                      Findings& findings) {
  if (const auto where = first_long_key(text)) {
    findings.complain({file, where->line, where->column},
                      "a key of more than " + std::to_string(most_key_parts) + " parts",
                      "no key here has more than two: what is meant?");
    return std::nullopt;
  }
  try {
    return toml::parse(std::string_view(text), std::string_view(file));
  } catch (const toml::parse_error& error) {
    const toml::source_position& where = error.source().begin;
    findings.complain({file, static_cast<int>(where.line), static_cast<int>(where.column)},
                      "this is not TOML: " + std::string(error.description()));
    return std::nullopt;
  }
}

TableReader::TableReader(const toml::table& table, std::string file, std::string what,
                         Findings& findings)
    : table_(&table), file_(std::move(file)), what_(std::move(what)), findings_(&findings),
      places_(place_of(table.source())) {}

SourcePlace TableReader::place_of(const toml::source_region& region) const {
  return {file_, static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)};
}

const toml::node* TableReader::find(const std::string& key) {
  known_.push_back(key);
  const toml::node* node = table_->get(key);
  if (node != nullptr) {
    places_.set(key, place_of(node->source()));
  }
  return node;
}

void TableReader::complain(const std::string& key, const std::string& message, std::string hint) {
  findings_->complain(places_.of(key), what_ + ": " + message, std::move(hint));
}

void TableReader::ask(const std::string& key, const std::string& message, std::string hint) {
  findings_->ask(places_.of(key), what_ + ": " + message, std::move(hint));
}

void TableReader::wrong_type(const std::string& key, const toml::node& node,
                             const std::string& expected) {
  findings_->complain(place_of(node.source()), what_ + ": " + key + " is " + type_word(node) +
                                                   ", and " + expected + " was expected");
}

void TableReader::unknown_word(const std::string& key, const WrittenText& written,
                               const std::vector<std::string>& words) {
  std::string hint = findings_->nearest(written.value, words);
  if (hint.empty()) {
    hint = "one of: " + listed(words, words.size());
  }
  findings_->complain(
      written.at,
      what_ + ": " + key + " is " + in_quotes(written.value) + ", which is no word for it", hint);
}

std::optional<WrittenText> TableReader::as_text(const std::string& key, const toml::node& node) {
  const auto* value = node.as_string();
  if (value == nullptr) {
    wrong_type(key, node, "a text in quotes");
    return std::nullopt;
  }
  const SourcePlace at = place_of(node.source());
  if (value->get().size() > longest_text) {
    findings_->complain(at, what_ + ": " + key + " is " + std::to_string(value->get().size()) +
                                " bytes long, and at most " + std::to_string(longest_text) +
                                " are read");
    return std::nullopt;
  }
  if (printable(value->get()) != value->get()) {
    findings_->complain(at, what_ + ": " + key + " holds a control character or a line's end",
                        "write it on one line");
    return std::nullopt;
  }
  return WrittenText{value->get(), at};
}

std::optional<WrittenText> TableReader::text(const std::string& key) {
  const toml::node* node = find(key);
  return node == nullptr ? std::nullopt : as_text(key, *node);
}

std::optional<WrittenText> TableReader::required_text(const std::string& key) {
  const toml::node* node = find(key);
  if (node == nullptr) {
    complain(key, key + " is missing");
    return std::nullopt;
  }
  std::optional<WrittenText> written = as_text(key, *node);
  if (written && written->value.empty()) {
    complain(key, key + " is empty");
    return std::nullopt;
  }
  return written;
}

std::string TableReader::text_or(const std::string& key, std::string otherwise) {
  std::optional<WrittenText> written = text(key);
  return written ? std::move(written->value) : std::move(otherwise);
}

std::optional<WrittenText> TableReader::id(const std::string& key) {
  std::optional<WrittenText> written = required_text(key);
  if (!written) {
    return written;
  }
  if (written->value.size() > longest_id) {
    complain(key, key + " is longer than " + std::to_string(longest_id) + " bytes");
    return std::nullopt;
  }
  if (written->value.find('/') != std::string::npos) {
    complain(key, key + " is " + in_quotes(written->value) + ": an id holds no '/'");
    return std::nullopt;
  }
  return written;
}

std::optional<Written<bool>> TableReader::flag(const std::string& key) {
  const toml::node* node = find(key);
  if (node == nullptr) {
    return std::nullopt;
  }
  const auto* value = node->as_boolean();
  if (value == nullptr) {
    wrong_type(key, *node, "true or false");
    return std::nullopt;
  }
  return Written<bool>{value->get(), place_of(node->source())};
}

std::optional<Written<int>> TableReader::whole(const std::string& key, int low, int high) {
  const toml::node* node = find(key);
  if (node == nullptr) {
    return std::nullopt;
  }
  const auto* value = node->as_integer();
  if (value == nullptr) {
    wrong_type(key, *node, "a whole number");
    return std::nullopt;
  }
  if (value->get() < low || value->get() > high) {
    complain(key, key + " is " + std::to_string(value->get()) + ", and " + std::to_string(low) +
                      " to " + std::to_string(high) + " was expected");
    return std::nullopt;
  }
  return Written<int>{static_cast<int>(value->get()), place_of(node->source())};
}

std::optional<Written<double>> TableReader::number(const std::string& key, double low,
                                                   double high) {
  const toml::node* node = find(key);
  if (node == nullptr) {
    return std::nullopt;
  }
  if (!node->is_number()) {
    wrong_type(key, *node, "a number");
    return std::nullopt;
  }
  const double value = node->is_integer() ? static_cast<double>(node->as_integer()->get())
                                          : node->as_floating_point()->get();
  if (!(value >= low && value <= high)) {
    complain(key, key + " is outside " + std::to_string(low) + " to " + std::to_string(high));
    return std::nullopt;
  }
  return Written<double>{value, place_of(node->source())};
}

std::optional<Written<double>>
TableReader::as_quantity(const std::string& key, const toml::node& node, Dimension dimension) {
  const std::string meant(word_for(dimension));
  if (node.is_number()) {
    const std::string digits = bare_number(node);
    findings_->complain(place_of(node.source()),
                        what_ + ": " + key + " is a bare number, " + digits +
                            ", and a figure with its unit was expected (" + meant + ")",
                        "write it with its unit: \"" + digits + " " + example_unit(dimension) +
                            "\"");
    return std::nullopt;
  }
  const std::optional<WrittenText> written = as_text(key, node);
  if (!written) {
    return std::nullopt;
  }
  const Outcome<Quantity> read = parse_bench_quantity(written->value, dimension);
  if (!read) {
    findings_->complain(written->at, what_ + ": " + key + ": " + read.problem());
    return std::nullopt;
  }
  if (read.value().plus_minus_si != 0) {
    findings_->complain(written->at,
                        what_ + ": " + key + " states a tolerance, " + in_quotes(written->value) +
                            ", and none is kept here",
                        "write the figure alone");
    return std::nullopt;
  }
  return Written<double>{read.value().si, written->at};
}

std::optional<Written<double>> TableReader::quantity(const std::string& key, Dimension dimension) {
  const toml::node* node = find(key);
  return node == nullptr ? std::nullopt : as_quantity(key, *node, dimension);
}

const toml::array* TableReader::find_array(const std::string& key, const std::string& of_what) {
  const toml::node* node = find(key);
  if (node == nullptr) {
    return nullptr;
  }
  const toml::array* array = node->as_array();
  if (array == nullptr) {
    wrong_type(key, *node, "a list of " + of_what);
    return nullptr;
  }
  if (array->size() > most_in_a_list) {
    complain(key, key + " lists " + std::to_string(array->size()) + ", and at most " +
                      std::to_string(most_in_a_list) + " are read");
    return nullptr;
  }
  return array;
}

std::vector<WrittenText> TableReader::texts(const std::string& key) {
  std::vector<WrittenText> all;
  if (const toml::array* array = find_array(key, "names in quotes")) {
    for (const toml::node& node : *array) {
      if (std::optional<WrittenText> written = as_text(key, node)) {
        places_.set(key + "[" + std::to_string(all.size()) + "]", written->at);
        all.push_back(std::move(*written));
      }
    }
  }
  return all;
}

std::vector<Written<double>> TableReader::quantities(const std::string& key, Dimension dimension) {
  std::vector<Written<double>> all;
  if (const toml::array* array = find_array(key, "figures with their units")) {
    for (const toml::node& node : *array) {
      if (const std::optional<Written<double>> written = as_quantity(key, node, dimension)) {
        all.push_back(*written);
      }
    }
  }
  return all;
}

std::optional<Limits> TableReader::limits(const std::string& key) {
  const toml::array* array = find_array(key, "two figures, the lower first");
  if (array == nullptr) {
    if (!has(key)) {
      complain(key, key + " is missing", "the limits: [\"0.75 mm\", \"1.25 mm\"]");
    }
    return std::nullopt;
  }
  if (array->size() != 2) {
    complain(key, key + " lists " + std::to_string(array->size()) +
                      " figures, and two were expected, the lower first");
    return std::nullopt;
  }
  const auto low = as_quantity(key, *array->get(0), Dimension::length);
  const auto high = as_quantity(key, *array->get(1), Dimension::length);
  if (!low || !high) {
    return std::nullopt;
  }
  if (low->value > high->value) {
    complain(key,
             key + " is the wrong way round: " + print_length(low->value, LengthUnit::millimetre) +
                 " is above " + print_length(high->value, LengthUnit::millimetre),
             "the lower figure first");
    return std::nullopt;
  }
  return Limits{low->value, high->value};
}

std::optional<TableReader> TableReader::table(const std::string& key, const std::string& what) {
  const toml::node* node = find(key);
  if (node == nullptr) {
    return std::nullopt;
  }
  const toml::table* inner = node->as_table();
  if (inner == nullptr) {
    wrong_type(key, *node, "a table, { … },");
    return std::nullopt;
  }
  return TableReader(*inner, file_, what, *findings_);
}

std::vector<TableReader> TableReader::tables(const std::string& key, const std::string& what) {
  std::vector<TableReader> all;
  const toml::node* node = find(key);
  if (node == nullptr) {
    return all;
  }
  const toml::array* array = node->as_array();
  if (array == nullptr) {
    wrong_type(key, *node, "[[" + key + "]], with two brackets,");
    return all;
  }
  for (const toml::node& element : *array) {
    if (const toml::table* inner = element.as_table()) {
      all.emplace_back(*inner, file_, what + " " + std::to_string(all.size() + 1), *findings_);
    } else {
      wrong_type(key, element, "a table");
    }
  }
  return all;
}

void TableReader::finish() {
  for (const auto& [key, node] : *table_) {
    const std::string name(key.str());
    if (std::ranges::find(known_, name) == known_.end()) {
      std::string hint = findings_->nearest(name, known_);
      if (hint.empty()) {
        hint = "known here: " + listed(known_, known_.size());
      }
      findings_->complain(place_of(key.source()), what_ + ": unknown key " + in_quotes(name), hint);
    }
  }
}

bool schema_is_understood(TableReader& root) {
  const std::string understood = "schema " + std::to_string(understood_schema);
  if (!root.has("schema")) {
    root.complain("schema", "it does not say which schema it is written to",
                  "this version understands " + understood + ": write schema = 1 at its top");
    return false;
  }
  const auto schema = root.whole("schema", 0, std::numeric_limits<int>::max());
  if (!schema) {
    return false;
  }
  if (schema->value != understood_schema) {
    root.complain("schema", "it is written to another schema",
                  "this version understands " + understood);
    return false;
  }
  return true;
}

} // namespace lugline
