#include "viewer/stage/figure_setting.h"

#include "viewer/stage/page_parts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <type_traits>
#include <utility>

namespace lugline {

namespace {

bool letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
         static_cast<unsigned char>(c) >= 0x80;
}

struct Sign {
  std::string_view plain;
  std::string_view set;
  bool word; ///< only where no letter stands beside it
};
constexpr std::array<Sign, 15> signs = {{{"+/-", "±", false},
                                         {"^2", "²", false},
                                         {"^3", "³", false},
                                         {"mm2", "mm²", true},
                                         {"mm3", "mm³", true},
                                         {"in2", "in²", true},
                                         {"in3", "in³", true},
                                         {"degC", "°C", true},
                                         {"degF", "°F", true},
                                         {"pi", "π", true},
                                         {" - ", " − ", false},
                                         {" * ", " × ", false},
                                         {" x ", " × ", false},
                                         {"outer2", "outer²", true},
                                         {"inner2", "inner²", true}}};

const Sign* sign_at(const std::string& words, std::size_t at) {
  for (const Sign& sign : signs) {
    if (words.compare(at, sign.plain.size(), sign.plain) != 0) {
      continue;
    }
    const std::size_t after = at + sign.plain.size();
    const bool alone =
        (at == 0 || !letter(words[at - 1])) && (after >= words.size() || !letter(words[after]));
    if (!sign.word || alone) {
      return &sign;
    }
  }
  return nullptr;
}

bool begins_a_number(const std::string& text) {
  return !text.empty() && (text[0] == '-' || (text[0] >= '0' && text[0] <= '9'));
}

double width_of(const std::string& words, const Lettering& type, const TextRuler& ruler) {
  return words.empty() ? 0 : ruler.width_px(words, type.size_px, type.weight, type.even_digits);
}

double before_unit(const Lettering& type) {
  return 0.30 * type.size_px;
}

void put(Drawing2d& drawing, const std::string& words, const Lettering& type, double x_px,
         double baseline_px, TextAlign align) {
  if (words.empty()) {
    return;
  }
  TextShape text;
  text.words = words;
  text.size_px = type.size_px;
  text.weight = type.weight;
  text.colour = type.colour;
  text.even_digits = true;
  text.align = align;
  text.at = {x_px, baseline_px};
  drawing.add(std::move(text));
}

void move_shape(FlatShape& shape, double x_px, double y_px) {
  const auto move = [&](PointPx& point) {
    point.x_px += x_px;
    point.y_px += y_px;
  };
  std::visit(
      [&](auto& one) {
        using Shape = std::decay_t<decltype(one)>;
        if constexpr (std::is_same_v<Shape, RectShape> || std::is_same_v<Shape, HatchShape>) {
          one.x_px += x_px;
          one.y_px += y_px;
        } else if constexpr (std::is_same_v<Shape, LineShape>) {
          move(one.from);
          move(one.to);
        } else if constexpr (std::is_same_v<Shape, CircleShape>) {
          move(one.centre);
        } else if constexpr (std::is_same_v<Shape, TextShape>) {
          move(one.at);
        } else {
          std::ranges::for_each(one.points, move);
        }
      },
      shape);
}

/// A step of 1, 2 or 5 at some power of ten, of which about eight make up a length.
double round_step(double length, double one) {
  const double wanted = std::max(length / one / 8, 1e-12);
  const double power = std::pow(10, std::floor(std::log10(wanted)));
  for (const double step : {1.0, 2.0, 5.0, 10.0}) {
    if (step * power >= wanted * (1 - 1e-9)) {
      return step * power * one;
    }
  }
  return 10 * power * one;
}

/// Where a scale begins and ends: the limits, the value, and some room about them.
std::pair<double, double> ends_of(const ReportScale& scale) {
  double low = scale.value_si - scale.plus_minus_si;
  double high = scale.value_si + scale.plus_minus_si;
  for (const auto& limit : {scale.low, scale.high}) {
    low = limit ? std::min(low, *limit) : low;
    high = limit ? std::max(high, *limit) : high;
  }
  if (!scale.high) {
    high = std::max(high, 1.3 * std::max(high, scale.low.value_or(0)));
  }
  const double room = std::max(0.22 * (high - low), 1e-9 + 0.05 * std::abs(high));
  const bool from_nought = low >= 0 && low - room < 0.2 * (high - low);
  return {from_nought ? 0.0 : low - room, high + room};
}

} // namespace

std::string well_set(const std::string& words) {
  std::string set;
  for (std::size_t i = 0; i < words.size();) {
    if (const Sign* sign = sign_at(words, i)) {
      set += sign->set;
      i += sign->plain.size();
      continue;
    }
    const bool minus = words[i] == '-' && i + 1 < words.size() && words[i + 1] >= '0' &&
                       words[i + 1] <= '9' &&
                       (i == 0 || words[i - 1] == ' ' || words[i - 1] == '(');
    set += minus ? "−" : std::string(1, words[i]);
    ++i;
  }
  return set;
}

SetFigure set_figure(FigureOf of, double si, double plus_minus_si, LengthUnit unit) {
  SetFigure figure;
  const std::string printed = print_figure(of, si, unit);
  if (!begins_a_number(printed)) {
    figure.whole = printed;
    return figure;
  }
  const std::size_t space = printed.find(' ');
  const std::string number = printed.substr(0, space);
  figure.unit = space == std::string::npos ? std::string() : well_set(printed.substr(space + 1));
  const std::size_t point = number.find('.');
  figure.whole = well_set(number.substr(0, point));
  figure.part = point == std::string::npos ? std::string() : number.substr(point);
  if (plus_minus_si > 0) {
    const FigureOf step = of == FigureOf::temperature ? FigureOf::temperature_step : of;
    std::string half = print_figure(step, plus_minus_si, unit);
    if (half.find_first_of("123456789") == std::string::npos) {
      half = print_length(plus_minus_si, unit, unit == LengthUnit::inch ? 4 : 3);
    }
    figure.plus_minus = "± " + half.substr(0, half.find(' '));
  }
  return figure;
}

