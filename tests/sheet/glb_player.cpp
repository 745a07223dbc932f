#include "tests/sheet/glb_player.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstring>

namespace lugline::test {

namespace {

std::uint32_t word_at(const std::vector<unsigned char>& bytes, std::size_t at) {
  REQUIRE(at + 4 <= bytes.size());
  return bytes[at] | bytes[at + 1] << 8 | bytes[at + 2] << 16 |
         static_cast<std::uint32_t>(bytes[at + 3]) << 24;
}

std::array<double, 4> slerped(const std::array<double, 4>& a, std::array<double, 4> b,
                              double share) {
  double cosine = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    cosine += a[i] * b[i];
  }
  if (cosine < 0) {
    cosine = -cosine;
    for (double& figure : b) {
      figure = -figure;
    }
  }
  const double angle = std::acos(std::min(cosine, 1.0));
  const bool small = angle < 1e-4;
  const double wa = small ? 1 - share : std::sin((1 - share) * angle) / std::sin(angle);
  const double wb = small ? share : std::sin(share * angle) / std::sin(angle);
  std::array<double, 4> q{};
  double size = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    q[i] = wa * a[i] + wb * b[i];
    size += q[i] * q[i];
  }
  for (double& figure : q) {
    figure /= std::sqrt(size);
  }
  return q;
}

} // namespace

Vec3 NodePose::point(const Vec3& p) const {
  const auto [x, y, z, w] = turn;
  // The quaternion written out as a matrix.
  return {at_m.x + (1 - 2 * (y * y + z * z)) * p.x + 2 * (x * y - z * w) * p.y +
              2 * (x * z + y * w) * p.z,
          at_m.y + 2 * (x * y + z * w) * p.x + (1 - 2 * (x * x + z * z)) * p.y +
              2 * (y * z - x * w) * p.z,
          at_m.z + 2 * (x * z - y * w) * p.x + 2 * (y * z + x * w) * p.y +
              (1 - 2 * (x * x + y * y)) * p.z};
}

GlbPlayer::GlbPlayer(const std::vector<unsigned char>& bytes) {
  REQUIRE(word_at(bytes, 0) == 0x46546c67);
  REQUIRE(word_at(bytes, 8) == bytes.size());
  const std::size_t text = word_at(bytes, 12);
  document_ = nlohmann::json::parse(bytes.begin() + 20,
                                    bytes.begin() + 20 + static_cast<std::ptrdiff_t>(text));
  REQUIRE(word_at(bytes, 20 + text) == bytes.size() - 28 - text);
  binary_.assign(bytes.begin() + 28 + static_cast<std::ptrdiff_t>(text), bytes.end());
  for (std::size_t i = 0; i < document_["nodes"].size(); ++i) {
    nodes_[document_["nodes"][i]["name"]] = i;
  }
}

std::size_t GlbPlayer::animations() const {
  return document_.contains("animations") ? document_["animations"].size() : 0;
}

std::size_t GlbPlayer::animation(const std::string& name) const {
  const auto& all = document_["animations"];
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const auto& one) { return one["name"] == name; });
  INFO("animation " << name);
  REQUIRE(found != all.end());
  return static_cast<std::size_t>(found - all.begin());
}

std::vector<float> GlbPlayer::figures(std::size_t number) const {
  const auto& accessor = document_["accessors"][number];
  const auto& view = document_["bufferViews"][accessor["bufferView"].get<std::size_t>()];
  REQUIRE(accessor["componentType"] == 5126);
  REQUIRE_FALSE(view.contains("byteStride"));
  const std::string type = accessor["type"];
  const std::size_t width = type == "SCALAR" ? 1 : type == "VEC3" ? 3 : 4;
  const std::size_t offset =
      view["byteOffset"].get<std::size_t>() + accessor["byteOffset"].get<std::size_t>();
  std::vector<float> result(accessor["count"].get<std::size_t>() * width);
  REQUIRE(offset + result.size() * 4 <= binary_.size());
  std::memcpy(result.data(), binary_.data() + offset, result.size() * 4);
  return result;
}

