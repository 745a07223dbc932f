#include "viewer/draw/ink_pass.h"

#include "viewer/draw/lighting.h"
#include "viewer/draw/look.h"

#include <array>
#include <cassert>
#include <cmath>
#include <string>

namespace lugline {
namespace {

constexpr const char* edge_source = R"(
uniform sampler2D u_depth;
uniform sampler2D u_surface;
uniform vec2 u_half;
uniform float u_focal;
uniform ivec2 u_last;
uniform float u_jump;        // metres at one metre away
uniform int u_in_hand;       // ids up to this are in hand
uniform int u_emphasised;
uniform float u_hand_weight;
layout(location = 0) out vec4 o_marks;

vec3 point_at(ivec2 at, float d) {
  float z = sight_depth(d);
  return vec3((vec2(at) + 0.5 - u_half) * z / u_focal, -z);
}

// x strong, y light.
vec2 mark_between(int a, int b, vec3 na, vec3 nb, vec3 pa, vec3 pb) {
  if (a == 0 && b == 0)
    return vec2(0.0);
  int id_a = a / 32;
  int id_b = b / 32;
  float weight = 1.0;
  bool hand = (id_a > 0 && id_a <= u_in_hand) || (id_b > 0 && id_b <= u_in_hand);
  bool over = u_emphasised > 0 && (id_a == u_emphasised || id_b == u_emphasised);
  weight = over ? 2.1 : hand ? u_hand_weight : 1.0;
  if (id_a != id_b)
    return vec2((id_a == 0 || id_b == 0 ? 0.48 : 0.32) * weight, 0.0);
  if ((a / 16) != (b / 16))
    return vec2(0.31 * weight, 0.0);
  vec3 step = pb - pa;
  float allowed = u_jump * -pa.z;
  if (abs(dot(na, step)) > allowed && abs(dot(nb, step)) > allowed)
    return vec2(0.30 * weight, 0.0);
  if (dot(na, nb) < 0.83)
    return vec2(0.0, 0.31 * weight);
  if (a != b)
    return vec2(0.0, 0.27 * weight);
  return vec2(0.0);
}

void main() {
  ivec2 at = ivec2(gl_FragCoord.xy);
  ivec2 beside = min(at + ivec2(1, 0), u_last);
  ivec2 above = min(at + ivec2(0, 1), u_last);
  vec4 s = texelFetch(u_surface, at, 0);
  vec4 sx = texelFetch(u_surface, beside, 0);
  vec4 sy = texelFetch(u_surface, above, 0);
  vec3 p = point_at(at, texelFetch(u_depth, at, 0).r);
  vec3 px = point_at(beside, texelFetch(u_depth, beside, 0).r);
  vec3 py = point_at(above, texelFetch(u_depth, above, 0).r);
  int code = opened_code(s.ba);
  vec3 n = opened_normal(s.rg);
  vec2 sideways = mark_between(code, opened_code(sx.ba), n, opened_normal(sx.rg), p, px);
  vec2 upward = mark_between(code, opened_code(sy.ba), n, opened_normal(sy.rg), p, py);
  o_marks = vec4(sideways.x, upward.x, sideways.y, upward.y);
}
)";

constexpr const char* paper_source = R"(
uniform vec3 u_paper_top;
uniform vec3 u_paper_bottom;
uniform float u_aspect;
uniform ivec2 u_origin;
uniform int u_print;
uniform vec2 u_size;

// From the pixel and not from the corners, so that it is the same to the last
// bit wherever in a window the picture stands.
vec2 place() { return (gl_FragCoord.xy - vec2(u_origin)) / u_size; }

float grain(ivec2 p) {
  uint h = uint(p.x) * 374761393u + uint(p.y) * 668265263u;
  h = (h ^ (h >> 13u)) * 1274126177u;
  h ^= h >> 16u;
  return float(h & 1023u) / 1023.0 - 0.5;
}

vec3 paper(vec2 uv) {
  if (u_print == 1)
    return vec3(1.0);
  vec3 c = mix(u_paper_bottom, u_paper_top, uv.y);
  vec2 off = (uv - vec2(0.5, 0.56)) * vec2(u_aspect, 1.0);
  c += vec3(0.012, 0.013, 0.016) / (1.0 + 6.0 * dot(off, off));
  return c + grain(ivec2(gl_FragCoord.xy) - u_origin) * 0.0085;
}
)";

constexpr const char* bare_source = R"(
layout(location = 0) out vec4 o_colour;
void main() { o_colour = vec4(paper(place()), 1.0); }
)";

