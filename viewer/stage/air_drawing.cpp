#include "viewer/stage/air_drawing.h"

#include "viewer/stage/figure_setting.h"
#include "viewer/stage/page_parts.h"
#include "viewer/stage/train_symbols.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double round_s = 60; ///< of the watch's hand

std::string seconds_words(double seconds) {
  std::array<char, 32> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(),
                                 std::floor(seconds * 10 + 1e-6) / 10, std::chars_format::fixed, 1)
                       .ptr;
  return {buffer.data(), end};
}

class AirDrawer {
public:
  AirDrawer(const AirPicture& air, const Box& box, const TextRuler& ruler)
      : air_(air), box_(box), ruler_(ruler) {}

  Drawing2d draw() {
    // Beside one another where the box lies, else above one another.
    const bool level = box_.width_px > 1.6 * box_.height_px;
    const double gap = 0.04 * std::max(box_.width_px, box_.height_px);
    Box piston = box_;
    Box watch = box_;
    if (level) {
      piston.width_px = watch.width_px = (box_.width_px - gap) / 2;
      watch.x_px = piston.right_px() + gap;
    } else {
      piston.height_px = (box_.height_px - gap) * 0.42;
      watch.y_px = piston.bottom_px() + gap;
      watch.height_px = box_.bottom_px() - watch.y_px;
    }
    type_ = std::clamp(std::min(piston.width_px / 330, piston.height_px / 190), 0.3, 1.2);
    draw_piston(piston);
    draw_watch(watch);
    return std::move(drawing_);
  }

private:
  [[nodiscard]] double size(double px) const { return px * type_; }
  [[nodiscard]] Lettering lettering(double px, FontWeight weight, Colour colour) const {
    return {size(px), weight, colour, 1.25, true};
  }

  void hatch(const Box& box, const std::string& material, bool mirrored, double edge) {
    HatchShape shape;
    shape.x_px = box.x_px;
    shape.y_px = box.y_px;
    shape.width_px = box.width_px;
    shape.height_px = box.height_px;
    shape.style = hatch_style_of(material);
    shape.ground = page::ground_of(material, false);
    shape.line = colour_of(0x1f1d1b, 100);
    shape.step_px = size(6);
    shape.mirrored = mirrored;
    if (edge > 0) {
      shape.outline = Stroke{ink::line, edge * type_, 0, 0};
    }
    drawing_.add(shape);
  }

  // ------------------------------------------------ the piston

  [[nodiscard]] double most_m() const {
    return std::max({air_.most_stroke_m, 1.15 * air_.stroke_m, air_.travel_m, 1e-4});
  }

  void draw_piston(const Box& box) {
    const double wall = size(16);
    const double right = box.x_px + std::min(0.60 * box.width_px, size(230));
    const double left = box.x_px;
    const double top = box.y_px + size(14);
    const double bottom = box.bottom_px() - size(4);
    const double deep = bottom - wall - top;
    const double body = 0.20 * deep;
    const double home = bottom - wall - size(14); // the piston's pressed face, at home
    const double room = 0.36 * deep;              // drawn for the longest stroke
    const double px_per_m = room / most_m();
    const double face = home - air_.travel_m * px_per_m;
    // The bore, and what the springs stand against.
    hatch({left, top, wall, bottom - top}, "aluminium", false, 1.2);
    hatch({right - wall, top, wall, bottom - top}, "aluminium", true, 1.2);
    hatch({left, bottom - wall, right - left, wall}, "aluminium", false, 1.2);
    const Box inside{left + wall, top, right - left - 2 * wall, bottom - wall - top};
    const Box pressed{inside.x_px, face, inside.width_px, bottom - wall - face};
    drawing_.add(plain_rect(pressed, colour_of(0xb3471a, air_.worked ? 40 : 0)));
    const Box piston{inside.x_px + 1, face - body, inside.width_px - 2, body};
    springs(inside, top + size(4), piston.y_px);
    drawing_.add(line(inside.x_px, top + size(4), inside.right_px(), top + size(4),
                      {ink::line, 2.2 * type_, 0, 0}));
    hatch(piston, "steel", false, 1.4);
    seals(piston);
    if (air_.worked) {
      for (const double share : {0.2, 0.5, 0.8}) {
        const double x = inside.x_px + share * inside.width_px;
        drawing_.add(
            line(x, bottom - wall - size(2), x, face + size(9), {ink::path, 2 * type_, 0, 0}));
        drawing_.add(PolygonShape{{{x - size(4.5), face + size(10)},
                                   {x + size(4.5), face + size(10)},
                                   {x, face + size(1)}},
                                  ink::path,
                                  std::nullopt});
      }
    }
    travel(right + size(16), home, px_per_m, box);
  }

