// The gap column: the pack in half section at true proportion, growing as
// plates land; the space that is left, magnified beside it; one large number.
//
// Outer wall at the right, with the ring's groove; frictions reach inward, what
// has lugs reaches outward. Heights are true, widths are not.
#include "viewer/stage/page_parts.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace lugline::page {

namespace {

constexpr double piston_px = 20;

constexpr double lug_px = 7;
constexpr double ring_reach = 0.40;     ///< of the stack's width, from the wall inward
constexpr double scale_off_px = 17;     ///< from the wall to the scale
constexpr double scale_figures_px = 18; ///< from the scale to its figures

bool is_lining(const ColumnPlate& plate) {
  return hatch_style_of(plate.material) == HatchStyle::lining;
}

bool outside_limits(const Column& column) {
  return column.verdict == PackVerdict::tight || column.verdict == PackVerdict::loose;
}

/// A round step of the scale: at most seven of them below `longest_m`.
double round_step_m(double longest_m, LengthUnit unit) {
  constexpr std::array<double, 12> mm = {0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 2.5, 5, 10, 20, 50};
  constexpr std::array<double, 10> inch = {0.002, 0.005, 0.01, 0.02, 0.025, 0.05, 0.1, 0.2, 0.5, 1};
  const auto pick = [&](const auto& steps, double one_m) {
    for (const double step : steps) {
      if (longest_m / (step * one_m) <= 7) {
        return step * one_m;
      }
    }
    return steps.back() * one_m;
  };
  return unit == LengthUnit::inch ? pick(inch, inch_m) : pick(mm, millimetre_m);
}

class ColumnDrawing {
public:
  ColumnDrawing(Drawing2d& drawing, const Column& column, const Box& box, LengthUnit unit,
                bool labels, const TextRuler& ruler)
      : drawing_(drawing), column_(column), box_(box), unit_(unit), labels_(labels), ruler_(ruler),
        places_(unit == LengthUnit::inch ? 3 : 2) {}

  void draw() {
    const double top_px = head() + (labels_ ? 20 : 12);
    const double bottom_px = foot();
    if (bottom_px - top_px < 60) {
      return;
    }
    measure(top_px, bottom_px);
    draw_space();
    draw_wall();
    draw_plates();
    draw_ring();
    draw_scale();
    if (labels_) {
      name_all(top_px, bottom_px);
    }
  }

private:
  [[nodiscard]] double y_of(double height_m) const {
    return floor_px_ - (height_m - column_.floor_m) * px_per_m_;
  }
  [[nodiscard]] double top_of_stack_m() const {
    return column_.plates.empty() ? column_.floor_m : column_.plates.back().high_m;
  }

  double fitting(const std::string& words, Lettering type, double width_px) const {
    while (type.size_px > 6 && words_width(ruler_, words, type) > width_px) {
      type.size_px -= 0.5;
    }
    return type.size_px;
  }

  double right_line(const std::string& words, Lettering type, double y_px) {
    while (type.size_px > 6 && !words_fit(ruler_, words, type, box_.width_px)) {
      type.size_px -= 0.5;
    }
    return put_words(drawing_, ruler_, words, type, box_.right_px(), y_px, box_.width_px,
                     TextAlign::right);
  }

  /// Name, number, the other unit, limits; the bottom of it.
  double head() {
    const Colour colour = outside_limits(column_) ? wrong : ink::text;
    const double small = labels_ ? 14.5 : 12.5;
    double y = right_line(column_.name, {labels_ ? 16.0 : 13.5, FontWeight::semibold}, box_.y_px);
    Lettering number{labels_ ? 68.0 : 40.0, FontWeight::bold, colour, 1.1, true};
    const Lettering unit{number.size_px * 0.34, FontWeight::medium, ink::text};
    const double unit_width = words_width(ruler_, column_.number_unit, unit);
    number.size_px = fitting(column_.number, number, box_.width_px - unit_width - 6);
    const double baseline =
        y + 6 + ruler_.capital_px(number.size_px, number.weight) + 0.06 * number.size_px;
    TextShape figure;
    figure.words = column_.number;
    figure.size_px = number.size_px;
    figure.weight = number.weight;
    figure.colour = colour;
    figure.even_digits = true;
    figure.align = TextAlign::right;
    figure.at = {box_.right_px() - unit_width - 6, baseline};
    drawing_.add(figure);
    TextShape beside;
    beside.words = column_.number_unit;
    beside.size_px = unit.size_px;
    beside.weight = unit.weight;
    beside.align = TextAlign::right;
    beside.at = {box_.right_px(), baseline};
    drawing_.add(beside);
    y = text_box(figure, ruler_).bottom_px() - 0.1 * number.size_px;
    const std::string both =
        column_.other_unit + (column_.verdict_words.empty() ? "" : ", ") + column_.verdict_words;
    y = std::max(y, text_box(beside, ruler_).bottom_px());
    y = std::max(y, text_box(figure, ruler_).bottom_px());
    y = right_line(both, {small + 1, FontWeight::semibold, colour, 1.3, true}, y);
    return right_line(column_.limits_words, {small, FontWeight::regular, ink::text, 1.3, true},
                      y + 2);
  }

