// What is chosen in the four views of figures: which pack, which play, which range and elements,
// which piston at which pressure, and what the stopwatch shows.
//
// Plain values, a part of the view's state; changed only by wishes (viewer/app/reduce.h). SI. Ids
// that are empty or unknown stand for the first that there is.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lugline {

enum class FiguresKind { pack, play, train, air };
/// "pack", "play", "train", "air".
std::string_view word_for(FiguresKind kind);
std::optional<FiguresKind> figures_kind_from(std::string_view word);

/// A figure as it is typed, and what it gives.
struct TypedFigure {
  std::string text;         ///< as it stands in the field
  std::optional<double> si; ///< none: nothing was typed, or nothing that is a figure
  std::string problem;      ///< why the text gives none; empty where it does
  friend bool operator==(const TypedFigure&, const TypedFigure&) = default;
};

struct FiguresChoice {
  std::string pack;
  std::string play;
  std::string range;
  /// Applied by hand, in place of what the range applies.
  std::optional<std::vector<std::string>> on;
  bool coasting = false;
  TypedFigure input_Nm; ///< torque at the input; none: the range's own
  std::string element;  ///< of the air check
  TypedFigure air_Pa;   ///< none: the unit's test pressure
  double watch_s = 0;   ///< what the stopwatch shows
  bool watch_runs = false;
  bool working = false; ///< gear train: the working in place of the picture
  friend bool operator==(const FiguresChoice&, const FiguresChoice&) = default;
};

} // namespace lugline
