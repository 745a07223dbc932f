#include "scene/recipe/figure_reader.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lugline {

namespace {

/// No part of such a unit is larger.
constexpr double largest_m = 5;

std::string listed(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) {
    all += (all.empty() ? "" : ", ") + word;
  }
  return all;
}

} // namespace

std::string in_mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

std::string in_brackets(const std::string& text) {
  std::string all = "(";
  all += text;
  all += ')';
  return all;
}

FigureReader::FigureReader(const FigureTable& table, std::string file, std::string what,
                           std::vector<Complaint>& complaints)
    : table_(&table), file_(std::move(file)), what_(std::move(what)), complaints_(&complaints),
      ok_(std::make_shared<bool>(true)) {}

void FigureReader::complain(int line, int column, std::string message, std::string hint) {
  *ok_ = false;
  if (around_ok_) {
    *around_ok_ = false;
  }
  complaints_->push_back({file_, line, column, std::move(message), std::move(hint)});
}

const FigureValue* FigureReader::find(const std::string& name, bool required,
                                      std::string_view kind) {
  known_.insert(name);
  const auto found = table_->values.find(name);
  if (found != table_->values.end()) {
    return &found->second;
  }
  if (required) {
    complain(table_->line, table_->column, what_ + " needs " + name + ", " + std::string(kind), "");
  }
  return nullptr;
}

std::optional<double> FigureReader::si(const std::string& name, Dimension dimension, bool required,
                                       std::string_view kind) {
  const FigureValue* value = find(name, required, kind);
  if (value == nullptr) {
    return std::nullopt;
  }
  if (value->type != FigureValue::Type::text) {
    complain(value->line, value->column,
             what_ + ": " + name + " is " + std::string(kind) + ", and " + value->text +
                 " has no unit",
             "write the figure with its unit, in quotes");
    return std::nullopt;
  }
  const Outcome<Quantity> read = parse_bench_quantity(value->text, dimension);
  if (!read) {
    complain(value->line, value->column, what_ + ": " + name + ": " + read.problem(), "");
    return std::nullopt;
  }
  if (dimension == Dimension::length && std::abs(read.value().si) > largest_m) {
    complain(value->line, value->column,
             what_ + ": " + name + " is " + in_mm(read.value().si) + ", beyond " + in_mm(largest_m),
             "a wrong unit?");
    return std::nullopt;
  }
  return read.value().si;
}

double FigureReader::positive(const std::string& name, std::optional<double> value,
                              double otherwise) {
  if (!value) {
    return otherwise;
  }
  if (!(*value > 0)) {
    impossible(name, "must be more than nothing");
    return otherwise;
  }
  return *value;
}

double FigureReader::length(const std::string& name) {
  return positive(name, si(name, Dimension::length, true, "a length"), 1e-3);
}

std::optional<double> FigureReader::length_if_given(const std::string& name) {
  const std::optional<double> value = si(name, Dimension::length, false, "a length");
  if (!value) {
    return std::nullopt;
  }
  return positive(name, value, 1e-3);
}

double FigureReader::length_or(const std::string& name, double otherwise_m) {
  return positive(name, si(name, Dimension::length, false, "a length"), otherwise_m);
}

double FigureReader::height(const std::string& name) {
  return si(name, Dimension::length, true, "a height").value_or(0);
}

double FigureReader::height_or(const std::string& name, double otherwise_m) {
  return si(name, Dimension::length, false, "a length").value_or(otherwise_m);
}

double FigureReader::angle(const std::string& name) {
  return si(name, Dimension::angle, true, "an angle").value_or(0);
}

double FigureReader::angle_or(const std::string& name, double otherwise_rad) {
  return si(name, Dimension::angle, false, "an angle").value_or(otherwise_rad);
}

double FigureReader::quantity(const std::string& name, Dimension dimension) {
  const std::string kind = "a " + std::string(word_for(dimension));
  return positive(name, si(name, dimension, true, kind), 1);
}

int FigureReader::count(const std::string& name, int low, int high) {
  const FigureValue* value = find(name, true, "a count");
  if (value == nullptr) {
    return low;
  }
  if (value->type != FigureValue::Type::whole || value->whole < low || value->whole > high) {
    impossible(name, "is a count from " + std::to_string(low) + " to " + std::to_string(high) +
                         ", and " + value->text + " was read");
    return low;
  }
  return static_cast<int>(value->whole);
}