  /// What the column says beneath itself; the top of it.
  double foot() {
    std::string told;
    if (column_.has_wave && labels_) {
      told = column_.wave_label + " flat: " + print_length_both(column_.flat_m, unit_);
    }
    const bool measured = std::ranges::any_of(column_.plates, &ColumnPlate::measured);
    if (measured && labels_) {
      told += (told.empty() ? "" : "\n") + std::string("figures in bold were measured");
    }
    if (told.empty()) {
      return box_.bottom_px() - 1;
    }
    const Lettering type{12.5, FontWeight::regular, ink::quiet_text, 1.35, true};
    const double top_px = box_.bottom_px() - words_height(ruler_, told, type, box_.width_px);
    put_words(drawing_, ruler_, told, type, box_.right_px(), top_px, box_.width_px,
              TextAlign::right);
    return top_px - 8;
  }

  void measure(double top_px, double bottom_px) {
    const Lettering figures = scale_type();
    const double figure = words_width(ruler_, print_length_figure(0, unit_, places_), figures);
    const double scale_width = scale_off_px + scale_figures_px + figure + 2;
    wall_px_ = labels_ ? 16 : 11;
    const double stack = labels_ ? std::clamp(0.5 * box_.width_px - 70, 74.0, 140.0)
                                 : box_.width_px - scale_width - wall_px_;
    right_px_ = box_.right_px() - scale_width - wall_px_;
    left_px_ = right_px_ - stack;
    wall_top_px_ = top_px;
    wall_bottom_px_ = bottom_px;
    floor_px_ = bottom_px - piston_px;
    const double whole_m = std::max(column_.ring_high_m - column_.floor_m, 1e-6);
    // The wall goes on a little above the ring.
    const double above_px = std::min(18.0, 0.08 * (floor_px_ - top_px));
    px_per_m_ = (floor_px_ - top_px - above_px) / whole_m;
    ring_px_ = y_of(column_.ring_low_m);
  }

  [[nodiscard]] Lettering scale_type() const {
    return {labels_ ? 12.5 : 11.0, FontWeight::regular, ink::text, 1.3, true};
  }

  void draw_space() {
    const double top = y_of(column_.ring_low_m);
    const double bottom = y_of(top_of_stack_m());
    if (bottom > top) {
      drawing_.add(
          plain_rect({left_px_, top, right_px_ - left_px_, bottom - top}, colour_of(0xfffdf7)));
    }
    // The ring's face carried across, and the hub's side.
    const Stroke thin{ink::quiet_line, 1, 3, 3};
    drawing_.add(line(left_px_, top, right_px_, top, thin));
    drawing_.add(line(left_px_, top, left_px_, floor_px_, thin));
    // Where the stack should end.
    const double high = y_of(column_.ring_low_m - column_.low_m);
    const double low = y_of(column_.ring_low_m - column_.high_m);
    drawing_.add(
        plain_rect({left_px_, high, right_px_ + wall_px_ - left_px_, std::max(low - high, 1.0)},
                   ink::inside_limits));
  }

  void hatch(const Box& box, const std::string& material, bool strong, bool mirrored,
             std::optional<Stroke> outline) {
    HatchShape shape;
    shape.x_px = box.x_px;
    shape.y_px = box.y_px;
    shape.width_px = box.width_px;
    shape.height_px = box.height_px;
    shape.style = hatch_style_of(material);
    shape.ground = ground_of(material, strong);
    shape.line = colour_of(0x1f1d1b, strong ? 130 : 85);
    shape.step_px = labels_ ? 7 : 5;
    shape.mirrored = mirrored;
    shape.outline = outline;
    drawing_.add(shape);
  }

