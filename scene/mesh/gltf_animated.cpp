#include "scene/mesh/gltf_animated.h"

#include "scene/mesh/gltf_document.h"
#include "scene/mesh/vector.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>
#include <tuple>

namespace lugline {

Quaternion turned_about_axis(double angle_rad) {
  return {0, 0, std::sin(angle_rad / 2), std::cos(angle_rad / 2)};
}

Quaternion turned_over_by(double over_rad) {
  return {0, std::sin(over_rad / 2), 0, std::cos(over_rad / 2)};
}

Quaternion then(const Quaternion& first, const Quaternion& next) {
  const Quaternion& a = next;
  const Quaternion& b = first;
  return {
      a.w * b.x + a.x * b.w + a.y * b.z - a.z * b.y, a.w * b.y - a.x * b.z + a.y * b.w + a.z * b.x,
      a.w * b.z + a.x * b.y - a.y * b.x + a.z * b.w, a.w * b.w - a.x * b.x - a.y * b.y - a.z * b.z};
}

Quaternion turned_back(const Quaternion& turn) {
  return {-turn.x, -turn.y, -turn.z, turn.w};
}

Vec3 turned(const Quaternion& turn, const Vec3& v) {
  const Vec3 axis{turn.x, turn.y, turn.z};
  const Vec3 twice = cross(axis, v) * 2;
  return v + twice * turn.w + cross(axis, twice);
}

namespace {

double inner(const Quaternion& a, const Quaternion& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z + a.w * b.w;
}

} // namespace

double angle_between(const Quaternion& a, const Quaternion& b) {
  // By the sine of a quarter: the cosine of a small turn says nothing of it.
  const double sign = inner(a, b) < 0 ? -1 : 1;
  const double x = a.x - sign * b.x;
  const double y = a.y - sign * b.y;
  const double z = a.z - sign * b.z;
  const double w = a.w - sign * b.w;
  return 4 * std::asin(std::min(std::sqrt(x * x + y * y + z * z + w * w) / 2, 1.0));
}

Quaternion between(const Quaternion& from, const Quaternion& to, double share) {
  const double half_rad = angle_between(from, to) / 2;
  const double sign = inner(from, to) < 0 ? -1 : 1;
  double a = 1 - share;
  double b = share;
  if (half_rad > 1e-6) {
    a = std::sin((1 - share) * half_rad) / std::sin(half_rad);
    b = std::sin(share * half_rad) / std::sin(half_rad);
  }
  b *= sign;
  const Quaternion q{a * from.x + b * to.x, a * from.y + b * to.y, a * from.z + b * to.z,
                     a * from.w + b * to.w};
  const double size = std::sqrt(inner(q, q));
  return {q.x / size, q.y / size, q.z / size, q.w / size};
}

namespace {

using gltf::Json;

Json extras_of(const std::string& text) {
  if (text.empty()) {
    return nullptr;
  }
  Json extras = Json::parse(text, nullptr, false);
  assert(extras.is_object() && "extras are JSON object text");
  return extras.is_object() ? extras : Json(nullptr);
}

/// (x, y, z) here is (x, z, -y) there, for an axis as for a point.
std::array<double, 4> there(KeyedFigure figure, const std::array<double, 4>& v) {
  if (figure == KeyedFigure::scale) {
    return {v[0], v[2], v[1], 0};
  }
  return {v[0] + 0.0, v[2] + 0.0, 0.0 - v[1], v[3]};
}

void place_node(const AnimatedNode& node, Json& json) {
  if (!(node.at_m == Vec3{})) {
    const auto at = there(KeyedFigure::place, {node.at_m.x, node.at_m.y, node.at_m.z, 0});
    json["translation"] = {at[0], at[1], at[2]};
  }
  if (!(node.turn == Quaternion{})) {
    const auto turn =
        there(KeyedFigure::turn, {node.turn.x, node.turn.y, node.turn.z, node.turn.w});
    json["rotation"] = turn;
  }
  if (!(node.scale == Vec3{1, 1, 1})) {
    const auto scale = there(KeyedFigure::scale, {node.scale.x, node.scale.y, node.scale.z, 0});
    json["scale"] = {scale[0], scale[1], scale[2]};
  }
}

/// Parents before children, and a mesh after the children of its node.
void add_nodes(const AnimatedModel& model, gltf::GlbDocument& document) {
  std::vector<std::vector<std::size_t>> children(model.nodes.size());
  std::size_t next = model.nodes.size();
  std::vector<std::size_t> meshes; // nodes that have one, in order
  for (std::size_t i = 0; i < model.nodes.size(); ++i) {
    const AnimatedNode& node = model.nodes[i];
    if (node.parent) {
      assert(*node.parent < i);
      children[*node.parent].push_back(i);
    }
    if (node.mesh != nullptr && !node.mesh->triangles.empty()) {
      children[i].push_back(next++);
      meshes.push_back(i);
    }
  }
  for (std::size_t i = 0; i < model.nodes.size(); ++i) {
    const AnimatedNode& node = model.nodes[i];
    Json json;
    json["name"] = node.name;
    place_node(node, json);
    if (!children[i].empty()) {
      json["children"] = children[i];
    }
    if (Json extras = extras_of(node.extras_json); !extras.is_null()) {
      json["extras"] = std::move(extras);
    }
    document.add_node(std::move(json), !node.parent);
  }
  for (const std::size_t i : meshes) {
    Json json;
    json["name"] = model.nodes[i].name + " mesh";
    document.show(*model.nodes[i].mesh, model.nodes[i].name, json);
    document.add_node(std::move(json), false);
  }
}

const char* path_word(KeyedFigure figure) {
  switch (figure) {
  case KeyedFigure::place:
    return "translation";
  case KeyedFigure::turn:
    return "rotation";
  case KeyedFigure::scale:
    break;
  }
  return "scale";
}

/// Accessors of a track: its times, and its figures there.
std::pair<int, int> keys_of(const KeyTrack& track, gltf::GlbDocument& document) {
  assert(!track.times_s.empty() && track.times_s.size() == track.figures.size());
  std::vector<float> times;
  std::vector<float> figures;
  const std::size_t width = track.figure == KeyedFigure::turn ? 4 : 3;
  std::array<double, 4> last{};
  for (std::size_t i = 0; i < track.times_s.size(); ++i) {
    times.push_back(static_cast<float>(track.times_s[i]));
    assert(i == 0 || times[i] > times[i - 1]);
    std::array<double, 4> there_now = there(track.figure, track.figures[i]);
    if (width == 4 && i > 0) {
      // A quaternion and its negative are one turn; players that do not look would go the long way.
      const double cosine = there_now[0] * last[0] + there_now[1] * last[1] +
                            there_now[2] * last[2] + there_now[3] * last[3];
      if (cosine < 0) {
        for (double& figure : there_now) {
          figure = -figure;
        }
      }
    }
    for (std::size_t k = 0; k < width; ++k) {
      figures.push_back(static_cast<float>(there_now[k]));
    }
    last = there_now;
  }
  return {document.add_keys(times, 1, true), document.add_keys(figures, width, false)};
}

Json animation_of(const NodeAnimation& animation, gltf::GlbDocument& document) {
  Json samplers = Json::array();
  Json channels = Json::array();
  std::map<std::tuple<int, int, bool>, std::size_t> known;
  for (const KeyTrack& track : animation.tracks) {
    const auto [input, output] = keys_of(track, document);
    const auto [place, fresh] = known.try_emplace({input, output, track.steps}, samplers.size());
    if (fresh) {
      Json sampler = {{"input", input}, {"output", output}};
      if (track.steps) {
        sampler["interpolation"] = "STEP";
      }
      samplers.push_back(std::move(sampler));
    }
    channels.push_back({{"sampler", place->second},
                        {"target", {{"node", track.node}, {"path", path_word(track.figure)}}}});
  }
  Json json = {{"name", animation.name},
               {"channels", std::move(channels)},
               {"samplers", std::move(samplers)}};
  if (Json extras = extras_of(animation.extras_json); !extras.is_null()) {
    json["extras"] = std::move(extras);
  }
  return json;
}

} // namespace

std::vector<unsigned char> write_animated_glb(const AnimatedModel& model) {
  gltf::GlbDocument document;
  add_nodes(model, document);
  for (const NodeAnimation& animation : model.animations) {
    if (!animation.tracks.empty()) {
      document.add_animation(animation_of(animation, document));
    }
  }
  return document.close(model.name, extras_of(model.extras_json));
}

} // namespace lugline
