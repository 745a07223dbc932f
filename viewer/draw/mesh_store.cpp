#include "viewer/draw/mesh_store.h"

#include "viewer/draw/look.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>

namespace lugline {
namespace {

std::int16_t packed(double unit) {
  return static_cast<std::int16_t>(std::lround(std::clamp(unit, -1.0, 1.0) * 32767.0));
}

GpuVertex vertex_of(const Mesh& mesh, std::uint32_t index, const glm::dvec3& middle, Look look) {
  const Vec3& p = mesh.positions_m[index];
  const Vec3 n = index < mesh.normals.size() ? mesh.normals[index] : Vec3{0, 0, 1};
  return {{static_cast<float>(p.x - middle.x), static_cast<float>(p.y - middle.y),
           static_cast<float>(p.z - middle.z)},
          {packed(n.x), packed(n.y), packed(n.z)},
          static_cast<std::int16_t>(look)};
}

/// A vertex that two materials share is doubled, so that the look can ride on it.
void fill(const Mesh& mesh, const glm::dvec3& middle, std::vector<GpuVertex>& vertices,
          std::vector<std::uint32_t>& indices) {
  vertices.reserve(mesh.positions_m.size());
  indices.reserve(mesh.triangles.size() * 3);
  constexpr std::uint32_t none = ~0u;
  std::vector<std::uint32_t> placed(mesh.positions_m.size());
  const auto add_range = [&](std::size_t first, std::size_t count, Look look) {
    std::fill(placed.begin(), placed.end(), none);
    for (std::size_t t = first; t < std::min(first + count, mesh.triangles.size()); ++t) {
      for (std::uint32_t corner : mesh.triangles[t]) {
        assert(corner < mesh.positions_m.size());
        if (placed[corner] == none) {
          placed[corner] = static_cast<std::uint32_t>(vertices.size());
          vertices.push_back(vertex_of(mesh, corner, middle, look));
        }
        indices.push_back(placed[corner]);
      }
    }
  };
  if (mesh.ranges.empty())
    add_range(0, mesh.triangles.size(), Look::own);
  for (const MaterialRange& range : mesh.ranges)
    add_range(range.first_triangle, range.triangle_count, look_of(range.material));
}

} // namespace

std::vector<glm::vec3> GpuMesh::points_m() const {
  std::vector<glm::vec3> points;
  points.reserve(vertices.size());
  for (const GpuVertex& vertex : vertices)
    points.emplace_back(vertex.position[0], vertex.position[1], vertex.position[2]);
  return points;
}

GpuMesh gpu_mesh_of(const Mesh& mesh, const glm::dvec3& middle_m) {
  GpuMesh made;
  fill(mesh, middle_m, made.vertices, made.indices);
  return made;
}

void bind_vertices(const StoredMesh& mesh) {
  glBindBuffer(GL_ARRAY_BUFFER, mesh.vertex_data.name());
  const auto offset = [](std::size_t bytes) { return reinterpret_cast<const void*>(bytes); };
  glEnableVertexAttribArray(0);
  glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, sizeof(GpuVertex),
                        offset(offsetof(GpuVertex, position)));
  glEnableVertexAttribArray(1);
  glVertexAttribPointer(1, 3, GL_SHORT, GL_TRUE, sizeof(GpuVertex),
                        offset(offsetof(GpuVertex, normal)));
  glEnableVertexAttribArray(2);
  glVertexAttribIPointer(2, 1, GL_SHORT, sizeof(GpuVertex), offset(offsetof(GpuVertex, look)));
}

const StoredMesh& MeshStore::at(const std::shared_ptr<const Mesh>& mesh) {
  assert(mesh != nullptr);
  const auto found = stored_.find(mesh.get());
  // A new mesh may have been given a dead one's address.
  if (found != stored_.end() && found->second.source.lock() == mesh)
    return found->second;

  StoredMesh made;
  made.source = mesh;
  made.bounds = bounds_of(*mesh);
  made.topology = topology_of(*mesh);
  if (!made.bounds.empty)
    made.middle_m = {0.5 * (made.bounds.low_m.x + made.bounds.high_m.x),
                     0.5 * (made.bounds.low_m.y + made.bounds.high_m.y),
                     0.5 * (made.bounds.low_m.z + made.bounds.high_m.z)};
  const GpuMesh mesh_for_gpu = gpu_mesh_of(*mesh, made.middle_m);
  const std::vector<GpuVertex>& vertices = mesh_for_gpu.vertices;
  const std::vector<std::uint32_t>& indices = mesh_for_gpu.indices;
  made.index_count = static_cast<GLsizei>(indices.size());

  made.vertices = GlVertexArray::make();
  made.vertex_data = GlBuffer::make();
  made.index_data = GlBuffer::make();
  glBindVertexArray(made.vertices.name());
  glBindBuffer(GL_ARRAY_BUFFER, made.vertex_data.name());
  glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(vertices.size() * sizeof(GpuVertex)),
               vertices.data(), GL_STATIC_DRAW);
  glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, made.index_data.name());
  glBufferData(GL_ELEMENT_ARRAY_BUFFER,
               static_cast<GLsizeiptr>(indices.size() * sizeof(std::uint32_t)), indices.data(),
               GL_STATIC_DRAW);
  bind_vertices(made);
  glBindVertexArray(0);
  return stored_.insert_or_assign(mesh.get(), std::move(made)).first->second;
}

void MeshStore::sweep() {
  std::erase_if(stored_, [](const auto& entry) { return entry.second.source.expired(); });
}

} // namespace lugline