  void draw_wall() {
    const Stroke edge{ink::line, 1.25, 0, 0};
    const double groove_top = y_of(column_.ring_high_m) - 1.5;
    const Box above{right_px_, wall_top_px_, wall_px_, groove_top - wall_top_px_};
    const Box below{right_px_, ring_px_, wall_px_, wall_bottom_px_ - ring_px_};
    const double deep = 0.62 * wall_px_;
    const Box behind{right_px_ + deep, groove_top, wall_px_ - deep, ring_px_ - groove_top};
    for (const Box& part : {above, below, behind}) {
      if (!part.empty()) {
        hatch(part, "aluminium", false, true, std::nullopt);
      }
    }
    drawing_.add(PolylineShape{{{right_px_, wall_top_px_},
                                {right_px_, groove_top},
                                {right_px_ + deep, groove_top},
                                {right_px_ + deep, ring_px_},
                                {right_px_, ring_px_},
                                {right_px_, wall_bottom_px_}},
                               false,
                               edge});
    drawing_.add(
        line(right_px_ + wall_px_, wall_top_px_, right_px_ + wall_px_, wall_bottom_px_, edge));
    hatch({left_px_ - 3, floor_px_, right_px_ - left_px_ + 3, piston_px}, "aluminium", true, false,
          edge);
  }

  [[nodiscard]] Box box_of(const ColumnPlate& plate) const {
    const double top = y_of(plate.high_m);
    const double height = std::max(y_of(plate.low_m) - top, 0.5);
    return is_lining(plate) ? Box{left_px_, top, right_px_ - left_px_ - lug_px, height}
                            : Box{left_px_ + lug_px, top, right_px_ - left_px_ - lug_px, height};
  }

  void draw_plates() {
    bool mirrored = false;
    for (const ColumnPlate& plate : column_.plates) {
      const Box box = box_of(plate);
      if (plate.wave) {
        draw_wave(plate, box);
      } else {
        const Stroke edge{ink::line, box.height_px > 6 ? 1.1 : 0.7, 0, 0};
        hatch(box, plate.material, plate.landing, mirrored, edge);
      }
      mirrored = !mirrored;
    }
    for (const ColumnPlate& plate : column_.plates) {
      if (plate.landing) {
        drawing_.add(plain_rect(box_of(plate), std::nullopt, Stroke{ink::path, 2.5, 0, 0}));
      }
    }
  }

  /// As it lies: a wave, or a cone's slant, between the faces of its free height.
  void draw_wave(const ColumnPlate& plate, const Box& box) {
    drawing_.add(plain_rect(box, colour_of(0xf1ece0)));
    const double flat_m = plate.thick_m - (column_.flat_m - column_.clearance_m);
    const double thick = std::clamp(flat_m * px_per_m_, 1.5, std::max(0.6 * box.height_px, 1.5));
    const double swing = std::max((box.height_px - thick) / 2, 0.0);
    constexpr int pieces = 72;
    constexpr double waves = 3;
    std::vector<PointPx> outline;
    const auto edge_at = [&](int i, double side) {
      const double along = static_cast<double>(i) / pieces;
      const double lift =
          plate.dished ? 1 - 2 * along : std::cos(2 * std::numbers::pi * waves * along);
      const double middle = box.y_px + box.height_px / 2 - swing * lift;
      outline.push_back({box.x_px + along * box.width_px, middle + side * thick / 2});
    };
    for (int i = 0; i <= pieces; ++i) {
      edge_at(i, -1);
    }
    for (int i = pieces; i >= 0; --i) {
      edge_at(i, 1);
    }
    drawing_.add(PolygonShape{std::move(outline), ground_of(plate.material, plate.landing),
                              Stroke{ink::line, 1.1, 0, 0}});
    const Stroke edge{ink::quiet_line, 0.8, 0, 0};
    drawing_.add(line(box.x_px, box.y_px, box.right_px(), box.y_px, edge));
    drawing_.add(line(box.x_px, box.bottom_px(), box.right_px(), box.bottom_px(), edge));
  }

  void draw_ring() {
    const double top = y_of(column_.ring_high_m);
    const Box ring{right_px_ - ring_reach * (right_px_ - left_px_), top,
                   ring_reach * (right_px_ - left_px_) + 0.56 * wall_px_,
                   std::max(ring_px_ - top, 1.0)};
    if (column_.ring_in) {
      hatch(ring, "spring steel", true, false, Stroke{ink::line, 1.25, 0, 0});
    } else {
      drawing_.add(plain_rect(ring, std::nullopt, Stroke{ink::quiet_line, 1.25, 4, 3}));
    }
    // The space as a dimension, where it is high enough for its arrows.
    const double bottom = y_of(top_of_stack_m());
    if (bottom - ring_px_ > 16) {
      const double x = ring.x_px + 0.5 * (right_px_ - ring.x_px);
      const Stroke thin{ink::line, 1, 0, 0};
      drawing_.add(line(x, ring_px_, x, bottom, thin));
      drawing_.add(PolygonShape{
          {{x - 3, ring_px_ + 9}, {x + 3, ring_px_ + 9}, {x, ring_px_}}, ink::line, std::nullopt});
      drawing_.add(PolygonShape{
          {{x - 3, bottom - 9}, {x + 3, bottom - 9}, {x, bottom}}, ink::line, std::nullopt});
    }
  }

