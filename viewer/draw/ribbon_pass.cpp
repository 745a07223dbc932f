#include "viewer/draw/ribbon_pass.h"

#include "viewer/draw/lighting.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>

namespace lugline {

namespace {

struct RibbonVertex {
  float place[2];   ///< pixels from the top left
  float depth;      ///< metres along the sight line
  float along;      ///< pixels
  float across;     ///< pixels from the middle
  float half;       ///< half width; negative for a patch
  float dash[2];    ///< on and period, pixels; period 0: unbroken
  float opacity[3]; ///< seen, hidden, factor behind ghosts
  float colour[3];
};

constexpr const char* vertex_source = R"(
in vec2 a_place;
in float a_depth;
in vec3 a_line;   // along, across, half
in vec2 a_dash;
in vec3 a_opacity;
in vec3 a_colour;
uniform vec2 u_size;
out float v_depth;
out vec3 v_line;
flat out vec2 v_dash;
flat out vec3 v_opacity;
flat out vec3 v_colour;
void main() {
  v_depth = 1.0 / a_depth;
  v_line = a_line;
  v_dash = a_dash;
  v_opacity = a_opacity;
  v_colour = a_colour;
  gl_Position = vec4(a_place.x / u_size.x * 2.0 - 1.0, 1.0 - a_place.y / u_size.y * 2.0, 0.0, 1.0);
}
)";

constexpr const char* fragment_source = R"(
in float v_depth;
in vec3 v_line;
flat in vec2 v_dash;
flat in vec3 v_opacity;
flat in vec3 v_colour;
uniform sampler2D u_depth;
uniform sampler2D u_ghost;
uniform int u_has_ghost;
uniform int u_fine;
uniform ivec2 u_origin;
uniform ivec2 u_last;
layout(location = 0) out vec4 o_colour;

// Sample by sample, so that a line on a part's own outline, half behind the part, is not taken
// for one that another part hides.
float opacity_at(float z) {
  ivec2 first = (ivec2(gl_FragCoord.xy) - u_origin) * u_fine;
  float sum = 0.0;
  for (int j = 0; j < 2; ++j)
    for (int i = 0; i < 2; ++i) {
      ivec2 at = clamp(first + ivec2(i, j) * (u_fine - 1), ivec2(0), u_last);
      float one = sight_depth(texelFetch(u_depth, at, 0).r) < z ? v_opacity.y : v_opacity.x;
      if (u_has_ghost == 1 && sight_depth(texelFetch(u_ghost, at, 0).r) < z)
        one *= v_opacity.z;
      sum += 0.25 * one;
    }
  return sum;
}

void main() {
  float cover = 1.0;
  if (v_line.z >= 0.0) {
    cover = clamp(v_line.z + 0.5 - abs(v_line.y), 0.0, 1.0);
    if (v_dash.y > 0.0) {
      float in_dash = mod(v_line.x, v_dash.y);
      cover *= clamp(min(in_dash, v_dash.x - in_dash) + 0.5, 0.0, 1.0);
    }
  }
  float z = 1.0 / v_depth;
  o_colour = vec4(v_colour, cover * opacity_at(z));
}
)";

struct ScreenPoint {
  glm::dvec2 px{0};
  double depth_m = 0;
};

/// A run on screen; parts behind the near plane are cut away, so one ribbon may give several.
std::vector<std::vector<ScreenPoint>> runs_of(const Ribbon& ribbon, const View& view) {
  std::vector<glm::dvec3> points = ribbon.points_m;
  if (ribbon.closed && points.size() > 1)
    points.push_back(points.front());
  std::vector<std::vector<ScreenPoint>> runs;
  bool open = false;
  const auto add = [&](const glm::dvec3& point) {
    const std::optional<glm::dvec2> px = view.on_screen(point);
    if (!px)
      return;
    if (!open)
      runs.emplace_back();
    open = true;
    // Points nearer than this on screen add nothing but bad corners.
    if (runs.back().empty() || glm::length(runs.back().back().px - *px) > 0.05)
      runs.back().push_back({*px, std::max(view.depth_m(point) - ribbon.nearer_m, view.near_m)});
  };
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool here = view.depth_m(points[i]) > view.near_m;
    if (i > 0) {
      const double d0 = view.depth_m(points[i - 1]) - view.near_m;
      const double d1 = view.depth_m(points[i]) - view.near_m;
      if ((d0 > 0) != (d1 > 0)) {
        const double t = d0 / (d0 - d1);
        add(glm::mix(points[i - 1], points[i], std::clamp(t + (d0 > 0 ? -1e-6 : 1e-6), 0.0, 1.0)));
        if (d1 <= 0)
          open = false;
      }
    }
    if (here)
      add(points[i]);
  }
  return runs;
}

