#include "viewer/draw/crevice_pass.h"

#include "viewer/draw/lighting.h"

#include <cmath>
#include <cstdio>
#include <string>

namespace lugline {
namespace {

// The estimate is the usual one of obscurance from a depth buffer: each sample
// in a disc adds by how far it rises above the tangent plane, and less the
// farther off it is. Two discs: a small one for crevices, a large one for depth.
constexpr const char* gather_template = R"(
uniform sampler2D u_depth;
uniform sampler2D u_surface;
uniform sampler2D u_marks;
uniform int u_fine;
uniform vec2 u_half;      // half the fine size
uniform float u_focal;    // fine pixels that a metre spans at a metre
uniform vec2 u_radius;    // metres, small and large
uniform ivec2 u_last;     // last fine pixel
layout(location = 0) out vec4 o_open;

vec3 point_at(ivec2 at) {
  float z = sight_depth(texelFetch(u_depth, at, 0).r);
  return vec3((vec2(at) + 0.5 - u_half) * z / u_focal, -z);
}

float sampled(vec3 p, vec3 n, ivec2 at, mat2 turned, vec2 where, float r2, float least_rise) {
  ivec2 there = clamp(at + ivec2(turned * where), ivec2(0), u_last);
  vec3 v = point_at(there) - p;
  float vv = dot(v, v);
  float f = max(1.0 - vv / r2, 0.0);
  return f * f * max(dot(v, n) - least_rise, 0.0) * inversesqrt(vv + 1e-12);
}

in vec2 v_uv;

void main() {
  vec4 marks = texture(u_marks, v_uv);
  // Strong and light marks count alike: it is their number that matters.
  float crowd = min(4.5 * (length(marks.xy) + length(marks.zw)), 0.66);
  ivec2 here = ivec2(gl_FragCoord.xy);
  ivec2 at = min(here * u_fine, u_last);
  float d = texelFetch(u_depth, at, 0).r;
  if (d >= 1.0) {
    o_open = vec4(1.0, 1.0, 1.0, crowd);
    return;
  }
  vec3 p = point_at(at);
  vec3 n = opened_normal(texelFetch(u_surface, at, 0).rg);
  int cell = (here.x & 3) + 4 * (here.y & 3);
  float phase = float((cell * 7) & 15) * 0.39270;
  mat2 turned = mat2(cos(phase), sin(phase), -sin(phase), cos(phase));
  vec2 reach = u_radius * u_focal / -p.z;
  vec2 r2 = u_radius * u_radius;
  vec2 rise = 0.02 * u_radius;
  mat2 near_disc = turned * max(reach.x, 3.0);
  mat2 far_disc = turned * reach.y;
  float near_sum = 0.0;
  float far_sum = 0.0;
@SAMPLES@
  float closed = near_sum * 1.5 / float(@NEAR@) + far_sum * 1.9 / float(@FAR@);
  float z = clamp((-p.z - u_planes.x) / (u_planes.y - u_planes.x), 0.0, 1.0) * 255.0;
  o_open = vec4(clamp(1.0 - closed, 0.0, 1.0), floor(z) / 255.0, fract(z), crowd);
}
)";

constexpr const char* soften_source = R"(
uniform sampler2D u_open;
uniform ivec2 u_step;
uniform ivec2 u_last;
uniform float u_span;    // metres between the planes
uniform float u_radius;
layout(location = 0) out vec4 o_open;

void main() {
  ivec2 here = ivec2(gl_FragCoord.xy);
  vec4 middle = texelFetch(u_open, here, 0);
  float z = middle.g + middle.b / 255.0;
  float sum = middle.r;
  float weight = 1.0;
  float crowd = middle.a;
  for (int i = -2; i <= 2; ++i) {
    if (i == 0)
      continue;
    vec4 s = texelFetch(u_open, clamp(here + u_step * i, ivec2(0), u_last), 0);
    float apart = abs(s.g + s.b / 255.0 - z) * u_span / u_radius;
    // Two steps off counts half: over four pixels each of the sixteen turns counts once.
    float w = (abs(i) == 2 ? 0.5 : 1.0) * clamp(1.0 - apart * 2.0, 0.0, 1.0);
    crowd += s.a;
    sum += s.r * w;
    weight += w;
  }
  o_open = vec4(sum / weight, middle.g, middle.b, crowd * 0.2);
}
)";

constexpr int near_count = 5;
constexpr int far_count = 7;
constexpr double small_radius_px = 7;
constexpr double large_radius_px = 34;

