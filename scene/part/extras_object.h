// One JSON object of a component's extras, read member by member.
//
// Used inside this room alone. Lengths come out in metres and angles in radians.
// Whatever is wrong is thrown as Refused, with the JSON path, and caught by
// component_from_extras: callers of the room never see an exception.
#pragma once

#include "scene/part/extras.h"

#include <nlohmann/json.hpp>

#include <initializer_list>
#include <string>

namespace lugline::extras_reading {

inline constexpr ExtrasLimits extras_limits;

/// The first thing that is wrong with the extras.
struct Refused {
  std::string what;
};

[[noreturn]] void refuse(const std::string& path, const std::string& what);

/// What was written, short enough to be quoted. What is nested is named and not
/// shown: it may be nested as deep as a stranger likes.
std::string shown(const nlohmann::json& value);

/// A figure as short as it can be written.
std::string shown_figure(double value);

/// One object with its path. Every member that is read is asked for by name;
/// others are refused, since a misspelt name would be lost in silence.
class ExtrasObject {
public:
  ExtrasObject(const nlohmann::json& value, std::string path,
               std::initializer_list<const char*> known);

  [[nodiscard]] bool has(const char* name) const { return value_.contains(name); }
  [[nodiscard]] std::string at(const char* name) const { return path_ + "." + name; }
  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] const nlohmann::json& member(const char* name) const;

  [[nodiscard]] std::string text(const char* name) const;
  [[nodiscard]] std::string text_or_none(const char* name) const;
  [[nodiscard]] std::string id(const char* name) const; ///< text that is not empty
  [[nodiscard]] bool truth(const char* name) const;
  [[nodiscard]] double number(const char* name) const; ///< finite
  [[nodiscard]] int whole(const char* name, int low, int high) const;

  [[nodiscard]] double length_m(const char* name) const;
  [[nodiscard]] double length_m_or_0(const char* name) const;
  [[nodiscard]] double size_m(const char* name) const; ///< more than 0
  [[nodiscard]] double not_negative_m(const char* name) const;
  [[nodiscard]] double angle_rad(const char* name) const;
  [[nodiscard]] double angle_rad_or_0(const char* name) const;

  /// Refuses unless the first is less than the second, or equal where that is allowed.
  void refuse_unless_below(const char* low, const char* high, bool may_be_equal) const;

  /// Calls read(entry, its path) for each entry of an optional list.
  template <class Read>
  void each(const char* name, Read read) const {
    if (!has(name)) {
      return;
    }
    const nlohmann::json& list = checked_list(name);
    for (std::size_t i = 0; i < list.size(); ++i) {
      read(list[i], at(name) + "[" + std::to_string(i) + "]");
    }
  }

private:
  [[nodiscard]] const nlohmann::json& checked_list(const char* name) const;
  [[nodiscard]] double within(const char* name, double value, double most, const char* unit) const;

  const nlohmann::json& value_;
  std::string path_;
};

} // namespace lugline::extras_reading
