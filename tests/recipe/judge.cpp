#include "tests/recipe/judge.h"

#include "scene/mesh/closed.h"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Rigid_triangle_mesh_collision_detection.h>
#include <CGAL/Surface_mesh.h>

#include <array>
#include <deque>
#include <stdexcept>
#include <vector>

namespace lugline::test {

namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Surface = CGAL::Surface_mesh<Kernel::Point_3>;

Surface surface_of(const Mesh& mesh) {
  const WeldedMesh welded = weld(mesh);
  Surface surface;
  std::vector<Surface::Vertex_index> vertices;
  for (const Vec3& p : welded.positions_m) {
    vertices.push_back(surface.add_vertex({p.x, p.y, p.z}));
  }
  for (const auto& t : welded.triangles) {
    if (surface.add_face(vertices[t[0]], vertices[t[1]], vertices[t[2]]) == Surface::null_face()) {
      throw std::invalid_argument("the judge's mesh is not manifold");
    }
  }
  if (surface.is_empty() || !CGAL::is_closed(surface)) {
    throw std::invalid_argument("the judge's mesh is not closed");
  }
  return surface;
}

} // namespace

struct Judge::Solids {
  std::deque<Surface> surfaces; // the detector points into them: they must not move
  CGAL::Rigid_triangle_mesh_collision_detection<Surface> detector;
};

Judge::Judge() : solids_(std::make_unique<Solids>()) {}
Judge::~Judge() = default;

std::size_t Judge::add(const Mesh& mesh) {
  solids_->surfaces.push_back(surface_of(mesh));
  return solids_->detector.add_mesh(solids_->surfaces.back());
}

void Judge::stand(std::size_t solid, const Placement& placement) {
  const Vec3& x = placement.x_axis;
  const Vec3& y = placement.y_axis;
  const Vec3& z = placement.z_axis;
  const Vec3& o = placement.origin_m;
  solids_->detector.set_transformation(
      solid,
      Kernel::Aff_transformation_3(x.x, y.x, z.x, o.x, x.y, y.y, z.y, o.y, x.z, y.z, z.z, o.z));
}

bool Judge::interfere(std::size_t a, std::size_t b) const {
  return !solids_->detector.get_all_intersections_and_inclusions(a, std::array{b}).empty();
}

bool Judge::surfaces_meet(std::size_t a, std::size_t b) const {
  return !solids_->detector.get_all_intersections(a, std::array{b}).empty();
}

} // namespace lugline::test
