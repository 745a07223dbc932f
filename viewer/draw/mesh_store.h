// Meshes on the GPU, each carried there once.
//
// Keyed by the Mesh that a shared_ptr holds; kept while anybody else keeps that
// mesh, and dropped at the next sweep() afterwards. Positions go as float about
// the mesh's own middle, so that a mesh far from its origin loses nothing; the
// middle itself stays in double. Owns its OpenGL names and must die with its
// context current.
#pragma once

#include "viewer/draw/gl.h"
#include "viewer/draw/topology.h"

#include "scene/mesh/mesh.h"

#include <cstdint>
#include <memory>
#include <unordered_map>
#include <vector>

namespace lugline {

struct GpuVertex {
  float position[3]; ///< about the mesh's middle
  std::int16_t normal[3];
  std::int16_t look; ///< a Look; one value for all three corners of a triangle
};
static_assert(sizeof(GpuVertex) == 20);

/// A mesh as it goes to the GPU: a vertex that two materials share is doubled.
struct GpuMesh {
  std::vector<GpuVertex> vertices;
  std::vector<std::uint32_t> indices;

  [[nodiscard]] std::vector<glm::vec3> points_m() const;
};
GpuMesh gpu_mesh_of(const Mesh& mesh, const glm::dvec3& middle_m);

struct StoredMesh {
  GlVertexArray vertices;
  GlBuffer vertex_data;
  GlBuffer index_data;
  GLsizei index_count = 0;
  glm::dvec3 middle_m{0}; ///< what was taken away from the positions
  Bounds bounds;
  Topology topology;
  std::weak_ptr<const Mesh> source;
};

/// The mesh's vertices become those of the vertex array that is bound.
void bind_vertices(const StoredMesh& mesh);

class MeshStore {
public:
  /// The mesh on the GPU; carried there first where it is new.
  const StoredMesh& at(const std::shared_ptr<const Mesh>& mesh);
  /// Drops what nobody keeps any longer.
  void sweep();
  [[nodiscard]] std::size_t size() const { return stored_.size(); }

private:
  std::unordered_map<const Mesh*, StoredMesh> stored_;
};

} // namespace lugline
