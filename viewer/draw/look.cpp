#include "viewer/draw/look.h"

#include <cassert>

namespace lugline {
namespace {

glm::vec3 rgb(int hex) {
  return {static_cast<float>((hex >> 16) & 255) / 255.0f,
          static_cast<float>((hex >> 8) & 255) / 255.0f, static_cast<float>(hex & 255) / 255.0f};
}

float grey_of(const glm::vec3& c) {
  return 0.2126f * c.r + 0.7152f * c.g + 0.0722f * c.b;
}

/// Less shine without turning a turned surface into a cast one (lighting.h).
float quieter(float gloss, float share) {
  return gloss > 0.5f ? 0.5f + (gloss - 0.5f) * share : gloss * share;
}

Tone full_tone(Look look) {
  switch (look) {
  case Look::steel:
    return {rgb(0x85a2bb), 0.95f};
  case Look::aluminium:
    return {rgb(0xc2ced6), 0.48f};
  case Look::iron:
    return {rgb(0x66727c), 0.38f};
  case Look::bronze:
    return {rgb(0xb87f33), 0.85f};
  case Look::lining:
    return {rgb(0x9a6238), 0.0f};
  case Look::rubber:
    return {rgb(0x3a3c44), 0.10f};
  case Look::spring_steel:
    return {rgb(0x54749a), 0.97f};
  case Look::plastic:
    return {rgb(0x9c9468), 0.20f};
  case Look::own:
  case Look::other:
    break;
  }
  return {rgb(0x93a0a4), 0.4f};
}

} // namespace

Look look_of(const std::string& material) {
  const auto says = [&](const char* word) { return material.find(word) != std::string::npos; };
  if (material.empty())
    return Look::own;
  if (says("friction") || says("lining") || says("paper"))
    return Look::lining;
  if (says("rubber") || says("seal"))
    return Look::rubber;
  if (says("bronze") || says("brass"))
    return Look::bronze;
  if (says("spring"))
    return Look::spring_steel;
  if (says("alu"))
    return Look::aluminium;
  if (says("iron"))
    return Look::iron;
  if (says("steel"))
    return Look::steel;
  if (says("plastic") || says("nylon") || says("ptfe"))
    return Look::plastic;
  return Look::other;
}

Tone tone_of(Look look, Role role, bool print_look) {
  assert(look != Look::own);
  Tone tone = full_tone(look);
  if (print_look)
    return {glm::vec3(1.0f), 0.0f};
  const float grey = grey_of(tone.colour);
  // Linings and bronze keep more of their own colour: a pack is read by it.
  const float own = look == Look::lining ? 1.0f : look == Look::bronze ? 0.5f : 0.0f;
  switch (role) {
  case Role::in_hand:
    break;
  case Role::shown:
    // Lighter than in hand: many parts side by side, and the lines between them, must read.
    tone.colour = glm::mix(tone.colour, rgb(0xf4efe6), glm::mix(0.26f, 0.08f, own));
    break;
  case Role::tool:
    tone.colour = glm::mix(rgb(0x5f7f74), tone.colour, 0.15f);
    tone.gloss = 0.3f;
    break;
  case Role::mate: {
    const glm::vec3 quiet = glm::mix(glm::vec3(grey), tone.colour, glm::mix(0.45f, 0.9f, own));
    tone.colour = glm::mix(quiet, rgb(0xe6e0d4), 0.38f);
    tone.gloss = quieter(tone.gloss, 0.8f);
    break;
  }
  case Role::placed:
  case Role::ghost: {
    const glm::vec3 quiet = glm::mix(glm::vec3(grey), tone.colour, glm::mix(0.16f, 0.8f, own));
    tone.colour = glm::mix(quiet, rgb(0xe9e3d7), glm::mix(0.58f, 0.44f, own));
    tone.gloss = quieter(tone.gloss, 0.6f);
    break;
  }
  }
  return tone;
}

glm::vec3 cap_colour_of(Look look, Role role, bool print_look) {
  if (print_look)
    return glm::vec3(1.0f);
  const Tone tone = tone_of(look, role, false);
  // A lined plate stays brown when cut, or a pack could not be read.
  const float lined = look == Look::lining ? 0.5f : 1.0f;
  const float toward_paper = lined * (role == Role::in_hand ? 0.52f : 0.70f);
  return glm::mix(tone.colour, rgb(0xfdfaf3), toward_paper);
}

glm::vec3 pair_colour(int pair) {
  static const std::array<int, 6> colours = {0x0072b2, 0xd55e00, 0x00795a,
                                             0xa8497f, 0x8a6d00, 0x3b4cc0};
  const int i = pair > 0 ? (pair - 1) % static_cast<int>(colours.size()) : 0;
  return rgb(colours[static_cast<std::size_t>(i)]);
}

} // namespace lugline