  /// The space magnified: nought at the ring's face, the pointer at the stack.
  void draw_scale() {
    const double longest_m = std::max(1.35 * column_.high_m, 1e-6);
    const double room_px = wall_bottom_px_ - ring_px_ - 8;
    const double wanted_px = std::min(labels_ ? 230.0 : 150.0, room_px);
    const double scale_px_per_m = std::max(wanted_px / longest_m, px_per_m_);
    const double end_m = std::min(longest_m, room_px / scale_px_per_m);
    const auto at = [&](double space_m) { return ring_px_ + space_m * scale_px_per_m; };
    const double x = right_px_ + wall_px_ + scale_off_px;
    const Stroke thin{ink::line, 1, 0, 0};
    drawing_.add(plain_rect({x, at(column_.low_m), 13, at(column_.high_m) - at(column_.low_m)},
                            ink::inside_limits, thin));
    drawing_.add(line(x, at(0), x, at(end_m), thin));
    const Lettering figures = scale_type();
    const double step_m = round_step_m(end_m, unit_);
    double last_px = -1e9;
    for (int i = 0; i * step_m <= end_m * 1.0001; ++i) {
      const double y = at(i * step_m);
      drawing_.add(line(x, y, x + 6, y, thin));
      if (y - last_px >= 1.3 * figures.size_px) {
        put_level(drawing_, ruler_, print_length_figure(i * step_m, unit_, places_), figures,
                  x + scale_figures_px, y);
        last_px = y;
      }
    }
    const double space_m = column_.ring_low_m - top_of_stack_m();
    const bool beyond = column_.clearance_m > end_m || column_.clearance_m < 0;
    const double y = at(std::clamp(column_.clearance_m, 0.0, end_m));
    if (!beyond) {
      const double true_px = std::min(y_of(column_.ring_low_m - space_m), wall_bottom_px_);
      drawing_.add(line(right_px_ + wall_px_, true_px, x - 11, y, {ink::quiet_line, 1, 0, 0}));
    }
    const std::vector<PointPx> pointer = {{x - 11, y - 6.5}, {x - 1, y}, {x - 11, y + 6.5}};
    const Colour colour = outside_limits(column_) ? wrong : ink::line;
    drawing_.add(beyond ? PolygonShape{pointer, ink::paper, Stroke{colour, 1.25, 0, 0}}
                        : PolygonShape{pointer, colour, std::nullopt});
  }

  void name_all(double top_px, double bottom_px) {
    const double stack = left_px_ - 4;
    std::vector<ColumnLabel> labels;
    for (const ColumnPlate& plate : column_.plates) {
      labels.push_back({plate.label + (plate.wave ? ", free" : ""),
                        print_length_figure(plate.thick_m, unit_, places_), plate.landing,
                        plate.measured, (y_of(plate.low_m) + y_of(plate.high_m)) / 2, stack});
    }
    labels.push_back({column_.ring_in ? "snap ring" : "snap ring, to come", "", false, false,
                      (ring_px_ + y_of(column_.ring_high_m)) / 2,
                      right_px_ - ring_reach * (right_px_ - left_px_) - 2});
    labels.push_back({"piston, back", "", false, false, floor_px_ + piston_px / 2, stack});
    draw_column_labels(drawing_, std::move(labels),
                       {box_.x_px, top_px, left_px_ - 2 - box_.x_px, bottom_px - top_px}, ruler_);
  }

  Drawing2d& drawing_;
  const Column& column_;
  const Box& box_;
  LengthUnit unit_;
  bool labels_;
  const TextRuler& ruler_;
  int places_;
  double left_px_ = 0;
  double right_px_ = 0;
  double wall_px_ = 14;
  double wall_top_px_ = 0;
  double wall_bottom_px_ = 0;
  double floor_px_ = 0;
  double ring_px_ = 0;
  double px_per_m_ = 1;
};

} // namespace

void draw_column(Drawing2d& drawing, const Column& column, const Box& box, LengthUnit unit,
                 bool labels, const TextRuler& ruler) {
  ColumnDrawing(drawing, column, box, unit, labels, ruler).draw();
}

} // namespace lugline::page