  void springs(const Box& inside, double top, double bottom) {
    for (const double share : {0.22, 0.78}) {
      const double middle = inside.x_px + share * inside.width_px;
      const double half = 0.10 * inside.width_px;
      std::vector<PointPx> points;
      constexpr int turns = 9;
      for (int i = 0; i <= turns; ++i) {
        points.push_back({middle + (i % 2 == 0 ? -half : half), top + (bottom - top) * i / turns});
      }
      drawing_.add(PolylineShape{points, false, {ink::line, 1.4 * type_, 0, 0}});
    }
  }

  void seals(const Box& piston) {
    const double seal = 0.34 * piston.height_px;
    for (const double x : {piston.x_px - size(1), piston.right_px() - seal + size(1)}) {
      drawing_.add(
          plain_rect({x, piston.y_px + 0.5 * (piston.height_px - seal), seal, seal}, ink::line));
    }
  }

  /// The stroke as a scale beside the bore, its mark where the piston's face is.
  void travel(double x, double home, double px_per_m, const Box& box) {
    const auto at = [&](double m) { return home - m * px_per_m; };
    drawing_.add(line(x, at(0), x, at(most_m()), {ink::line, 1.4 * type_, 0, 0}));
    const Lettering small = lettering(13, FontWeight::regular, ink::text);
    struct Mark {
      double at_m;
      std::string words;
      bool strong;
    };
    std::vector<Mark> marks = {{0, "home", false}};
    if (air_.stroke_m > 0) {
      marks.push_back(
          {air_.stroke_m,
           (air_.band ? "grips at " : "closes at ") + print_length(air_.stroke_m, air_.unit),
           false});
    }
    if (air_.most_stroke_m > 0) {
      marks.push_back(
          {air_.most_stroke_m, "at most " + print_length(air_.most_stroke_m, air_.unit), false});
    }
    double above = at(0) + size(60);
    for (const Mark& mark : marks) {
      drawing_.add(line(x - size(5), at(mark.at_m), x + size(5), at(mark.at_m),
                        {ink::line, 1.4 * type_, 0, 0}));
      const double y = std::min(at(mark.at_m), above - size(17));
      const double wide = std::max(box.right_px() - x - size(12), 1.0);
      put_level(drawing_, ruler_, mark.words, fitted_line(mark.words, small, wide), x + size(12),
                y);
      above = y;
    }
    if (air_.worked) {
      const double y = at(air_.travel_m);
      drawing_.add(
          PolygonShape{{{x - size(1), y}, {x - size(12), y - size(6)}, {x - size(12), y + size(6)}},
                       ink::path,
                       std::nullopt});
    }
    const double words_y = box.y_px + size(2);
    const double width = std::max(box.right_px() - x, size(40));
    std::string words = !air_.worked  ? std::string("not tried")
                        : !air_.moves ? std::string("it does not move")
                                      : "moves " + print_length(air_.travel_m, air_.unit);
    if (air_.worked && air_.clamp_N > 0) {
      words +=
          (air_.band ? "\npulls with " : "\nclamps with ") + print_force(air_.clamp_N, air_.unit);
    }
    const Lettering strong =
        lettering(15, FontWeight::semibold, air_.worked ? ink::path : ink::text);
    put_words(drawing_, ruler_, words, fitted(words, strong, width), x, words_y, width);
  }

  [[nodiscard]] Lettering fitted(const std::string& words, Lettering type, double width) const {
    while (type.size_px > 1.5 && !words_fit(ruler_, words, type, width)) {
      type.size_px -= 0.5;
    }
    return type;
  }

  /// For words that stay on one line.
  [[nodiscard]] Lettering fitted_line(const std::string& words, Lettering type,
                                      double width) const {
    const std::string line = kept_together(words); // as it is put
    while (type.size_px > 1.5 &&
           ruler_.width_px(line, type.size_px, type.weight, type.even_digits) > width) {
      type.size_px -= 0.5;
    }
    return type;
  }

  // ------------------------------------------------ the watch