NodePose GlbPlayer::pose(std::size_t animation, double time_s, const std::string& name) const {
  REQUIRE(nodes_.contains(name));
  const std::size_t number = nodes_.at(name);
  const auto& node = document_["nodes"][number];
  std::map<std::string, std::vector<double>> now{
      {"translation", node.value("translation", std::vector<double>{0, 0, 0})},
      {"rotation", node.value("rotation", std::vector<double>{0, 0, 0, 1})},
      {"scale", node.value("scale", std::vector<double>{1, 1, 1})}};
  const auto& playing = document_["animations"][animation];
  for (const auto& channel : playing["channels"]) {
    if (channel["target"]["node"] != number) {
      continue;
    }
    const auto& sampler = playing["samplers"][channel["sampler"].get<std::size_t>()];
    const auto times = figures(sampler["input"]);
    const auto keys = figures(sampler["output"]);
    const std::size_t width = keys.size() / times.size();
    const auto next = std::upper_bound(times.begin(), times.end(), static_cast<float>(time_s));
    const std::size_t b =
        std::min(static_cast<std::size_t>(next - times.begin()), times.size() - 1);
    const std::size_t a =
        next == times.begin() ? 0 : static_cast<std::size_t>(next - times.begin()) - 1;
    const bool steps = sampler.value("interpolation", "LINEAR") == "STEP";
    const double share = a == b || steps ? 0 : (time_s - times[a]) / (double{times[b]} - times[a]);
    std::vector<double> figure;
    for (std::size_t i = 0; i < width; ++i) {
      figure.push_back(keys[a * width + i] * (1 - share) + keys[b * width + i] * share);
    }
    if (width == 4) {
      std::array<double, 4> from{};
      std::array<double, 4> to{};
      std::copy_n(keys.begin() + static_cast<std::ptrdiff_t>(a * 4), 4, from.begin());
      std::copy_n(keys.begin() + static_cast<std::ptrdiff_t>(b * 4), 4, to.begin());
      const auto q = slerped(from, to, share);
      figure.assign(q.begin(), q.end());
    }
    now[channel["target"]["path"]] = figure;
  }
  // (x, y, z) there is (x, -z, y) here.
  const auto& t = now["translation"];
  const auto& r = now["rotation"];
  const auto& s = now["scale"];
  return {{t[0], -t[2], t[1]}, {r[0], -r[2], r[1], r[3]}, {s[0], s[2], s[1]}};
}

double GlbPlayer::widest_turn_rad() const {
  double widest = 0;
  for (std::size_t number = 0; number < animations(); ++number) {
    const auto& playing = document_["animations"][number];
    for (const auto& channel : playing["channels"]) {
      if (channel["target"]["path"] != "rotation") {
        continue;
      }
      const std::string node =
          document_["nodes"][channel["target"]["node"].get<std::size_t>()]["name"];
      const auto& sampler = playing["samplers"][channel["sampler"].get<std::size_t>()];
      const auto times = figures(sampler["input"]);
      const auto keys = figures(sampler["output"]);
      for (std::size_t i = 1; i < times.size(); ++i) {
        double cosine = 0;
        for (std::size_t k = 0; k < 4; ++k) {
          cosine += double{keys[i * 4 + k]} * double{keys[i * 4 + k - 4]};
        }
        // The long way round would be a cosine below 0.
        const double turn_rad = 2 * std::acos(std::clamp(cosine, -1.0, 1.0));
        const double middle_s = (double{times[i]} + double{times[i - 1]}) / 2;
        if (turn_rad > widest && !pose(number, middle_s, node).hidden()) {
          widest = turn_rad;
        }
      }
    }
  }
  return widest;
}

} // namespace lugline::test
