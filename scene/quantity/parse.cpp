#include "scene/quantity/quantity.h"
#include "scene/quantity/units.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <optional>
#include <system_error>
#include <utility>

namespace lugline {

namespace {

// Nobody writes a longer one; files come from strangers.
constexpr std::size_t longest_text = 200;
constexpr std::size_t longest_quoted = 60;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// For messages: short, printable, and valid UTF-8 whatever was read.
std::string quoted(std::string_view text) {
  std::string result = "\"";
  std::size_t i = 0;
  while (i < text.size() && result.size() < longest_quoted) {
    const auto lead = static_cast<unsigned char>(text[i]);
    const std::size_t length = lead < 0x80                   ? 1
                               : lead >= 0xC2 && lead < 0xE0 ? 2
                               : lead >= 0xE0 && lead < 0xF0 ? 3
                                                             : 0;
    bool sound = length > 0 && i + length <= text.size() && lead >= 0x20 && lead != 0x7F;
    for (std::size_t k = 1; sound && k < length; ++k)
      sound = (static_cast<unsigned char>(text[i + k]) & 0xC0) == 0x80;
    // Overlong and surrogate forms of three bytes.
    if (sound && length == 3) {
      const auto second = static_cast<unsigned char>(text[i + 1]);
      sound = !(lead == 0xE0 && second < 0xA0) && !(lead == 0xED && second >= 0xA0);
    }
    if (sound)
      result.append(text, i, length);
    else
      result += '?';
    i += sound ? length : 1;
  }
  if (i < text.size())
    result += "...";
  return result + '"';
}

std::string with_article(Dimension dimension) {
  return (dimension == Dimension::angle ? "an " : "a ") + std::string(word_for(dimension));
}

std::string how_written(Dimension dimension) {
  return with_article(dimension) + " is written in " + unit_names(dimension);
}

// The two units most likely meant, for examples.
std::array<std::string, 2> usual_units(Dimension dimension) {
  switch (dimension) {
  case Dimension::length:
    return {"mm", "in"};
  case Dimension::angle:
    return {"deg", "rad"};
  case Dimension::force:
    return {"N", "lbf"};
  case Dimension::pressure:
    return {"kPa", "psi"};
  case Dimension::torque:
    return {"N m", "lbf ft"};
  case Dimension::mass:
    return {"kg", "lb"};
  case Dimension::stiffness:
    return {"N/mm", "lbf/in"};
  case Dimension::temperature:
    return {"degC", "degF"};
  case Dimension::speed_of_turn:
    return {"rpm", "rad/s"};
  case Dimension::time:
    return {"s", "min"};
  case Dimension::volume:
    return {"mL", "in3"};
  case Dimension::density:
    return {"kg/m3", "lb/ft3"};
  }
  assert(false);
  return {};
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ')
    text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ')
    text.remove_suffix(1);
  return text;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

// What a typesetter or a spreadsheet makes of a space, a minus and a plus-minus.
std::string plain_characters(std::string_view text) {
  std::string result(text);
  for (const std::string_view space : {"\t", "\u00A0", "\u2009", "\u202F"})
    replace_all(result, space, " ");
  replace_all(result, "\u2212", "-");
  replace_all(result, "+/-", "±");
  replace_all(result, "+-", "±");
  return result;
}

// A figure and what follows it, not yet understood.
struct Split {
  std::string figure;
  std::string unit;
};

// The figure runs as far as digits go, with whatever marks people put between them.
Split split_figure(std::string_view text) {
  std::size_t end = 0;
  if (end < text.size() && (text[end] == '+' || text[end] == '-'))
    ++end;
  const auto digit_at = [&](std::size_t at) { return at < text.size() && is_digit(text[at]); };
  while (end < text.size()) {
    const char c = text[end];
    const bool mark = c == '.' || c == ',';
    const bool group_mark = (c == ' ' || c == '_' || c == '\'') && end > 0 &&
                            is_digit(text[end - 1]) && digit_at(end + 1);
    const bool exponent_sign =
        digit_at(end + 1) || (end + 1 < text.size() &&
                              (text[end + 1] == '-' || text[end + 1] == '+') && digit_at(end + 2));
    if ((c == 'e' || c == 'E') && end > 0 && exponent_sign) {
      end += 2;
      while (digit_at(end))
        ++end;
      break;
    }
    if (!is_digit(c) && !mark && !group_mark)
      break;
    ++end;
  }
  return {std::string(text.substr(0, end)), std::string(trimmed(text.substr(end)))};
}

std::string figure_and_unit(const std::string& figure, const std::string& unit) {
  return quoted(unit.empty() ? figure : figure + ' ' + unit);
}

std::string without_marks(const std::string& figure, std::size_t decimal_at) {
  std::string result;
  for (std::size_t i = 0; i < figure.size(); ++i) {
    if (i == decimal_at)
      result += '.';
    else if (figure[i] != '.' && figure[i] != ',' && figure[i] != ' ' && figure[i] != '_' &&
             figure[i] != '\'')
      result += figure[i];
  }
  return result;
}

// What is wrong with the marks between a figure's digits, or nothing.
std::optional<std::string> wrong_marks(const Split& read) {
  const std::string& figure = read.figure;
  constexpr std::size_t none = std::string::npos;
  const std::size_t first = figure.find_first_of(".,_' ");
  const std::size_t last = figure.find_last_of(".,_' ");
  if (first == none || (first == last && figure[first] == '.'))
    return std::nullopt;
  if (first == last && figure[first] == ',') {
    const std::size_t whole = figure.find_first_of("0123456789");
    const std::size_t behind = figure.size() - last - 1;
    if (behind == 3 && last > whole && last - whole <= 3 && figure[whole] != '0')
      return "has a comma that may mark decimals or thousands: write " +
             figure_and_unit(without_marks(figure, last), read.unit) + " or " +
             figure_and_unit(without_marks(figure, none), read.unit);
    return "has a decimal comma: write " + figure_and_unit(without_marks(figure, last), read.unit);
  }
  if (figure.find_first_of(",_' ") == none)
    return "has more than one decimal point";
  const char decimal = figure[last];
  const bool has_decimal = (decimal == '.' || decimal == ',') && figure.find(decimal) == last;
  return "has marks between its digits: write " +
         figure_and_unit(without_marks(figure, has_decimal ? last : none), read.unit);
}

std::optional<double> number_in(std::string_view text) {
  if (!text.empty() && text.front() == '+')
    text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size())
    return std::nullopt;
  return value;
}

// "1/2 in", "1 1/2 in": what is wrong, with the decimal to write.
std::optional<std::string> written_as_fraction(const Split& read) {
  if (read.unit.size() < 2 || read.unit[0] != '/' || !is_digit(read.unit[1]))
    return std::nullopt;
  const Split below = split_figure(std::string_view(read.unit).substr(1));
  const std::size_t gap = read.figure.find(' ');
  const auto whole = gap == std::string::npos ? 0.0 : number_in(read.figure.substr(0, gap));
  const auto above =
      number_in(gap == std::string::npos ? read.figure : read.figure.substr(gap + 1));
  const auto under = number_in(below.figure);
  std::string words = "is a fraction: write it as a decimal";
  if (whole && above && under && *under != 0) {
    std::array<char, 40> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(),
                                   *whole + *above / *under, std::chars_format::general, 6)
                         .ptr;
    words += ", " + figure_and_unit(std::string(buffer.data(), end), below.unit);
  }
  return words;
}

std::string words_without_figure(std::string_view part) {
  std::string low(part.substr(0, 4));
  std::transform(low.begin(), low.end(), low.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  if (!low.empty() && (low[0] == '+' || low[0] == '-'))
    low.erase(0, 1);
  if (low.starts_with("inf") || low.starts_with("nan"))
    return "is not a finite figure";
  if (find_unit(part) != nullptr)
    return "has a unit but no figure before it";
  return "does not begin with a figure";
}

struct Figure {
  double value = 0;
  std::string figure; ///< as written
  std::string unit;   ///< as written, perhaps empty
};

// Problems here are words to follow the quoted text.
Outcome<Figure> read_figure(std::string_view part) {
  const Split read = split_figure(part);
  if (read.figure.find_first_of("0123456789") == std::string::npos)
    return Problem{words_without_figure(part)};
  if (const auto words = written_as_fraction(read))
    return Problem{*words};
  if (const auto words = wrong_marks(read))
    return Problem{*words};
  const std::optional<double> value = number_in(read.figure);
  if (!value || !std::isfinite(*value))
    return Problem{"is beyond the largest or the smallest figure that can be held"};
  return Figure{*value, read.figure, read.unit};
}

std::string words_for_bare(const Figure& read, Dimension expected) {
  const auto [metric, inch] = usual_units(expected);
  return "is a bare number: write " + figure_and_unit(read.figure, metric) + " or " +
         figure_and_unit(read.figure, inch);
}

std::string words_for_unknown(const Figure& read, Dimension expected) {
  if (read.unit.find('+') != std::string::npos)
    return "has unequal limits, which are not read: write the middle figure and half the width, "
           "like \"1.98 mm +/- 0.02 mm\"";
  for (std::size_t i = 1; i < read.unit.size(); ++i)
    if (read.unit[i - 1] == ' ' && is_digit(read.unit[i]))
      return "has a second figure after the unit: write one figure in one unit";
  const std::string hint = unit_hint(read.unit, expected);
  if (!hint.empty() && read.unit == "\"")
    return "has an inch mark for its unit: " + hint;
  return "has a unit that is not known, " + quoted(read.unit) + ": " +
         (hint.empty() ? how_written(expected) : hint);
}

std::string words_for_wrong_dimension(const Figure& read, const UnitOfMeasure& unit,
                                      Dimension expected) {
  std::string words =
      "is " + with_article(unit.dimension) + " where " + with_article(expected) + " was expected: ";
  // The two that the trade itself mixes up: a mass and its weight.
  const bool weight = expected == Dimension::force && unit.dimension == Dimension::mass;
  if (weight && (unit.name == "kg" || unit.name == "lb"))
    return words + "write " + figure_and_unit(read.figure, std::string(unit.name) + 'f');
  const bool of_weight = expected == Dimension::mass && unit.dimension == Dimension::force;
  if (of_weight && (unit.name == "kgf" || unit.name == "lbf"))
    return words + "write " +
           figure_and_unit(read.figure, std::string(unit.name.substr(0, unit.name.size() - 1)));
  return words + how_written(expected);
}

// The unit of a figure that must have one.
Outcome<const UnitOfMeasure*> unit_of(const Figure& read, Dimension expected) {
  if (read.unit.empty())
    return Problem{words_for_bare(read, expected)};
  const UnitOfMeasure* unit = find_unit(read.unit);
  if (unit == nullptr)
    return Problem{words_for_unknown(read, expected)};
  if (unit->dimension != expected)
    return Problem{words_for_wrong_dimension(read, *unit, expected)};
  return unit;
}

// The half width after "+/-", in SI. `read` is the figure before it; where that has no
// unit of its own it is given the tolerance's.
Outcome<double> read_tolerance(std::string_view part, Figure& read, Dimension expected) {
  if (part.empty())
    return Problem{"has nothing after its +/-"};
  const Outcome<Figure> half = read_figure(part);
  if (!half)
    return Problem{half.problem()};
  if (half.value().figure[0] == '-' || half.value().figure[0] == '+')
    return Problem{"has a sign on its tolerance: the half width after +/- has none"};
  if (half.value().unit.empty() && !read.unit.empty())
    return Problem{
        "has a bare number for its tolerance: write " +
        quoted(read.figure + ' ' + read.unit + " +/- " + half.value().figure + ' ' + read.unit)};
  const Outcome<const UnitOfMeasure*> unit = unit_of(half.value(), expected);
  if (!unit)
    return Problem{unit.problem()};
  if (read.unit.empty())
    read.unit = half.value().unit;
  return unit.value()->difference_to_si(half.value().value);
}

Outcome<Quantity> read_quantity(std::string_view text, Dimension expected) {
  constexpr std::string_view plus_minus = "±";
  const std::size_t sign = text.find(plus_minus);
  Outcome<Figure> figure = read_figure(trimmed(text.substr(0, sign)));
  if (!figure)
    return Problem{figure.problem()};
  Figure read = std::move(figure).value();

  Quantity quantity;
  quantity.dimension = expected;
  if (sign != std::string_view::npos) {
    const std::string_view after = trimmed(text.substr(sign + plus_minus.size()));
    if (after.find(plus_minus) != std::string_view::npos)
      return Problem{"has more than one +/-"};
    const Outcome<double> half = read_tolerance(after, read, expected);
    if (!half)
      return Problem{half.problem()};
    quantity.plus_minus_si = half.value();
  }

  const Outcome<const UnitOfMeasure*> unit = unit_of(read, expected);
  if (!unit)
    return Problem{unit.problem()};
  quantity.si = unit.value()->to_si(read.value);
  if (!std::isfinite(quantity.si) || !std::isfinite(quantity.plus_minus_si))
    return Problem{"is beyond the largest figure that can be held"};
  if (expected == Dimension::temperature && quantity.si < 0)
    return Problem{"is below absolute zero"};
  quantity.unit = read.unit;
  return quantity;
}

} // namespace

Outcome<Quantity> parse_quantity(std::string_view text, Dimension expected) {
  const auto [metric, inch] = usual_units(expected);
  if (text.size() > longest_text)
    return Problem{quoted(text) + " is too long to be " + with_article(expected)};
  const std::string plain = plain_characters(text);
  const std::string_view meat = trimmed(plain);
  if (meat.empty())
    return Problem{"nothing is written where " + with_article(expected) +
                   " was expected, like \"1 " + metric + "\" or \"1 " + inch + '"'};
  Outcome<Quantity> quantity = read_quantity(meat, expected);
  if (!quantity)
    return Problem{quoted(text) + ' ' + quantity.problem()};
  return quantity;
}

Outcome<Quantity> parse_bench_quantity(std::string_view text, Dimension expected) {
  constexpr double longest_m = 10;
  constexpr double shortest_m = 1e-7;
  constexpr double most_turns_rad = 100 * 2 * std::numbers::pi;
  Outcome<Quantity> quantity = parse_quantity(text, expected);
  if (!quantity)
    return quantity;
  const double size = std::fabs(quantity.value().si);
  const double doubt = quantity.value().plus_minus_si;
  if (expected == Dimension::length && (size > longest_m || doubt > longest_m))
    return Problem{quoted(text) + " is beyond 10 m, and nothing on a bench is: another unit?"};
  if (expected == Dimension::length && size > 0 && size < shortest_m)
    return Problem{quoted(text) +
                   " is below 0.0001 mm, and nothing is made to that: another unit?"};
  if (expected == Dimension::angle && (size > most_turns_rad || doubt > most_turns_rad))
    return Problem{quoted(text) + " is beyond 100 turns"};
  return quantity;
}

} // namespace lugline
