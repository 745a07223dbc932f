#include "viewer/draw/painter.h"

#include "viewer/draw/gl.h"
#include "viewer/draw/glyph_page.h"
#include "viewer/draw/shapes2d.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>

namespace lugline {
namespace {

constexpr const char* vertex_source = R"(
in vec2 a_place;
in vec2 a_uv;
in vec4 a_colour;
uniform vec2 u_size;
out vec2 v_uv;
out vec4 v_colour;
void main() {
  v_uv = a_uv;
  v_colour = a_colour;
  gl_Position = vec4(a_place.x / u_size.x * 2.0 - 1.0, 1.0 - a_place.y / u_size.y * 2.0, 0.0, 1.0);
}
)";

constexpr const char* fragment_source = R"(
in vec2 v_uv;
in vec4 v_colour;
uniform sampler2D u_page;
layout(location = 0) out vec4 o_colour;
void main() {
  float cover = texture(u_page, max(v_uv, vec2(0.0))).r;
  o_colour = vec4(v_colour.rgb, v_colour.a * (v_uv.x < 0.0 ? 1.0 : cover));
}
)";

} // namespace

struct Painter::Inner {
  Program program;
  GlVertexArray vertices;
  GlBuffer data;
  GlyphPage page;
  Triangles2d triangles;
  double scale = 1;
  bool snap = true;

  Inner(Program made, std::shared_ptr<const Fonts> fonts)
      : program(std::move(made)), vertices(GlVertexArray::make()), data(GlBuffer::make()),
        page(std::move(fonts)) {}

  [[nodiscard]] glm::dvec2 at(const PointPx& p) const { return glm::dvec2(p.x_px, p.y_px) * scale; }
  [[nodiscard]] std::vector<glm::dvec2> all(const std::vector<PointPx>& points) const {
    std::vector<glm::dvec2> scaled;
    for (const PointPx& p : points)
      scaled.push_back(at(p));
    return scaled;
  }
  void flush();
  void add(const RectShape& shape);
  void add(const LineShape& shape);
  void add(const PolylineShape& shape);
  void add(const PolygonShape& shape);
  void add(const CircleShape& shape);
  void add(const TextShape& shape);
  void add(const HatchShape& shape);
  void level_line(glm::dvec2 from, glm::dvec2 to, Stroke stroke);
  void hatch_lines(const glm::dvec4& box, double step, double start, bool falling,
                   const Stroke& stroke);
};

void Painter::Inner::flush() {
  const std::vector<Vertex2d>& out = triangles.vertices();
  if (!out.empty()) {
    glBindVertexArray(vertices.name());
    glBindBuffer(GL_ARRAY_BUFFER, data.name());
    glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(out.size() * sizeof(Vertex2d)),
                 out.data(), GL_STREAM_DRAW);
    program.sample("u_page", 0, page.texture());
    glDrawArrays(GL_TRIANGLES, 0, static_cast<GLsizei>(out.size()));
  }
  triangles.clear();
}

void Painter::Inner::add(const RectShape& shape) {
  double left = shape.x_px * scale;
  double top = shape.y_px * scale;
  double right = (shape.x_px + shape.width_px) * scale;
  double bottom = (shape.y_px + shape.height_px) * scale;
  if (snap) {
    left = std::round(left);
    top = std::round(top);
    right = std::max(std::round(right), left + 1);
    bottom = std::max(std::round(bottom), top + 1);
  }
  const double corner = shape.corner_px * scale;
  if (shape.fill)
    triangles.fill(rounded_rect(left, top, right, bottom, corner), *shape.fill);
  if (!shape.stroke)
    return;
  Stroke stroke = *shape.stroke;
  if (snap) {
    // Inside the rectangle and whole pixels wide: both its sides are crisp.
    const double width = std::max(1.0, std::round(stroke.width_px * scale));
    const double half = 0.5 * width;
    stroke.width_px = width / scale;
    triangles.line(rounded_rect(left + half, top + half, right - half, bottom - half,
                                std::max(corner - half, 0.0)),
                   true, stroke, scale);
  } else {
    triangles.line(rounded_rect(left, top, right, bottom, corner), true, stroke, scale);
  }
}

