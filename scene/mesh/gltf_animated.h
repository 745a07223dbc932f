// A GLB that moves: nodes with their rest places, and animations of them.
//
// In: metres and radians, z along the axis; out: glTF's +Y up. Numbers are ours to get right, so a
// track that does not fit together is an assertion.
#pragma once

#include "scene/mesh/mesh.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// A turn about an axis through half its angle: x, y, z the axis by the sine, w the cosine.
struct Quaternion {
  double x = 0;
  double y = 0;
  double z = 0;
  double w = 1;
  friend bool operator==(const Quaternion&, const Quaternion&) = default;
};

/// About the axis, counter-clockwise seen from +z.
Quaternion turned_about_axis(double angle_rad);
/// About the 12 o'clock axis (+y), as Placement::turned_over.
Quaternion turned_over_by(double over_rad);
/// The first turn, and then the next.
Quaternion then(const Quaternion& first, const Quaternion& next);
Quaternion turned_back(const Quaternion& turn);
Vec3 turned(const Quaternion& turn, const Vec3& v);
/// The shorter way round, at an even pace; share 0 to 1.
Quaternion between(const Quaternion& from, const Quaternion& to, double share);
double angle_between(const Quaternion& a, const Quaternion& b);

struct AnimatedNode {
  std::string name;
  std::optional<std::size_t> parent; ///< index of an earlier node
  const Mesh* mesh = nullptr;
  Vec3 at_m; ///< at rest: while no animation plays
  Quaternion turn;
  Vec3 scale{1, 1, 1};
  std::string extras_json; ///< JSON object text, or empty
};

enum class KeyedFigure { place, turn, scale };

/// One figure of one node over time. Keys of a turn may be apart by less than half a turn only.
struct KeyTrack {
  std::size_t node = 0;
  KeyedFigure figure = KeyedFigure::place;
  bool steps = false;                         ///< held until the next key, rather than eased to it
  std::vector<double> times_s;                ///< rising
  std::vector<std::array<double, 4>> figures; ///< x y z, and w of a turn; one for each time
};

struct NodeAnimation {
  std::string name;
  std::vector<KeyTrack> tracks;
  std::string extras_json;
};

struct AnimatedModel {
  std::string name; ///< of the scene
  std::vector<AnimatedNode> nodes;
  std::vector<NodeAnimation> animations;
  std::string extras_json; ///< of the scene
};

/// Meshes are written once, as write_glb writes them; each node with a mesh has it in a child
/// named "NAME mesh", which undoes the quantisation. Equal keys are written once. Same model in,
/// same bytes out. Passes the Khronos validator with no errors and no warnings.
std::vector<unsigned char> write_animated_glb(const AnimatedModel& model);

} // namespace lugline
