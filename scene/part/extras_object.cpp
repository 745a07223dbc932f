#include "scene/part/extras_object.h"

#include "scene/quantity/complaint.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

namespace lugline::extras_reading {

using nlohmann::json;

void refuse(const std::string& path, const std::string& what) {
  throw Refused{path + ": " + what};
}

std::string shown(const json& value) {
  constexpr std::size_t most = 63; // three for the dots
  if (value.is_object()) {
    return "an object";
  }
  if (value.is_array()) {
    return "a list";
  }
  if (value.is_string() && value.get_ref<const std::string&>().size() > most) {
    return shown(json(value.get_ref<const std::string&>().substr(0, most - 3) + "..."));
  }
  return value.dump(-1, ' ', true, json::error_handler_t::replace);
}

std::string shown_figure(double value) {
  return json(value).dump();
}

ExtrasObject::ExtrasObject(const json& value, std::string path,
                           std::initializer_list<const char*> known)
    : value_(value), path_(std::move(path)) {
  if (!value.is_object()) {
    refuse(path_, "an object was expected, read " + shown(value));
  }
  const std::vector<std::string> names(known.begin(), known.end());
  for (const auto& [name, member] : value.items()) {
    if (std::ranges::find(names, name) == names.end()) {
      const std::string near = nearest_name(name.substr(0, 63), names);
      refuse(path_, "unknown member " + shown(json(name)) +
                        (near.empty() ? "" : " (did you mean \"" + near + "\"?)"));
    }
  }
}

const json& ExtrasObject::member(const char* name) const {
  const auto found = value_.find(name);
  if (found == value_.end()) {
    refuse(path_, std::string("\"") + name + "\" is missing");
  }
  return *found;
}

std::string ExtrasObject::text(const char* name) const {
  const json& value = member(name);
  if (!value.is_string()) {
    refuse(at(name), "text was expected, read " + shown(value));
  }
  const auto& text = value.get_ref<const std::string&>();
  if (text.size() > static_cast<std::size_t>(extras_limits.text_bytes)) {
    refuse(at(name), "text of " + std::to_string(text.size()) + " bytes, at most " +
                         std::to_string(extras_limits.text_bytes) + " are read");
  }
  if (printable(text) != text) {
    refuse(at(name), "text with a control character or a line's end in it");
  }
  return text;
}

std::string ExtrasObject::text_or_none(const char* name) const {
  return has(name) ? text(name) : std::string();
}

std::string ExtrasObject::id(const char* name) const {
  std::string value = text(name);
  if (value.empty()) {
    refuse(at(name), "an empty name; each needs one of its own");
  }
  return value;
}

bool ExtrasObject::truth(const char* name) const {
  const json& value = member(name);
  if (!value.is_boolean()) {
    refuse(at(name), "true or false was expected, read " + shown(value));
  }
  return value.get<bool>();
}

double ExtrasObject::number(const char* name) const {
  const json& value = member(name);
  if (!value.is_number()) {
    refuse(at(name), "a number was expected, read " + shown(value));
  }
  const auto number = value.get<double>();
  if (!std::isfinite(number)) {
    refuse(at(name), "a number that is not finite");
  }
  return number;
}

int ExtrasObject::whole(const char* name, int low, int high) const {
  const json& value = member(name);
  if (!value.is_number_integer()) {
    refuse(at(name), "a whole number was expected, read " + shown(value));
  }
  // Read as a double: exact within the bounds, and no wrapping round beyond them.
  const auto number = value.get<double>();
  if (number < low || number > high) {
    refuse(at(name), "read " + shown(value) + ", expected " + std::to_string(low) + " to " +
                         std::to_string(high));
  }
  return static_cast<int>(number);
}

double ExtrasObject::length_m(const char* name) const {
  return within(name, number(name), extras_limits.length_mm, " mm") / 1e3;
}

double ExtrasObject::length_m_or_0(const char* name) const {
  return has(name) ? length_m(name) : 0.0;
}

double ExtrasObject::size_m(const char* name) const {
  const double length = length_m(name);
  if (!(length > 0)) {
    refuse(at(name), "read " + shown(member(name)) + ", expected more than 0 mm");
  }
  return length;
}

double ExtrasObject::not_negative_m(const char* name) const {
  const double length = length_m(name);
  if (length < 0) {
    refuse(at(name), "read " + shown(member(name)) + ", expected no less than 0 mm");
  }
  return length;
}

double ExtrasObject::angle_rad(const char* name) const {
  return within(name, number(name), extras_limits.angle_deg, " deg") * (std::numbers::pi / 180);
}

double ExtrasObject::angle_rad_or_0(const char* name) const {
  return has(name) ? angle_rad(name) : 0.0;
}

void ExtrasObject::refuse_unless_below(const char* low, const char* high, bool may_be_equal) const {
  const double low_m = length_m(low);
  const double high_m = length_m(high);
  if (low_m < high_m || (may_be_equal && low_m == high_m)) {
    return;
  }
  refuse(path_, std::string(high) + " (" + shown(member(high)) + ") must be " +
                    (may_be_equal ? "no less" : "more") + " than " + low + " (" +
                    shown(member(low)) + ")");
}

const json& ExtrasObject::checked_list(const char* name) const {
  const json& list = member(name);
  if (!list.is_array()) {
    refuse(at(name), "a list was expected, read " + shown(list));
  }
  if (list.size() > static_cast<std::size_t>(extras_limits.entries)) {
    refuse(at(name), std::to_string(list.size()) + " entries, at most " +
                         std::to_string(extras_limits.entries) + " are read");
  }
  return list;
}

double ExtrasObject::within(const char* name, double value, double most, const char* unit) const {
  if (std::abs(value) > most) {
    refuse(at(name), "read " + shown_figure(value) + ", expected within " + shown_figure(most) +
                         unit + " either way");
  }
  return value;
}

} // namespace lugline::extras_reading
