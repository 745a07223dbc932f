#include "scene/mesh/gltf_build.h"
#include "scene/mesh/vector.h"

#include <tiny_gltf.h>

#include <algorithm>
#include <cstring>
#include <limits>
#include <map>

namespace lugline::gltf {

namespace {

std::string count(std::uint64_t n) {
  return std::to_string(n);
}

/// One figure of that type, normalised to -1…1 or 0…1 where that is asked for.
double figure_at(const unsigned char* at, int component_type, bool normalized) {
  const auto read = [at](auto value) {
    std::memcpy(&value, at, sizeof value);
    return value;
  };
  const auto signed_figure = [normalized](double value, double most) {
    return normalized ? std::max(value / most, -1.0) : value;
  };
  switch (component_type) {
  case TINYGLTF_COMPONENT_TYPE_BYTE:
    return signed_figure(read(std::int8_t{}), 127);
  case TINYGLTF_COMPONENT_TYPE_UNSIGNED_BYTE:
    return signed_figure(read(std::uint8_t{}), 255);
  case TINYGLTF_COMPONENT_TYPE_SHORT:
    return signed_figure(read(std::int16_t{}), 32767);
  case TINYGLTF_COMPONENT_TYPE_UNSIGNED_SHORT:
    return signed_figure(read(std::uint16_t{}), 65535);
  case TINYGLTF_COMPONENT_TYPE_UNSIGNED_INT:
    return read(std::uint32_t{});
  default:
    return static_cast<double>(read(float{}));
  }
}

/// Where elements lie in a buffer. The checks have made sure that they do.
struct Elements {
  const unsigned char* first = nullptr;
  std::size_t stride = 0;

  [[nodiscard]] const unsigned char* at(std::size_t i) const { return first + i * stride; }
};

/// Nothing where the stretch does not lie in its buffer: tinygltf would have to
/// have read other figures than the checks did.
std::optional<Elements> elements_of(const tinygltf::Model& model, int view_number,
                                    std::size_t offset, std::size_t elements, std::size_t size,
                                    bool strided) {
  const auto number = static_cast<std::size_t>(view_number);
  if (number >= model.bufferViews.size()) {
    return std::nullopt;
  }
  const tinygltf::BufferView& view = model.bufferViews[number];
  const auto& bytes = model.buffers[static_cast<std::size_t>(view.buffer)].data;
  const std::size_t stride = strided && view.byteStride != 0 ? view.byteStride : size;
  const std::size_t start = view.byteOffset + offset;
  if (elements == 0 || start > bytes.size() || bytes.size() - start < size ||
      elements - 1 > (bytes.size() - start - size) / stride) {
    return std::nullopt;
  }
  return Elements{bytes.data() + start, stride};
}

/// An accessor's figures, `width` of them for each element, sparse ones put in.
class AccessorReader {
public:
  AccessorReader(const tinygltf::Model& model, int number, std::size_t width)
      : model_(model), accessor_(model.accessors[static_cast<std::size_t>(number)]), width_(width) {
  }

  [[nodiscard]] std::optional<std::vector<double>> read() const {
    std::vector<double> figures(accessor_.count * width_, 0.0);
    const std::size_t component =
        component_bytes(static_cast<std::uint64_t>(accessor_.componentType));
    if (accessor_.bufferView >= 0) {
      const auto elements = elements_of(model_, accessor_.bufferView, accessor_.byteOffset,
                                        accessor_.count, component * width_, true);
      if (!elements) {
        return std::nullopt;
      }
      for (std::size_t i = 0; i < accessor_.count; ++i) {
        read_element(elements->at(i), component, &figures[i * width_]);
      }
    }
    if (accessor_.sparse.isSparse && !put_sparse(figures, component)) {
      return std::nullopt;
    }
    return figures;
  }

private:
  void read_element(const unsigned char* from, std::size_t component, double* to) const {
    for (std::size_t k = 0; k < width_; ++k) {
      to[k] = figure_at(from + k * component, accessor_.componentType, accessor_.normalized);
    }
  }

  bool put_sparse(std::vector<double>& figures, std::size_t component) const {
    const auto& sparse = accessor_.sparse;
    const auto elements = static_cast<std::size_t>(sparse.count);
    const std::size_t index_bytes =
        component_bytes(static_cast<std::uint64_t>(sparse.indices.componentType));
    const auto indices = elements_of(model_, sparse.indices.bufferView,
                                     static_cast<std::size_t>(sparse.indices.byteOffset), elements,
                                     index_bytes, false);
    const auto values = elements_of(model_, sparse.values.bufferView,
                                    static_cast<std::size_t>(sparse.values.byteOffset), elements,
                                    component * width_, false);
    if (!indices || !values) {
      return false;
    }
    for (std::size_t i = 0; i < elements; ++i) {
      const auto index =
          static_cast<std::size_t>(figure_at(indices->at(i), sparse.indices.componentType, false));
      if (index >= accessor_.count) {
        return false;
      }
      read_element(values->at(i), component, &figures[index * width_]);
    }
    return true;
  }

