#include "scene/mesh/gltf_accessor.h"
#include "scene/mesh/gltf_build.h"
#include "scene/mesh/vector.h"

#include <tiny_gltf.h>

#include <algorithm>
#include <limits>
#include <map>
#include <numeric>

namespace lugline::gltf {

namespace {

std::string count(std::uint64_t n) {
  return std::to_string(n);
}

Vec3 as_vector(const std::array<double, 3>& figures) {
  return {figures[0], figures[1], figures[2]};
}

using Triangle = std::array<std::uint32_t, 3>;

bool has_three_corners(const Triangle& t) {
  return t[0] != t[1] && t[1] != t[2] && t[2] != t[0];
}

/// Strips and fans taken apart as glTF says, facing kept; a strip's stitches, which
/// have no area, are dropped.
std::vector<Triangle> triangles_of(const std::vector<std::uint32_t>& corners, int mode) {
  std::vector<Triangle> triangles;
  if (mode == TINYGLTF_MODE_TRIANGLES) {
    triangles.reserve(corners.size() / 3);
    for (std::size_t i = 0; i + 2 < corners.size(); i += 3) {
      triangles.push_back({corners[i], corners[i + 1], corners[i + 2]});
    }
    return triangles;
  }
  for (std::size_t i = 0; i + 2 < corners.size(); ++i) {
    const Triangle triangle =
        mode == TINYGLTF_MODE_TRIANGLE_STRIP
            ? Triangle{corners[i], corners[i + 1 + i % 2], corners[i + 2 - i % 2]}
            : Triangle{corners[i + 1], corners[i + 2], corners[0]};
    if (has_three_corners(triangle)) {
      triangles.push_back(triangle);
    }
  }
  return triangles;
}

/// The normal that the first triangle at a corner has, for corners whose own is nothing.
void fill_empty_normals(Mesh& mesh, std::size_t first_triangle) {
  for (std::size_t t = first_triangle; t < mesh.triangles.size(); ++t) {
    const auto& [a, b, c] = mesh.triangles[t];
    for (const std::uint32_t corner : mesh.triangles[t]) {
      if (mesh.normals[corner] == Vec3{}) {
        mesh.normals[corner] = unit_or(cross(mesh.positions_m[b] - mesh.positions_m[a],
                                             mesh.positions_m[c] - mesh.positions_m[a]),
                                       {0, 1, 0});
      }
    }
  }
}

/// Leaves out what no triangle uses, since many a file has one list of positions for all its
/// meshes, and gives every normal unit length.
void tidy(Mesh& mesh) {
  constexpr std::uint32_t unused = std::numeric_limits<std::uint32_t>::max();
  std::vector<std::uint32_t> now(mesh.positions_m.size(), unused);
  for (const Triangle& triangle : mesh.triangles) {
    for (const std::uint32_t corner : triangle) {
      now[corner] = 0;
    }
  }
  std::uint32_t next = 0;
  for (std::size_t i = 0; i < now.size(); ++i) {
    if (now[i] != unused) {
      mesh.positions_m[next] = mesh.positions_m[i];
      mesh.normals[next] = unit_or(mesh.normals[i], {0, 1, 0});
      now[i] = next++;
    }
  }
  mesh.positions_m.resize(next);
  mesh.normals.resize(next);
  for (Triangle& triangle : mesh.triangles) {
    for (std::uint32_t& corner : triangle) {
      corner = now[corner];
    }
  }
}

class MeshBuilder {
public:
  MeshBuilder(const tinygltf::Model& model, std::size_t number, Problems& problems)
      : model_(model), number_(number), problems_(problems) {}

  std::optional<Mesh> build() {
    const auto& primitives = model_.meshes[number_].primitives;
    for (std::size_t i = 0; i < primitives.size(); ++i) {
      const int mode = primitives[i].mode < 0 ? TINYGLTF_MODE_TRIANGLES : primitives[i].mode;
      if (mode >= TINYGLTF_MODE_TRIANGLES && !add(primitives[i], mode, i)) {
        return std::nullopt;
      }
    }
    tidy(mesh_);
    return std::move(mesh_);
  }

private:
  bool complain(std::size_t primitive, const std::string& what) {
    problems_.add("mesh " + count(number_) + ", primitive " + count(primitive) + ", " + what);
    return false;
  }

