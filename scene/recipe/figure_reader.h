// One part's figures, read strictly.
//
// Every figure that is asked for is known; any other that stands in the table
// is a complaint (finish). A figure that is missing, of another kind, without
// its unit or out of bounds goes to the complaints with its line and column,
// and ok() turns false: what was handed back for it means nothing then. Lengths
// are metres, angles radians. Diameters are read as diameters.
#pragma once

#include "scene/quantity/complaint.h"
#include "scene/quantity/quantity.h"
#include "scene/recipe/figure_table.h"

#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace lugline {

class FigureReader {
public:
  /// what: how messages call it ("CC-BP", "CASE-01, groove 2"). Table and
  /// complaints must outlive the reader.
  FigureReader(const FigureTable& table, std::string file, std::string what,
               std::vector<Complaint>& complaints);

  [[nodiscard]] bool ok() const { return *ok_; }
  [[nodiscard]] bool has(const std::string& name) const { return table_->values.contains(name); }
  [[nodiscard]] const std::string& what() const { return what_; }

  /// A length above nothing.
  double length(const std::string& name);
  std::optional<double> length_if_given(const std::string& name);
  double length_or(const std::string& name, double otherwise_m);
  /// A place along the axis, or an offset: either side of nothing.
  double height(const std::string& name);
  double height_or(const std::string& name, double otherwise_m);
  double angle(const std::string& name);
  double angle_or(const std::string& name, double otherwise_rad);
  /// In SI, above nothing.
  double quantity(const std::string& name, Dimension dimension);
  int count(const std::string& name, int low, int high);
  int count_or(const std::string& name, int otherwise, int low, int high);
  double turns(const std::string& name, double low, double high);
  /// A bare number between two bounds, where the trade states no unit: a profile
  /// shift, a diametral pitch.
  double number(const std::string& name, double low, double high);
  double number_or(const std::string& name, double otherwise, double low, double high);
  std::string text(const std::string& name);
  std::string text_or(const std::string& name, std::string otherwise);
  /// One of the words; the first known word where there is a complaint.
  std::string word(const std::string& name, const std::vector<std::string>& known);
  std::string word_or(const std::string& name, const std::string& otherwise,
                      const std::vector<std::string>& known);
  /// The tables of [[part.name]]; each is finished by whoever reads it.
  std::vector<FigureReader> tables(const std::string& name);

  /// An impossible figure: a complaint at that figure.
  void impossible(const std::string& name, const std::string& why, std::string hint = {});
  /// A complaint unless low < high, naming both with their figures.
  bool must_be_less(const std::string& low_name, double low_m, const std::string& high_name,
                    double high_m);

  /// Complains of every figure that nobody asked for. Call it last.
  void finish(const std::string& of_what);

private:
  double bare(const std::string& name, double low, double high, const std::string& kind);
  const FigureValue* find(const std::string& name, bool required, std::string_view kind);
  std::optional<double> si(const std::string& name, Dimension dimension, bool required,
                           std::string_view kind);
  double positive(const std::string& name, std::optional<double> value, double otherwise);
  void complain(int line, int column, std::string message, std::string hint);

  const FigureTable* table_;
  std::string file_;
  std::string what_;
  std::vector<Complaint>* complaints_;
  std::set<std::string> known_;
  std::shared_ptr<bool> ok_;
  std::shared_ptr<bool> around_ok_; ///< of the table around this one; may be null
};

/// "142.00 mm", for messages.
std::string in_mm(double length_m);
/// "(142.00 mm)".
std::string in_brackets(const std::string& text);

} // namespace lugline
