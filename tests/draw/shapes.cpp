#include "tests/draw/shapes.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace lugline::shapes {
namespace {

constexpr double turn = 2 * std::numbers::pi;

double reduced(double angle) {
  const double a = std::fmod(angle, turn);
  return a < 0 ? a + turn : a;
}

void tidy(std::vector<double>& values, double apart) {
  std::sort(values.begin(), values.end());
  values.erase(std::unique(values.begin(), values.end(),
                           [apart](double a, double b) { return b - a < apart; }),
               values.end());
}

struct Grid {
  std::vector<double> radii, angles, heights; ///< angles: one turn, its end left out
  std::vector<int> filled;                    ///< index of the block, -1 none

  [[nodiscard]] int cell(int r, int a, int z) const {
    const int nr = static_cast<int>(radii.size()) - 1;
    const int na = static_cast<int>(angles.size());
    const int nz = static_cast<int>(heights.size()) - 1;
    if (r < 0 || z < 0 || r >= nr || z >= nz)
      return -1;
    a = (a + na) % na;
    return filled[static_cast<std::size_t>((r * na + a) * nz + z)];
  }
  [[nodiscard]] double angle(int a) const {
    const int na = static_cast<int>(angles.size());
    return a < na ? angles[static_cast<std::size_t>(a)] : angles[0] + turn;
  }
};

bool holds(const Block& block, double r, double a, double z) {
  if (r < block.inner_m || r > block.outer_m || z < block.low_m || z > block.high_m)
    return false;
  const double width = block.to_rad - block.from_rad;
  return width >= turn - 1e-9 || reduced(a - block.from_rad) < width;
}

Grid grid_of(const std::vector<Block>& blocks, int segments) {
  Grid grid;
  for (int i = 0; i < segments; ++i)
    grid.angles.push_back(turn * i / segments);
  for (const Block& block : blocks) {
    grid.radii.insert(grid.radii.end(), {block.inner_m, block.outer_m});
    grid.heights.insert(grid.heights.end(), {block.low_m, block.high_m});
    if (block.to_rad - block.from_rad < turn - 1e-9)
      grid.angles.insert(grid.angles.end(), {reduced(block.from_rad), reduced(block.to_rad)});
  }
  tidy(grid.radii, 1e-9);
  tidy(grid.heights, 1e-9);
  tidy(grid.angles, 1e-7);
  const int nr = static_cast<int>(grid.radii.size()) - 1;
  const int na = static_cast<int>(grid.angles.size());
  const int nz = static_cast<int>(grid.heights.size()) - 1;
  const auto at = [](const std::vector<double>& v, int i) {
    return v[static_cast<std::size_t>(i)];
  };
  for (int r = 0; r < nr; ++r)
    for (int a = 0; a < na; ++a)
      for (int z = 0; z < nz; ++z) {
        int who = -1;
        for (std::size_t b = 0; b < blocks.size(); ++b)
          if (holds(blocks[b], 0.5 * (at(grid.radii, r) + at(grid.radii, r + 1)),
                    0.5 * (grid.angle(a) + grid.angle(a + 1)),
                    0.5 * (at(grid.heights, z) + at(grid.heights, z + 1))))
            who = static_cast<int>(b);
        grid.filled.push_back(who);
      }
  return grid;
}

struct Corner {
  double r, a, z;
};

class Maker {
public:
  explicit Maker(const std::vector<Block>& blocks) : blocks_(blocks) {}

  /// Corners counter-clockwise from outside; each with the normal's angle or ±z.
  void face(int who, const Corner (&c)[4], double nr, double nt, double nz) {
    Mesh& m = parts_[blocks_[static_cast<std::size_t>(who)].material];
    const auto first = static_cast<std::uint32_t>(m.positions_m.size());
    for (const Corner& k : c) {
      const double s = std::sin(k.a);
      const double co = std::cos(k.a);
      m.positions_m.push_back({-k.r * s, k.r * co, k.z});
      m.normals.push_back({-nr * s - nt * co, nr * co - nt * s, nz});
    }
    if (c[0].r > 0 || c[0].a == c[1].a || c[0].z == c[2].z)
      m.triangles.push_back({first, first + 1, first + 2});
    m.triangles.push_back({first, first + 2, first + 3});
  }
  Mesh finish() {
    Mesh all;
    for (const auto& [material, part] : parts_) {
      const auto base = static_cast<std::uint32_t>(all.positions_m.size());
      all.ranges.push_back({material, static_cast<std::uint32_t>(all.triangles.size()),
                            static_cast<std::uint32_t>(part.triangles.size())});
      all.positions_m.insert(all.positions_m.end(), part.positions_m.begin(),
                             part.positions_m.end());
      all.normals.insert(all.normals.end(), part.normals.begin(), part.normals.end());
      for (auto t : part.triangles)
        all.triangles.push_back({t[0] + base, t[1] + base, t[2] + base});
    }
    return all;
  }

private:
  const std::vector<Block>& blocks_;
  std::map<std::string, Mesh> parts_;
};

} // namespace