void Painter::Inner::level_line(glm::dvec2 from, glm::dvec2 to, Stroke stroke) {
  const bool upright = from.x == to.x;
  const bool level = from.y == to.y;
  if (snap && (upright != level)) {
    const double width = std::max(1.0, std::round(stroke.width_px * scale));
    const bool odd = std::fmod(width, 2.0) == 1.0;
    const auto middle = [odd](double v) { return odd ? std::floor(v) + 0.5 : std::round(v); };
    stroke.width_px = width / scale;
    const int across = upright ? 0 : 1;
    from[across] = to[across] = middle(from[across]);
    from[1 - across] = std::round(from[1 - across]);
    to[1 - across] = std::round(to[1 - across]);
  }
  triangles.line({from, to}, false, stroke, scale);
}

void Painter::Inner::add(const LineShape& shape) {
  level_line(at(shape.from), at(shape.to), shape.stroke);
}

void Painter::Inner::add(const PolylineShape& shape) {
  triangles.line(all(shape.points), shape.closed, shape.stroke, scale);
}

void Painter::Inner::add(const PolygonShape& shape) {
  const std::vector<glm::dvec2> points = all(shape.points);
  if (shape.fill)
    triangles.fill(points, *shape.fill);
  if (shape.stroke)
    triangles.line(points, true, *shape.stroke, scale);
}

void Painter::Inner::add(const CircleShape& shape) {
  const double radius = shape.radius_px * scale;
  const std::vector<glm::dvec2> points = circle_points(at(shape.centre), radius);
  if (shape.fill)
    triangles.fill(points, *shape.fill);
  if (shape.stroke)
    triangles.line(points, true, *shape.stroke, scale);
}

void Painter::Inner::add(const TextShape& shape) {
  const double size = shape.size_px * scale;
  double baseline = shape.at.y_px * scale;
  for (const std::string& line : lines_of(shape, page.fonts())) {
    double width = 0;
    const std::vector<PlacedGlyph> glyphs =
        page.fonts().glyphs_of(line, size, shape.size_px, shape.weight, shape.even_digits, width);
    const double start = shape.at.x_px * scale - (shape.align == TextAlign::left     ? 0.0
                                                  : shape.align == TextAlign::centre ? 0.5 * width
                                                                                     : width);
    const double row = std::round(baseline);
    for (const PlacedGlyph& placed : glyphs) {
      const double quarters = std::round((start + placed.x_px) * 4);
      const double whole = std::floor(quarters / 4);
      const int fraction = static_cast<int>(quarters - 4 * whole);
      std::optional<StoredGlyph> glyph = page.at(placed.face, placed.glyph, size, fraction);
      if (!glyph) {
        flush();
        page.empty();
        glyph = page.at(placed.face, placed.glyph, size, fraction);
      }
      if (!glyph || glyph->width_px == 0)
        continue;
      const double left = whole + glyph->left_px;
      const double top = row - glyph->top_px;
      triangles.glyph(left, top, left + glyph->width_px, top + glyph->height_px, glyph->uv,
                      shape.colour);
    }
    baseline += shape.line_step * size;
  }
}

/// Lines at 45 degrees across a box (left, top, right, bottom), cut at its sides.
void Painter::Inner::hatch_lines(const glm::dvec4& box, double step, double start, bool falling,
                                 const Stroke& stroke) {
  const double w = box.z - box.x;
  const double h = box.w - box.y;
  const double along = step * std::sqrt(2.0); // from line to line along the top
  for (double c = start + along * std::ceil(-h / along); c < w + h; c += along) {
    // Rising: from (c, h) up to (c + h, 0); falling: from (c, 0) down to (c + h, h).
    const double t0 = std::max(0.0, -c);
    const double t1 = std::min(h, w - c);
    if (t1 - t0 < 0.2)
      continue;
    const auto point = [&](double t) {
      return glm::dvec2(box.x + c + t, falling ? box.y + t : box.w - t);
    };
    triangles.line({point(t0), point(t1)}, false, stroke, scale);
  }
}