  void draw_watch(const Box& box) {
    const bool holes = air_.hole_m && *air_.hole_m > 0;
    const double radius = std::min(0.27 * box.width_px, 0.44 * box.height_px);
    const PointPx centre{box.x_px + radius + size(4), box.y_px + radius + size(4)};
    dial(centre, radius);
    const double x = centre.x_px + radius + size(22);
    const double width = box.right_px() - x;
    const Lettering number = fitted(
        seconds_words(air_.watch_s) + " s",
        {size(40), FontWeight::bold, air_.watch_runs ? ink::path : ink::text, 1.1, true}, width);
    double y =
        put_words(drawing_, ruler_, seconds_words(air_.watch_s) + " s", number, x, box.y_px, width);
    const std::string floor = print_pressure(air_.floor_Pa, air_.unit);
    const std::string words =
        air_.watch_runs ? "Stop it when the gauge reads " + floor + "."
        : air_.watch_s > 0
            ? "from " + print_pressure(air_.pressure_Pa, air_.unit) + " to " + floor
            : "Shut the air off at the valve and start the watch; stop it when the gauge "
              "reads " +
                  floor + ".";
    const Lettering told = fitted(words, lettering(14, FontWeight::regular, ink::text), width);
    y = put_words(drawing_, ruler_, words, told, x, y + size(2), width);
    if (air_.good_hold_s > 0) {
      const std::string good = "good: " + seconds_words(air_.good_hold_s) + " s or more";
      const Lettering quiet = fitted(good, lettering(14, FontWeight::semibold, ink::text), width);
      y = put_words(drawing_, ruler_, good, quiet, x, y + size(4), width);
    }
    if (holes) {
      draw_holes({x, y + size(12), width, box.bottom_px() - y - size(12)});
    }
  }

  [[nodiscard]] static PointPx on(PointPx centre, double radius, double seconds) {
    const double turn = 2 * std::numbers::pi * seconds / round_s;
    return {centre.x_px + radius * std::sin(turn), centre.y_px - radius * std::cos(turn)};
  }

  void dial(PointPx centre, double radius) {
    drawing_.add(
        CircleShape{centre, radius, colour_of(0xfffdf7), Stroke{ink::line, 2 * type_, 0, 0}});
    if (air_.good_hold_s > 0 && air_.good_hold_s < round_s) {
      std::vector<PointPx> arc;
      for (int i = 0; i <= 48; ++i) {
        arc.push_back(
            on(centre, 0.86 * radius, air_.good_hold_s + (round_s - air_.good_hold_s) * i / 48));
      }
      drawing_.add(PolylineShape{arc, false, {ink::inside_limits, 0.16 * radius, 0, 0}});
    }
    for (int tick = 0; tick < 60; ++tick) {
      const bool fifth = tick % 5 == 0;
      drawing_.add(LineShape{on(centre, (fifth ? 0.84 : 0.91) * radius, tick),
                             on(centre, 0.97 * radius, tick),
                             {ink::line, (fifth ? 1.6 : 0.9) * type_, 0, 0}});
    }
    const Lettering figures{0.15 * radius, FontWeight::medium, ink::text, 1.2, true};
    for (const int figure : {15, 30, 45, 60}) {
      const PointPx at = on(centre, 0.68 * radius, figure);
      put_level(drawing_, ruler_, std::to_string(figure), figures, at.x_px, at.y_px,
                TextAlign::centre);
    }
    const double seconds = std::fmod(air_.watch_s, round_s);
    drawing_.add(LineShape{on(centre, -0.16 * radius, seconds),
                           on(centre, 0.80 * radius, seconds),
                           {ink::path, 2.4 * type_, 0, 0}});
    drawing_.add(CircleShape{centre, 0.055 * radius, ink::path, std::nullopt});
  }

  /// The two holes at one magnification.
  void draw_holes(const Box& box) {
    const double hole = *air_.hole_m;
    const double good = air_.good_hole_m.value_or(0);
    const double high = std::min(box.height_px - size(24), size(64));
    if (high < size(14) || box.width_px < size(60)) {
      return;
    }
    const double px_per_m = std::min(high, 0.42 * box.width_px) / std::max(hole, good);
    const Lettering small = lettering(13, FontWeight::regular, ink::text);
    const bool larger = good > 0 && hole > good;
    const double y = box.y_px + high / 2;
    double x = box.x_px;
    const auto put_hole = [&](double m, const Colour& colour, const std::string& words) {
      const double width = std::max(words_width(ruler_, words, small), m * px_per_m);
      drawing_.add(CircleShape{{x + width / 2, y},
                               std::max(m * px_per_m / 2, 1.0),
                               colour,
                               Stroke{ink::line, 1.2 * type_, 0, 0}});
      put_words(drawing_, ruler_, words, small, x + width / 2, y + high / 2 + size(4), 0,
                TextAlign::centre);
      x += width + size(18);
    };
    put_hole(hole, larger ? page::wrong : ink::line, print_length(hole, air_.unit));
    if (good > 0) {
      const std::string words = "good " + print_length(good, air_.unit);
      if (x + words_width(ruler_, words, small) <= box.right_px()) {
        put_hole(good, ink::inside_limits, words);
      }
    }
  }

  const AirPicture& air_;
  const Box& box_;
  const TextRuler& ruler_;
  double type_ = 1;
  Drawing2d drawing_;
};

} // namespace

Drawing2d draw_air(const AirPicture& air, const Box& box, const TextRuler& ruler) {
  return AirDrawer(air, box, ruler).draw();
}

} // namespace lugline