constexpr const char* compose_template = R"(
uniform sampler2D u_colour;
uniform sampler2D u_marks;
uniform sampler2D u_open;
uniform vec2 u_texel;        // of the marks
uniform vec4 u_taps[9];      // offset in fine pixels, weight
uniform vec3 u_ink;
layout(location = 0) out vec4 o_colour;

void main() {
  vec2 uv = place();
  vec4 scene = texture(u_colour, uv);
  vec4 marks = vec4(0.0);
  // Marks stand between pixels: half a pixel back finds them in place.
  vec2 middle = uv - 0.5 * u_texel;
@TAPS@
  float strong = length(marks.xy);
  float light = length(marks.zw);
  vec2 around = texture(u_open, uv).ra;
  // Where lines crowd they grow finer, so that they do not run together.
  // A slanting line alone counts for more in a square neighbourhood.
  float slant = (marks.x + marks.y + marks.z + marks.w) / max(strong + light, 0.001);
  float crowd = smoothstep(0.14, 0.32, around.y / max(slant, 1.0));
  strong *= 1.0 - 0.40 * crowd;
  light *= 1.0 - 0.45 * crowd;
  if (u_print == 0) {
    float dark = (1.0 - around.x) * scene.a;
    // Shade towards a warm brown and not towards black: no mud.
    scene.rgb *= mix(vec3(1.0), vec3(0.30, 0.265, 0.25), min(dark, 0.85));
    scene.rgb += scene.a * grain(ivec2(gl_FragCoord.xy) - u_origin) / 255.0;
  }
  vec3 c = scene.rgb + (1.0 - scene.a) * paper(uv);
  // The root of the brush's bell falls off nearly straight: a ramp one pixel
  // wide at a line's side, as even aslant as level.
  float strong_ink = clamp((sqrt(strong) - 0.110) / 0.523, 0.0, 1.0) * (0.94 - 0.24 * crowd);
  float light_ink = clamp((sqrt(light) - 0.110) / 0.455, 0.0, 1.0) * (0.58 - 0.22 * crowd);
  o_colour = vec4(mix(c, u_ink, max(strong_ink, light_ink)), 1.0);
}
)";

/// The brush's taps spelled out: no loop for the compiler to keep.
std::string compose_source(std::size_t taps) {
  std::string lines;
  for (std::size_t j = 0; j < taps; ++j)
    for (std::size_t i = 0; i < taps; ++i) {
      const std::string x = "u_taps[" + std::to_string(i) + "]";
      const std::string y = "u_taps[" + std::to_string(j) + "]";
      lines += "  marks += texture(u_marks, middle + vec2(" + x + ".x, " + y +
               ".x) * u_texel) * (" + x + ".y * " + y + ".y);\n";
    }
  std::string source = std::string(paper_source) + compose_template;
  const std::string mark = "@TAPS@\n";
  source.replace(source.find(mark), mark.size(), lines);
  return source;
}

constexpr double brush_px = 0.56; ///< standard deviation of the brush

/// Offsets and weights along one axis; pairs of fine pixels share one smooth fetch.
std::vector<glm::vec2> brush_taps(int fine, double scale) {
  const double sigma = brush_px * fine * scale;
  const auto weight = [sigma](double x) { return std::exp(-0.5 * x * x / (sigma * sigma)); };
  // Marks stand at whole fine pixels from a pixel's centre where two fine
  // pixels make one, and at halves where one does.
  std::vector<glm::vec2> taps;
  double next = 0;
  if (fine % 2 == 0) {
    taps.emplace_back(0.0, weight(0));
    next = 1;
  } else {
    taps.emplace_back(0.0, 2 * weight(0.5));
    next = 1.5;
  }
  while (taps.size() < 9 && next < 2.4 * sigma + 0.5) {
    const double a = weight(next);
    const double b = weight(next + 1);
    const double place = next + b / (a + b);
    taps.emplace_back(place, a + b);
    taps.emplace_back(-place, a + b);
    next += 2;
  }
  // One axis sums along the line and the other goes across it: the sum along is
  // made one, and the line's own middle one.
  double sum = 0;
  for (const glm::vec2& tap : taps)
    sum += tap.y;
  for (glm::vec2& tap : taps)
    tap.y = static_cast<float>(tap.y / std::sqrt(sum));
  return taps;
}

} // namespace