/// What every vertex of a mark has in common.
RibbonVertex plain_vertex(const glm::vec3& colour, double seen, double hidden,
                          double hidden_by_ghost) {
  RibbonVertex v{};
  v.opacity[0] = static_cast<float>(seen);
  v.opacity[1] = static_cast<float>(hidden);
  v.opacity[2] = static_cast<float>(hidden_by_ghost);
  for (int c = 0; c < 3; ++c)
    v.colour[c] = colour[c];
  return v;
}

void place(RibbonVertex& v, const glm::dvec2& px, double depth_m) {
  v.place[0] = static_cast<float>(px.x);
  v.place[1] = static_cast<float>(px.y);
  v.depth = static_cast<float>(depth_m);
}

void add_patch(const Patch& patch, const View& view, std::vector<RibbonVertex>& out) {
  std::vector<RibbonVertex> corners;
  for (const glm::dvec3& corner : patch.corners_m) {
    const std::optional<glm::dvec2> px = view.on_screen(corner);
    if (!px)
      return;
    RibbonVertex v = plain_vertex(patch.colour, patch.seen, patch.hidden, 1);
    place(v, *px, std::max(view.depth_m(corner) - patch.nearer_m, view.near_m));
    v.half = -1;
    corners.push_back(v);
  }
  for (std::size_t i = 1; i + 1 < corners.size(); ++i)
    out.insert(out.end(), {corners[0], corners[i], corners[i + 1]});
}

/// Dash and period in pixels, so stretched that a whole number of them fits and
/// an open run has a dash at either end; the period is 0 for an unbroken line.
glm::dvec2 fitted_dash(const Ribbon& ribbon, double scale, double length, bool loop) {
  if (ribbon.dash_px <= 0)
    return {0, 0};
  const double dash = ribbon.dash_px * scale;
  const double period = dash + ribbon.gap_px * scale;
  const double tail = loop ? 0 : dash;
  const double whole = std::max(1.0, std::round((length - tail) / period));
  return glm::dvec2(dash, period) * (length / (whole * period + tail));
}

/// Across a run at each of its points: a mitre, never longer than twice the width.
std::vector<glm::dvec2> sides_of(const std::vector<ScreenPoint>& run, bool loop) {
  const std::size_t last = run.size() - 1;
  const auto way = [&](std::size_t a, std::size_t b) {
    const glm::dvec2 d = run[b].px - run[a].px;
    return glm::dvec2(-d.y, d.x) / std::max(glm::length(d), 1e-9);
  };
  std::vector<glm::dvec2> sides;
  for (std::size_t i = 0; i <= last; ++i) {
    const glm::dvec2 before = i > 0 ? way(i - 1, i) : loop ? way(last - 1, last) : way(0, 1);
    const glm::dvec2 after = i < last ? way(i, i + 1) : loop ? way(0, 1) : before;
    const glm::dvec2 sum = before + after;
    sides.push_back(sum / std::max(glm::dot(sum, sum) * 0.5, 0.5));
  }
  return sides;
}

