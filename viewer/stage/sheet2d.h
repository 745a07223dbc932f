// A flat drawing as a plain list: the gap column, the step's sentence, badges,
// the rule of steps. One list is painted in the window and on exported pictures
// alike. No OpenGL, no Dear ImGui, no fonts: a TextRuler measures words for
// whoever lays them out.
//
// Lengths are pixels at scale 1, from the top left corner, x right and y down;
// the painter multiplies all of them by its scale. Shapes are painted in order,
// later ones over earlier ones. Plain values, comparable; nothing here fails.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace lugline {

/// sRGB with straight opacity.
struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
  std::uint8_t opacity = 255;
  friend bool operator==(const Colour&, const Colour&) = default;
};

/// colour_of(0x1a1918): red, green, blue from a hexadecimal figure.
constexpr Colour colour_of(std::uint32_t rgb, std::uint8_t opacity = 255) {
  return {static_cast<std::uint8_t>((rgb >> 16) & 255u),
          static_cast<std::uint8_t>((rgb >> 8) & 255u), static_cast<std::uint8_t>(rgb & 255u),
          opacity};
}

/// The few colours that words and instruments are drawn in: all text ones have
/// at least 4.5:1 on paper.
namespace ink {
inline constexpr Colour paper = colour_of(0xfaf5ea);
inline constexpr Colour text = colour_of(0x1f1d1b);
inline constexpr Colour quiet_text = colour_of(0x5a5650);
inline constexpr Colour line = colour_of(0x1f1d1b);
inline constexpr Colour quiet_line = colour_of(0x8d877d);
inline constexpr Colour path = colour_of(0xb3471a); ///< what is to be done: fall, turn, up
inline constexpr Colour pair_one = colour_of(0x0072b2);
inline constexpr Colour pair_two = colour_of(0xb84f00); ///< dark enough to carry white words
inline constexpr Colour inside_limits = colour_of(0xbcd9dd);
inline constexpr Colour caution = colour_of(0xfff1c2);
inline constexpr Colour white = colour_of(0xffffff);
} // namespace ink

struct PointPx {
  double x_px = 0;
  double y_px = 0;
  friend bool operator==(const PointPx&, const PointPx&) = default;
};

/// A drawn edge; dash_px 0 is unbroken.
struct Stroke {
  Colour colour = ink::line;
  double width_px = 1;
  double dash_px = 0;
  double gap_px = 0;
  friend bool operator==(const Stroke&, const Stroke&) = default;
};

struct RectShape {
  double x_px = 0;
  double y_px = 0;
  double width_px = 0;
  double height_px = 0;
  double corner_px = 0; ///< radius
  std::optional<Colour> fill;
  std::optional<Stroke> stroke;
  friend bool operator==(const RectShape&, const RectShape&) = default;
};

struct LineShape {
  PointPx from;
  PointPx to;
  Stroke stroke;
  friend bool operator==(const LineShape&, const LineShape&) = default;
};

struct PolylineShape {
  std::vector<PointPx> points;
  bool closed = false;
  Stroke stroke;
  friend bool operator==(const PolylineShape&, const PolylineShape&) = default;
};

/// A simple polygon (its sides do not cross), convex or not.
struct PolygonShape {
  std::vector<PointPx> points;
  std::optional<Colour> fill;
  std::optional<Stroke> stroke;
  friend bool operator==(const PolygonShape&, const PolygonShape&) = default;
};

struct CircleShape {
  PointPx centre;
  double radius_px = 0;
  std::optional<Colour> fill;
  std::optional<Stroke> stroke;
  friend bool operator==(const CircleShape&, const CircleShape&) = default;
};

enum class FontWeight { regular, medium, semibold, bold };
enum class TextAlign { left, centre, right };

/// Words on a baseline. With wrap_px above 0 they go on to further lines at
/// spaces; a line break in the words always starts a new one.
struct TextShape {
  std::string words; ///< UTF-8
  PointPx at;        ///< the first line's baseline, at its left, middle or right
  double size_px = 15;
  FontWeight weight = FontWeight::regular;
  TextAlign align = TextAlign::left;
  Colour colour = ink::text;
  double wrap_px = 0;
  double line_step = 1.36;  ///< from baseline to baseline, in sizes
  bool even_digits = false; ///< every digit as wide as the others: for figures that change
  friend bool operator==(const TextShape&, const TextShape&) = default;
};

