// Positions as 16-bit whole figures: which step they are counted in, and from where.
//
// Used inside this room alone. Lengths metres, in the mesh's own frame. The step is
// round (1, 2, 2.5 or 5 of some power of ten), so that a height drawn in hundredths
// of a millimetre is kept exactly, and one step serves all three directions, so that
// normals need no change. Equal positions give equal figures: what is closed stays so.
#pragma once

#include "scene/mesh/mesh.h"

#include <array>
#include <cstdint>
#include <optional>

namespace lugline::gltf {

/// The largest step: a position is off by half of it in each direction at most, by
/// 0.0087 mm in all. It spans 655 mm; what is larger keeps 32-bit floats.
inline constexpr double largest_step_m = 1e-5;

struct Quantization {
  double step_m = 0;
  Vec3 from_m; ///< whole steps; 0 in each direction where the figures reach without it

  [[nodiscard]] std::array<std::int16_t, 3> figures_of(const Vec3& position_m) const;
};

/// The finest that the mesh fits in; nothing where it fits in none.
std::optional<Quantization> quantization_of(const Mesh& mesh);

/// A unit normal in three normalised 8-bit figures.
std::array<std::int8_t, 3> small_normal(const Vec3& normal);

} // namespace lugline::gltf