  const tinygltf::Model& model_;
  const tinygltf::Accessor& accessor_;
  std::size_t width_;
};

std::vector<Vec3> as_vectors(const std::vector<double>& figures) {
  std::vector<Vec3> vectors(figures.size() / 3);
  for (std::size_t i = 0; i < vectors.size(); ++i) {
    vectors[i] = {figures[3 * i], figures[3 * i + 1], figures[3 * i + 2]};
  }
  return vectors;
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
    const bool flat = normal == primitive.attributes.end();
    const auto base =
        flat ? add_vertices(position, -1, i) : shared_vertices(position, normal->second, i);
    if (!base) {
      return false;
    }
    const auto vertices = model_.accessors[static_cast<std::size_t>(position)].count;
    const auto corners = corners_of(primitive, vertices, i);
    if (!corners) {
      return false;
    }
    const std::size_t first = mesh_.triangles.size();
    for (const Triangle& t : triangles_of(*corners, mode)) {
      mesh_.triangles.push_back({t[0] + *base, t[1] + *base, t[2] + *base});
    }
    if (flat) {
      make_flat(first, *base);
    } else {
      fill_empty_normals(mesh_, first);
    }
    add_range(primitive.material, first);
    return true;
  }

  /// Primitives that use the same positions and normals share their vertices here too.
  std::optional<std::uint32_t> shared_vertices(int position, int normal, std::size_t i) {
    const auto found = base_of_.find({position, normal});
    if (found != base_of_.end()) {
      return found->second;
    }
    const auto base = add_vertices(position, normal, i);
    if (base) {
      base_of_[{position, normal}] = *base;
    }
    return base;
  }

  /// normal -1: the normals are left at nothing.
  std::optional<std::uint32_t> add_vertices(int position, int normal, std::size_t i) {
    const auto base = static_cast<std::uint32_t>(mesh_.positions_m.size());
    const auto positions = AccessorReader(model_, position, 3).read();
    if (!positions) {
      complain(i, "has positions that the loader read differently");
      return std::nullopt;
    }
    const std::vector<Vec3> points = as_vectors(*positions);
    const auto bad = std::ranges::find_if_not(points, finite);
    if (bad != points.end()) {
      complain(i, "has a position that is not finite: number " +
                      count(static_cast<std::uint64_t>(bad - points.begin())));
      return std::nullopt;
    }
    std::vector<Vec3> normals(points.size());
    if (normal >= 0) {
      const auto figures = AccessorReader(model_, normal, 3).read();
      if (!figures || figures->size() != positions->size()) {
        complain(i, "has normals that the loader read differently");
        return std::nullopt;
      }
      normals = as_vectors(*figures);
      if (!std::ranges::all_of(normals, finite)) {
        complain(i, "has a normal that is not finite");
        return std::nullopt;
      }
    }
    mesh_.positions_m.insert(mesh_.positions_m.end(), points.begin(), points.end());
    mesh_.normals.insert(mesh_.normals.end(), normals.begin(), normals.end());
    return base;
  }

  std::optional<std::vector<std::uint32_t>> corners_of(const tinygltf::Primitive& primitive,
                                                       std::size_t vertices, std::size_t i) {
    std::vector<std::uint32_t> corners;
    if (primitive.indices < 0) {
      corners.resize(vertices);
      for (std::size_t k = 0; k < vertices; ++k) {
        corners[k] = static_cast<std::uint32_t>(k);
      }
      return corners;
    }
    const auto figures = AccessorReader(model_, primitive.indices, 1).read();
    if (!figures) {
      complain(i, "has indices that the loader read differently");
      return std::nullopt;
    }
    corners.reserve(figures->size());
    for (const double figure : *figures) {
      if (figure >= static_cast<double>(vertices)) {
        complain(i, "uses position " + count(static_cast<std::uint64_t>(figure)) + " of " +
                        count(vertices));
        return std::nullopt;
      }
      corners.push_back(static_cast<std::uint32_t>(figure));
    }
    return corners;
  }

  /// The triangles from `first` on get corners and normals of their own; their shared
  /// vertices, from `base` on, go.
  void make_flat(std::size_t first, std::uint32_t base) {
    Mesh part;
    part.positions_m.assign(mesh_.positions_m.begin() + base, mesh_.positions_m.end());
    for (std::size_t t = first; t < mesh_.triangles.size(); ++t) {
      const Triangle& triangle = mesh_.triangles[t];
      part.triangles.push_back({triangle[0] - base, triangle[1] - base, triangle[2] - base});
    }
    mesh_.positions_m.resize(base);
    mesh_.normals.resize(base);
    mesh_.triangles.resize(first);
    append(mesh_, flat_shaded(part));
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
