#include "viewer/draw/cap_pass.h"

#include "viewer/draw/lighting.h"
#include "viewer/draw/shade_uniforms.h"
#include "viewer/draw/solid_shaders.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>

namespace lugline {

/// One half plane of the cut.
struct CapPass::Side {
  double angle_rad = 0;
  glm::dmat4 place{1};  ///< from (radius, height, 0) to the place's frame
  glm::dvec3 normal{0}; ///< looks into the wedge
  glm::vec4 hatch{0};   ///< steps of rising and falling lines, fade of their odd ones
};

namespace {

constexpr double hatch_step_px = 7.0;
constexpr double thinnest_lining_px = 3.2;
constexpr double nearer_step =
    16.0 / (1 << 24); ///< of the depth from -1 to 1: eight steps of 24 bits

/// Steps in metres that span the same on screen whichever way the lines run:
/// a line of a family runs along d, and its neighbours stand area / |d| pixels
/// apart for each metre between them.
glm::vec4 hatch_of(const Frame& frame, const glm::dvec3& along) {
  const double px_per_m = px_per_m_at_look(frame);
  const glm::dvec2 out_px(glm::dot(along, frame.view.right) * px_per_m,
                          glm::dot(along, frame.view.up) * px_per_m);
  const glm::dvec2 up_px(0, frame.view.up.z * px_per_m);
  const double area = std::abs(out_px.x * up_px.y - out_px.y * up_px.x);
  const double target = hatch_step_px * frame.options.scale;
  glm::dvec2 fade(0);
  glm::dvec2 step(0);
  for (int way = 0; way < 2; ++way) {
    const glm::dvec2 d = (out_px + (way == 0 ? 1.0 : -1.0) * up_px) * std::numbers::sqrt2 * 0.5;
    // A face seen edge on would ask for endless steps.
    const double px_a_metre = std::max(area / std::max(glm::length(d), 1e-9), 0.15 * px_per_m);
    step[way] = ladder_step(target / px_a_metre, fade[way]);
  }
  const glm::dvec2 odd = 1.0 - glm::smoothstep(glm::dvec2(0.35), glm::dvec2(0.95), fade);
  return {step.x, step.y, odd.x, odd.y};
}

std::array<glm::vec4, look_count> cap_colours(Role role, bool print_look) {
  std::array<glm::vec4, look_count> colours{};
  for (int i = 1; i < look_count; ++i)
    colours[static_cast<std::size_t>(i)] =
        glm::vec4(cap_colour_of(static_cast<Look>(i), role, print_look), 1.0f);
  return colours;
}

} // namespace

Outcome<CapPass> CapPass::create() {
  CapPass pass;
  const std::string shared = std::string(lighting_source) + key_source + cap_fragment_source;
  auto plain = Program::link("cut face", cap_vertex_source, shared, {"a_cap"});
  if (!plain)
    return Problem{plain.problem()};
  auto keyed =
      Program::link("lit cut face", cap_vertex_source, "#define KEYED\n" + shared, {"a_cap"});
  if (!keyed)
    return Problem{keyed.problem()};
  pass.plain_ = std::move(plain).value();
  pass.keyed_ = std::move(keyed).value();
  return pass;
}

void CapPass::draw(const Frame& frame, CapStore& caps, std::vector<std::string>& unclosed) {
  const Cut& cut = frame.picture->cut;
  glDisable(GL_CULL_FACE);
  for (int which = 0; which < 2; ++which) {
    Side side;
    side.angle_rad = which == 0 ? cut.from_rad : cut.to_rad;
    const glm::dvec3 along = outward(side.angle_rad);
    side.normal = glm::dvec3(-along.y, along.x, 0) * (which == 0 ? 1.0 : -1.0);
    side.place[0] = glm::dvec4(along, 0);
    side.place[1] = glm::dvec4(0, 0, 1, 0);
    side.place[2] = glm::dvec4(side.normal, 0);
    side.hatch = hatch_of(frame, along);
    for (const FrameItem& item : frame.items) {
      if (item.id == 0 || !item.cut)
        continue;
      const StoredCap& cap =
          caps.at(*item.item, side.angle_rad,
                  which == 0 ? KeptSide::clockwise : KeptSide::counter_clockwise);
      if (!cap.closed &&
          std::find(unclosed.begin(), unclosed.end(), item.item->id) == unclosed.end())
        unclosed.push_back(item.item->id);
      if (cap.vertex_count > 0)
        draw_item(frame, item, side, cap);
    }
  }
}

void CapPass::draw_item(const Frame& frame, const FrameItem& item, const Side& side,
                        const StoredCap& cap) {
  const bool print = frame.picture->print_look;
  const bool lit = has_keys(frame, *item.item);
  Program& program = lit ? keyed_ : plain_;
  program.use();
  set_light(program, frame);
  if (lit)
    set_keys(program, frame, *item.item);
  program.set("u_clip_from_cap", glm::mat4(frame.view.clip_from_place * side.place));
  program.set("u_part_from_cap", glm::mat4(glm::inverse(item.place) * side.place));
  const glm::dvec3 seen = glm::dmat3(frame.view.view_from_place) * side.normal;
  program.set("u_cap_normal", glm::vec3(seen));
  program.set("u_line", 0.95 * frame.options.scale * frame.fine);
  program.set("u_hatch", side.hatch);
  program.set("u_caps", cap_colours(item.item->role, print));
  set_tones(program, item.item->role, print);
  program.set("u_own", static_cast<int>(own_look(*item.item)));
  program.set("u_id", item.id);
  program.set("u_height", item.item->pose.height_m);
  // Linings too thin to see make the whole plate look lined, as on a small drawing.
  const double lining_px = cap.lining_m * px_per_m_at_look(frame) / frame.options.scale;
  const bool all_lining = cap.lining_m > 0 && lining_px < thinnest_lining_px;
  program.set("u_all", all_lining ? static_cast<int>(Look::lining) : 0);
  program.set("u_px_per_m", px_per_m_at_look(frame) / frame.options.scale);
  const auto order = static_cast<int>(item.item - frame.picture->items.data());
  program.set("u_mirror", order % 2);
  program.set("u_spread", (order / 2) % 2 == 0 ? 1.0 : 0.78);
  const double strength = item.item->role == Role::in_hand || print ? 0.80 : 0.52;
  program.set("u_hatch_ink", glm::vec4(Inks{}.ink, static_cast<float>(strength)));
  // Parts that press into each other share the plane: the later one stands before.
  // Not by glPolygonOffset: a software renderer compiles its setup anew for every offset.
  program.set("u_nearer", std::min(order, 250) * nearer_step);
  glBindVertexArray(cap.vertices.name());
  glDrawArrays(GL_TRIANGLES, 0, cap.vertex_count);
}

} // namespace lugline
