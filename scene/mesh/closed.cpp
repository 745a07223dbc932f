#include "scene/mesh/closed.h"

#include "scene/mesh/vector.h"

#include <algorithm>
#include <cassert>
#include <limits>
#include <numbers>
#include <numeric>
#include <tuple>
#include <unordered_map>

namespace lugline {

namespace {

constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();

struct Cell {
  std::int64_t x = 0;
  std::int64_t y = 0;
  std::int64_t z = 0;
  friend bool operator==(const Cell&, const Cell&) = default;
};

struct CellHash {
  std::size_t operator()(const Cell& cell) const {
    // Unsigned, so that it may wrap round.
    std::uint64_t hash = static_cast<std::uint64_t>(cell.x) * 0x9e3779b97f4a7c15u;
    hash = (hash ^ (hash >> 29) ^ static_cast<std::uint64_t>(cell.y)) * 0xbf58476d1ce4e5b9u;
    hash = (hash ^ (hash >> 32) ^ static_cast<std::uint64_t>(cell.z)) * 0x94d049bb133111ebu;
    return hash ^ (hash >> 31);
  }
};

/// Vertices in a grid whose cells are several tolerances wide, so that most
/// searches look into one cell only.
class VertexGrid {
public:
  VertexGrid(const Vec3& origin_m, double tolerance_m)
      : origin_m_(origin_m), tolerance_m_(tolerance_m) {}

  /// The first vertex within the tolerance of the point, or none.
  [[nodiscard]] std::uint32_t find(const Vec3& point, const std::vector<Vec3>& vertices) const {
    const Vec3 reach{tolerance_m_, tolerance_m_, tolerance_m_};
    const Cell low = cell_of(point - reach);
    const Cell high = cell_of(point + reach);
    std::uint32_t best = none;
    for (std::int64_t x = low.x; x <= high.x; ++x) {
      for (std::int64_t y = low.y; y <= high.y; ++y) {
        for (std::int64_t z = low.z; z <= high.z; ++z) {
          best = std::min(best, find_in({x, y, z}, point, vertices));
        }
      }
    }
    return best;
  }

  void add(std::uint32_t vertex, const Vec3& point) {
    const auto [place, fresh] = first_.try_emplace(cell_of(point), vertex);
    next_.push_back(fresh ? none : place->second);
    place->second = vertex;
  }

private:
  [[nodiscard]] Cell cell_of(const Vec3& point) const {
    const double width_m = 8 * tolerance_m_;
    const auto index = [width_m](double offset_m) {
      // Beyond this a double no longer tells neighbouring cells apart anyhow.
      return static_cast<std::int64_t>(std::clamp(std::floor(offset_m / width_m), -4e18, 4e18));
    };
    const Vec3 offset = point - origin_m_;
    return {index(offset.x), index(offset.y), index(offset.z)};
  }

  [[nodiscard]] std::uint32_t find_in(const Cell& cell, const Vec3& point,
                                      const std::vector<Vec3>& vertices) const {
    const auto place = first_.find(cell);
    std::uint32_t best = none;
    for (std::uint32_t v = place == first_.end() ? none : place->second; v != none; v = next_[v]) {
      if (length(vertices[v] - point) <= tolerance_m_) {
        best = std::min(best, v);
      }
    }
    return best;
  }

  Vec3 origin_m_;
  double tolerance_m_;
  std::unordered_map<Cell, std::uint32_t, CellHash> first_;
  std::vector<std::uint32_t> next_; ///< the vertex before it in the same cell
};

struct HalfEdge {
  std::uint32_t low = 0;
  std::uint32_t high = 0;
  bool forward = true; ///< runs from low to high
  std::uint32_t triangle = 0;
};

bool degenerate(const std::array<std::uint32_t, 3>& triangle) {
  return triangle[0] == triangle[1] || triangle[1] == triangle[2] || triangle[2] == triangle[0];
}

/// Those of sound triangles, in order of their vertices.
std::vector<HalfEdge> half_edges_of(const WeldedMesh& mesh) {
  std::vector<HalfEdge> edges;
  edges.reserve(mesh.triangles.size() * 3);
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const auto& triangle = mesh.triangles[t];
    if (degenerate(triangle)) {
      continue;
    }
    for (std::size_t i = 0; i < 3; ++i) {
      const std::uint32_t from = triangle[i];
      const std::uint32_t to = triangle[(i + 1) % 3];
      edges.push_back(
          {std::min(from, to), std::max(from, to), from < to, static_cast<std::uint32_t>(t)});
    }
  }
  std::ranges::sort(edges, [](const HalfEdge& a, const HalfEdge& b) {
    return std::tie(a.low, a.high, a.triangle) < std::tie(b.low, b.high, b.triangle);
  });
  return edges;
}

/// Calls seen(first, last) for the half edges of each edge in turn.
template <class Seen>
void each_edge(const std::vector<HalfEdge>& edges, Seen seen) {
  for (auto first = edges.begin(); first != edges.end();) {
    const auto last = std::find_if(first, edges.end(), [&](const HalfEdge& edge) {
      return edge.low != first->low || edge.high != first->high;
    });
    seen(first, last);
    first = last;
  }
}

Vec3 normal_of(const WeldedMesh& mesh, std::uint32_t triangle) {
  const auto& [a, b, c] = mesh.triangles[triangle];
  return cross(mesh.positions_m[b] - mesh.positions_m[a],
               mesh.positions_m[c] - mesh.positions_m[a]);
}

/// Three corners on one line, to the last few bits.
bool flat(const WeldedMesh& mesh, std::uint32_t triangle) {
  const auto& [a, b, c] = mesh.triangles[triangle];
  const double longest_m = std::max({length(mesh.positions_m[b] - mesh.positions_m[a]),
                                     length(mesh.positions_m[c] - mesh.positions_m[b]),
                                     length(mesh.positions_m[a] - mesh.positions_m[c])});
  return length(normal_of(mesh, triangle)) <= 1e-12 * longest_m * longest_m;
}

/// Which vertices hang together; counts the pieces among those that are used.
class Pieces {
public:
  explicit Pieces(std::size_t vertices) : above_(vertices), used_(vertices, false) {
    std::iota(above_.begin(), above_.end(), 0u);
  }