void Painter::Inner::add(const HatchShape& shape) {
  RectShape ground{shape.x_px, shape.y_px, shape.width_px, shape.height_px, 0, shape.ground, {}};
  add(ground);
  glm::dvec4 box(shape.x_px * scale, shape.y_px * scale, (shape.x_px + shape.width_px) * scale,
                 (shape.y_px + shape.height_px) * scale);
  if (snap)
    box = glm::round(box);
  const double step = shape.step_px * scale;
  Stroke stroke{shape.line, 1.0, 0, 0};
  const bool falling = shape.mirrored;
  switch (shape.style) {
  case HatchStyle::none:
    break;
  case HatchStyle::steel:
  case HatchStyle::spring_steel:
    hatch_lines(box, step, 0, falling != (shape.style == HatchStyle::spring_steel), stroke);
    break;
  case HatchStyle::iron:
    stroke.width_px = 1.35;
    hatch_lines(box, 1.15 * step, 0, falling, stroke);
    break;
  case HatchStyle::aluminium:
    stroke.width_px = 0.85;
    hatch_lines(box, 1.55 * step, 0, falling, stroke);
    break;
  case HatchStyle::bronze:
    hatch_lines(box, 1.7 * step, 0, falling, stroke);
    hatch_lines(box, 1.7 * step, 0.45 * step, falling, stroke);
    break;
  case HatchStyle::lining:
    hatch_lines(box, 0.8 * step, 0, false, stroke);
    hatch_lines(box, 0.8 * step, 0, true, stroke);
    break;
  case HatchStyle::rubber:
    stroke.width_px = 1.3;
    hatch_lines(box, 0.5 * step, 0, false, stroke);
    hatch_lines(box, 0.5 * step, 0, true, stroke);
    break;
  case HatchStyle::plastic:
    stroke.width_px = 0.8;
    hatch_lines(box, 1.5 * step, 0, false, stroke);
    hatch_lines(box, 1.5 * step, 0, true, stroke);
    break;
  }
  if (shape.outline) {
    ground.fill.reset();
    ground.stroke = shape.outline;
    add(ground);
  }
}

Painter::Painter(std::unique_ptr<Inner> inner) : inner_(std::move(inner)) {}
Painter::Painter(Painter&&) noexcept = default;
Painter& Painter::operator=(Painter&&) noexcept = default;
Painter::~Painter() = default;

Outcome<Painter> Painter::create(std::shared_ptr<const Fonts> fonts) {
  auto program =
      Program::link("painter", vertex_source, fragment_source, {"a_place", "a_uv", "a_colour"});
  if (!program)
    return Problem{program.problem()};
  auto inner = std::make_unique<Inner>(std::move(program).value(), std::move(fonts));
  glBindVertexArray(inner->vertices.name());
  glBindBuffer(GL_ARRAY_BUFFER, inner->data.name());
  const auto offset = [](std::size_t bytes) { return reinterpret_cast<const void*>(bytes); };
  glEnableVertexAttribArray(0);
  glVertexAttribPointer(0, 2, GL_FLOAT, GL_FALSE, sizeof(Vertex2d), offset(offsetof(Vertex2d, x)));
  glEnableVertexAttribArray(1);
  glVertexAttribPointer(1, 2, GL_FLOAT, GL_FALSE, sizeof(Vertex2d), offset(offsetof(Vertex2d, u)));
  glEnableVertexAttribArray(2);
  glVertexAttribPointer(2, 4, GL_UNSIGNED_BYTE, GL_TRUE, sizeof(Vertex2d),
                        offset(offsetof(Vertex2d, rgba)));
  glBindVertexArray(0);
  return Painter(std::move(inner));
}

void Painter::paint(const Drawing2d& drawing, unsigned framebuffer, const Viewport& viewport,
                    double scale) {
  Inner& in = *inner_;
  in.scale = scale;
  in.snap = drawing.snap;
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffer);
  glViewport(viewport.x_px, viewport.y_px, viewport.width_px, viewport.height_px);
  glDisable(GL_DEPTH_TEST);
  glDisable(GL_CULL_FACE);
  glDisable(GL_SCISSOR_TEST);
  glEnable(GL_BLEND);
  glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
  in.program.use();
  in.program.set("u_size", glm::vec2(viewport.width_px, viewport.height_px));
  for (const FlatShape& shape : drawing.shapes)
    std::visit([&in](const auto& one) { in.add(one); }, shape);
  in.flush();
  glDisable(GL_BLEND);
  glBindVertexArray(0);
  glUseProgram(0);
}

const Fonts& Painter::fonts() const {
  return inner_->page.fonts();
}

} // namespace lugline