void FigureColumn::take(const SetFigure& figure, const Lettering& type, const TextRuler& ruler) {
  Lettering even = type;
  even.even_digits = true;
  whole_px = std::max(whole_px, width_of(figure.whole, even, ruler));
  part_px = std::max(part_px, width_of(figure.part, even, ruler));
  if (!figure.plus_minus.empty()) {
    plus_minus_px =
        std::max(plus_minus_px, before_unit(type) + width_of(figure.plus_minus, even, ruler));
  }
  if (!figure.unit.empty()) {
    unit_px = std::max(unit_px, before_unit(type) + width_of(figure.unit, even, ruler));
  }
}

void put_figure(Drawing2d& drawing, const SetFigure& figure, const FigureColumn& column,
                double right_px, double baseline_px, const Lettering& type) {
  const double point_px = right_px - column.unit_px - column.plus_minus_px - column.part_px;
  Lettering quiet = type;
  quiet.weight = FontWeight::regular;
  put(drawing, figure.whole, type, point_px, baseline_px, TextAlign::right);
  put(drawing, figure.part, type, point_px, baseline_px, TextAlign::left);
  put(drawing, figure.unit, quiet, point_px + column.part_px + before_unit(type), baseline_px,
      TextAlign::left);
  quiet.colour = ink::quiet_text;
  put(drawing, figure.plus_minus, quiet, right_px - column.plus_minus_px + before_unit(type),
      baseline_px, TextAlign::left);
}

double scale_height(double type) {
  return 74 * type;
}

double put_scale(Drawing2d& drawing, const ReportScale& scale, const Box& box, double type,
                 bool wrong, LengthUnit unit, const TextRuler& ruler) {
  const auto [from, to] = ends_of(scale);
  const double inset = 6 * type;
  const auto at = [&, from = from, to = to](double si) {
    return box.x_px + inset + (si - from) / (to - from) * (box.width_px - 2 * inset);
  };
  const Colour colour = wrong ? page::wrong : ink::text;
  const double rule_px = box.y_px + 40 * type;
  const double band_px = 10 * type;
  const Stroke thin{ink::line, 1.1, 0, 0};
  const double low = at(scale.low.value_or(from));
  const double high = at(scale.high.value_or(to));
  drawing.add(plain_rect({low, rule_px - band_px, high - low, band_px}, ink::inside_limits));
  drawing.add(line(at(from), rule_px, at(to), rule_px, {ink::line, 1.4, 0, 0}));
  const double step = round_step(to - from, printed_unit_si(scale.of, unit));
  for (double tick = std::ceil(from / step - 1e-9) * step; tick <= to + 1e-9 * step; tick += step) {
    drawing.add(line(at(tick), rule_px, at(tick), rule_px + 4 * type, thin));
  }
  const Lettering small{12.5 * type, FontWeight::regular, ink::text, 1.3, true};
  const std::string least = scale.low ? well_set(print_figure(scale.of, *scale.low, unit)) : "";
  const std::string most = scale.high ? well_set(print_figure(scale.of, *scale.high, unit)) : "";
  const double least_px = least.empty() ? 0 : words_width(ruler, least, small);
  const double most_px = most.empty() ? 0 : words_width(ruler, most, small);
  const double foot = rule_px + 8 * type;
  // Each stands under its limit, and beside the other where they come too near.
  const double middle = (low + high) / 2;
  const bool near = scale.low && scale.high && high - low < (least_px + most_px) / 2 + 8 * type;
  const auto within = [&](double left, double width) {
    return std::clamp(left, box.x_px, std::max(box.right_px() - width, box.x_px));
  };
  double most_at = within(near ? middle + 4 * type : high - most_px / 2, most_px);
  double least_at = within(near ? middle - 4 * type - least_px : low - least_px / 2, least_px);
  if (scale.low && scale.high) {
    most_at = within(std::max(most_at, least_at + least_px + 8 * type), most_px);
    least_at = std::min(least_at, most_at - 8 * type - least_px);
  }
  for (const auto& limit : {scale.low, scale.high}) {
    if (limit) {
      drawing.add(line(at(*limit), rule_px - band_px, at(*limit), rule_px + 7 * type,
                       {ink::line, 1.8, 0, 0}));
    }
  }
  put_words(drawing, ruler, least, small, least_at, foot, 0);
  put_words(drawing, ruler, most, small, most_at, foot, 0);
  // How far it may be off, and where it stands.
  const double here = at(scale.value_si);
  const double tip = rule_px - band_px - 1;
  if (scale.plus_minus_si > 0) {
    const double left = at(scale.value_si - scale.plus_minus_si);
    const double right = at(scale.value_si + scale.plus_minus_si);
    const double y = tip - 12 * type;
    for (const double end : {left, right}) {
      drawing.add(line(end, y - 4 * type, end, y + 4 * type, {colour, 1.4, 0, 0}));
    }
    drawing.add(line(left, y, right, y, {colour, 1.4, 0, 0}));
  }
  drawing.add(PolygonShape{
      {{here - 7 * type, tip - 12 * type}, {here + 7 * type, tip - 12 * type}, {here, tip}},
      wrong ? page::wrong : ink::path,
      std::nullopt});
  return box.y_px + scale_height(type);
}

void move_by(Drawing2d& drawing, double x_px, double y_px) {
  for (FlatShape& shape : drawing.shapes) {
    move_shape(shape, x_px, y_px);
  }
}

} // namespace lugline