Outcome<InkPass> InkPass::create() {
  InkPass pass;
  auto edges = Program::link("edge", cover_vertex_source(),
                             std::string(buffer_reading_source) + edge_source);
  if (!edges)
    return Problem{edges.problem()};
  auto bare =
      Program::link("paper", cover_vertex_source(), std::string(paper_source) + bare_source);
  if (!bare)
    return Problem{bare.problem()};
  // The usual brush now, so that a driver that refuses it is heard of at once.
  const std::size_t usual = brush_taps(2, 1.0).size();
  auto compose = Program::link("compose", cover_vertex_source(), compose_source(usual));
  if (!compose)
    return Problem{compose.problem()};
  pass.edges_ = std::move(edges).value();
  pass.bare_ = std::move(bare).value();
  pass.compose_.emplace(usual, std::move(compose).value());
  pass.all_open_ = make_texture(TexelKind::rgba8, 1, 1, true);
  const std::array<unsigned char, 4> open_and_calm = {255, 255, 255, 0};
  glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, 1, 1, GL_RGBA, GL_UNSIGNED_BYTE, open_and_calm.data());
  return pass;
}

void InkPass::mark_edges(const Frame& frame, const SceneBuffers& scene,
                         const GlVertexArray& empty) {
  if (width_ != scene.width || height_ != scene.height) {
    width_ = scene.width;
    height_ = scene.height;
    marks_ = make_texture(TexelKind::rgba8, width_, height_, true);
    framebuffer_ = GlFramebuffer::make();
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffer_.name());
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, marks_.name(), 0);
  }
  glBindFramebuffer(GL_FRAMEBUFFER, framebuffer_.name());
  glViewport(0, 0, width_, height_);
  glClearColor(0, 0, 0, 0);
  glClear(GL_COLOR_BUFFER_BIT);
  edges_.use();
  edges_.sample("u_depth", 0, scene.depth);
  edges_.sample("u_surface", 1, scene.surface);
  edges_.set("u_planes", glm::vec2(frame.view.near_m, frame.view.far_m));
  edges_.set("u_half", glm::vec2(scene.width * 0.5, scene.height * 0.5));
  edges_.set("u_focal", frame.view.focal_px * frame.fine);
  edges_.set("u_last", glm::ivec2(width_ - 1, height_ - 1));
  edges_.set("u_jump", 2.0 / (frame.view.focal_px * frame.fine));
  edges_.set("u_in_hand", frame.in_hand_count);
  edges_.set("u_emphasised", frame.emphasised_id);
  // In print nothing but its lines tells the part in hand from the others.
  edges_.set("u_hand_weight", frame.picture->print_look ? 1.6 : 1.2);
  frame.touched.scissor(frame.fine);
  draw_cover(empty);
  glDisable(GL_SCISSOR_TEST);
}

void InkPass::set_paper(Program& program, const Frame& frame, const glm::ivec2& origin_px) {
  const Inks inks;
  program.set("u_paper_top", inks.paper_top);
  program.set("u_paper_bottom", inks.paper_bottom);
  program.set("u_print", frame.picture->print_look ? 1 : 0);
  program.set("u_aspect", static_cast<double>(frame.view.width_px) / frame.view.height_px);
  program.set("u_origin", origin_px);
  program.set("u_size", glm::vec2(frame.view.width_px, frame.view.height_px));
}

Program& InkPass::composer(std::size_t taps) {
  const auto found = compose_.find(taps);
  if (found != compose_.end())
    return found->second;
  auto made = Program::link("compose", cover_vertex_source(), compose_source(taps));
  // The same text with fewer lines compiled at the start.
  assert(made.ok());
  return compose_.emplace(taps, std::move(made).value()).first->second;
}

void InkPass::compose(const Frame& frame, const SceneBuffers& scene, const GlTexture* open,
                      const glm::ivec2& origin_px, const GlVertexArray& empty) {
  bare_.use();
  set_paper(bare_, frame, origin_px);
  draw_cover(empty);
  if (frame.touched.empty())
    return;
  const std::vector<glm::vec2> taps = brush_taps(frame.fine, frame.options.scale);
  Program& compose = composer(taps.size());
  compose.use();
  set_paper(compose, frame, origin_px);
  compose.sample("u_colour", 0, scene.colour);
  compose.sample("u_marks", 1, marks_);
  compose.sample("u_open", 2, open != nullptr ? *open : all_open_);
  compose.set("u_texel", glm::vec2(1.0 / scene.width, 1.0 / scene.height));
  std::vector<glm::vec4> padded;
  for (const glm::vec2& tap : taps)
    padded.emplace_back(tap, 0, 0);
  compose.set("u_taps", padded);
  compose.set("u_ink", Inks{}.ink);
  frame.touched.scissor(1, origin_px);
  draw_cover(empty);
  glDisable(GL_SCISSOR_TEST);
}

} // namespace lugline