void add_run(const Ribbon& ribbon, const std::vector<ScreenPoint>& run, double scale,
             std::vector<RibbonVertex>& out) {
  const double half = 0.5 * ribbon.width_px * scale;
  const double reach = half + 1.0; // room for the soft side
  const bool loop = ribbon.closed && glm::length(run.front().px - run.back().px) < 0.2;
  double length = 0;
  for (std::size_t i = 0; i + 1 < run.size(); ++i)
    length += glm::length(run[i + 1].px - run[i].px);
  const glm::dvec2 dash = fitted_dash(ribbon, scale, length, loop);
  const std::vector<glm::dvec2> sides = sides_of(run, loop);
  const auto vertex = [&](std::size_t at, double side, double along_px) {
    RibbonVertex v =
        plain_vertex(ribbon.colour, ribbon.seen, ribbon.hidden, ribbon.hidden_by_ghost);
    place(v, run[at].px + sides[at] * (side * reach), run[at].depth_m);
    v.along = static_cast<float>(along_px);
    v.across = static_cast<float>(side * reach);
    v.half = static_cast<float>(half);
    v.dash[0] = static_cast<float>(dash.x);
    v.dash[1] = static_cast<float>(dash.y);
    return v;
  };
  double along = 0;
  for (std::size_t i = 0; i + 1 < run.size(); ++i) {
    const double next = along + glm::length(run[i + 1].px - run[i].px);
    const RibbonVertex a = vertex(i, -1, along);
    const RibbonVertex b = vertex(i, 1, along);
    const RibbonVertex c = vertex(i + 1, 1, next);
    const RibbonVertex d = vertex(i + 1, -1, next);
    out.insert(out.end(), {a, b, c, a, c, d});
    along = next;
  }
}

} // namespace

Outcome<RibbonPass> RibbonPass::create() {
  RibbonPass pass;
  auto program =
      Program::link("ribbon", vertex_source, std::string(buffer_reading_source) + fragment_source,
                    {"a_place", "a_depth", "a_line", "a_dash", "a_opacity", "a_colour"});
  if (!program)
    return Problem{program.problem()};
  pass.program_ = std::move(program).value();
  pass.vertices_ = GlVertexArray::make();
  pass.data_ = GlBuffer::make();
  glBindVertexArray(pass.vertices_.name());
  glBindBuffer(GL_ARRAY_BUFFER, pass.data_.name());
  const auto attribute = [](GLuint place, GLint count, std::size_t offset) {
    glEnableVertexAttribArray(place);
    glVertexAttribPointer(place, count, GL_FLOAT, GL_FALSE, sizeof(RibbonVertex),
                          reinterpret_cast<const void*>(offset));
  };
  attribute(0, 2, offsetof(RibbonVertex, place));
  attribute(1, 1, offsetof(RibbonVertex, depth));
  attribute(2, 3, offsetof(RibbonVertex, along));
  attribute(3, 2, offsetof(RibbonVertex, dash));
  attribute(4, 3, offsetof(RibbonVertex, opacity));
  attribute(5, 3, offsetof(RibbonVertex, colour));
  glBindVertexArray(0);
  return pass;
}

void RibbonPass::draw(const Frame& frame, const std::vector<Ribbon>& ribbons,
                      const std::vector<Patch>& patches, const SceneBuffers& scene,
                      const GlTexture* ghost_depth, const glm::ivec2& origin_px) {
  std::vector<RibbonVertex> out;
  for (const Patch& patch : patches)
    add_patch(patch, frame.view, out);
  for (const Ribbon& ribbon : ribbons)
    for (const std::vector<ScreenPoint>& run : runs_of(ribbon, frame.view))
      if (run.size() > 1)
        add_run(ribbon, run, frame.options.scale, out);
  if (out.empty())
    return;
  program_.use();
  program_.sample("u_depth", 0, scene.depth);
  program_.sample("u_ghost", 1, ghost_depth != nullptr ? *ghost_depth : scene.depth);
  program_.set("u_has_ghost", ghost_depth != nullptr ? 1 : 0);
  program_.set("u_planes", glm::vec2(frame.view.near_m, frame.view.far_m));
  program_.set("u_fine", frame.fine);
  program_.set("u_origin", origin_px);
  program_.set("u_last", glm::ivec2(scene.width - 1, scene.height - 1));
  program_.set("u_size", glm::vec2(frame.view.width_px, frame.view.height_px));
  glEnable(GL_BLEND);
  glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
  glBindVertexArray(vertices_.name());
  glBindBuffer(GL_ARRAY_BUFFER, data_.name());
  glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(out.size() * sizeof(RibbonVertex)),
               out.data(), GL_STREAM_DRAW);
  glDrawArrays(GL_TRIANGLES, 0, static_cast<GLsizei>(out.size()));
  glBindVertexArray(0);
  glDisable(GL_BLEND);
}

} // namespace lugline
