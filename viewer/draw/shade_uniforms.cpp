#include "viewer/draw/shade_uniforms.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace lugline {
namespace {

constexpr double key_step_px = 8.5;
constexpr std::size_t most_keys = 8;

} // namespace

Look own_look(const PictureItem& item) {
  const Look look = look_of(item.material);
  return look == Look::own ? Look::other : look;
}

bool has_keys(const Frame& frame, const PictureItem& item) {
  return std::any_of(frame.picture->keys.begin(), frame.picture->keys.end(),
                     [&](const KeyLight& key) { return key.item == item.id; });
}

void set_light(Program& program, const Frame& frame) {
  const glm::dvec3 up = glm::dmat3(frame.view.view_from_place) * glm::dvec3(0, 0, 1);
  program.set("u_up", glm::vec3(up));
  program.set("u_plain", frame.picture->print_look ? 1 : 0);
}

void set_tones(Program& program, Role role, bool print_look) {
  std::array<glm::vec4, look_count> tones{};
  for (int i = 1; i < look_count; ++i) {
    const Tone tone = tone_of(static_cast<Look>(i), role, print_look);
    tones[static_cast<std::size_t>(i)] = glm::vec4(tone.colour, tone.gloss);
  }
  program.set("u_tones", tones);
}

void set_keys(Program& program, const Frame& frame, const PictureItem& item) {
  std::array<glm::vec4, most_keys> place{};
  std::array<glm::vec4, most_keys> reach{};
  std::array<glm::vec4, most_keys> colour{};
  std::size_t count = 0;
  for (const KeyLight& key : frame.picture->keys) {
    if (key.item != item.id || count == most_keys)
      continue;
    const glm::dvec3 out = outward(key.angle_rad);
    place[count] = glm::vec4(out.x, out.y, key.width_m * 0.5, std::max(key.pair - 1, 0) % 5);
    reach[count] = glm::vec4(key.inner_m, key.outer_m, key.low_m, key.high_m);
    colour[count] = glm::vec4(pair_colour(key.pair), 1.0f);
    ++count;
  }
  program.set("u_key_count", static_cast<int>(count));
  program.set("u_key_place", place);
  program.set("u_key_reach", reach);
  program.set("u_key_colour", colour);
  const double px = frame.options.scale / px_per_m_at_look(frame);
  program.set("u_key_step", glm::vec2(key_step_px * px, std::min(0.8 * px, 0.4e-3)));
}

double ladder_step(double target_m, double& fade) {
  constexpr double rung_m = 0.25e-3;
  const double level = std::log2(target_m / rung_m);
  const double whole = std::floor(level);
  fade = level - whole;
  return rung_m * std::exp2(whole);
}

double px_per_m_at_look(const Frame& frame) {
  return frame.view.px_per_m({0, 0, frame.picture->camera.look_at_m});
}

} // namespace lugline
