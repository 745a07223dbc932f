#include "scene/mesh/gltf_problems.h"

#include <cmath>

namespace lugline::gltf {

using nlohmann::json;

std::string in_quotes(const std::string& text) {
  constexpr std::size_t most = 60;
  const std::string part = text.size() > most ? text.substr(0, most) + "..." : text;
  const std::string dumped = json(part).dump(-1, ' ', false, json::error_handler_t::replace);
  // JSON leaves DEL and the second set of control characters as they are; terminals obey them.
  std::string safe;
  for (std::size_t i = 0; i < dumped.size(); ++i) {
    const auto byte = static_cast<unsigned char>(dumped[i]);
    const auto next = i + 1 < dumped.size() ? static_cast<unsigned char>(dumped[i + 1]) : 0;
    if (byte == 0x7f) {
      safe += '?';
    } else if (byte == 0xc2 && next >= 0x80 && next < 0xa0) {
      safe += '?';
      ++i;
    } else {
      safe += dumped[i];
    }
  }
  return safe;
}

std::string shown_in_model(const json& value) {
  if (value.is_object()) {
    return "an object";
  }
  if (value.is_array()) {
    return "a list";
  }
  return value.is_string() ? in_quotes(value.get_ref<const std::string&>()) : value.dump();
}

void Problems::add(std::string what) {
  if (list_.size() < most_) {
    list_.push_back(std::move(what));
  } else if (list_.size() == most_) {
    list_.emplace_back("… and more; these first");
  }
}

Members::Members(const json& value, std::string place, Problems& problems)
    : value_(value), place_(std::move(place)), problems_(problems) {
  if (!value.is_object()) {
    complain("is " + shown_in_model(value) + "; an object was expected");
  }
}

std::optional<std::uint64_t> Members::whole(const char* name) const {
  if (!has(name)) {
    if (is_object()) {
      complain(std::string("has no ") + name);
    }
    return std::nullopt;
  }
  return whole_or(name, 0);
}

std::optional<std::uint64_t> Members::whole_or(const char* name, std::uint64_t otherwise) const {
  if (!has(name)) {
    return otherwise;
  }
  const json& value = value_[name];
  if (!value.is_number_unsigned()) {
    complain(std::string("has ") + name + " " + shown_in_model(value) +
             "; a whole number from 0 was expected");
    return std::nullopt;
  }
  return value.get<std::uint64_t>();
}

std::optional<std::uint64_t> Members::index_of(const json& value, std::uint64_t size,
                                               const char* what) const {
  if (!value.is_number_unsigned() || value.get<std::uint64_t>() >= size) {
    complain(std::string("uses ") + what + " " + shown_in_model(value) + " of " +
             std::to_string(size));
    return std::nullopt;
  }
  return value.get<std::uint64_t>();
}

std::optional<std::uint64_t> Members::index(const char* name, std::uint64_t size,
                                            const char* what) const {
  if (!has(name)) {
    if (is_object()) {
      complain(std::string("names no ") + what);
    }
    return std::nullopt;
  }
  return index_of(value_[name], size, what);
}

std::optional<std::string> Members::text(const char* name) const {
  if (!has(name)) {
    return std::string();
  }
  if (!value_[name].is_string()) {
    complain(std::string("has ") + name + " " + shown_in_model(value_[name]) +
             "; text was expected");
    return std::nullopt;
  }
  return value_[name].get<std::string>();
}

std::optional<bool> Members::truth_or_no(const char* name) const {
  if (!has(name)) {
    return false;
  }
  if (!value_[name].is_boolean()) {
    complain(std::string("has ") + name + " " + shown_in_model(value_[name]) +
             "; true or false was expected");
    return std::nullopt;
  }
  return value_[name].get<bool>();
}

std::optional<std::vector<double>> Members::numbers(const char* name, std::size_t count) const {
  const json& list = value_[name];
  bool sound = list.is_array() && list.size() == count;
  std::vector<double> numbers;
  for (std::size_t i = 0; sound && i < count; ++i) {
    sound = list[i].is_number() && std::isfinite(list[i].get<double>());
    if (sound) {
      numbers.push_back(list[i].get<double>());
    }
  }
  if (!sound) {
    complain(std::string("has a ") + name + " that is not " + std::to_string(count) +
             " finite numbers");
    return std::nullopt;
  }
  return numbers;
}

const json& Members::array(const char* name) const {
  static const json none = json::array();
  if (!has(name)) {
    return none;
  }
  if (!value_[name].is_array()) {
    complain(std::string("has ") + name + " " + shown_in_model(value_[name]) +
             "; a list was expected");
    return none;
  }
  return value_[name];
}

std::optional<std::vector<std::uint64_t>> Members::indices(const char* name, std::uint64_t size,
                                                           const char* what) const {
  std::vector<std::uint64_t> found;
  for (const json& value : array(name)) {
    const auto index = index_of(value, size, what);
    if (!index) {
      return std::nullopt;
    }
    found.push_back(*index);
  }
  return found;
}

} // namespace lugline::gltf
