// How each material looks, and the few colours of ink and paper.
//
// A look is found from the material's words, as the files write them. Colours
// are sRGB, 0 to 1. Tones run from light to dark in the order aluminium, steel,
// bronze, iron, lining, rubber, so that they stay apart in grey print; hatching
// follows ISO 128-3's habit of one pattern for each kind of material.
#pragma once

#include "viewer/stage/picture.h"

#include <glm/glm.hpp>

#include <array>
#include <string>

namespace lugline {

enum class Look {
  own, ///< whatever the item itself is made of
  steel,
  aluminium,
  iron,
  bronze,
  lining,
  rubber,
  spring_steel,
  plastic,
  other
};
inline constexpr int look_count = 10;

/// "steel", "friction lining", "spring steel", …; an empty word is own, an
/// unknown one is other.
Look look_of(const std::string& material);

/// What the shader needs of a material: colour, and how it takes the light.
struct Tone {
  glm::vec3 colour{0.7f};
  float gloss = 0; ///< 0 dull … 1 polished
};

/// A look's tone in a role; own must have been replaced before.
Tone tone_of(Look look, Role role, bool print_look);
/// The pale tone of a cut face.
glm::vec3 cap_colour_of(Look look, Role role, bool print_look);

struct Inks {
  glm::vec3 paper_top{0.992f, 0.978f, 0.946f};
  glm::vec3 paper_bottom{0.955f, 0.925f, 0.874f};
  glm::vec3 ink{0.105f, 0.098f, 0.094f};
  glm::vec3 ghost{0.36f, 0.34f, 0.36f};
  glm::vec3 path{0.745f, 0.290f, 0.100f}; ///< fall line, turn arc, up arrow
};

/// The colour of a key pair: safe for colour-blind eyes, at least 3:1 on paper.
glm::vec3 pair_colour(int pair);

} // namespace lugline
