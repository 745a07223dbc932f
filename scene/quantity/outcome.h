// Outcome<T>: a value, or the words that say why there is none.
//
// For outside data only (files, command lines, typed figures): a failure is
// expected there and must be told to a person. A slip of our own is an assert.
// Owns what it holds. Reading value() of a failure, or problem() of a success,
// is a slip of the caller's and is asserted.
#pragma once

#include <cassert>
#include <optional>
#include <string>
#include <utility>

namespace lugline {

/// Why outside data was refused, in the words of the trade: what was read,
/// what was expected, and what to do.
struct Problem {
  std::string what;
};

template <class T>
class Outcome {
public:
  Outcome(T value) : value_(std::move(value)) {}
  Outcome(Problem problem) : problem_(std::move(problem)) {}

  [[nodiscard]] bool ok() const { return value_.has_value(); }
  explicit operator bool() const { return ok(); }

  [[nodiscard]] const T& value() const& {
    assert(value_.has_value());
    return *value_;
  }
  [[nodiscard]] T&& value() && {
    assert(value_.has_value());
    return std::move(*value_);
  }
  [[nodiscard]] const std::string& problem() const {
    assert(!value_.has_value());
    return problem_.what;
  }

private:
  std::optional<T> value_;
  Problem problem_;
};

} // namespace lugline