/// The samples spelled out: a sunflower of points in each disc, so that the
/// compiler has no loop and no sines.
std::string gather_source() {
  std::string lines;
  const auto add = [&](const char* disc, const char* sum, const char* axis, int count,
                       double start) {
    for (int i = 0; i < count; ++i) {
      const double r = std::sqrt((i + 0.6) / count);
      const double a = start + i * 2.399963;
      char line[200];
      std::snprintf(line, sizeof line,
                    "  %s += sampled(p, n, at, %s, vec2(%.5f, %.5f), r2.%s, rise.%s);\n", sum, disc,
                    r * std::cos(a), r * std::sin(a), axis, axis);
      lines += line;
    }
  };
  add("near_disc", "near_sum", "x", near_count, 0);
  add("far_disc", "far_sum", "y", far_count, 1);
  std::string source = gather_template;
  const auto put = [&](const std::string& mark, const std::string& text) {
    source.replace(source.find(mark), mark.size(), text);
  };
  put("@SAMPLES@\n", lines);
  put("@NEAR@", std::to_string(near_count));
  put("@FAR@", std::to_string(far_count));
  return source;
}

/// Pixels of the picture along one of this pass.
int step_of(const Frame& frame) {
  return frame.options.quality.rough_crevices ? 2 : 1;
}

} // namespace

Outcome<CrevicePass> CrevicePass::create() {
  CrevicePass pass;
  auto gather = Program::link("crevice", cover_vertex_source(),
                              std::string(buffer_reading_source) + gather_source());
  if (!gather)
    return Problem{gather.problem()};
  auto soften = Program::link("crevice softening", cover_vertex_source(), soften_source);
  if (!soften)
    return Problem{soften.problem()};
  pass.gather_ = std::move(gather).value();
  pass.soften_ = std::move(soften).value();
  return pass;
}

void CrevicePass::fit(const Frame& frame) {
  const int step = step_of(frame);
  const int width = (frame.view.width_px + step - 1) / step;
  const int height = (frame.view.height_px + step - 1) / step;
  if (width_ == width && height_ == height)
    return;
  width_ = width;
  height_ = height;
  for (int i = 0; i < 2; ++i) {
    textures_[i] = make_texture(TexelKind::rgba8, width_, height_, true);
    framebuffers_[i] = GlFramebuffer::make();
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffers_[i].name());
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, textures_[i].name(),
                           0);
  }
}

void CrevicePass::draw(const Frame& frame, const SceneBuffers& scene, const GlTexture& marks,
                       const GlVertexArray& empty) {
  fit(frame);
  const double px_per_m = frame.view.px_per_m({0, 0, frame.picture->camera.look_at_m});
  const double small = small_radius_px * frame.options.scale / px_per_m;
  const double large = large_radius_px * frame.options.scale / px_per_m;
  const glm::vec2 planes(frame.view.near_m, frame.view.far_m);
  glViewport(0, 0, width_, height_);
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffers_[0].name());
  gather_.use();
  gather_.sample("u_depth", 0, scene.depth);
  gather_.sample("u_surface", 1, scene.surface);
  gather_.sample("u_marks", 2, marks);
  gather_.set("u_planes", planes);
  gather_.set("u_fine", frame.fine * step_of(frame));
  gather_.set("u_half", glm::vec2(scene.width * 0.5, scene.height * 0.5));
  gather_.set("u_focal", frame.view.focal_px * frame.fine);
  gather_.set("u_radius", glm::vec2(small, large));
  gather_.set("u_last", glm::ivec2(scene.width - 1, scene.height - 1));
  const int step = step_of(frame);
  const auto last = [step](int px) { return (px + step - 1) / step; };
  TouchedArea touched{frame.touched.left / step, frame.touched.low / step,
                      last(frame.touched.right), last(frame.touched.high)};
  touched.scissor(1);
  draw_cover(empty);
  soften_.use();
  soften_.set("u_last", glm::ivec2(width_ - 1, height_ - 1));
  soften_.set("u_span", frame.view.far_m - frame.view.near_m);
  soften_.set("u_radius", small);
  for (int i = 0; i < 2; ++i) {
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffers_[1 - i].name());
    soften_.sample("u_open", 0, textures_[i]);
    soften_.set("u_step", i == 0 ? glm::ivec2(1, 0) : glm::ivec2(0, 1));
    draw_cover(empty);
  }
  glDisable(GL_SCISSOR_TEST);
}

} // namespace lugline