  bool add(const tinygltf::Primitive& primitive, int mode, std::size_t i) {
    const int position = primitive.attributes.at("POSITION");
    const auto normal = primitive.attributes.find("NORMAL");
    const auto positions = AccessorReader::open(model_, position, 3);
    if (!positions) {
      return complain(i, "has positions that the loader read differently");
    }
    const auto corners = corners_of(primitive, positions->count(), i);
    if (!corners) {
      return false;
    }
    const std::size_t first = mesh_.triangles.size();
    const std::vector<Triangle> triangles = triangles_of(*corners, mode);
    const bool added = normal == primitive.attributes.end()
                           ? add_flat(*positions, triangles, i)
                           : add_shared(*positions, {position, normal->second}, triangles, i);
    if (added) {
      add_range(primitive.material, first);
    }
    return added;
  }

  std::optional<std::vector<std::uint32_t>> corners_of(const tinygltf::Primitive& primitive,
                                                       std::size_t vertices, std::size_t i) {
    std::vector<std::uint32_t> corners;
    if (primitive.indices < 0) {
      corners.resize(vertices);
      std::iota(corners.begin(), corners.end(), 0u);
      return corners;
    }
    const auto indices = AccessorReader::open(model_, primitive.indices, 1);
    if (!indices) {
      complain(i, "has indices that the loader read differently");
      return std::nullopt;
    }
    corners.reserve(indices->count());
    for (std::size_t k = 0; k < indices->count(); ++k) {
      const auto corner = static_cast<std::uint32_t>(indices->at(k)[0]);
      if (corner >= vertices) {
        complain(i, "uses position " + count(corner) + " of " + count(vertices));
        return std::nullopt;
      }
      corners.push_back(corner);
    }
    return corners;
  }

  bool is_sound(const Vec3& point, std::size_t number, std::size_t i) {
    return finite(point) ||
           complain(i, "has a position that is not finite: number " + count(number));
  }

  /// No normals in the file: each triangle gets corners and a normal of its own.
  bool add_flat(const AccessorReader& positions, const std::vector<Triangle>& triangles,
                std::size_t i) {
    Mesh part;
    part.positions_m.reserve(triangles.size() * 3);
    part.triangles.reserve(triangles.size());
    for (const Triangle& triangle : triangles) {
      const auto at = static_cast<std::uint32_t>(part.positions_m.size());
      for (const std::uint32_t corner : triangle) {
        part.positions_m.push_back(as_vector(positions.at(corner)));
        if (!is_sound(part.positions_m.back(), corner, i)) {
          return false;
        }
      }
      part.triangles.push_back({at, at + 1, at + 2});
    }
    append(mesh_, flat_shaded(part));
    return true;
  }

  /// Primitives that use the same positions and normals share their vertices here too.
  bool add_shared(const AccessorReader& positions, const std::pair<int, int>& accessors,
                  const std::vector<Triangle>& triangles, std::size_t i) {
    const auto [place, fresh] =
        base_of_.try_emplace(accessors, static_cast<std::uint32_t>(mesh_.positions_m.size()));
    if (fresh && !add_vertices(positions, accessors.second, i)) {
      return false;
    }
    const std::uint32_t base = place->second;
    const std::size_t first = mesh_.triangles.size();
    for (const Triangle& t : triangles) {
      mesh_.triangles.push_back({t[0] + base, t[1] + base, t[2] + base});
    }
    fill_empty_normals(mesh_, first);
    return true;
  }

  bool add_vertices(const AccessorReader& positions, int normal, std::size_t i) {
    const auto normals = AccessorReader::open(model_, normal, 3);
    if (!normals || normals->count() != positions.count()) {
      return complain(i, "has normals that the loader read differently");
    }
    for (std::size_t k = 0; k < positions.count(); ++k) {
      mesh_.positions_m.push_back(as_vector(positions.at(k)));
      mesh_.normals.push_back(as_vector(normals->at(k)));
      if (!is_sound(mesh_.positions_m.back(), k, i)) {
        return false;
      }
      if (!finite(mesh_.normals.back())) {
        return complain(i, "has a normal that is not finite: number " + count(k));
      }
    }
    return true;
  }

  void add_range(int material, std::size_t first) {
    const auto added = static_cast<std::uint32_t>(mesh_.triangles.size() - first);
    if (added == 0) {
      return;
    }
    const std::string name =
        material < 0 ? std::string() : model_.materials[static_cast<std::size_t>(material)].name;
    if (!mesh_.ranges.empty() && mesh_.ranges.back().material == name) {
      mesh_.ranges.back().triangle_count += added;
    } else {
      mesh_.ranges.push_back({name, static_cast<std::uint32_t>(first), added});
    }
  }

  const tinygltf::Model& model_;
  std::size_t number_;
  Problems& problems_;
  Mesh mesh_;
  std::map<std::pair<int, int>, std::uint32_t> base_of_;
};

} // namespace

std::optional<Mesh> mesh_from(const tinygltf::Model& model, std::size_t number,
                              Problems& problems) {
  return MeshBuilder(model, number, problems).build();
}

} // namespace lugline::gltf