/// Hatching of a cut face, one style for each kind of material (after ISO 128-3).
enum class HatchStyle {
  none,
  steel,
  iron,
  aluminium,
  bronze,
  lining,
  rubber,
  spring_steel,
  plastic
};

/// "friction lining" is lining, an unknown material steel.
HatchStyle hatch_style_of(std::string_view material);

struct HatchShape {
  double x_px = 0;
  double y_px = 0;
  double width_px = 0;
  double height_px = 0;
  HatchStyle style = HatchStyle::steel;
  Colour ground = ink::white;
  Colour line = colour_of(0x1f1d1b, 150);
  double step_px = 7;    ///< between lines, square to them
  bool mirrored = false; ///< the other way, so that neighbours differ
  std::optional<Stroke> outline;
  friend bool operator==(const HatchShape&, const HatchShape&) = default;
};

using FlatShape = std::variant<RectShape, LineShape, PolylineShape, PolygonShape, CircleShape,
                               TextShape, HatchShape>;

struct Drawing2d {
  std::vector<FlatShape> shapes;
  /// Level and upright edges fall on whole pixels, for crisp lines.
  bool snap = true;

  void add(FlatShape shape) { shapes.push_back(std::move(shape)); }
  friend bool operator==(const Drawing2d&, const Drawing2d&) = default;
};

/// Measures words without drawing them. draw's Fonts is one.
class TextRuler {
public:
  TextRuler() = default;
  TextRuler(const TextRuler&) = delete;
  TextRuler& operator=(const TextRuler&) = delete;
  virtual ~TextRuler() = default;
  /// How far the pen goes along one line, in pixels.
  [[nodiscard]] virtual double width_px(std::string_view line, double size_px, FontWeight weight,
                                        bool even_digits) const = 0;
  /// Of a capital letter above the baseline: for setting words level with the
  /// middle of something.
  [[nodiscard]] virtual double capital_px(double size_px, FontWeight weight) const = 0;
};

/// The lines that a text shape's words fall into. Without a measure to wrap at,
/// spaces stay as they are; with one, several count as one.
inline std::vector<std::string> lines_of(const TextShape& text, const TextRuler& ruler) {
  std::vector<std::string> lines(1);
  if (text.wrap_px <= 0) {
    for (const char c : text.words) {
      if (c == '\n')
        lines.emplace_back();
      else
        lines.back() += c;
    }
    return lines;
  }
  std::string word;
  const auto fits = [&](const std::string& line) {
    return ruler.width_px(line, text.size_px, text.weight, text.even_digits) <= text.wrap_px;
  };
  const auto place_word = [&] {
    if (word.empty())
      return;
    std::string& line = lines.back();
    const std::string joined = line.empty() ? word : line + " " + word;
    // A word wider than the measure stands alone rather than being broken.
    if (line.empty() || fits(joined))
      line = joined;
    else
      lines.push_back(word);
    word.clear();
  };
  for (const char c : text.words) {
    if (c == ' ' || c == '\n')
      place_word();
    if (c == '\n')
      lines.emplace_back();
    else if (c != ' ')
      word += c;
  }
  place_word();
  return lines;
}

struct TextExtent {
  double width_px = 0;  ///< of the widest line
  double height_px = 0; ///< from the first line's capitals to the last line's baseline
  int lines = 0;
};

inline TextExtent extent_of(const TextShape& text, const TextRuler& ruler) {
  TextExtent extent;
  for (const std::string& line : lines_of(text, ruler)) {
    const double width = ruler.width_px(line, text.size_px, text.weight, text.even_digits);
    extent.width_px = width > extent.width_px ? width : extent.width_px;
    ++extent.lines;
  }
  extent.height_px = ruler.capital_px(text.size_px, text.weight) +
                     (extent.lines - 1) * text.line_step * text.size_px;
  return extent;
}

inline HatchStyle hatch_style_of(std::string_view material) {
  const auto says = [material](std::string_view word) {
    return material.find(word) != std::string_view::npos;
  };
  if (says("friction") || says("lining"))
    return HatchStyle::lining;
  if (says("rubber") || says("seal"))
    return HatchStyle::rubber;
  if (says("bronze") || says("brass"))
    return HatchStyle::bronze;
  if (says("spring"))
    return HatchStyle::spring_steel;
  if (says("alu"))
    return HatchStyle::aluminium;
  if (says("iron"))
    return HatchStyle::iron;
  if (says("plastic"))
    return HatchStyle::plastic;
  return HatchStyle::steel;
}

} // namespace lugline
