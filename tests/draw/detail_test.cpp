// Coarser triangles, and triangles sorted by the cut. No OpenGL.
#include "viewer/draw/detail.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using namespace lugline;

namespace {

struct Points {
  std::vector<glm::vec3> points;
  std::vector<std::uint32_t> indices;
};

/// A ring of a square section, its edges sharp: each of its four faces has vertices of its own.
Points ring(unsigned steps, float inner, float outer, float high) {
  Points made;
  const auto face = [&](float r0, float z0, float r1, float z1) {
    const auto first = static_cast<std::uint32_t>(made.points.size());
    for (unsigned i = 0; i < steps; ++i) {
      const float angle =
          2 * std::numbers::pi_v<float> * static_cast<float>(i) / static_cast<float>(steps);
      made.points.emplace_back(r0 * std::cos(angle), r0 * std::sin(angle), z0);
      made.points.emplace_back(r1 * std::cos(angle), r1 * std::sin(angle), z1);
      const std::uint32_t at = first + 2 * i;
      const std::uint32_t next = first + 2 * ((i + 1) % steps);
      made.indices.insert(made.indices.end(), {at, next, next + 1, at, next + 1, at + 1});
    }
  };
  face(outer, 0, outer, high);
  face(outer, high, inner, high);
  face(inner, high, inner, 0);
  face(inner, 0, outer, 0);
  return made;
}

double distance_to(const glm::dvec3& p, const glm::dvec3& a, const glm::dvec3& b,
                   const glm::dvec3& c) {
  const glm::dvec3 n = glm::cross(b - a, c - a);
  const double area = glm::length(n);
  double nearest = std::min({glm::distance(p, a), glm::distance(p, b), glm::distance(p, c)});
  const auto to_edge = [&](const glm::dvec3& from, const glm::dvec3& to) {
    const double t =
        std::clamp(glm::dot(p - from, to - from) / glm::dot(to - from, to - from), 0.0, 1.0);
    nearest = std::min(nearest, glm::distance(p, from + t * (to - from)));
  };
  to_edge(a, b);
  to_edge(b, c);
  to_edge(c, a);
  if (area > 0) {
    const glm::dvec3 unit = n / area;
    const glm::dvec3 foot = p - glm::dot(p - a, unit) * unit;
    const bool inside = glm::dot(glm::cross(b - a, foot - a), n) >= 0 &&
                        glm::dot(glm::cross(c - b, foot - b), n) >= 0 &&
                        glm::dot(glm::cross(a - c, foot - c), n) >= 0;
    nearest = inside ? std::min(nearest, std::abs(glm::dot(p - a, unit))) : nearest;
  }
  return nearest;
}

double distance_to(const glm::dvec3& p, const Points& mesh, const std::vector<std::uint32_t>& of) {
  double nearest = 1e9;
  for (std::size_t i = 0; i < of.size(); i += 3) {
    nearest = std::min(nearest, distance_to(p, mesh.points[of[i]], mesh.points[of[i + 1]],
                                            mesh.points[of[i + 2]]));
  }
  return nearest;
}

} // namespace

TEST_CASE("coarser levels have fewer triangles and stay as near to the mesh as they say") {
  const Points mesh = ring(180, 0.06f, 0.08f, 0.002f);
  const std::vector<DetailLevel> levels = levels_of(mesh.points, mesh.indices);
  REQUIRE(levels.size() >= 2);
  std::size_t before = mesh.indices.size();
  double error_before_m = 0;
  for (const DetailLevel& level : levels) {
    CHECK(level.indices.size() < before);
    CHECK(level.error_m > error_before_m);
    before = level.indices.size();
    error_before_m = level.error_m;
    double farthest_m = 0;
    for (const glm::vec3& point : mesh.points) {
      farthest_m = std::max(farthest_m, distance_to(point, mesh, level.indices));
    }
    INFO(level.indices.size() / 3 << " triangles of " << mesh.indices.size() / 3 << ", said "
                                  << level.error_m << " m");
    CHECK(farthest_m < level.error_m);
  }
  CHECK(before < mesh.indices.size() / 3);
}

TEST_CASE("a mesh of few triangles has no coarser levels, nor has one of none") {
  const Points mesh = ring(12, 0.06f, 0.08f, 0.002f);
  CHECK(levels_of(mesh.points, mesh.indices).empty());
  CHECK(levels_of({}, {}).empty());
}

TEST_CASE(
    "triangles sorted by the cut: none that shows is lost, and only those on a plane are cut") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> any(-1, 1);
  for (const auto& [from, to] : {std::pair(0.3, 1.9), std::pair(-1.0, 4.2), std::pair(2.0, 2.4),
                                 std::pair(0.0, std::numbers::pi)}) {
    const Cut cut{true, from, to};
    const WedgePlanes wedge = wedge_of(cut);
    std::vector<glm::dvec2> points;
    std::vector<std::uint32_t> indices;
    for (int i = 0; i < 3000; ++i) {
      const glm::dvec2 middle(any(random), any(random));
      for (int k = 0; k < 3; ++k) {
        indices.push_back(static_cast<std::uint32_t>(points.size()));
        points.push_back(middle + 0.1 * glm::dvec2(any(random), any(random)));
      }
    }
    const SortedByCut sorted = sorted_by_cut(points, indices, wedge);
    CHECK(sorted.whole % 3 == 0);
    CHECK(sorted.whole > 0);
    CHECK(sorted.whole < sorted.indices.size());
    std::vector<int> kept(points.size() / 3, 0);
    for (std::size_t i = 0; i < sorted.indices.size(); i += 3) {
      kept[sorted.indices[i] / 3] = i < sorted.whole ? 2 : 1;
    }
    bool some_taken = false;
    for (std::size_t t = 0; t < kept.size(); ++t) {
      int taken = 0;
      for (int k = 0; k < 50; ++k) {
        double a = std::abs(any(random));
        double b = std::abs(any(random));
        if (a + b > 1) {
          a = 1 - a;
          b = 1 - b;
        }
        const glm::dvec2 p = points[3 * t] + a * (points[3 * t + 1] - points[3 * t]) +
                             b * (points[3 * t + 2] - points[3 * t]);
        taken += in_wedge(cut, {p.x, p.y, 0}) ? 1 : 0;
      }
      const bool wrong = (kept[t] == 2 && taken > 0) || (kept[t] == 0 && taken < 50);
      CHECK_FALSE(wrong);
      some_taken = some_taken || kept[t] == 0;
    }
    CHECK(some_taken);
  }
}