int FigureReader::count_or(const std::string& name, int otherwise, int low, int high) {
  known_.insert(name);
  return has(name) ? count(name, low, high) : otherwise;
}

double FigureReader::bare(const std::string& name, double low, double high,
                          const std::string& kind) {
  const FigureValue* value = find(name, true, kind);
  if (value == nullptr) {
    return low;
  }
  const bool number =
      value->type == FigureValue::Type::whole || value->type == FigureValue::Type::number;
  if (!number || !(value->number >= low && value->number <= high)) {
    impossible(name, "is " + kind + " from " + std::to_string(static_cast<int>(low)) + " to " +
                         std::to_string(static_cast<int>(high)) + ", and " + value->text +
                         " was read");
    return low;
  }
  return value->number;
}

double FigureReader::turns(const std::string& name, double low, double high) {
  return bare(name, low, high, "a number of turns");
}

double FigureReader::number(const std::string& name, double low, double high) {
  return bare(name, low, high, "a number");
}

double FigureReader::number_or(const std::string& name, double otherwise, double low, double high) {
  known_.insert(name);
  return has(name) ? number(name, low, high) : otherwise;
}

std::string FigureReader::text(const std::string& name) {
  const FigureValue* value = find(name, true, "in words");
  if (value == nullptr) {
    return {};
  }
  if (value->type != FigureValue::Type::text || value->text.empty() || value->text.size() > 512) {
    impossible(name, "is words, at most 512 bytes of them");
    return {};
  }
  if (printable(value->text) != value->text) {
    impossible(name, "holds a control character or a line's end");
    return {};
  }
  return value->text;
}

std::string FigureReader::text_or(const std::string& name, std::string otherwise) {
  known_.insert(name);
  return has(name) ? text(name) : otherwise;
}

std::string FigureReader::word(const std::string& name, const std::vector<std::string>& known) {
  const std::string written = text(name);
  if (written.empty() || std::ranges::find(known, written) != known.end()) {
    return written.empty() ? known.front() : written;
  }
  const std::string near = nearest_name(written, known);
  impossible(name, "is one of " + listed(known) + ", and \"" + written + "\" was read",
             near.empty() ? "" : "did you mean \"" + near + "\"?");
  return known.front();
}

std::string FigureReader::word_or(const std::string& name, const std::string& otherwise,
                                  const std::vector<std::string>& known) {
  known_.insert(name);
  return has(name) ? word(name, known) : otherwise;
}

std::vector<FigureReader> FigureReader::tables(const std::string& name) {
  std::vector<FigureReader> all;
  const FigureValue* value = find(name, false, "");
  if (value == nullptr) {
    return all;
  }
  if (value->type != FigureValue::Type::tables || value->tables.size() > 256) {
    impossible(name, "is a list of tables, [[part." + name + "]], at most 256 of them");
    return all;
  }
  for (std::size_t k = 0; k < value->tables.size(); ++k) {
    all.emplace_back(value->tables[k], file_, what_ + ", " + name + " " + std::to_string(k + 1),
                     *complaints_);
    all.back().around_ok_ = ok_;
  }
  return all;
}

void FigureReader::impossible(const std::string& name, const std::string& why, std::string hint) {
  const auto found = table_->values.find(name);
  const bool there = found != table_->values.end();
  complain(there ? found->second.line : table_->line, there ? found->second.column : table_->column,
           what_ + ": " + name + " " + why, std::move(hint));
}

bool FigureReader::must_be_less(const std::string& low_name, double low_m,
                                const std::string& high_name, double high_m) {
  if (low_m < high_m) {
    return true;
  }
  impossible(low_name, in_brackets(in_mm(low_m)) + " must be less than " + high_name + " (" +
                           in_mm(high_m) + ")");
  return false;
}

void FigureReader::finish(const std::string& of_what) {
  const std::vector<std::string> names(known_.begin(), known_.end());
  for (const auto& [name, value] : table_->values) {
    if (!known_.contains(name)) {
      const std::string near = nearest_name(name, names);
      complain(value.name_line, value.name_column,
               what_ + ": " + of_what + " has no figure \"" + name + "\"",
               near.empty() ? "it has " + listed(names) : "did you mean \"" + near + "\"?");
    }
  }
}

} // namespace lugline
