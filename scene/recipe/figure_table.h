// What a person wrote in recipes.toml, as plain tables with places.
//
// Plain values, owned by whoever holds the top table. Nothing is judged here
// but the TOML itself.
#pragma once

#include "scene/quantity/complaint.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace lugline {

struct FigureTable;

struct FigureValue {
  enum class Type { text, whole, number, flag, table, tables, other };
  Type type = Type::other;
  std::string text;    ///< as read, for words; also holds what was read where it is no text
  long long whole = 0; ///< a count; 1 for true
  double number = 0;   ///< any number
  std::vector<FigureTable> tables; ///< one for Type::table
  int line = 0;
  int column = 0;
  int name_line = 0; ///< of the figure's name
  int name_column = 0;
};

struct FigureTable {
  std::map<std::string, FigureValue> values;
  int line = 0;
  int column = 0;
};

/// Reads a TOML text. Where it does not parse the answer is empty, and the
/// complaint says where.
std::optional<FigureTable> figure_table_from(const std::string& toml_text, const std::string& file,
                                             std::vector<Complaint>& complaints);

} // namespace lugline
