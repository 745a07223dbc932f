#include "scene/recipe/surface.h"

#include "scene/recipe/strip.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <map>
#include <tuple>
#include <utility>

namespace lugline {

namespace {

class Surface {
public:
  explicit Surface(const Plan& plan) : plan_(plan), triangles_(plan.materials.size()) {
    find_levels();
    for (std::size_t c = 0; c < plan_.cells.size(); ++c) {
      add_caps(plan_.cells[c]);
    }
    for (const PlanEdge& edge : plan_.edges) {
      add_walls(edge);
    }
  }

  Mesh take() {
    for (std::size_t m = 0; m < triangles_.size(); ++m) {
      if (triangles_[m].empty()) {
        continue;
      }
      mesh_.ranges.push_back({plan_.materials[m],
                              static_cast<std::uint32_t>(mesh_.triangles.size()),
                              static_cast<std::uint32_t>(triangles_[m].size())});
      mesh_.triangles.insert(mesh_.triangles.end(), triangles_[m].begin(), triangles_[m].end());
    }
    return std::move(mesh_);
  }

private:
  /// At each vertex, every level at which a cell that meets there changes: the
  /// walls round it are parted there, so that they fit each other.
  void find_levels() {
    levels_.resize(plan_.vertices.size());
    for (const Cell& cell : plan_.cells) {
      for (const Slab& slab : cell.slabs) {
        for (const std::vector<int>* chain : {&cell.inner, &cell.outer}) {
          for (const int v : *chain) {
            levels_[static_cast<std::size_t>(v)].push_back(slab.low);
            levels_[static_cast<std::size_t>(v)].push_back(slab.high);
          }
        }
      }
    }
    for (std::vector<int>& levels : levels_) {
      std::sort(levels.begin(), levels.end());
      levels.erase(std::unique(levels.begin(), levels.end()), levels.end());
    }
  }

  std::uint32_t vertex(int at, int level, int material, const Vec3& normal) {
    const auto whole = [](double part) { return static_cast<int>(std::lround(part * 1e6)); };
    const auto key =
        std::make_tuple(at, level, material, whole(normal.x), whole(normal.y), whole(normal.z));
    const auto [found, is_new] =
        index_.try_emplace(key, static_cast<std::uint32_t>(mesh_.positions_m.size()));
    if (is_new) {
      const PlanVertex& v = plan_.vertices[static_cast<std::size_t>(at)];
      mesh_.positions_m.push_back({v.x_m, v.y_m, plan_.heights_m[static_cast<std::size_t>(level)]});
      mesh_.normals.push_back(normal);
    }
    return found->second;
  }

  void add(int material, std::uint32_t a, std::uint32_t b, std::uint32_t c) {
    triangles_[static_cast<std::size_t>(material)].push_back({a, b, c});
  }

  /// The cell's triangles in plan, counter-clockwise.
  [[nodiscard]] std::vector<std::array<int, 3>> plan_triangles(const Cell& cell) const {
    const auto points = [&](const std::vector<int>& chain) {
      std::vector<StripPoint> all;
      for (const int v : chain) {
        const PlanVertex& p = plan_.vertices[static_cast<std::size_t>(v)];
        all.push_back({p.x_m, p.y_m});
      }
      return all;
    };
    std::vector<std::array<int, 3>> made;
    const StripSteps steps = strip_between(points(cell.inner), points(cell.outer));
    assert(steps.size() + 2 == cell.inner.size() + cell.outer.size());
    std::size_t i = 0;
    std::size_t j = 0;
    for (const bool second : steps) {
      if (second) {
        made.push_back({cell.inner[i], cell.outer[j], cell.outer[j + 1]});
        ++j;
      } else {
        made.push_back({cell.inner[i], cell.outer[j], cell.inner[i + 1]});
        ++i;
      }
    }
    return made;
  }

  void add_caps(const Cell& cell) {
    if (cell.slabs.empty()) {
      return;
    }
    const std::vector<std::array<int, 3>> triangles = plan_triangles(cell);
    for (std::size_t s = 0; s < cell.slabs.size(); ++s) {
      const Slab& slab = cell.slabs[s];
      const bool open_below = s == 0 || cell.slabs[s - 1].high < slab.low;
      const bool open_above = s + 1 == cell.slabs.size() || cell.slabs[s + 1].low > slab.high;
      for (const auto& [a, b, c] : triangles) {
        if (open_above) {
          const auto at = [&](int v) { return vertex(v, slab.high, slab.material, {0, 0, 1}); };
          add(slab.material, at(a), at(b), at(c));
        }
        if (open_below) {
          const auto at = [&](int v) { return vertex(v, slab.low, slab.material, {0, 0, -1}); };
          add(slab.material, at(a), at(c), at(b));
        }
      }
    }
  }

