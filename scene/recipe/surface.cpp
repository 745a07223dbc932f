#include "scene/recipe/surface.h"

#include "scene/mesh/vector.h"
#include "scene/recipe/strip.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <compare>
#include <cstdint>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace lugline {

namespace {

/// Flanks that lean apart by less are one curved one: cos 20 degrees.
constexpr double smooth_cos = 0.9397;

class Surface {
public:
  Surface(const Plan& plan, bool join_faces)
      : plan_(plan), join_faces_(join_faces), triangles_(plan.materials.size()) {
    find_levels();
    find_flanks();
    add_all_caps();
    for (const PlanEdge& edge : plan_.edges) {
      for (const Run& run : runs_of(edge)) {
        add_wall(edge, run);
      }
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
    for (const PlanCell& cell : plan_.cells) {
      for (const PlanSlab& slab : cell.slabs) {
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

  /// At each vertex, the straight lines that end there and are no circle's.
  void find_flanks() {
    flanks_.resize(plan_.vertices.size());
    for (std::size_t e = 0; e < plan_.edges.size(); ++e) {
      if (!plan_.edges[e].on_circle) {
        flanks_[static_cast<std::size_t>(plan_.edges[e].a)].push_back(e);
        flanks_[static_cast<std::size_t>(plan_.edges[e].b)].push_back(e);
      }
    }
  }

  /// Shared by all materials: what they are made of is said of triangles alone.
  std::uint32_t vertex(int at, int level, const Vec3& normal) {
    const auto whole = [](double part) { return static_cast<int>(std::lround(part * 1e6)); };
    const auto key = std::make_tuple(at, level, whole(normal.x), whole(normal.y), whole(normal.z));
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

  /// A flat face of a cell: at which level, facing up or down.
  struct Cap {
    int level = 0;
    int material = 0;
    bool up = false;
    friend auto operator<=>(const Cap&, const Cap&) = default;
  };

  [[nodiscard]] static std::set<Cap> caps_of(const PlanCell& cell) {
    std::set<Cap> caps;
    for (std::size_t s = 0; s < cell.slabs.size(); ++s) {
      const PlanSlab& slab = cell.slabs[s];
      if (s == 0 || cell.slabs[s - 1].high < slab.low) {
        caps.insert({slab.low, slab.material, false});
      }
      if (s + 1 == cell.slabs.size() || cell.slabs[s + 1].low > slab.high) {
        caps.insert({slab.high, slab.material, true});
      }
    }
    return caps;
  }

  /// A band's cells, the caps that all of them have, and its two circles.
  struct BandCaps {
    std::vector<std::size_t> cells;
    std::set<Cap> common;
    std::vector<int> inner;
    std::vector<int> outer;
  };

  [[nodiscard]] std::vector<BandCaps> find_bands() const {
    std::vector<BandCaps> bands;
    for (std::size_t c = 0; c < plan_.cells.size(); ++c) {
      const PlanCell& cell = plan_.cells[c];
      if (static_cast<std::size_t>(cell.band) >= bands.size()) {
        bands.push_back({{}, caps_of(cell), {cell.inner.front()}, {cell.outer.front()}});
      }
      BandCaps& band = bands.back();
      band.cells.push_back(c);
      std::erase_if(band.common,
                    [caps = caps_of(cell)](const Cap& cap) { return !caps.contains(cap); });
      band.inner.insert(band.inner.end(), cell.inner.begin() + 1, cell.inner.end());
      band.outer.insert(band.outer.end(), cell.outer.begin() + 1, cell.outer.end());
    }
    return bands;
  }

  void add_all_caps() {
    const std::vector<BandCaps> bands = find_bands();
    for (std::size_t b = 0; b < bands.size(); ++b) {
      for (const std::size_t c : bands[b].cells) {
        for (const Cap& cap : caps_of(plan_.cells[c])) {
          if (!bands[b].common.contains(cap)) {
            add_cap(plan_.cells[c].inner, plan_.cells[c].outer, cap);
          }
        }
      }
      // A face that goes right round, over one band or several, is one annulus:
      // nothing else has corners inside it.
      for (const Cap& cap : bands[b].common) {
        if (join_faces_ && b > 0 && bands[b - 1].common.contains(cap)) {
          continue;
        }
        std::size_t last = b;
        while (join_faces_ && last + 1 < bands.size() && bands[last + 1].common.contains(cap)) {
          ++last;
        }
        add_cap(bands[b].inner, begun_near(bands[last].outer, bands[b].inner.front()), cap);
      }
    }
  }

  /// A closed chain, begun at the corner that is nearest to the given one.
  [[nodiscard]] std::vector<int> begun_near(const std::vector<int>& chain, int vertex) const {
    const PlanVertex& to = plan_.vertices[static_cast<std::size_t>(vertex)];
    std::size_t start = 0;
    double least = 1e300;
    for (std::size_t k = 0; k + 1 < chain.size(); ++k) {
      const PlanVertex& v = plan_.vertices[static_cast<std::size_t>(chain[k])];
      const double turned = v.x_m * to.x_m + v.y_m * to.y_m; // largest in the same direction
      if (-turned < least - 1e-12 * v.r_m * to.r_m) {
        least = -turned;
        start = k;
      }
    }
    std::vector<int> turned(chain.begin() + static_cast<std::ptrdiff_t>(start), chain.end() - 1);
    turned.insert(turned.end(), chain.begin(),
                  chain.begin() + static_cast<std::ptrdiff_t>(start) + 1);
    return turned;
  }

  [[nodiscard]] std::vector<StripPoint> points_of(const std::vector<int>& chain) const {
    std::vector<StripPoint> all;
    for (const int v : chain) {
      const PlanVertex& p = plan_.vertices[static_cast<std::size_t>(v)];
      all.push_back({p.x_m, p.y_m});
    }
    return all;
  }

  void add_cap(const std::vector<int>& inner, const std::vector<int>& outer, const Cap& cap) {
    const StripSteps steps = strip_between(points_of(inner), points_of(outer));
    assert(steps.size() + 2 == inner.size() + outer.size());
    const auto at = [&](int v) { return vertex(v, cap.level, {0, 0, cap.up ? 1.0 : -1.0}); };
    std::size_t i = 0;
    std::size_t j = 0;
    for (const bool second : steps) {
      const std::uint32_t a = at(inner[i]);
      const std::uint32_t b = at(outer[j]);
      const std::uint32_t c = second ? at(outer[j + 1]) : at(inner[i + 1]);
      add(cap.material, a, cap.up ? b : c, cap.up ? c : b);
      (second ? j : i) += 1;
    }
  }

  /// Material at a level and just above it; -1: empty.
  [[nodiscard]] int material_above(int cell, int level) const {
    if (cell >= 0) {
      for (const PlanSlab& slab : plan_.cells[static_cast<std::size_t>(cell)].slabs) {
        if (slab.low <= level && level < slab.high) {
          return slab.material;
        }
      }
    }
    return -1;
  }

  /// Metal on one side of a line only, from one level to another.
  struct Run {
    int low, high, material;
    bool left_is_full;
    friend bool operator==(const Run&, const Run&) = default;
  };

  [[nodiscard]] std::vector<Run> runs_of(const PlanEdge& edge) const {
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
    return runs;
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

  [[nodiscard]] Vec3 wall_normal(const PlanEdge& edge, int at, const Run& run) const {
    if (edge.on_circle) {
      const double outward = run.left_is_full ? 1 : -1;
      const PlanVertex& v = plan_.vertices[static_cast<std::size_t>(at)];
      return {outward * v.x_m / v.r_m, outward * v.y_m / v.r_m, 0};
    }
    const Vec3 own = flank_normal(edge, run.left_is_full);
    for (const std::size_t e : flanks_[static_cast<std::size_t>(at)]) {
      const PlanEdge& other = plan_.edges[e];
      if (&other == &edge) {
        continue;
      }
      // A curved flank is parted into straight ones: it goes on where the next hardly turns
      // and has the same ends.
      for (Run next = run; const bool left_is_full : {false, true}) {
        next.left_is_full = left_is_full;
        const Vec3 normal = flank_normal(other, left_is_full);
        if (dot(own, normal) > smooth_cos && has_run(other, next)) {
          return unit_or(own + normal, own);
        }
      }
    }
    return own;
  }

  [[nodiscard]] bool has_run(const PlanEdge& edge, const Run& run) const {
    const std::vector<Run> runs = runs_of(edge);
    return std::find(runs.begin(), runs.end(), run) != runs.end();
  }

  [[nodiscard]] Vec3 flank_normal(const PlanEdge& edge, bool left_is_full) const {
    const double outward = left_is_full ? 1 : -1;
    const PlanVertex& a = plan_.vertices[static_cast<std::size_t>(edge.a)];
    const PlanVertex& b = plan_.vertices[static_cast<std::size_t>(edge.b)];
    const double length_m = std::hypot(b.x_m - a.x_m, b.y_m - a.y_m);
    return {outward * (b.y_m - a.y_m) / length_m, -outward * (b.x_m - a.x_m) / length_m, 0};
  }

  /// A column of a wall, as it stands in the wall's own plane.
  [[nodiscard]] std::vector<StripPoint> upright(const std::vector<int>& column, double x_m) const {
    std::vector<StripPoint> points;
    for (const int level : column) {
      points.push_back({x_m, plan_.heights_m[static_cast<std::size_t>(level)]});
    }
    return points;
  }

  void add_wall(const PlanEdge& edge, const Run& run) {
    const std::vector<int> at_a = column(edge.a, run.low, run.high);
    const std::vector<int> at_b = column(edge.b, run.low, run.high);
    const Vec3 normal_a = wall_normal(edge, edge.a, run);
    const Vec3 normal_b = wall_normal(edge, edge.b, run);
    const PlanVertex& from = plan_.vertices[static_cast<std::size_t>(edge.a)];
    const PlanVertex& to = plan_.vertices[static_cast<std::size_t>(edge.b)];
    const double wide_m = std::hypot(to.x_m - from.x_m, to.y_m - from.y_m);
    std::size_t i = 0;
    std::size_t j = 0;
    for (const bool up_b : strip_between(upright(at_a, 0), upright(at_b, wide_m))) {
      const bool up_a = !up_b;
      const std::uint32_t a = vertex(edge.a, at_a[i], normal_a);
      const std::uint32_t b = vertex(edge.b, at_b[j], normal_b);
      const std::uint32_t next =
          up_a ? vertex(edge.a, at_a[i + 1], normal_a) : vertex(edge.b, at_b[j + 1], normal_b);
      if (run.left_is_full) {
        add(run.material, a, b, next);
      } else {
        add(run.material, b, a, next);
      }
      (up_a ? i : j) += 1;
    }
  }

  const Plan& plan_;
  bool join_faces_;                      ///< flat faces over several bands as one
  std::vector<std::vector<int>> levels_; ///< of each vertex
  std::vector<std::vector<std::size_t>> flanks_;
  std::vector<std::vector<std::array<std::uint32_t, 3>>> triangles_; ///< of each material
  std::map<std::tuple<int, int, int, int, int>, std::uint32_t> index_;
  Mesh mesh_;
};

} // namespace

Mesh surface_of(const Solid& solid, const std::string& material, const MeshOptions& options,
                const ExtraCuts& cuts) {
  const Plan plan = plan_of(solid, material, options, cuts);
  return Surface(plan, cuts.radii_m.empty()).take();
}

Mesh mesh_of(const Solid& solid, const std::string& material, const MeshOptions& options) {
  return surface_of(solid, material, options, {});
}

} // namespace lugline
