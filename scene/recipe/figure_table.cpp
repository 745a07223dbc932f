#include "scene/recipe/figure_table.h"

#include "scene/quantity/toml_keys.h"

#include <toml++/toml.h>

#include <sstream>

namespace lugline {

namespace {

FigureTable table_from(const toml::table& table);

FigureValue value_from(const toml::node& node) {
  FigureValue value;
  value.line = static_cast<int>(node.source().begin.line);
  value.column = static_cast<int>(node.source().begin.column);
  if (const auto* text = node.as_string()) {
    value.type = FigureValue::Type::text;
    value.text = text->get();
  } else if (const auto* whole = node.as_integer()) {
    value.type = FigureValue::Type::whole;
    value.whole = whole->get();
    value.number = static_cast<double>(value.whole);
    value.text = std::to_string(value.whole);
  } else if (const auto* number = node.as_floating_point()) {
    value.type = FigureValue::Type::number;
    value.number = number->get();
    std::ostringstream written;
    written.imbue(std::locale::classic());
    written << number->get();
    value.text = written.str();
  } else if (const auto* flag = node.as_boolean()) {
    value.type = FigureValue::Type::flag;
    value.whole = flag->get() ? 1 : 0;
    value.text = flag->get() ? "true" : "false";
  } else if (const auto* table = node.as_table()) {
    value.type = FigureValue::Type::table;
    value.text = "a table";
    value.tables.push_back(table_from(*table));
  } else if (const auto* array = node.as_array()) {
    value.text = "a list";
    if (!array->empty() && array->is_homogeneous(toml::node_type::table)) {
      value.type = FigureValue::Type::tables;
      for (const toml::node& one : *array) {
        value.tables.push_back(table_from(*one.as_table()));
      }
    }
  } else {
    value.text = "a date or time";
  }
  return value;
}

FigureTable table_from(const toml::table& table) {
  FigureTable result;
  result.line = static_cast<int>(table.source().begin.line);
  result.column = static_cast<int>(table.source().begin.column);
  for (const auto& [key, node] : table) {
    FigureValue value = value_from(node);
    value.name_line = static_cast<int>(key.source().begin.line);
    value.name_column = static_cast<int>(key.source().begin.column);
    result.values.emplace(std::string(key.str()), std::move(value));
  }
  return result;
}

} // namespace

std::optional<FigureTable> figure_table_from(const std::string& toml_text, const std::string& file,
                                             std::vector<Complaint>& complaints) {
  if (const auto where = first_long_key(toml_text)) {
    complaints.push_back({file, where->line, where->column,
                          "a key of more than " + std::to_string(most_key_parts) + " parts",
                          "no key here has more than two: what is meant?"});
    return std::nullopt;
  }
  try {
    return table_from(toml::parse(toml_text));
  } catch (const toml::parse_error& error) {
    complaints.push_back({file, static_cast<int>(error.source().begin.line),
                          static_cast<int>(error.source().begin.column),
                          std::string("not TOML: ") + std::string(error.description()), ""});
    return std::nullopt;
  }
}

} // namespace lugline