  void join(const std::array<std::uint32_t, 3>& triangle) {
    for (const std::uint32_t corner : triangle) {
      used_[corner] = true;
      above_[top_of(corner)] = top_of(triangle[0]);
    }
  }
  [[nodiscard]] int used() const {
    return static_cast<int>(std::count(used_.begin(), used_.end(), true));
  }
  [[nodiscard]] int count() const {
    int pieces = 0;
    for (std::uint32_t v = 0; v < above_.size(); ++v) {
      pieces += used_[v] && above_[v] == v ? 1 : 0;
    }
    return pieces;
  }

private:
  std::uint32_t top_of(std::uint32_t v) {
    while (above_[v] != v) {
      above_[v] = above_[above_[v]];
      v = above_[v];
    }
    return v;
  }

  std::vector<std::uint32_t> above_;
  std::vector<bool> used_;
};

} // namespace

WeldedMesh weld(const Mesh& mesh, double tolerance_m) {
  assert(tolerance_m > 0);
  WeldedMesh welded;
  welded.vertex_of.reserve(mesh.positions_m.size());
  VertexGrid grid(bounds_of(mesh).low_m, tolerance_m);
  for (const Vec3& point : mesh.positions_m) {
    std::uint32_t vertex = grid.find(point, welded.positions_m);
    if (vertex == none) {
      vertex = static_cast<std::uint32_t>(welded.positions_m.size());
      welded.positions_m.push_back(point);
      grid.add(vertex, point);
    }
    welded.vertex_of.push_back(vertex);
  }
  welded.triangles.reserve(mesh.triangles.size());
  for (const auto& [a, b, c] : mesh.triangles) {
    welded.triangles.push_back({welded.vertex_of[a], welded.vertex_of[b], welded.vertex_of[c]});
  }
  return welded;
}

ClosedReport closed_report(const WeldedMesh& mesh) {
  ClosedReport report;
  Pieces pieces(mesh.positions_m.size());
  for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
    if (degenerate(mesh.triangles[t])) {
      ++report.degenerate_triangles;
      continue;
    }
    ++report.triangles;
    report.flat_triangles += flat(mesh, t) ? 1 : 0;
    pieces.join(mesh.triangles[t]);
  }
  report.vertices = pieces.used();
  report.pieces = pieces.count();
  each_edge(half_edges_of(mesh), [&](auto first, auto last) {
    const auto uses = last - first;
    const auto forward = std::count_if(first, last, [](const HalfEdge& e) { return e.forward; });
    ++report.edges;
    report.boundary_edges += uses == 1 ? 1 : 0;
    report.non_manifold_edges += uses > 2 ? 1 : 0;
    report.unbalanced_edges += uses > 1 && forward * 2 != uses ? 1 : 0;
  });
  return report;
}

std::vector<CreaseEdge> crease_edges(const WeldedMesh& mesh, double more_than_rad) {
  std::vector<CreaseEdge> creases;
  each_edge(half_edges_of(mesh), [&](auto first, auto last) {
    if (last - first != 2) {
      creases.push_back({first->low, first->high, std::numbers::pi});
      return;
    }
    const Vec3 a = normal_of(mesh, first->triangle);
    const Vec3 b = normal_of(mesh, (first + 1)->triangle);
    // Faces that run the edge the same way are turned against each other.
    const double facing = first->forward == (first + 1)->forward ? -1 : 1;
    // By the arc tangent, which is exact for small angles; 0 where a normal is nothing.
    const double angle_rad = std::atan2(length(cross(a, b)), facing * dot(a, b));
    if (angle_rad > more_than_rad && !flat(mesh, first->triangle) &&
        !flat(mesh, (first + 1)->triangle)) {
      creases.push_back({first->low, first->high, angle_rad});
    }
  });
  return creases;
}

} // namespace lugline
