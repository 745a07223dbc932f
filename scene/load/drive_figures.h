// Figures of a gear train read within the bounds that any such unit keeps, so that a slip of unit
// or of sign is told where it stands. Internal to scene/load. Values are SI.
//
// What is outside its bounds is a complaint, and the answer is empty.
#pragma once

#include "scene/load/draft.h"

#include <optional>
#include <string>

namespace lugline {

struct FigureBounds {
  Dimension dimension;
  double most_si = 0;
  const char* most_words = ""; ///< "1 m"
  bool may_be_nothing = false;
};

inline constexpr FigureBounds diameter_bounds{Dimension::length, 1, "1 m"};
inline constexpr FigureBounds bore_bounds{Dimension::length, 1, "1 m", true};
inline constexpr FigureBounds travel_bounds{Dimension::length, 0.2, "200 mm"};
inline constexpr FigureBounds rate_bounds{Dimension::stiffness, 1e7, "10000 N/mm"};
inline constexpr FigureBounds force_bounds{Dimension::force, 1e5, "100 kN", true};
inline constexpr FigureBounds torque_bounds{Dimension::torque, 1e5, "100 kN m"};
inline constexpr FigureBounds oil_bounds{Dimension::pressure, 1e7, "10 MPa", true};
inline constexpr FigureBounds air_bounds{Dimension::pressure, 1e6, "1 MPa"};
inline constexpr FigureBounds wrap_bounds{Dimension::angle, 31.41592653589793, "5 turns"};
inline constexpr FigureBounds volume_bounds{Dimension::volume, 2e-2, "20 L"};
inline constexpr FigureBounds hold_bounds{Dimension::time, 3600, "one hour"};

/// The figure, above nothing (or nothing, where the bounds say so) and at most the bound.
std::optional<double> figure_within(TableReader& table, const std::string& key,
                                    const FigureBounds& bounds);
/// The same, and its absence is a complaint.
std::optional<double> required_within(TableReader& table, const std::string& key,
                                      const FigureBounds& bounds);

/// Whether "clockwise" stands there; "counter-clockwise" is the other, and anything else a
/// complaint and empty. `asks` is what its absence leaves open: "which way does it run free?".
std::optional<bool> is_clockwise(TableReader& table, const std::string& key,
                                 const std::string& asks);

/// The pieces that `key` lists; a line of several pieces stands for all of them. Each is kept as a
/// reference, and its place under "key[i]" of the answer's own count.
std::vector<WrittenText> read_pieces(TableReader& table, const std::string& key, UnitDraft& draft);

void read_element(TableReader& table, UnitDraft& draft);

} // namespace lugline
