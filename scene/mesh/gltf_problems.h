// The list of what is wrong with a model, and how a stranger's words are quoted in it.
//
// Used inside this room alone.
#pragma once

#include <nlohmann/json.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace lugline::gltf {

/// Text from a file in quotes: short, its control characters escaped, its bad UTF-8 replaced.
std::string in_quotes(const std::string& text);

class Problems {
public:
  explicit Problems(std::size_t most) : most_(most) {}

  void add(std::string what);
  [[nodiscard]] bool none() const { return list_.empty(); }
  [[nodiscard]] bool full() const { return list_.size() > most_; }
  [[nodiscard]] std::vector<std::string> take() { return std::move(list_); }

private:
  std::size_t most_;
  std::vector<std::string> list_;
};

/// Members of one JSON object of the file, asked for by name. Whatever is not as
/// it should be is added to the problems, with the place, and answered by nothing.
class Members {
public:
  /// place: "buffer view 3". The value must outlive this.
  Members(const nlohmann::json& value, std::string place, Problems& problems);

  [[nodiscard]] bool is_object() const { return value_.is_object(); }
  [[nodiscard]] bool has(const char* name) const { return value_.contains(name); }
  [[nodiscard]] const std::string& place() const { return place_; }
  [[nodiscard]] const nlohmann::json& value() const { return value_; }
  void complain(const std::string& what) const { problems_.add(place_ + " " + what); }

  /// A whole number from 0; a missing one is a problem.
  [[nodiscard]] std::optional<std::uint64_t> whole(const char* name) const;
  /// … or the default where it is missing.
  [[nodiscard]] std::optional<std::uint64_t> whole_or(const char* name,
                                                      std::uint64_t otherwise) const;
  /// One of `size` things called `what`: "uses buffer view 7 of 2".
  [[nodiscard]] std::optional<std::uint64_t> index(const char* name, std::uint64_t size,
                                                   const char* what) const;
  /// Text, empty where it is missing.
  [[nodiscard]] std::optional<std::string> text(const char* name) const;
  [[nodiscard]] std::optional<bool> truth_or_no(const char* name) const;
  /// So many finite numbers.
  [[nodiscard]] std::optional<std::vector<double>> numbers(const char* name,
                                                           std::size_t count) const;
  /// An array; empty where it is missing or is none.
  [[nodiscard]] const nlohmann::json& array(const char* name) const;
  /// An array of indices, as index() does one.
  [[nodiscard]] std::optional<std::vector<std::uint64_t>>
  indices(const char* name, std::uint64_t size, const char* what) const;

private:
  [[nodiscard]] std::optional<std::uint64_t> index_of(const nlohmann::json& value,
                                                      std::uint64_t size, const char* what) const;

  const nlohmann::json& value_;
  std::string place_;
  Problems& problems_;
};

/// What was written, short enough to be quoted.
std::string shown_in_model(const nlohmann::json& value);

} // namespace lugline::gltf