Block ring(double inner_m, double outer_m, double low_m, double high_m,
           const std::string& material) {
  return {inner_m, outer_m, low_m, high_m, 0, turn, material};
}

std::vector<Block> repeated(const Block& block, int count, double width_rad, double first_rad) {
  std::vector<Block> all;
  for (int i = 0; i < count; ++i) {
    Block one = block;
    one.from_rad = first_rad + turn * i / count - 0.5 * width_rad;
    one.to_rad = one.from_rad + width_rad;
    all.push_back(one);
  }
  return all;
}

std::vector<Block> slotted(const Block& full, int count, double width_rad, double first_rad) {
  return repeated(full, count, turn / count - width_rad, first_rad + turn * 0.5 / count);
}

Mesh mesh_of_blocks(const std::vector<Block>& blocks, int segments) {
  const Grid g = grid_of(blocks, segments);
  const int nr = static_cast<int>(g.radii.size()) - 1;
  const int na = static_cast<int>(g.angles.size());
  const int nz = static_cast<int>(g.heights.size()) - 1;
  Maker maker(blocks);
  for (int r = 0; r < nr; ++r)
    for (int a = 0; a < na; ++a)
      for (int z = 0; z < nz; ++z) {
        const int who = g.cell(r, a, z);
        if (who < 0)
          continue;
        const double r0 = g.radii[static_cast<std::size_t>(r)];
        const double r1 = g.radii[static_cast<std::size_t>(r) + 1];
        const double z0 = g.heights[static_cast<std::size_t>(z)];
        const double z1 = g.heights[static_cast<std::size_t>(z) + 1];
        const double a0 = g.angle(a);
        const double a1 = g.angle(a + 1);
        if (g.cell(r, a, z + 1) < 0)
          maker.face(who, {{r0, a0, z1}, {r1, a0, z1}, {r1, a1, z1}, {r0, a1, z1}}, 0, 0, 1);
        if (g.cell(r, a, z - 1) < 0)
          maker.face(who, {{r0, a1, z0}, {r1, a1, z0}, {r1, a0, z0}, {r0, a0, z0}}, 0, 0, -1);
        if (g.cell(r + 1, a, z) < 0)
          maker.face(who, {{r1, a0, z0}, {r1, a1, z0}, {r1, a1, z1}, {r1, a0, z1}}, 1, 0, 0);
        if (r0 > 0 && g.cell(r - 1, a, z) < 0)
          maker.face(who, {{r0, a1, z0}, {r0, a0, z0}, {r0, a0, z1}, {r0, a1, z1}}, -1, 0, 0);
        if (g.cell(r, a + 1, z) < 0)
          maker.face(who, {{r1, a1, z0}, {r0, a1, z0}, {r0, a1, z1}, {r1, a1, z1}}, 0, 1, 0);
        if (g.cell(r, a - 1, z) < 0)
          maker.face(who, {{r0, a0, z0}, {r1, a0, z0}, {r1, a0, z1}, {r0, a0, z1}}, 0, -1, 0);
      }
  return maker.finish();
}

Mesh moved(Mesh mesh, double x_m, double y_m, double z_m) {
  for (Vec3& p : mesh.positions_m)
    p = {p.x + x_m, p.y + y_m, p.z + z_m};
  return mesh;
}

Mesh without_triangles(Mesh mesh,
                       const std::function<bool(const Vec3& corner_m, const Vec3& normal)>& judge) {
  std::erase_if(mesh.triangles,
                [&](const auto& t) { return judge(mesh.positions_m[t[0]], mesh.normals[t[0]]); });
  mesh.ranges = {{"steel", 0, static_cast<std::uint32_t>(mesh.triangles.size())}};
  return mesh;
}

} // namespace lugline::shapes
