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

#include <memory>
#include <unordered_map>

namespace lugline {

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