  /// Material at a level and just above it; -1: empty.
  [[nodiscard]] int material_above(int cell, int level) const {
    if (cell >= 0) {
      for (const Slab& slab : plan_.cells[static_cast<std::size_t>(cell)].slabs) {
        if (slab.low <= level && level < slab.high) {
          return slab.material;
        }
      }
    }
    return -1;
  }

  void add_walls(const PlanEdge& edge) {
    struct Run {
      int low, high, material;
      bool left_is_full;
    };
    std::vector<Run> runs;
    for (int level = 0; level + 1 < static_cast<int>(plan_.heights_m.size()); ++level) {
      const int left = material_above(edge.left, level);
      const int right = material_above(edge.right, level);
      if ((left < 0) == (right < 0)) {
        continue;
      }
      const Run next{level, level + 1, std::max(left, right), left >= 0};
      if (!runs.empty() && runs.back().high == level && runs.back().material == next.material &&
          runs.back().left_is_full == next.left_is_full) {
        runs.back().high = level + 1;
      } else {
        runs.push_back(next);
      }
    }
    for (const Run& run : runs) {
      add_wall(edge, run.low, run.high, run.material, run.left_is_full);
    }
  }

  [[nodiscard]] std::vector<int> column(int v, int low, int high) const {
    std::vector<int> levels{low};
    for (const int level : levels_[static_cast<std::size_t>(v)]) {
      if (level > low && level < high) {
        levels.push_back(level);
      }
    }
    levels.push_back(high);
    return levels;
  }

  [[nodiscard]] Vec3 wall_normal(const PlanEdge& edge, int at, bool left_is_full) const {
    const double outward = left_is_full ? 1 : -1;
    if (edge.on_circle) {
      const PlanVertex& v = plan_.vertices[static_cast<std::size_t>(at)];
      return {outward * v.x_m / v.r_m, outward * v.y_m / v.r_m, 0};
    }
    const PlanVertex& a = plan_.vertices[static_cast<std::size_t>(edge.a)];
    const PlanVertex& b = plan_.vertices[static_cast<std::size_t>(edge.b)];
    const double length_m = std::hypot(b.x_m - a.x_m, b.y_m - a.y_m);
    return {outward * (b.y_m - a.y_m) / length_m, -outward * (b.x_m - a.x_m) / length_m, 0};
  }

  void add_wall(const PlanEdge& edge, int low, int high, int material, bool left_is_full) {
    const std::vector<int> at_a = column(edge.a, low, high);
    const std::vector<int> at_b = column(edge.b, low, high);
    const Vec3 normal_a = wall_normal(edge, edge.a, left_is_full);
    const Vec3 normal_b = wall_normal(edge, edge.b, left_is_full);
    std::size_t i = 0;
    std::size_t j = 0;
    while (i + 1 < at_a.size() || j + 1 < at_b.size()) {
      const bool up_a = j + 1 == at_b.size() || (i + 1 < at_a.size() && at_a[i + 1] < at_b[j + 1]);
      const std::uint32_t a = vertex(edge.a, at_a[i], material, normal_a);
      const std::uint32_t b = vertex(edge.b, at_b[j], material, normal_b);
      const std::uint32_t next = up_a ? vertex(edge.a, at_a[i + 1], material, normal_a)
                                      : vertex(edge.b, at_b[j + 1], material, normal_b);
      if (left_is_full) {
        add(material, a, b, next);
      } else {
        add(material, b, a, next);
      }
      (up_a ? i : j) += 1;
    }
  }

  const Plan& plan_;
  std::vector<std::vector<int>> levels_;                             ///< of each vertex
  std::vector<std::vector<std::array<std::uint32_t, 3>>> triangles_; ///< of each material
  std::map<std::tuple<int, int, int, int, int, int>, std::uint32_t> index_;
  Mesh mesh_;
};

} // namespace

Mesh surface_of(const Solid& solid, const std::string& material, const MeshOptions& options,
                const ExtraCuts& cuts) {
  const Plan plan = plan_of(solid, material, options, cuts);
  return Surface(plan).take();
}

Mesh mesh_of(const Solid& solid, const std::string& material, const MeshOptions& options) {
  return surface_of(solid, material, options, {});
}

} // namespace lugline
