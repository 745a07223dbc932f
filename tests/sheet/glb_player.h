// A player of animated GLBs for tests: reads the bytes by itself and poses the nodes at a time.
// Metres, in our own frame (z up along the axis).
#pragma once

#include "scene/mesh/mesh.h"

#include <nlohmann/json.hpp>

#include <array>
#include <map>
#include <string>
#include <vector>

namespace lugline::test {

struct NodePose {
  Vec3 at_m;
  std::array<double, 4> turn{0, 0, 0, 1}; ///< x, y, z, w
  Vec3 scale{1, 1, 1};
  [[nodiscard]] bool hidden() const { return scale == Vec3{}; }
  /// Turned and moved, not scaled.
  [[nodiscard]] Vec3 point(const Vec3& own_m) const;
};

class GlbPlayer {
public:
  explicit GlbPlayer(const std::vector<unsigned char>& bytes);

  [[nodiscard]] const nlohmann::json& document() const { return document_; }
  [[nodiscard]] std::size_t animations() const;
  /// Index of the animation of that name; fails the test where there is none.
  [[nodiscard]] std::size_t animation(const std::string& name) const;
  [[nodiscard]] bool has(const std::string& node) const { return nodes_.contains(node); }
  /// In its parent's frame, as glTF 2.0 says that keys are played.
  [[nodiscard]] NodePose pose(std::size_t animation, double time_s, const std::string& node) const;
  /// The widest turn between two keys of any track while its node is shown, radians.
  [[nodiscard]] double widest_turn_rad() const;

private:
  [[nodiscard]] std::vector<float> figures(std::size_t accessor) const;

  nlohmann::json document_;
  std::vector<unsigned char> binary_;
  std::map<std::string, std::size_t> nodes_; ///< by name
};

} // namespace lugline::test
