#include "viewer/stage/typed.h"

#include <algorithm>

namespace lugline {

namespace {

// Letters, and the marks by which inch is also written.
bool may_be_a_unit(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '"' || c == '\'';
}

} // namespace

bool is_blank(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c == ' ' || c == '\t'; });
}

Outcome<Quantity> typed_length(std::string_view text, LengthUnit shown) {
  std::string whole(text);
  if (!is_blank(text) && std::none_of(text.begin(), text.end(), may_be_a_unit)) {
    whole += shown == LengthUnit::inch ? " in" : " mm";
  }
  return parse_quantity(whole, Dimension::length);
}

Outcome<Quantity> typed_figure(std::string_view text, Dimension dimension, LengthUnit shown) {
  std::string whole(text);
  if (!is_blank(text) && std::none_of(text.begin(), text.end(), may_be_a_unit)) {
    const bool inch = shown == LengthUnit::inch;
    whole += dimension == Dimension::torque ? (inch ? " lbf ft" : " N m") : inch ? " psi" : " kPa";
  }
  return parse_quantity(whole, dimension);
}

} // namespace lugline
